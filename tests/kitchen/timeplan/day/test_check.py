"""The check of an answer on the day: each rule catches what was planted against it."""

from dataclasses import replace

import pytest

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.day.check import check_from, hard
from kitchen.timeplan.day.live import Deed, live
from kitchen.timeplan.day.situation import situation
from kitchen.timeplan.problem import Pause
from tests.builders.day import as_planned
from tests.builders.timeplan import two_benches

NOW = 12


@pytest.fixture
def at():
    problem = two_benches()
    plan = plan_by_hand(problem)
    return situation(live(problem, plan, as_planned(problem, plan, NOW), NOW))


def codes(at, starts=None, ovens=None, past=None):
    answer = Answer({**at.old.starts, **(starts or {})}, {**at.old.ovens, **(ovens or {})})
    return {found.code for found in check_from(at.problem, answer, past or at.past)}


def test_the_plan_as_it_stands_breaks_nothing(at):
    assert codes(at) == set()


def test_what_has_begun_may_not_be_moved(at):
    assert "moved" in codes(at, {"1/mix": at.old.starts["1/mix"] + 1})


def test_nothing_to_come_begins_before_now(at):
    assert "in_the_past" in codes(at, {"2/plate": NOW - 1})


def test_hands_lecturer_and_supplies_are_not_taken_twice(at):
    plate = at.old.starts["1/plate"]
    assert {"lecturer", "assessor"} <= codes(at, {"2/plate": plate})
    assert "hands" in codes(at, {"plating": plate})


def test_an_oven_that_failed_takes_nothing_more(at):
    out = replace(at.past, out={at.old.ovens["2/bake"]: NOW})
    assert "oven_failed" in codes(at, past=out)


def test_trays_and_a_cold_oven_are_seen(at):
    bakes = {"1/bake": 60, "2/bake": 60}
    assert "trays" in codes(at, bakes, {"1/bake": "left", "2/bake": "left"})
    cold = replace(at.past, heats={"left": (None, NOW), "right": (None, NOW)})
    assert "cold_oven" in codes(at, {"1/bake": NOW + 1, "2/bake": NOW + 1}, past=cold)


def test_least_waits_and_demonstrations_hold(at):
    assert "too_soon" in codes(at, {"2/bake": at.old.starts["2/rest"] + 5})
    assert "not_shown" in codes(at, {"2/plate": at.old.starts["plating"]})


def test_nothing_to_come_is_done_in_a_break(at):
    start = at.old.starts["2/plate"]
    later = replace(at, problem=replace(at.problem, breaks=(Pause(start + 1, 5),)))
    assert codes(later) == {"break"}
    begun = replace(later, past=replace(at.past, fixed=at.past.fixed | {"1/plate", "2/plate", "plating"}))
    assert "break" not in codes(begun)


def test_a_hold_that_is_too_long_is_said_and_is_no_hard_break(at):
    answer = Answer({**at.old.starts, "2/plate": at.old.starts["2/plate"] + 200}, at.old.ovens)
    broken = check_from(at.problem, answer, at.past)
    assert [b.code for b in broken] == ["too_late"]
    assert hard(broken) == []


def test_the_past_is_not_judged_by_itself():
    problem = two_benches()
    plan = plan_by_hand(problem)
    both = [Deed(1, "started", 0, "1/mix"), Deed(2, "started", 1, "2/mix")]
    found = situation(live(problem, plan, both, 3))
    broken = {b.code for b in check_from(found.problem, found.old, found.past)}
    assert "supply" not in broken
    assert found.problem.supplies[0].units == 1
