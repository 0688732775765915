"""Pushing to the right: what came later moves what is behind it, and nothing else."""

import pytest

from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.day.live import Deed, live
from kitchen.timeplan.day.repair import pushed
from kitchen.timeplan.day.situation import situation
from tests.builders.day import as_planned
from tests.builders.timeplan import two_benches


@pytest.fixture
def problem():
    return two_benches()


@pytest.fixture
def plan(problem):
    return plan_by_hand(problem)


def at(problem, plan, now, what, **more):
    deeds = as_planned(problem, plan, now)
    return situation(live(problem, plan, [*deeds, Deed(len(deeds) + 1, what, now, **more)], now))


def test_a_longer_step_moves_what_follows_it_at_its_bench(problem, plan):
    now = plan.starts["1/mix"] + 4
    found = pushed(at(problem, plan, now, "later", task="1/mix", minutes=7))[0]
    rest = plan.starts["1/rest"]
    assert found.starts["1/rest"] == rest + 7
    assert found.starts["2/mix"] == max(plan.starts["2/mix"], found.starts["1/rest"])


def test_a_bake_of_a_failed_oven_goes_into_another(problem, plan):
    oven = plan.ovens["1/bake"]
    found = pushed(at(problem, plan, plan.starts["1/bake"] - 2, "failed", oven=oven))[0]
    assert found.ovens["1/bake"] != oven


def test_a_demonstration_that_takes_longer_moves_what_waits_for_it(problem, plan):
    now = plan.starts["plating"] + 1
    found = pushed(at(problem, plan, now, "later", task="plating", minutes=60))[0]
    ends = plan.starts["plating"] + 64
    assert min(found.starts["1/plate"], found.starts["2/plate"]) >= ends


def test_nothing_disturbed_is_one_answer_that_moves_nothing(problem, plan):
    deeds = as_planned(problem, plan, 10)
    here = situation(live(problem, plan, deeds, 10))
    (only,) = pushed(here)
    assert only.starts == here.old.starts
