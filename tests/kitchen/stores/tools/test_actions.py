"""Equipment is counted out and in, lent, written off, corrected and moved; nothing falls below none."""

from datetime import time
from uuid import uuid4

import pytest
from django.db import IntegrityError, transaction

from curriculum.errors import RuleBroken
from curriculum.people.models import College
from curriculum.recipes.models import Version
from kitchen.lessons.models import Lesson
from kitchen.rooms.models import Equipment, Room
from kitchen.stores.models import Requisition
from kitchen.stores.requisitions.actions import approve_requisition, submit_requisition
from kitchen.stores.tools import queries
from kitchen.stores.tools.actions import (
    Count,
    add_thing,
    correct_count,
    count_in,
    count_out,
    keep_wash_minutes,
    move_things,
    write_off,
)
from kitchen.stores.tools.ledgers import Change, things_locked, write
from kitchen.stores.tools.models import EquipmentLine, EquipmentMove
from kitchen.website.ledger_checks import faults
from tests.builders.cast import build_cast

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    """Each bench takes three flan tins and a knife; the room has two tins, the larder four."""
    cast = build_cast()
    listed = [{"item": "flan_tin", "count": 3}, {"item": "chef_knife", "count": 1}]
    Version.objects.update(equipment=listed)
    Room.objects.create(code="larder", name="Larder", purpose="stores")
    return cast


def have(room, item, count):
    return Equipment.objects.create(room=room, item=item, at_first=count, count=count)


@pytest.fixture
def knives(cast):
    return have(cast.room, "chef_knife", 8)


@pytest.fixture
def tins(cast):
    return have(cast.room, "flan_tin", 2)


@pytest.fixture
def larder(cast):
    return have(Room.objects.get(code="larder"), "flan_tin", 4)


def out(cast, thing, count, place=0, seen=None, key=None):
    seen = queries.moves_seen(cast.lesson) if seen is None else seen
    return count_out(
        lesson=cast.lesson, counts=[Count(thing.pk, count, place)], seen=seen, by=cast.lecturer, key=key
    )


def back(cast, thing, count, place=0, seen=None):
    seen = queries.moves_seen(cast.lesson) if seen is None else seen
    return count_in(lesson=cast.lesson, counts=[Count(thing.pk, count, place)], seen=seen, by=cast.technician)


def refused(action, *args, **more):
    with pytest.raises(RuleBroken) as error:
        action(*args, **more)
    return error.value


def there(thing):
    thing.refresh_from_db()
    return thing.count, thing.out, thing.moves


def test_knives_go_out_and_come_in_and_what_is_not_back_is_named_with_its_bench(cast, knives):
    out(cast, knives, 6)
    out(cast, knives, 2, cast.place.pk)
    back(cast, knives, 6)
    back(cast, knives, 1, cast.place.pk)
    counts = queries.counts(cast.lesson)
    assert counts.knives == "Knives and peelers: 8 out, 7 in."
    (line,) = counts.open
    assert line.open_words == (
        "1 chef knife of Quince Kitchen is not back. Bench 1 had 2: Learner N100 and Learner N101."
    )
    assert there(knives) == (8, 1, 4) and faults() == []


def test_more_than_lie_there_cannot_go_out(cast, knives):
    out(cast, knives, 7)
    error = refused(out, cast, knives, 2)
    assert error.code == "not_so_many" and error.facts["field"] == f"n_{knives.pk}"
    assert error.message.startswith(
        "Quince Kitchen has 8 chef knives in the book, 7 of them out with lessons; 2"
    )
    assert there(knives) == (8, 7, 1)


def test_more_than_a_bench_has_out_cannot_come_in(cast, knives):
    out(cast, knives, 6)
    out(cast, knives, 1, cast.place.pk)
    error = refused(back, cast, knives, 2, cast.place.pk)
    assert error.code == "more_than_out"
    assert error.facts["at_fields"] == (
        (f"n_{knives.pk}_{cast.place.pk}", "1 chef knife is still out, and 2 were written."),
    )
    assert there(knives) == (8, 7, 2)


def test_the_second_of_two_tablets_is_told_that_somebody_counted(cast, knives):
    seen = queries.moves_seen(cast.lesson)
    out(cast, knives, 4, seen=seen)
    error = refused(out, cast, knives, 4, seen=seen)
    assert error.code == "counted_meanwhile" and error.facts["at_fields"][0][0] == f"n_{knives.pk}"
    seen = queries.moves_seen(cast.lesson)
    back(cast, knives, 4, seen=seen)
    assert refused(back, cast, knives, 4, seen=seen).code == "counted_meanwhile"
    assert there(knives) == (8, 0, 2)


def test_a_tablet_that_counts_something_else_is_not_disturbed(cast, knives, tins):
    out(cast, knives, 4, seen={})
    out(cast, tins, 2, seen={})
    assert (there(knives)[1], there(tins)[1]) == (4, 2)


def test_the_same_form_sent_twice_counts_once_although_the_page_was_counted_meanwhile(cast, knives):
    key = uuid4()
    assert out(cast, knives, 4, seen={}, key=key) == out(cast, knives, 4, seen={}, key=key) == 4
    assert there(knives) == (8, 4, 1)


def test_nothing_goes_out_for_a_cancelled_lesson_and_what_is_out_comes_in(cast, knives):
    out(cast, knives, 4)
    Lesson.objects.update(state="cancelled")
    assert refused(out, cast, knives, 1).code == "lesson_cancelled"
    assert back(cast, knives, 4) == 4


def test_what_is_gone_is_written_off_with_its_reason_and_leaves_the_book(cast, knives):
    out(cast, knives, 4, cast.place.pk)
    said = {"lesson": cast.lesson, "thing": knives.pk, "place": cast.place.pk, "by": cast.stores}
    assert write_off(count=1, reason="Broken", **said) == 3
    assert there(knives) == (7, 3, 2)
    assert EquipmentMove.objects.get(kind="lost").reason == "Broken"
    error = refused(write_off, count=4, reason="Broken", **said)
    assert (error.code, error.facts["at_fields"][0][0]) == ("more_than_out", "count")
    assert faults() == []


def test_a_count_is_corrected_with_a_reason_unless_somebody_changed_it_meanwhile(cast, knives):
    said = {"thing": knives, "reason": "Bought", "by": cast.stores}
    assert correct_count(count=10, moves_seen=0, **said) == 2
    assert refused(correct_count, count=9, moves_seen=0, **said).code == "counted_meanwhile"
    assert refused(correct_count, count=10, moves_seen=1, **said).code == "nothing_to_correct"
    out(cast, knives, 5)
    error = refused(correct_count, count=4, moves_seen=2, **said)
    assert error.code == "fewer_than_out" and "5 chef knives of Quince Kitchen are out" in error.message
    assert there(knives) == (10, 5, 2) and faults() == []


def test_things_move_between_places_and_none_is_lost_or_made(cast, tins, larder):
    said = {"thing": larder, "to": cast.room, "reason": "Gathered", "by": cast.stores}
    assert move_things(count=3, **said) == tins
    assert (there(larder)[0], there(tins)[0]) == (1, 5)
    error = refused(move_things, count=2, **said)
    assert (error.code, error.facts["field"]) == ("not_so_many", "count")
    assert refused(move_things, count=1, **(said | {"to": larder.room})).code == "same_place"
    assert faults() == []


def test_a_thing_moved_to_a_place_that_never_had_one_begins_its_book_there(cast, knives):
    there_now = move_things(
        thing=knives, to=Room.objects.get(code="larder"), count=2, reason="Gathered", by=cast.stores
    )
    assert (there_now.at_first, there_now.count, there(knives)[0]) == (0, 2, 6)
    assert faults() == []


def test_a_thing_that_the_book_lacks_is_added_once(cast):
    said = {"room": cast.room, "item": "oyster_knife", "reason": "Bought", "by": cast.stores}
    assert add_thing(count=3, **said).count == 3
    assert refused(add_thing, count=3, **said).facts["field"] == "item"
    assert faults() == []


def test_minutes_for_washing_are_the_colleges_own(cast):
    assert queries.wash_minutes(cast.college) == 30
    assert keep_wash_minutes(minutes=45, by=cast.stores) == 45
    assert queries.wash_minutes(College.objects.get()) == 45


def test_a_requisition_asks_for_what_the_room_lacks_and_says_what_stays_short(cast, knives, tins, larder):
    row = submit_requisition(lesson=cast.lesson, by=cast.lecturer)
    Equipment.objects.filter(pk=larder.pk).update(count=0)
    lines = [
        (line.item, line.from_room and line.from_room.name, line.count) for line in queries.lines_of(row)
    ]
    assert lines == [("flan_tin", "Larder", 1)]
    assert "Short of 1 flan tin: 3 needed, 2 here." in queries.lines_of(row)[0].words
    error = refused(approve_requisition, requisition=row, by=cast.stores)
    assert error.code == "lent_meanwhile"
    assert error.message.startswith("1 flan tin were to come from Larder, and 0 are free")
    row = submit_requisition(lesson=cast.lesson, by=cast.lecturer)
    assert [(line.from_room, line.count) for line in queries.lines_of(row)] == [(None, 1)]


def tins_of(lesson):
    lesson.refresh_from_db()
    found = next(each for each in queries.shortages_of(lesson) if each.item == "flan_tin")
    return found.here, found.missing


def test_an_approved_loan_is_there_for_its_lesson_and_for_nobody_else(cast, knives, tins, larder):
    Equipment.objects.filter(pk=larder.pk).update(count=1, at_first=1)
    row = submit_requisition(lesson=cast.lesson, by=cast.lecturer)
    approve_requisition(requisition=row, by=cast.stores)
    assert queries.shortages_of(cast.lesson) == ()
    Lesson.objects.filter(pk=cast.other_lesson.pk).update(
        on=cast.lesson.on, starts=time(13), room=larder.room
    )
    assert tins_of(cast.other_lesson) == (1, 2)
    Lesson.objects.filter(pk=cast.other_lesson.pk).update(starts=time(12, 20))
    assert tins_of(cast.other_lesson) == (0, 3)


def test_a_requisition_that_is_superseded_lends_nothing_any_more(cast, knives, tins, larder):
    approve_requisition(requisition=submit_requisition(lesson=cast.lesson, by=cast.lecturer), by=cast.stores)
    Equipment.objects.filter(pk=tins.pk).update(count=3, at_first=3)
    again = submit_requisition(lesson=cast.lesson, by=cast.lecturer)
    assert queries.lines_of(again) == []
    approve_requisition(requisition=again, by=cast.stores)
    assert queries.lesson_day(cast.lesson).lent == ()
    assert Requisition.objects.filter(state="approved").get() == again


def test_what_is_not_back_after_a_lesson_is_not_there_for_the_next(cast, knives):
    Equipment.objects.filter(pk=knives.pk).update(count=1, at_first=1)
    out(cast, knives, 1)
    Lesson.objects.filter(pk=cast.lesson.pk).update(on="2027-02-18")
    found = {each.item: each for each in queries.lesson_day(cast.other_lesson).standing()}
    assert found["chef_knife"].here == 1
    Lesson.objects.filter(pk=cast.lesson.pk).update(on="2027-02-15")
    found = {each.item: each for each in queries.lesson_day(cast.other_lesson).standing()}
    assert found["chef_knife"].here == 0


def test_the_ledger_refuses_a_change_and_a_thing_of_which_more_are_out_than_there_are(cast, knives):
    out(cast, knives, 4)
    row = EquipmentMove.objects.get()
    with pytest.raises(IntegrityError), transaction.atomic():
        EquipmentMove.objects.filter(pk=row.pk).update(reason="x")
    with pytest.raises(IntegrityError), transaction.atomic():
        EquipmentMove.objects.filter(pk=row.pk).delete()
    with pytest.raises(TypeError):
        row.delete()
    with pytest.raises(IntegrityError), transaction.atomic():
        Equipment.objects.filter(pk=knives.pk).update(out=9)


def test_equipment_is_written_inside_a_transaction_only_and_a_change_changes_something(cast, knives):
    with pytest.raises(ValueError, match="changes something"):
        Change(knives.pk, "out", uuid4())
    change = Change(knives.pk, "correct", uuid4(), -9)
    with transaction.atomic():
        error = refused(write, things=things_locked([knives.pk]), changes=[change], by=cast.stores)
    assert error.code == "not_so_many" and there(knives) == (8, 0, 0)


def test_lines_go_with_a_requisition_that_is_removed(cast, knives, tins, larder):
    row = submit_requisition(lesson=cast.lesson, by=cast.lecturer)
    assert EquipmentLine.objects.count() == 1
    row.delete()
    assert not EquipmentLine.objects.exists()


def changed_by_hand(cast, thing, number, **figures):
    said = {"kind": "out", "lesson": cast.lesson, "key": uuid4(), "by": cast.stores, "count_after": 8}
    EquipmentMove.objects.create(equipment=thing, number=number, **(said | figures))


def test_the_check_of_the_ledger_names_a_wrong_sum_a_wrong_copy_and_more_back_than_out(cast, knives):
    changed_by_hand(cast, knives, 1, out_change=3, out_after=3)
    assert faults() == [f"Thing key {knives.pk} says 8, 0 of them out; the ledger differs."]
    Equipment.objects.filter(pk=knives.pk).update(out=3, moves=1)
    assert faults() == []
    changed_by_hand(cast, knives, 2, out_change=1, out_after=5)
    Equipment.objects.filter(pk=knives.pk).update(out=4, moves=2)
    assert faults() == [f"Change 2 of thing key {knives.pk} does not follow from the one before."]


def test_the_check_of_the_ledger_names_a_bench_that_gave_back_more_than_it_had(cast, knives):
    changed_by_hand(cast, knives, 1, out_change=3, out_after=3)
    changed_by_hand(cast, knives, 2, kind="back", out_change=-1, out_after=2, place=cast.place)
    Equipment.objects.filter(pk=knives.pk).update(out=2, moves=2)
    assert faults() == [
        f"More of thing key {knives.pk} came back from lesson key {cast.lesson.pk} than went out."
    ]
