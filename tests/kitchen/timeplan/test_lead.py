"""How a class is led: few waves, the fives where they fit, and always a plan."""

from dataclasses import replace

import pytest

from kitchen.timeplan.answer import check
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.lead import chain_of, choose_lead, plan_lesson
from kitchen.timeplan.lesson_problem import RoomLacks, problem_of
from tests.builders.recipes import RECIPE_CODES, fixture
from tests.builders.timeplan_lessons import (
    appliances_of,
    class_of,
    college_lesson,
    first_wish,
    only_the_usual_way,
)


def test_one_wave_on_the_fives_when_that_fits():
    lead = choose_lead(college_lesson("main-2"))
    assert (lead.waves, lead.by_the_minute) == (1, frozenset())


def test_as_few_steps_as_possible_leave_the_fives_when_the_slot_needs_it():
    """A six-minute demonstration and 124 minutes of steps: on the fives 136 of 135."""
    lead = choose_lead(college_lesson("main-1"))
    assert len(lead.by_the_minute) == 2
    assert lead.finish <= 135


def test_more_waves_where_one_does_not_fit():
    """One mixer for four benches: in one wave 167 minutes, in three 162."""
    mixers = [a for a in appliances_of("saffron") if a.kind == "mixer"]
    one = tuple(a for a in appliances_of("saffron") if a not in mixers[1:])
    by_machine = only_the_usual_way(class_of("R03", "saffron", 4, 210, appliances=one))
    assert choose_lead(by_machine).waves == 3
    assert choose_lead(replace(by_machine, minutes=215)).waves == 1


def test_by_hand_in_place_of_waiting_for_the_machine_keeps_the_class_in_one_wave():
    mixers = [a for a in appliances_of("saffron") if a.kind == "mixer"]
    one = tuple(a for a in appliances_of("saffron") if a not in mixers[1:])
    lead = choose_lead(class_of("R03", "saffron", 4, 210, appliances=one))
    assert lead.waves == 1 and lead.answer.ways


def test_the_plan_is_legal_and_led():
    planned = plan_lesson(college_lesson("main-1"), Effort(work=0.6))
    assert check(planned.problem, planned.solved.answer) == []
    starts = {line.start for bench in planned.plan.benches for line in bench.lines if line.step == 4}
    assert len(starts) == 1
    called = [line for bench in planned.plan.benches for line in bench.lines if line.called]
    assert all(line.start % 5 == 0 for line in called)


def test_the_chain_is_of_the_steps_alone():
    assert chain_of(college_lesson("main-1")).minutes == 124
    assert chain_of(first_wish()).minutes == 161


@pytest.mark.parametrize("code", RECIPE_CODES)
def test_every_recipe_of_the_college_is_planned_in_a_room_that_can_cook_it(code):
    lesson = class_of(code, room_that_cooks(code), 4, 360)
    planned = plan_lesson(lesson, None)
    assert check(planned.problem, planned.solved.answer) == []
    plan = planned.plan
    assert plan.finish_minutes >= plan.bound_minutes >= chain_of(lesson).minutes


def room_that_cooks(code: str) -> str:
    """A room with benches of the college whose appliances serve the recipe."""
    for room in fixture("rooms.json")["rooms"]:
        try:
            problem_of(class_of(code, room["code"], 1, 360))
        except RoomLacks:
            continue
        if len(room["benches"]) > 3:
            return room["code"]
    raise LookupError(f"no room of the college cooks {code}")
