"""A lesson read for the time plan: benches, room, what is shown, and how many queries it takes."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from curriculum.errors import RuleBroken
from curriculum.people.models import Adjustment
from kitchen.lessons.models import Place, PlaceLearner
from kitchen.rooms.models import Appliance, Bench, Closure
from kitchen.timeplan.actions import accept_draft
from kitchen.timeplan.day.actions import accept_replan
from kitchen.timeplan.day.pages import replan_page
from kitchen.timeplan.day.proposal import read_proposal
from kitchen.timeplan.drafts import draft_of
from kitchen.timeplan.queries import lesson_data, plan_page, ruling_plan
from tests.builders.cast import build_cast
from tests.builders.lessons import a_variant, more_learners
from tests.builders.running import begun, more_benches, now_of, second_oven, tapped

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def test_a_lesson_is_read_with_its_bench_room_and_slot(cast):
    data = lesson_data(cast.lesson)
    (bench,) = data.benches
    assert (bench.name, bench.cooks, len(bench.learners)) == ("1", 2, 2)
    assert bench.recipe.code == "shortbread"
    assert (data.starts, data.minutes, data.usable_minutes) == (540, 180, 135)
    assert (data.room, data.room_benches) == ("Quince Kitchen", 2)
    assert [a.code for a in data.appliances] == ["oven-1"]


def test_before_anybody_is_placed_the_benches_follow_from_the_group(cast):
    PlaceLearner.objects.filter(place__shift__lesson=cast.lesson).delete()
    Place.objects.filter(shift__lesson=cast.lesson).delete()
    cast.dish.working = "single"
    cast.dish.save()
    more_learners(cast, 3)
    assert [bench.cooks for bench in lesson_data(cast.lesson).benches] == [1] * 5
    cast.dish.working = "pair"
    cast.dish.save()
    assert [bench.cooks for bench in lesson_data(cast.lesson).benches] == [2, 2, 1]


def test_a_variant_is_read_with_its_own_version(cast):
    version = a_variant(cast)
    cast.place.version = version
    cast.place.save()
    (bench,) = lesson_data(cast.lesson).benches
    assert (bench.recipe.code, bench.family) == ("shortbread_plain", "shortbread")


def test_steps_ahead_and_taught_are_those_of_the_dish(cast):
    cast.dish.ahead_steps, cast.dish.taught_steps = [1], [1, 2]
    cast.dish.save()
    data = lesson_data(cast.lesson)
    assert (data.ahead, data.taught) == ((1,), (1, 2))
    assert [step.position for step in data.steps_of(data.benches[0])] == [2]


def test_only_a_flag_says_that_a_learner_of_a_bench_is_under_18_on_the_day(cast):
    assert not lesson_data(cast.lesson).benches[0].under_18
    cast.partner.born_on = date(2009, 2, 17)
    cast.partner.save()
    assert lesson_data(cast.lesson).benches[0].under_18
    PlaceLearner.objects.filter(place__shift__lesson=cast.lesson).delete()
    assert lesson_data(cast.lesson).benches[0].under_18
    cast.partner.born_on = date(2009, 2, 16)
    cast.partner.save()
    assert not lesson_data(cast.lesson).benches[0].under_18


def test_the_list_the_break_and_who_may_stand_beside_are_read_with_the_lesson(cast):
    cast.college.settings = {"listed_for_young_people": ["mixer"]}
    cast.college.save()
    cast.lesson.break_after, cast.lesson.break_minutes = 75, 15
    cast.lesson.contingency_minutes, cast.lesson.supervisors = 10, 2
    cast.lesson.save()
    data = lesson_data(cast.lesson)
    assert (data.listed, data.supervisors, data.usable_minutes) == ({"mixer"}, 2, 125)
    assert (data.break_after, data.break_minutes) == (75, 15)


def test_an_oven_that_is_closed_during_the_lesson_is_not_there(cast):
    zone = ZoneInfo("Europe/London")
    oven = Appliance.objects.get(code="oven-1")
    closure = Closure.objects.create(
        room=cast.room, appliance=oven, from_at=datetime(2027, 2, 16, 11, 59, tzinfo=zone), why="Door broken."
    )
    assert lesson_data(cast.lesson).appliances == ()
    closure.from_at = datetime(2027, 2, 16, 12, 0, tzinfo=zone)
    closure.save()
    assert len(lesson_data(cast.lesson).appliances) == 1


def test_a_lesson_without_a_dish_or_without_cooks_says_so(cast):
    PlaceLearner.objects.filter(place__shift__lesson=cast.lesson).delete()
    Place.objects.filter(shift__lesson=cast.lesson).delete()
    cast.group.memberships.all().delete()
    with pytest.raises(RuleBroken) as nobody:
        lesson_data(cast.lesson)
    assert nobody.value.code == "no_cooks"
    cast.dish.delete()
    with pytest.raises(RuleBroken) as nothing:
        lesson_data(cast.lesson)
    assert nothing.value.code == "no_dish"
    cast.lesson.kind = "demonstration"
    with pytest.raises(RuleBroken) as shown:
        lesson_data(cast.lesson)
    assert shown.value.code == "only_shown"


def test_what_is_printed_is_the_plan_that_rules_now(cast):
    """A bench that nobody is left at is on no paper after the re-plan, and the stamp is the re-plan's."""
    more_benches(cast, 2)
    second_oven(cast)
    begun(cast)
    before = ruling_plan(cast.lesson)
    assert ([bench.name for bench in before.plan.benches], before.stamp[:6]) == (["1", "2", "3"], "Plan 1")
    tapped(cast, "absent", "2")
    page = replan_page(now_of(cast))
    assert page["left_out"] == "Nobody is left at bench 2: no line, no oven, no paper."
    accept_replan(lesson=cast.lesson, proposal=read_proposal(page["kept"]), by=cast.lecturer)
    after = ruling_plan(cast.lesson)
    assert ([bench.name for bench in after.plan.benches], after.stamp[:6]) == (["1", "3"], "Plan 2")
    assert "2" not in [name for oven in after.plan.ovens for heat in oven.heats for name in heat.benches]
    assert now_of(cast).plan.gone == ("2",)
    assert replan_page(now_of(cast))["kept"] is None


@pytest.mark.parametrize("count", [3, 30])
def test_a_lesson_takes_the_same_queries_with_3_and_with_30_benches(cast, count, django_assert_num_queries):
    learners = more_learners(cast, count)
    shift = cast.lesson.shifts.get()
    for number, student in enumerate(learners, 3):
        bench = Bench.objects.create(room=cast.room, number=number)
        place = Place.objects.create(
            shift=shift, bench=bench, dish=cast.dish, version=cast.recipe_version, code=f"QR{number:06d}"
        )
        PlaceLearner.objects.create(place=place, shift=shift, student=student)
    with django_assert_num_queries(14):
        assert len(lesson_data(cast.lesson).benches) == count + 1


def test_an_accepted_plan_is_read_back(cast):
    assert ruling_plan(cast.lesson) is None
    draft = draft_of(lesson_data(cast.lesson))
    accept_draft(lesson=cast.lesson, draft=draft, by=cast.lecturer)
    assert ruling_plan(cast.lesson).plan == draft.plan


def test_the_page_knows_whether_the_plan_still_stands(cast):
    assert plan_page(cast.lesson).row is None
    accept_draft(lesson=cast.lesson, draft=draft_of(lesson_data(cast.lesson)), by=cast.lecturer)
    page = plan_page(cast.lesson)
    assert (page.stands, page.moved_on, page.can_accept) == (True, False, False)
    cast.dish.ahead_steps = [1]
    cast.dish.save()
    page = plan_page(cast.lesson)
    assert (page.stands, page.moved_on, page.can_accept) == (False, True, True)


def test_extra_time_slows_the_hands_of_an_assessed_lesson_only(cast):
    student = PlaceLearner.objects.filter(place__shift__lesson=cast.lesson).first().student
    Adjustment.objects.create(
        student=student, kind="extra_time", percent=25, from_on=cast.lesson.on, agreed_by=cast.lecturer
    )
    assert {bench.pace_per_mille for bench in lesson_data(cast.lesson).benches} == {1000}
    cast.lesson.assessed, cast.lesson.minutes_a_plate = True, 4
    found = lesson_data(cast.lesson)
    assert max(bench.pace_per_mille for bench in found.benches) == 1250
    assert found.minutes_a_plate == 4


def test_extra_time_that_has_ended_slows_nobody(cast):
    student = PlaceLearner.objects.filter(place__shift__lesson=cast.lesson).first().student
    ended = cast.lesson.on - timedelta(days=1)
    Adjustment.objects.create(
        student=student, kind="extra_time", percent=25, from_on=ended, until_on=ended, agreed_by=cast.lecturer
    )
    cast.lesson.assessed = True
    assert {bench.pace_per_mille for bench in lesson_data(cast.lesson).benches} == {1000}
