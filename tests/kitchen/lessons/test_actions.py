"""Lessons are booked, changed, placed and registered, or refused in words with nothing changed."""

import uuid
from dataclasses import replace
from datetime import date, datetime, time
from zoneinfo import ZoneInfo

import pytest

from curriculum.courses.models import Holiday
from curriculum.errors import RuleBroken
from curriculum.people.models import KeptApart
from kitchen.lessons import actions
from kitchen.lessons.models import Attendance, Lesson, Place, PlaceLearner
from kitchen.lessons.places import Placed
from kitchen.lessons.queries import order_of
from kitchen.rooms.models import Closure
from tests.builders.cast import build_cast
from tests.builders.lessons import a_room, a_variant, an_order, avoids

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def test_a_lesson_is_booked_with_its_dish_and_one_shift(cast):
    lesson = actions.book_lesson(order=an_order(cast), by=cast.lecturer, key=uuid.uuid4())
    assert lesson.title == "Shortbread"
    assert lesson.usable_minutes == 135
    assert lesson.shifts.get().minutes == 180
    assert lesson.dishes.get().portions_a_bench == 8


def test_a_form_sent_twice_books_one_lesson(cast):
    key, before = uuid.uuid4(), Lesson.objects.count()
    first = actions.book_lesson(order=an_order(cast), by=cast.lecturer, key=key)
    second = actions.book_lesson(order=an_order(cast), by=cast.lecturer, key=key)
    assert first == second
    assert Lesson.objects.count() == before + 1


def test_a_number_used_for_another_lesson_is_refused(cast):
    key = uuid.uuid4()
    actions.book_lesson(order=an_order(cast), by=cast.lecturer, key=key)
    with pytest.raises(RuleBroken, match="already sent"):
        actions.book_lesson(order=an_order(cast, starts=time(14)), by=cast.lecturer, key=key)


def test_room_lecturer_and_group_clash_in_words_and_nothing_is_booked(cast):
    before = Lesson.objects.count()
    with pytest.raises(RuleBroken) as refused:
        actions.book_lesson(order=an_order(cast, on=cast.lesson.on, cover=cast.cover.pk), by=cast.lecturer)
    fields = dict(refused.value.facts["at_fields"])
    assert set(fields) == {"room", "lecturer", "group"}
    assert fields["lecturer"].startswith("Corin Maplethorpe teaches BK1, Shortbread, 09:00 to 12:00")
    assert Lesson.objects.count() == before


def test_whoever_is_covered_is_free(cast):
    order = an_order(cast, on=cast.lesson.on, room=a_room().pk, group=cast.other_group.pk)
    assert actions.book_lesson(order=order, by=cast.lecturer).lecturer == cast.lecturer


def test_a_cancelled_lesson_leaves_its_slot_free(cast):
    actions.cancel_lesson(lesson=cast.lesson, why="No gas.", by=cast.lecturer)
    assert actions.book_lesson(order=an_order(cast, on=cast.lesson.on), by=cast.lecturer)


def test_a_closed_college_and_a_closed_room_are_named(cast):
    Holiday.objects.create(on=date(2027, 2, 23), words="Staff day")
    zone = ZoneInfo("Europe/London")
    Closure.objects.create(
        room=cast.room,
        from_at=datetime(2027, 2, 23, 11, tzinfo=zone),
        until_at=datetime(2027, 2, 24, 9, tzinfo=zone),
        why="New extraction",
    )
    with pytest.raises(RuleBroken) as refused:
        actions.book_lesson(order=an_order(cast), by=cast.lecturer)
    assert dict(refused.value.facts["at_fields"]) == {
        "on": "The college is closed that day (Staff day). Choose another day.",
        "room": "Quince Kitchen is closed then: New extraction. Choose another room or time.",
    }


def test_a_room_that_closes_later_that_day_can_be_booked(cast):
    zone = ZoneInfo("Europe/London")
    Closure.objects.create(room=cast.room, from_at=datetime(2027, 2, 23, 12, tzinfo=zone), why="Cleaning")
    assert actions.book_lesson(order=an_order(cast), by=cast.lecturer)


def test_a_draft_is_not_taught(cast):
    cast.recipe_version.state = "draft"
    type(cast.recipe_version).objects.filter(pk=cast.recipe_version.pk).update(state="draft")
    with pytest.raises(RuleBroken, match="not approved to teach"):
        actions.book_lesson(order=an_order(cast), by=cast.lecturer)


def test_a_lesson_moves_within_its_own_slot(cast):
    order = order_of(cast.lesson)
    changed = actions.change_lesson(
        lesson=cast.lesson, order=type(order)(**{**_facts(order), "starts": time(9, 30)}), by=cast.lecturer
    )
    assert (changed.starts, changed.sequence) == (time(9, 30), 1)
    assert changed.shifts.get().starts == time(9, 30)
    assert Place.objects.filter(shift__lesson=changed).exists()


def test_a_lesson_with_a_name_of_its_own_keeps_it_when_its_times_change(cast):
    Lesson.objects.filter(pk=cast.lesson.pk).update(title="Sitting one")
    order = replace(order_of(cast.lesson), title="", starts=time(9, 30))
    assert actions.change_lesson(lesson=cast.lesson, order=order, by=cast.lecturer).title == "Sitting one"


def test_another_room_clears_the_benches(cast):
    order = order_of(cast.lesson)
    changed = actions.change_lesson(
        lesson=cast.lesson, order=type(order)(**{**_facts(order), "room": a_room().pk}), by=cast.lecturer
    )
    assert not Place.objects.filter(shift__lesson=changed).exists()


def _facts(order):
    return {name: getattr(order, name) for name in order.__dataclass_fields__}


def test_a_lesson_that_was_run_stays_as_it_was(cast):
    actions.take_attendance(lesson=cast.lesson, student=cast.learner, state="present", by=cast.lecturer)
    with pytest.raises(RuleBroken, match="has been run"):
        actions.change_lesson(lesson=cast.lesson, order=order_of(cast.lesson), by=cast.lecturer)
    with pytest.raises(RuleBroken, match="has been run"):
        actions.place_learners(lesson=cast.lesson, places=[], by=cast.lecturer)


def placed(cast, *places):
    return actions.place_learners(lesson=cast.lesson, places=places, by=cast.lecturer)


def test_a_bench_that_keeps_its_number_keeps_its_code(cast):
    before = cast.place.code
    kept, new = placed(
        cast,
        Placed(1, "shortbread", (cast.learner.pk,)),
        Placed(2, "shortbread", (cast.partner.pk,)),
    )
    assert (kept.code, kept.bench.number) == (before, 1)
    assert new.bench.number == 2
    assert PlaceLearner.objects.filter(shift__lesson=cast.lesson).count() == 2


def test_a_variant_is_worked_by_the_whole_bench(cast):
    variant = a_variant(cast)
    avoids(cast, cast.learner, kind="milk")
    (place,) = placed(cast, Placed(1, "shortbread_plain", (cast.learner.pk, cast.partner.pk)))
    assert place.version == variant


@pytest.mark.parametrize(
    ("places", "code"),
    [
        ([(1, "shortbread", "learner"), (2, "shortbread", "learner")], "learner_twice"),
        ([(1, "shortbread", "learner"), (1, "shortbread", "partner")], "bench_twice"),
        ([(9, "shortbread", "learner")], "bench_unknown"),
        ([(1, "shortbread", "other_learner")], "learner_unknown"),
        ([(1, "no_such_recipe", "learner")], "recipe_against_diet"),
    ],
)
def test_impossible_places_are_refused_and_the_old_ones_stay(cast, places, code):
    with pytest.raises(RuleBroken) as refused:
        placed(cast, *(Placed(bench, recipe, (getattr(cast, who).pk,)) for bench, recipe, who in places))
    assert refused.value.code == code
    assert list(Place.objects.filter(shift__lesson=cast.lesson)) == [cast.place]
    assert cast.place.learners.count() == 2


def test_a_recipe_against_a_diet_is_refused(cast):
    avoids(cast, cast.learner, kind="milk")
    with pytest.raises(RuleBroken) as refused:
        placed(cast, Placed(1, "shortbread", (cast.learner.pk,)))
    assert refused.value.code == "recipe_against_diet"


def test_learners_who_are_kept_apart_do_not_share(cast):
    a, b = sorted((cast.learner, cast.partner), key=lambda student: student.pk)
    KeptApart.objects.create(a=a, b=b)
    with pytest.raises(RuleBroken) as refused:
        placed(cast, Placed(1, "shortbread", (cast.learner.pk, cast.partner.pk)))
    assert refused.value.code == "kept_apart"


def test_another_dish_gives_another_recipe_to_a_bench(cast):
    variant = a_variant(cast)
    actions.add_dish(lesson=cast.lesson, version=variant, portions_a_bench=4, by=cast.lecturer)
    actions.add_dish(lesson=cast.lesson, version=variant, portions_a_bench=4, by=cast.lecturer)
    assert cast.lesson.dishes.count() == 2


def test_the_register_is_added_to_and_never_changed(cast):
    for state in ("present", "present", "left"):
        actions.take_attendance(lesson=cast.lesson, student=cast.learner, state=state, by=cast.lecturer)
    rows = Attendance.objects.filter(lesson=cast.lesson).order_by("number")
    assert [(row.number, row.state) for row in rows] == [(1, "present"), (2, "left")]
    cast.lesson.refresh_from_db()
    assert cast.lesson.state == Lesson.State.RUN


def test_one_tap_sent_twice_is_one_row(cast):
    key = uuid.uuid4()
    for _ in range(2):
        actions.take_attendance(
            lesson=cast.lesson, student=cast.learner, state="late", by=cast.lecturer, key=key
        )
    assert Attendance.objects.count() == 1


def test_the_register_opens_on_the_day_and_for_the_class(cast):
    with pytest.raises(RuleBroken, match="opens on the day"):
        actions.take_attendance(
            lesson=cast.other_lesson, student=cast.other_learner, state="present", by=cast.other_lecturer
        )
    with pytest.raises(RuleBroken, match="is not of BK1"):
        actions.take_attendance(
            lesson=cast.lesson, student=cast.other_learner, state="present", by=cast.lecturer
        )


def test_the_dish_of_a_lesson_does_not_become_one_that_is_cooked_beside_it(cast):
    other = a_variant(cast)
    actions.add_dish(lesson=cast.lesson, version=other, portions_a_bench=4, by=cast.lecturer)
    before = order_of(cast.lesson)
    with pytest.raises(RuleBroken) as refused:
        actions.change_lesson(lesson=cast.lesson, order=replace(before, version=other.pk), by=cast.lecturer)
    assert (refused.value.code, refused.value.facts["field"]) == ("dish_twice", "version")
    assert order_of(cast.lesson) == before
