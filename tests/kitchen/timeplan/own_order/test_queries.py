"""What the pages read: the plan beside the order, what is hidden from whom, a fixed number of queries."""

from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.people.models import Student
from kitchen.lessons.models import Lesson, Place, PlaceLearner, Shift
from kitchen.timeplan.actions import accept_draft
from kitchen.timeplan.own_order.actions import open_order_again, say_whether_assessed
from kitchen.timeplan.own_order.queries import (
    assessed_setting,
    class_orders,
    desks_of_class,
    hidden_from,
    newest_of_student,
    own_desk,
    plan_hidden_now,
)
from kitchen.timeplan.queries import plan_page
from tests.builders.cast import build_cast
from tests.builders.own_order import assess, handed_in, kept, one_more_bench, times

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def place(cast):
    rows = PlaceLearner.objects.filter(student=cast.learner, shift__lesson=cast.lesson)
    return rows.select_related("shift__lesson", "place__version__recipe").get()


def accept(cast):
    return accept_draft(lesson=cast.lesson, draft=plan_page(cast.lesson).draft, by=cast.lecturer)


def test_a_hold_of_the_recipe_that_breaks_is_found(cast):
    kept(cast, times("09:20", "11:00"))
    found = own_desk(place(cast)).judged
    assert [each.words for each in found.breaks] == ["Step 2 follows step 1 after 90 min; at most 60 min."]


def test_a_good_order_breaks_nothing(cast):
    accept(cast)
    kept(cast)
    found = own_desk(place(cast)).judged
    assert (found.breaks, found.troubles, found.missing, found.unlooked) == ((), (), (), "")


def test_the_plan_stands_beside_only_while_the_lesson_is_as_it_was(cast):
    accept(cast)
    kept(cast)
    beside = [line.plan_at for line in own_desk(place(cast)).sheet_beside_plan.lines]
    assert [bool(at) for at in beside] == [True, True, False]
    cast.dish.ahead_steps = [1]
    cast.dish.save()
    assert not any(line.plan_at for line in own_desk(place(cast)).sheet_beside_plan.lines)


def test_the_learners_own_sheet_never_holds_the_plans_times(cast):
    accept(cast)
    kept(cast)
    assert not any(line.plan_at for line in own_desk(place(cast)).sheet.lines)


def test_an_assessed_lesson_hides_its_plan_until_the_own_order_is_handed_in(cast):
    assess(cast)
    assert plan_hidden_now(place(cast))
    kept(cast)
    assert plan_hidden_now(place(cast))
    handed_in(cast, student=cast.partner)
    assert plan_hidden_now(place(cast))


def test_once_handed_in_the_plan_is_shown_and_opened_again_it_is_hidden(cast):
    assess(cast)
    handed_in(cast)
    assert not plan_hidden_now(place(cast))
    open_order_again(lesson=cast.lesson, student=cast.learner, why="Moved.", by=cast.lecturer)
    assert plan_hidden_now(place(cast))


def test_after_the_day_nothing_is_hidden(cast):
    assess(cast)
    cast.lesson.on = date(2027, 2, 15)
    cast.lesson.save()
    assert not plan_hidden_now(place(cast))


@pytest.mark.parametrize(
    ("lesson", "said", "hidden"), [(False, None, False), (False, True, True), (True, False, False)]
)
def test_what_the_lecturer_said_counts_before_the_kind_of_lesson(cast, lesson, said, hidden):
    if lesson:
        assess(cast)
    if said is not None:
        say_whether_assessed(lesson=cast.lesson, assessed=said, by=cast.lecturer)
    assert assessed_setting(cast.lesson) is hidden
    assert plan_hidden_now(place(cast)) is hidden


def test_the_page_and_the_strip_agree_on_what_is_hidden(cast):
    assess(cast)
    assert own_desk(place(cast)).is_plan_hidden(cast.lesson.on) is plan_hidden_now(place(cast)) is True
    handed_in(cast)
    assert own_desk(place(cast)).is_plan_hidden(cast.lesson.on) is plan_hidden_now(place(cast)) is False


def test_a_lesson_that_is_only_shown_has_no_order(cast):
    Lesson.objects.filter(pk=cast.lesson.pk).update(kind="demonstration")
    with pytest.raises(RuleBroken, match="only_shown|shown"):
        own_desk(place(cast))


def test_an_order_written_for_another_recipe_is_said(cast):
    row = kept(cast)
    assert not own_desk(place(cast)).is_of_another_version
    cast.recipe_version.pk, cast.recipe_version.number = None, 2
    cast.recipe_version.save()
    row.version = cast.recipe_version
    row.save()
    assert own_desk(place(cast)).is_of_another_version


def test_a_learners_orders_are_found_for_several_lessons_at_once(cast, django_assert_num_queries):
    kept(cast)
    with django_assert_num_queries(1):
        found = newest_of_student(cast.learner, [cast.lesson, cast.other_lesson])
    assert list(found) == [cast.lesson.pk]


def count(cast):
    with CaptureQueriesContext(
        connection,
    ) as made:
        desks = desks_of_class(class_orders(cast.lesson))
    return len(made), len(desks)


def test_who_was_erased_or_stands_in_another_shift_is_not_on_the_list_of_the_class(cast):
    def names():
        return [desk.place.student.college_number for desk in desks_of_class(class_orders(cast.lesson))]

    erased, second = one_more_bench(cast, 10), one_more_bench(cast, 11)
    before = names()
    assert {"P10", "P11"} < set(before)
    Student.objects.filter(pk=erased.pk).update(erased_at=timezone.now())
    shift = Shift.objects.create(lesson=cast.lesson, number=2, starts=cast.lesson.starts, minutes=60)
    Place.objects.filter(learners__student=second).update(shift=shift)
    PlaceLearner.objects.filter(student=second).update(shift=shift)
    assert names() == [name for name in before if name not in ("P10", "P11")]


def test_thirty_learners_take_as_many_queries_as_three(cast):
    kept(cast)
    one_more_bench(cast, 10)
    few, three = count(cast)
    for number in range(11, 38):
        kept(cast, student=one_more_bench(cast, number))
    assert (three, count(cast)) == (3, (few, 30))


def test_the_learners_who_may_not_see_the_plan_yet_are_counted(cast):
    assert hidden_from(cast.lesson) == 0
    assess(cast)
    everybody = PlaceLearner.objects.filter(shift__lesson=cast.lesson).count()
    assert hidden_from(cast.lesson) == everybody > 0
    handed_in(cast)
    assert hidden_from(cast.lesson) == everybody - 1
    Lesson.objects.filter(pk=cast.lesson.pk).update(on=date(2020, 1, 7))
    assert hidden_from(Lesson.objects.get(pk=cast.lesson.pk)) == 0


def test_the_learner_is_told_when_the_break_is(cast):
    Lesson.objects.filter(pk=cast.lesson.pk).update(break_after=60, break_minutes=15)
    said = class_orders(Lesson.objects.get(pk=cast.lesson.pk)).between
    assert said.endswith(" The break is from 10:00 to 10:15.")
