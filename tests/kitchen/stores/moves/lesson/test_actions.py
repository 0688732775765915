"""More for a bench during the lesson, and what comes back after it: lots, labels, reasons, nothing twice."""

from datetime import timedelta
from uuid import uuid4

import pytest
from django.db.models import Sum

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.people.queries import the_college, today_at
from kitchen.lessons.models import Lesson
from kitchen.stores.deliveries.models import AcceptedFor
from kitchen.stores.lots.actions import hold_lot
from kitchen.stores.models import Kit, KitLine, Lot, MadePart, Movement, Weighing
from kitchen.stores.moves.actions import correct_movement
from kitchen.stores.moves.lesson.actions import give_more, take_back_from_lesson
from kitchen.stores.moves.lesson.back import REWORK, CameBack
from kitchen.stores.moves.lesson.queries import given_rows, lesson_page, lots_out, outs_of
from kitchen.stores.queries import kits_page, lot_data, open_lines, trays_of, with_labels
from kitchen.stores.weighout.models import WeighedFrom
from kitchen.website.ledger_checks import faults, made_lots_say_what_went_in, stock_adds_up
from tests.builders.lessons_left import LeftStage, given_to, left_stage
from tests.builders.stores import QUICHE_DAY, college_lots, kits_made, quiche_stage

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("book")]


@pytest.fixture
def stage():
    """Two benches make quiches, one of them without gluten; their kits have left."""
    return left_stage()


def given(stage, *, key=None, number=1, **changes):
    return give_more(key=key, **given_to(stage, number, **changes))


def refused(stage, **changes):
    kits, moves = Kit.objects.count(), Movement.objects.count()
    with pytest.raises(RuleBroken) as error:
        given(stage, **changes)
    assert (Kit.objects.count(), Movement.objects.count()) == (kits, moves)
    return error.value


def test_more_is_a_kit_of_its_own_at_the_bench_with_its_lots_and_its_reason(stage):
    key = uuid4()
    kit = given(stage, key=key)
    assert given(stage, key=key) == kit
    assert (kit.kind, kit.place) == ("supplementary", stage.place(1))
    line = kit.lines.get()
    moves = Movement.objects.filter(kind="supplementary")
    assert [row.kit_line for row in moves] == [line] * len(moves)
    assert sum(row.milligrams for row in moves) == -100_000 == -line.milligrams
    assert {row.reason for row in moves} == {"Dropped"} and line.allergens_words == "milk"


def test_it_stands_on_the_kits_page_weighed_and_asks_for_nothing_more(stage):
    before = kits_page(stage.lesson)
    kit = given(stage)
    page = kits_page(stage.lesson)
    tray = next(each for each in trays_of(kit.kit_set) if each.code == kit.code)
    assert (tray.label, tray.lines_weighed, tray.issued, tray.short) == ("+", 1, True, False)
    assert "one given later" in page.summary and page.needs == before.needs
    assert not [line for line in open_lines(kit.kit_set) if line.kit_id == kit.pk]
    (row,) = given_rows(stage.lesson)
    assert (row.where, row.amount, row.why) == ("Bench 1", "100 g", "Dropped")


def test_the_demonstration_gets_more_without_a_bench_and_eggs_by_the_piece(stage):
    egg = Food.objects.get(code="egg_in_shell")
    kit = given(stage, number=0, food="egg_in_shell", milligrams=2 * egg.piece_milligrams)
    assert (kit.place, kit.lines.get().pieces) == (None, 2)
    assert given_rows(stage.lesson)[0].amount == "2 pieces"


def test_two_supplements_of_one_bench_are_two_kits(stage):
    assert given(stage).part != given(stage).part


def test_a_free_from_bench_gets_nothing_that_its_kit_leaves_out(stage):
    error = refused(stage, number=2, food="soft_wheat_flour")
    assert (error.code, error.facts["field"]) == ("not_free_from", "food")
    assert "Bench 2 works free from" in error.message and "wheat" in error.message


def test_an_unread_label_and_a_held_lot_stop_it(stage):
    Food.objects.filter(code="unsalted_butter").update(label_read_on=None)
    assert refused(stage).code == "label_not_read"
    Food.objects.filter(code="unsalted_butter").update(label_read_on=stage.lesson.on)
    for lot in Lot.objects.filter(food__code="unsalted_butter"):
        hold_lot(lot=lot, why="Smells.", by=stage.stores)
    error = refused(stage)
    assert (error.code, error.facts["field"]) == ("short", "amount")
    assert "Lot MORE-1 is held." in error.message


def test_what_stands_weighed_on_other_trays_is_given_to_nobody_else(stage):
    lots = Lot.objects.filter(food__code=given_to(stage, 1)["food"].code)
    there = sum(lot.on_hand_milligrams for lot in lots)
    line = KitLine.objects.filter(food__code=given_to(stage, 1)["food"].code, stock_milligrams__gt=0).first()
    waiting = Kit.objects.create(
        kit_set=line.kit.kit_set, code="ONTRAY12", kind="spare", position=90, version=line.kit.version
    )
    line.pk, line.kit = None, waiting
    line.save()
    row = Weighing.objects.create(kit_line=line, number=1, milligrams=1, key=uuid4(), by=stage.stores)
    for lot in lots:
        WeighedFrom.objects.create(weighing=row, lot=lot, milligrams=lot.on_hand_milligrams)
    error = refused(stage)
    assert error.code == "short" and "stand weighed on other trays" in error.message and there


def test_more_than_the_lots_hold_is_refused_whole(stage):
    assert refused(stage, milligrams=10**9).code == "short"


def test_nothing_more_is_given_before_the_kits_have_left():
    stage = quiche_stage(benches=("R01", "V1"))
    made = LeftStage(stage.lesson, stage.stores, stage.lecturer, stage.versions)
    college_lots()
    assert refused(made).code == "no_kits"
    kits_made(made)
    assert refused(made).code == "not_issued"


def out_of(stage, food):
    """The first lot of a food with how much of it is out."""
    return next((lot, out) for lot, out in lots_out(stage.lesson) if lot.food.code == food)


def came_back(stage, *rows, cold=True, until=None, key=None):
    said = {"lesson": stage.lesson, "rows": rows, "sealed_and_cold": cold, "rework_until": until}
    return take_back_from_lesson(**said, by=stage.stores, key=key)


def not_back(stage, *rows, **more):
    before = Movement.objects.count()
    with pytest.raises(RuleBroken) as error:
        came_back(stage, *rows, **more)
    assert Movement.objects.count() == before
    return error.value


def in_a_month():
    return today_at(the_college()) + timedelta(30)


def test_sealed_food_goes_back_to_its_lot_once_and_the_kit_lines_know_it(stage):
    lot, out = out_of(stage, "unsalted_butter")
    there, key = lot.on_hand_milligrams, uuid4()
    assert came_back(stage, CameBack(lot.pk, out), key=key) == came_back(
        stage, CameBack(lot.pk, out), key=key
    )
    lot.refresh_from_db()
    assert lot.on_hand_milligrams == there + out
    assert not [each for each in outs_of(stage.lesson) if each.lot == lot.pk]
    assert not_back(stage, CameBack(lot.pk, 1)).code == "more_than_issued"


def test_opened_food_is_thrown_away_and_its_lot_holds_no_more_than_before(stage):
    lot, out = out_of(stage, "unsalted_butter")
    there = lot.on_hand_milligrams
    came_back(stage, CameBack(lot.pk, 0, 50_000, "Over-made"), cold=False)
    lot.refresh_from_db()
    assert lot.on_hand_milligrams == there
    waste = Movement.objects.filter(kind="waste", lot=lot)
    assert sum(row.milligrams for row in waste) == -50_000
    assert all(row.reason == "Over-made" and row.kit_line for row in waste)
    assert out_of(stage, "unsalted_butter")[1] == out - 50_000


def test_opened_dry_food_becomes_a_lot_of_its_own_that_names_its_lot_and_its_day(stage):
    lot, out = out_of(stage, "soft_wheat_flour")
    there = lot.on_hand_milligrams
    came_back(stage, CameBack(lot.pk, 0, out, REWORK), cold=False, until=in_a_month())
    made = Lot.objects.get(note__startswith="Re-work")
    lot.refresh_from_db()
    assert (made.food, made.on_hand_milligrams, lot.on_hand_milligrams) == (lot.food, out, there)
    assert (made.date_kind, made.date) == ("use_by", in_a_month())
    assert "wheat" in made.label_allergens and made.opened_on is not None
    assert MadePart.objects.get(made=made).movement.lot == lot
    assert {row.kind for row in made.movements.all()} == {"rework"}
    assert not [*made_lots_say_what_went_in(), *stock_adds_up()]


@pytest.mark.parametrize(
    ("food", "row", "more", "code", "field"),
    [
        ("unsalted_butter", {"sealed_milligrams": 1}, {"cold": False}, "opened", "sealed_and_cold"),
        ("unsalted_butter", {"opened_milligrams": 1, "opened_to": REWORK}, {}, "no_rework", None),
        (
            "soft_wheat_flour",
            {"opened_milligrams": 1, "opened_to": REWORK},
            {},
            "rework_until",
            "rework_until",
        ),
        ("soft_wheat_flour", {"sealed_milligrams": 10**9}, {}, "more_than_issued", None),
    ],
)
def test_what_cannot_come_back_so_is_refused_at_its_field(stage, food, row, more, code, field):
    lot, _ = out_of(stage, food)
    error = not_back(stage, CameBack(lot.pk, **row), **more)
    assert (error.code, error.facts.get("field")) == (code, field)
    assert field or str(lot.pk) in error.facts["at_fields"][0][0]


def test_re_work_that_was_to_be_gone_yesterday_is_refused(stage):
    lot, _ = out_of(stage, "soft_wheat_flour")
    yesterday = today_at(the_college()) - timedelta(1)
    assert not_back(stage, CameBack(lot.pk, 0, 1, REWORK), until=yesterday).code == "rework_until"


def test_a_lesson_that_was_cancelled_after_the_issue_gives_everything_back(stage):
    Lesson.objects.filter(pk=stage.lesson.pk).update(state=Lesson.State.CANCELLED)
    came_back(stage, *(CameBack(lot.pk, out) for lot, out in lots_out(stage.lesson)))
    assert outs_of(stage.lesson) == [] and not list(stock_adds_up())


def test_a_correction_of_an_issue_changes_what_may_come_back(stage):
    give_more(**given_to(stage, 1))
    row = Movement.objects.get(kind="supplementary")
    before = dict((lot.pk, out) for lot, out in lots_out(stage.lesson))[row.lot_id]
    correct_movement(movement=row, should_be_milligrams=40_000, reason="Misread", by=stage.stores)
    after = dict((lot.pk, out) for lot, out in lots_out(stage.lesson))[row.lot_id]
    assert before - after == 60_000


def test_a_correction_after_which_more_had_come_back_than_left_is_refused_until_the_other_is_corrected(stage):
    lot, out = out_of(stage, "unsalted_butter")
    came_back(stage, CameBack(lot.pk, out))
    issue = Movement.objects.filter(lot=lot, kind="issue").exclude(kit_line=None).first()
    back = Movement.objects.get(kind="return", kit_line=issue.kit_line)
    said = {"reason": "Misread", "by": stage.stores}
    for row, should_be in ((issue, 1000), (back, back.milligrams + 1000)):
        with pytest.raises(RuleBroken) as refused:
            correct_movement(movement=row, should_be_milligrams=should_be, **said)
        assert (refused.value.code, refused.value.facts["field"]) == ("more_than_issued", "amount")
    correct_movement(movement=back, should_be_milligrams=0, **said)
    correct_movement(movement=issue, should_be_milligrams=1000, **said)
    assert faults() == []


def test_re_work_of_a_held_lot_is_held_for_the_same_reason(stage):
    lot, out = out_of(stage, "soft_wheat_flour")
    hold_lot(lot=lot, why="Weevils", by=stage.stores)
    came_back(stage, CameBack(lot.pk, 0, out, REWORK), cold=False, until=in_a_month())
    made = Lot.objects.get(note__startswith="Re-work")
    assert made.held and made.held_why.startswith("Weevils")


def test_re_work_of_a_substitute_goes_where_the_substitute_was_accepted_and_was_open_as_long(stage):
    lot = out_of(stage, "soft_wheat_flour")[0].pk
    opened = QUICHE_DAY - timedelta(9)
    Lot.objects.filter(pk=lot).update(restricted=True, opened_on=opened)
    AcceptedFor.objects.create(lot_id=lot, lesson=stage.lesson, by=stage.stores)
    came_back(stage, CameBack(lot, 0, 100_000, REWORK), until=in_a_month())
    made = Lot.objects.get(note__startswith="Re-work")
    assert (made.restricted, made.opened_on) == (True, opened)
    data = lot_data(with_labels(Lot.objects.filter(pk=made.pk)).get())
    assert data.only_for == (stage.lesson.code,)


def test_the_page_says_issued_used_and_returned_and_the_cost_before_and_after(stage):
    before = lesson_page(stage.lesson)
    give_more(**given_to(stage, 1))
    lot, _ = out_of(stage, "unsalted_butter")
    came_back(stage, CameBack(lot.pk, 30_000, 20_000, "Dropped"))
    page = lesson_page(stage.lesson)
    row = next(each for each in page.rows if "utter" in each.food)
    assert (row.more, row.returned, row.opened) == ("100 g", "30 g", "20 g thrown away")
    assert page.planned == before.planned and page.learners == 4 and page.portions == 16
    assert before.after.pence <= before.planned.pence
    assert page.after.pence > before.after.pence and page.wasted.pence > 0
    assert page.after.a_portion is not None and page.given[0].why == "Dropped"


def test_the_sum_of_every_lot_is_what_it_holds_after_all_of_it(stage):
    lot, out = out_of(stage, "soft_wheat_flour")
    came_back(stage, CameBack(lot.pk, 1000, out - 1000, REWORK), until=in_a_month())
    for each in Lot.objects.all():
        assert each.movements.aggregate(sum=Sum("milligrams"))["sum"] == each.on_hand_milligrams


def test_a_kit_that_takes_from_a_re_work_lot_names_the_lots_inside_it(stage):
    lot, out = out_of(stage, "soft_wheat_flour")
    came_back(stage, CameBack(lot.pk, 0, out, REWORK), until=in_a_month())
    Lot.objects.exclude(note__startswith="Re-work").update(held=True)
    kit = given_line(stage)
    tray = next(each for each in trays_of(kit.kit_set) if each.code == kit.code)
    assert lot.code in tray.lines[0].inside


def given_line(stage):
    """Flour for a bench, out of whatever lot is free."""
    today = today_at(the_college())
    Lot.objects.filter(note__startswith="Re-work").update(
        received_on=stage.lesson.on, date=max(today, QUICHE_DAY)
    )
    return given(stage, food="soft_wheat_flour", milligrams=10_000)


@pytest.mark.parametrize("where", ["kitchen.stores.moves.lesson.actions.MadePart.objects", "ledger"])
def test_killed_in_the_middle_nothing_is_lost_and_the_same_button_does_it_afterwards(
    stage, monkeypatch, where
):
    lot, out = out_of(stage, "soft_wheat_flour")
    key, before = uuid4(), (Movement.objects.count(), Lot.objects.count())

    def killed(*args, **more):
        raise KeyboardInterrupt

    with monkeypatch.context() as patched:
        target = "kitchen.stores.ledgers._keep_end" if where == "ledger" else f"{where}.create"
        patched.setattr(target, killed)
        with pytest.raises(KeyboardInterrupt):
            came_back(stage, CameBack(lot.pk, 0, out, REWORK), until=in_a_month(), key=key)
    assert (Movement.objects.count(), Lot.objects.count()) == before
    assert came_back(stage, CameBack(lot.pk, 0, out, REWORK), until=in_a_month(), key=key) == 1
    assert Lot.objects.count() == before[1] + 1 and not list(stock_adds_up())


def test_the_part_of_the_demonstration_is_said_before_and_after(stage):
    page = lesson_page(stage.lesson)
    assert 0 < page.shown.pence < page.planned.pence and page.shown.a_learner is not None
    assert 0 < page.shown_after.pence < page.after.pence and not page.reckoned
    give_more(**given_to(stage, 1))
    assert lesson_page(stage.lesson).shown_after == page.shown_after
    give_more(**given_to(stage, 0))
    assert lesson_page(stage.lesson).shown_after.pence > page.shown_after.pence


def test_before_kits_are_made_the_cost_is_reckoned_as_they_would_be():
    stage = quiche_stage(benches=("R01", "R01"))
    before = lesson_page(stage.lesson)
    assert before.reckoned and before.after.pence == 0 and before.planned.a_portion is not None
    college_lots()
    kits_made(stage)
    made = lesson_page(stage.lesson)
    assert not made.reckoned and (made.planned, made.shown) == (before.planned, before.shown)
