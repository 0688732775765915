"""The solver's answer is the enumerated best, holds by the rules said again, and is said when not proved."""

import random

import pytest

from kitchen.timeplan.demonstration_search import Search
from kitchen.timeplan.demonstration_steps import LIVE, READY, SWAPPED, TRAY, Steps
from kitchen.timeplan.demonstrations import solver
from kitchen.timeplan.demonstrations.solver import proved_best
from tests.builders.recipes import college_recipe
from tests.kitchen.timeplan.test_demonstration_search import (
    a_large_recipe,
    a_random_recipe,
    a_recipe,
    a_step,
    by_enumeration,
    is_legal,
    keeps_time,
    worth_found,
    worth_of,
)


@pytest.mark.parametrize("seed", range(100, 140))
def test_the_solver_finds_what_enumeration_finds(seed):
    steps, dice = Steps(a_random_recipe(seed)), random.Random(seed)
    targets = frozenset(each for each in "abc" if dice.random() < 0.5)
    slot = dice.choice([4, 8, 12, 20, 30, 60])
    found = proved_best(Search(steps, slot, targets), None)
    assert worth_found(found) == by_enumeration(steps, slot, targets)
    if found is not None:
        assert found.proved and is_legal(steps, found.ways) and keeps_time(steps, found.ways, found.order)
        assert worth_found(found) == worth_of(steps, found.ways, targets)


def test_a_solver_that_reckons_shared_work_twice_would_be_caught():
    """Planted: the paste behind a shell and a baked tart counted for each of them."""
    paste = a_step(1, 8, 30)
    steps = Steps(a_recipe(paste, a_step(2, 10, 15, [(1, 0, 1440)]), a_step(3, 5, 20, [(2, 0, 1440)])))
    ways = (READY, LIVE, TRAY)
    assert is_legal(steps, ways)
    shared = worth_of(steps, ways, frozenset())[1]
    twice = sum(
        steps.hands_of(steps.ancestors[node]) for node, way in enumerate(ways) if way in (READY, TRAY)
    )
    assert (shared, twice) == (23, 31)
    found = proved_best(Search(steps, 20, frozenset()), None)
    assert by_enumeration(steps, 20, frozenset())[1] == found.cost != twice


def test_a_proof_that_looks_at_less_work_than_it_needs_says_that_it_is_none(monkeypatch):
    monkeypatch.setattr(solver, "WORK", 0.01)
    steps, targets = Steps(a_large_recipe(7)), frozenset(f"t{n}" for n in range(1, 26))
    found = proved_best(Search(steps, 120, targets), None)
    assert found is None or not found.proved


def test_techniques_come_before_all_minutes_of_preparation():
    """Each question is asked with the answer of the one before held: fewest missed, then the rest."""
    steps, targets = Steps(a_large_recipe(1)), frozenset(f"t{n}" for n in range(1, 26))
    asked = proved_best(Search(steps, 60, targets), None)
    fewer = proved_best(Search(steps, 60, frozenset()), None)
    assert asked.proved and fewer.proved
    assert asked.missed < worth_of(steps, fewer.ways, targets)[0]
    assert asked.cost > fewer.cost


@pytest.mark.parametrize("seed", range(4))
def test_where_both_prove_both_find_the_same(seed):
    steps, targets = Steps(a_large_recipe(seed)), frozenset(f"t{n}" for n in range(1, 26, 3))
    known = Search(steps, 45, targets).best()
    found = proved_best(Search(steps, 45, targets), None)
    assert found.proved
    assert keeps_time(steps, found.ways, found.order) and is_legal(steps, found.ways)
    assert not known.proved or worth_found(known) == worth_found(found)


def test_nothing_fits_a_minute_here_either():
    assert proved_best(Search(Steps(college_recipe("R01")), 1, frozenset()), None) is None


def test_without_the_solver_the_plan_that_is_known_stands(monkeypatch):
    monkeypatch.setattr(solver, "solver_module", lambda: None)
    steps = Steps(college_recipe("R03"))
    known = Search(steps, 45, frozenset()).best()
    assert proved_best(Search(steps, 45, frozenset()), known) is known


def test_no_plan_is_taken_that_is_worse_than_the_one_known(monkeypatch):
    monkeypatch.setattr(solver, "WORK", 1e-9)
    steps, targets = Steps(a_large_recipe(0)), frozenset(f"t{n}" for n in range(1, 26, 3))
    known = Search(steps, 120, targets).best()
    assert worth_found(proved_best(Search(steps, 120, targets), known)) <= worth_found(known)


def test_a_swap_needs_a_wait():
    steps = Steps(a_recipe(a_step(1, 5), a_step(2, 5, after=[(1, 0, 1440)])))
    assert SWAPPED not in proved_best(Search(steps, 20, frozenset()), None).ways
