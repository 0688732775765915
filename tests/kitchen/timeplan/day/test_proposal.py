"""A re-plan between its page and its acceptance, and as a plan that people read."""

import json

import pytest

from curriculum.wording import clock_minutes
from kitchen.timeplan.answer import Answer
from kitchen.timeplan.day.live import Deed, live
from kitchen.timeplan.day.proposal import Proposal, kept_proposal, plan_on_the_day, read_proposal
from kitchen.timeplan.day.situation import situation
from kitchen.timeplan.day.solver import replan
from kitchen.timeplan.kept import kept_plan, read_plan
from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.lesson_problem import part_name
from kitchen.timeplan.plan_answer import answer_of
from tests.builders.day import as_planned
from tests.builders.timeplan_lessons import college_lesson


@pytest.fixture(scope="module")
def planned():
    return plan_lesson(college_lesson("main-2"), None)


def changed(planned, now, what, **more):
    answer = planned.solved.answer
    deeds = as_planned(planned.problem, answer, now)
    deeds.append(Deed(len(deeds) + 1, what, now, **more))
    state = live(planned.problem, answer, deeds, now)
    found = replan(situation(state), seconds=0.5)
    names = {oven.code: oven.name for oven in planned.plan.ovens}
    return state, found, plan_on_the_day(planned.plan, state, found.answer, 0, names)


def test_a_proposal_reads_back_and_its_mark_is_of_all_of_it():
    one = Proposal(1, 7, 30, {"1/1/0": 35}, {"1/2/0": "oven-1"})
    assert read_proposal(json.loads(json.dumps(kept_proposal(one)))) == one
    assert one.mark != Proposal(1, 7, 30, {"1/1/0": 36}, {"1/2/0": "oven-1"}).mark
    with pytest.raises(ValueError, match="shape 9"):
        read_proposal({"shape": 9})


def test_a_plan_in_which_nothing_moves_is_the_plan_that_stood(planned):
    state, found, plan = changed(planned, 1, "nothing")
    assert found.how == "nothing moves"
    assert plan.benches == planned.plan.benches
    assert plan.shows == planned.plan.shows
    assert plan.ovens == planned.plan.ovens


def test_the_plan_of_the_day_gives_back_the_answer_and_is_kept_like_any_other(planned):
    longest = max((t for t in planned.problem.tasks if t.hands), key=lambda t: t.minutes)
    now = planned.solved.answer.starts[longest.name] + 1
    state, found, plan = changed(planned, now, "later", task=longest.name, minutes=15)
    assert isinstance(found.answer, Answer)
    assert answer_of(plan) == found.answer
    assert read_plan(json.loads(json.dumps(kept_plan(plan)))) == plan
    assert plan.status == "on the day"


def test_an_oven_that_failed_stands_on_no_line_and_each_bake_says_its_new_time_and_oven(planned):
    gone = planned.plan.ovens[0]
    _, _, plan = changed(planned, 65, "failed", oven=gone.code)
    for bench in plan.benches:
        for bar in (bar for bar in bench.bars if bar.kind == "oven"):
            (line,) = (line for line in bench.lines if line.step == bar.step)
            said = f"Until {clock_minutes(bar.end)} in {bar.where}: "
            assert bar.where != gone.name
            assert any(point.startswith(said) for point in line.points), (said, line.points)


def test_every_heat_of_a_bake_stands_in_the_plan_of_the_day_and_a_cold_oven_is_lit_in_time(planned):
    gone = planned.plan.ovens[0]
    _, found, plan = changed(planned, 30, "failed", oven=gone.code)
    used = {oven.name: oven for oven in planned.problem.ovens}
    for oven in plan.ovens:
        bake = next(t.bake for t in planned.problem.tasks if found.answer.ovens.get(t.name) == oven.code)
        assert [heat.decicelsius for heat in oven.heats] == [stay.decicelsius for stay in bake.stays]
        assert oven.heats[0].start - oven.light_at >= used[oven.code].heat_up_minutes(bake) > 0


def test_a_wait_made_longer_says_its_minutes(planned):
    waits = {bar for bench in planned.plan.benches for bar in bench.bars if bar.kind == "wait"}
    bar = min(waits, key=lambda bar: bar.start)
    task = part_name("1", bar.step, 0)
    now = planned.solved.answer.starts[task] + 1
    _, _, plan = changed(planned, now, "later", task=task, minutes=5)
    line = next(line for line in plan.benches[0].lines if line.step == bar.step)
    assert any(point.endswith(f": {bar.minutes + 5} min.") for point in line.points), line.points
