"""When cold food is needed and from when it is weighed: by the plan, else by the lesson's start."""

from dataclasses import replace

import pytest

from kitchen.stores.weighout.moments import (
    Clock,
    Moment,
    cold_until,
    first_need,
    first_step,
    moment_of,
    not_before,
    storage_words,
    when_words,
)
from kitchen.timeplan.plan import PlanLine
from tests.builders.recipes import college_recipe
from tests.builders.timeplan_plans import a_bench, a_plan


def a_clock(**changes):
    """The lesson begins at 09:00; at bench 1 step 1 begins at 09:12, step 3 at 10:00."""
    lines = (PlanLine(552, 560, 1, "Rub in.", 8), PlanLine(600, 610, 3, "Fill.", 10))
    plan = a_plan(replace(a_bench(1), lines=lines), replace(a_bench(2), lines=lines[1:]))
    return replace(Clock(540, plan, "It is made on 15 Feb."), **changes)


def test_a_food_is_needed_when_the_first_step_of_its_component_begins_at_its_bench():
    assert moment_of(a_clock(), "bench", "1", 1) == Moment(552)
    assert moment_of(a_clock(), "bench", "1", 3) == Moment(600)


def test_what_no_step_names_is_needed_when_the_bench_begins():
    assert moment_of(a_clock(), "bench", "2", None) == Moment(600)


def test_a_second_shift_is_as_much_later_as_it_begins():
    assert moment_of(a_clock(later=(("1.2", 200),)), "bench", "1.2", 1) == Moment(752)


def test_demonstration_and_stage_trays_are_needed_when_the_first_thing_is_shown():
    assert moment_of(a_clock(), "demonstration", "D", 2) == Moment(540)
    assert moment_of(a_clock(), "stage_tray", "T", 2) == Moment(540)


@pytest.mark.parametrize(("plan", "label"), [(None, "1"), ("kept", "9")])
def test_without_a_plan_for_the_bench_the_start_of_the_lesson_counts_and_says_so(plan, label):
    clock = a_clock() if plan else a_clock(plan=None)
    found = moment_of(clock, "bench", label, 1)
    assert found == Moment(540, by_plan=False)
    assert "no time plan is accepted" in when_words([found], 1, 30)
    assert cold_until([found]) == "09:00 (start of the lesson, no plan)"


def test_what_is_prepared_ahead_and_what_is_spare_have_no_clock_time():
    ahead, spare = moment_of(a_clock(), "ahead", "A", 1), moment_of(a_clock(), "spare", "S", 1)
    assert first_need([ahead, spare]) is None and not_before([ahead, spare], 3, 30) is None
    assert when_words([ahead, spare], 2, 30) == f"{ahead.words} {spare.words}"
    assert cold_until([ahead]) == "" and ahead.said == "It is made on 15 Feb."


def test_not_before_is_the_need_less_the_cold_minutes_and_a_minute_a_weight_down_to_the_fives():
    needed = [Moment(562), Moment(600)]
    assert not_before(needed, 7, 30) == 525
    assert when_words(needed, 7, 30) == "Not before 08:45, needed on the bench 09:22."
    assert not_before([Moment(552)], 2, 30) == 520
    assert not_before([Moment(10)], 30, 30) == 0


def test_a_label_says_the_clock_on_the_fives_and_how_the_tray_is_kept():
    assert cold_until([Moment(552), Moment(600)]) == "09:10"
    assert storage_words(["ambient", "chilled"]) == "In the fridge"
    assert storage_words(["ambient"]) == "In the dry store"
    assert "freezer" in storage_words(["frozen", "chilled"])


def test_the_first_step_is_of_the_component_and_steps_done_ahead_do_not_count():
    recipe = college_recipe("R01")
    component = recipe.components[0]
    steps = [step.position for step in recipe.steps if component.code in step.components]
    assert first_step(recipe, component.name) == steps[0]
    assert first_step(recipe, component.name, ahead=steps[:1]) == (steps[1] if len(steps) > 1 else None)
    assert first_step(recipe, "Dusting") is None
