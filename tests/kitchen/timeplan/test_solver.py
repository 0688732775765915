"""The solver: legal, never under its bound, equal to trying everything on tiny classes, and without it."""

import json
import subprocess
import sys
from dataclasses import replace

import pytest

from kitchen.timeplan import solver
from kitchen.timeplan.answer import check
from kitchen.timeplan.bounds import best_bound
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.problem import Bench, Problem, Supply, Task
from kitchen.timeplan.solver import by_hand_only, solve
from kitchen.timeplan.ways import Way
from tests.builders.classes import CLASSES, class_names, reference
from tests.builders.timeplan import (
    problem_of_class,
    shortest_by_trying,
    tiny_class,
    tiny_class_with_a_break,
    tiny_class_with_both,
    tiny_class_with_ways,
    two_benches,
)

STEADY = Effort(work=0.4, holding=False)


@pytest.mark.parametrize("seed", range(48))
def test_finish_and_bound_equal_trying_everything(seed):
    problem = tiny_class(seed)
    solved = solve(problem, STEADY)
    shortest = shortest_by_trying(problem, solved.finish_minutes)
    assert solved.finish_minutes == shortest
    assert solved.bound_minutes == shortest


@pytest.mark.parametrize("tiny", [tiny_class_with_ways, tiny_class_with_both])
@pytest.mark.parametrize("seed", range(24))
def test_with_other_ways_finish_and_bound_equal_trying_everything(seed, tiny):
    problem = tiny(seed)
    solved = solve(problem, STEADY)
    assert check(problem, solved.answer) == []
    shortest = shortest_by_trying(problem, solved.finish_minutes)
    assert (solved.finish_minutes, solved.bound_minutes) == (shortest, shortest)


def test_a_step_is_done_the_usual_way_where_another_wins_nothing():
    task = Task("a", 6, "1", hands=True, uses=(("mixer", 1),), ways=(Way(6, name="hand"),))
    rest = Task("b", 20, "1")
    problem = Problem((task, rest), benches=(Bench("1"),), supplies=(Supply("mixer", 1),))
    assert not any(solve(problem, Effort(work=0.4)).answer.ways.values())


@pytest.mark.parametrize("seed", range(24))
def test_with_a_break_finish_and_bound_equal_trying_everything(seed):
    problem = tiny_class_with_a_break(seed)
    solved = solve(problem, STEADY)
    shortest = shortest_by_trying(problem, solved.finish_minutes)
    assert (solved.finish_minutes, solved.bound_minutes) == (shortest, shortest)


def test_a_planted_cut_that_is_too_strong_is_caught(monkeypatch):
    problem = tiny_class(3)
    shortest = solve(problem, STEADY).finish_minutes

    def too_strong(question):
        found = best_bound(question)
        return replace(found, minutes=shortest + 1)

    monkeypatch.setattr(solver, "best_bound", too_strong)
    cut = solve(problem, STEADY)
    assert (cut.finish_minutes, cut.bound_minutes) != (shortest, shortest)
    assert shortest_by_trying(problem, shortest + 1) == shortest


def test_the_same_work_gives_the_same_answer():
    first, second = (solve(two_benches(), Effort(work=0.5)) for _ in range(2))
    assert first.answer.starts == second.answer.starts
    assert first.status == "proved"


def test_food_stands_no_longer_after_the_second_search():
    problem = tiny_class(11)
    solved = solve(problem, Effort(work=0.5))
    assert solved.holding_after <= solved.holding_before
    assert check(problem, solved.answer) == []


@pytest.mark.parametrize("name", class_names("choux-B4", "souffle-B4", "mixed-B8"))
def test_frozen_classes_stay_legal_and_within_what_is_known(name):
    problem = problem_of_class(json.loads((CLASSES / f"{name}.json").read_text("utf-8")))
    known = reference()[name]
    solved = solve(problem, Effort(work=1.0, holding=False))
    assert check(problem, solved.answer) == []
    assert solved.bound_minutes <= known["best_known_finish"]
    assert solved.finish_minutes >= known["relaxation_bound"]


def test_without_the_solver_our_own_rule_answers_with_its_own_bound():
    program = """
import sys
sys.modules["ortools"] = None
from kitchen.timeplan.answer import check
from kitchen.timeplan.bounds import best_bound
from kitchen.timeplan.solver import solve
from tests.builders.timeplan import two_benches
problem = two_benches()
solved = solve(problem)
assert check(problem, solved.answer) == []
assert solved.status in ("by hand", "proved"), solved.status
assert solved.bound_minutes == best_bound(problem).minutes
print(solved.finish_minutes, solved.bound_minutes)
"""
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    hand = by_hand_only(two_benches())
    assert done.stdout.split() == [str(hand.finish_minutes), str(hand.bound_minutes)]
