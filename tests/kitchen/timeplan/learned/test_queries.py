"""The paces a lesson is planned by: those of its level and techniques, as they stood when it began."""

import pytest
from django.utils.timezone import localtime

from curriculum.techniques.models import Technique
from kitchen.timeplan.day.actions import learn
from kitchen.timeplan.day.after import Pace
from kitchen.timeplan.learned.queries import paces_for
from kitchen.timeplan.queries import lesson_data, plan_page
from tests.builders.cast import build_cast
from tests.builders.running import begun, more_benches, planned

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def accepted(cast, *timings, technique="rubbing_in", level="foundation", lesson=None):
    pace = Pace(technique, level, timings)
    return learn(lesson=lesson or cast.other_lesson, pace=pace, by=cast.lecturer)


def test_an_accepted_pace_of_the_dish_is_read_with_what_it_rests_on(cast):
    row = accepted(cast, 1200, 1300, 1300)
    (pace,) = lesson_data(cast.lesson).paces
    assert (pace.technique, pace.name, pace.level, pace.per_mille) == (
        "rubbing_in", "Rubbing in", "foundation", 1300,
    )  # fmt: skip
    assert (pace.count, pace.lessons, pace.timings) == (3, 1, (1200, 1300, 1300))
    assert (pace.by, pace.on) == (cast.lecturer.name, localtime(row.at).date())


def test_paces_of_another_level_or_technique_are_not_read(cast):
    accepted(cast, 1300, level="advanced")
    Technique.objects.create(code="grilling", name="Grilling", level="foundation", cue="Brown.")
    accepted(cast, 1300, technique="grilling")
    assert lesson_data(cast.lesson).paces == ()


def test_a_lesson_planned_by_the_recipe_reads_none(cast):
    accepted(cast, 1300)
    cast.lesson.by_recipe_minutes = True
    assert lesson_data(cast.lesson).paces == ()


def test_a_superseded_pace_is_not_read(cast):
    accepted(cast, 1300)
    accepted(cast, 1100)
    assert [pace.per_mille for pace in lesson_data(cast.lesson).paces] == [1100]


def test_what_a_class_teaches_does_not_change_its_own_plan(cast):
    begun(cast, 20)
    accepted(cast, 1500, lesson=cast.lesson)
    assert lesson_data(cast.lesson).paces == ()
    assert plan_page(cast.lesson).stands


def test_a_class_that_has_begun_keeps_the_paces_of_its_plan(cast):
    accepted(cast, 1300)
    begun(cast, 20)
    accepted(cast, 1500, lesson=cast.lesson)
    assert [pace.per_mille for pace in lesson_data(cast.lesson).paces] == [1300]


def test_a_lesson_that_was_run_without_a_tap_keeps_its_plan_too(cast):
    planned(cast)
    cast.lesson.state = "run"
    accepted(cast, 1500)
    assert lesson_data(cast.lesson).paces == ()
    assert plan_page(cast.lesson).stands


def test_a_plan_is_marked_when_nothing_but_its_paces_has_changed(cast):
    planned(cast)
    accepted(cast, 1300)
    page = plan_page(cast.lesson)
    assert (page.stands, page.moved_on, page.other_paces) == (False, True, True)
    cast.dish.ahead_steps = [1]
    cast.dish.save()
    assert plan_page(cast.lesson).other_paces is False


def test_a_plan_by_learned_paces_keeps_what_it_was_computed_from(cast):
    accepted(cast, 1300)
    row = planned(cast)
    assert [pace["per_mille"] for pace in row.inputs["paces"]] == [1300]
    assert row.inputs["recipe_minutes"] == {"1/1/0": 10}
    assert next(t for t in row.inputs["question"]["tasks"] if t["name"] == "1/1/0")["minutes"] == 13
    cast.lesson.by_recipe_minutes = True
    cast.lesson.save()
    assert plan_page(cast.lesson).other_paces


@pytest.mark.parametrize("count", [3, 30])
def test_paces_take_the_same_queries_with_3_and_with_30(cast, count, django_assert_num_queries):
    more_benches(cast, count)
    accepted(cast, *(1000 + number for number in range(count)))
    recipes = [bench.recipe for bench in lesson_data(cast.lesson).benches]
    with django_assert_num_queries(2):
        (pace,) = paces_for(cast.lesson, recipes)
    assert len(pace.timings) == count
