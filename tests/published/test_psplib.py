"""PSPLIB j301_1 through the same question, solver and check as a class.

Source: PSPLIB, single-mode set j30, instance j301_1: optimum 43 (published table of optima),
longest path 38 (MPM-time in the file), horizon 158 (sum of durations). Read and run.
"""

import re
from pathlib import Path

import pytest

from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.bounds import best_bound, longest_chain
from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.solver import solve
from tests.builders.timeplan import problem_of_psplib, project

#: job: duration; demand of R1 R2 R3 R4; successors
J301_1 = """
1:0;0 0 0 0;2 3 4      2:8;4 0 0 0;6 11 15     3:4;10 0 0 0;7 8 13    4:6;0 0 0 3;5 9 10
5:3;3 0 0 0;20         6:8;0 0 0 8;30          7:5;4 0 0 0;27         8:9;0 1 0 0;12 19 27
9:2;6 0 0 0;14         10:7;0 0 0 1;16 25      11:9;0 5 0 0;20 26     12:2;0 7 0 0;14
13:6;4 0 0 0;17 18     14:3;0 8 0 0;17         15:9;3 0 0 0;25        16:10;0 0 0 5;21 22
17:6;0 0 0 8;22        18:5;0 0 0 7;20 22      19:3;0 1 0 0;24 29     20:7;0 10 0 0;23 25
21:2;0 0 0 6;28        22:7;2 0 0 0;23         23:2;3 0 0 0;24        24:3;0 9 0 0;30
25:3;4 0 0 0;30        26:7;0 0 4 0;31         27:8;0 0 0 7;28        28:3;0 8 0 0;31
29:7;0 7 0 0;32        30:2;0 7 0 0;32         31:2;0 0 2 0;32        32:0;0 0 0 0;-
"""
CAPACITIES = [12, 13, 4, 12]
OPTIMUM, LONGEST_PATH, HORIZON = 43, 38, 158


def j301_1():
    text = " ".join(J301_1.split())
    rows, successors = {}, {}
    for entry in re.findall(r"(\d+):(\d+);([\d ]+?);([\d ]+?|-)(?= \d+:|$)", text):
        job, minutes, demand, after = entry
        rows[job] = [int(minutes), *map(int, demand.split())]
        successors[job] = [] if after == "-" else after.split()
    return project(rows, successors, CAPACITIES)


def test_the_file_is_read_whole():
    problem = j301_1()
    assert len(problem.tasks) == 32
    assert sum(task.minutes for task in problem.tasks) == HORIZON
    assert longest_chain(problem).minutes == LONGEST_PATH


def test_our_answer_is_the_published_optimum_and_proved():
    problem = j301_1()
    solved = solve(problem, Effort(work=5.0, holding=False))
    assert (solved.finish_minutes, solved.bound_minutes, solved.status) == (OPTIMUM, OPTIMUM, "proved")
    assert check(problem, solved.answer) == []


def test_our_rule_is_legal_and_between_path_and_horizon():
    problem = j301_1()
    finish = plan_by_hand(problem).finish(problem)
    assert LONGEST_PATH <= best_bound(problem).minutes <= OPTIMUM <= finish <= HORIZON


def test_a_job_moved_before_its_predecessor_or_onto_a_full_machine_is_caught():
    problem = j301_1()
    solved = solve(problem, Effort(work=5.0, holding=False))
    early = Answer(dict(solved.answer.starts) | {"32": 0}, {})
    assert "too_early" in {found.code for found in check(problem, early)}
    hasty = Answer(dict(solved.answer.starts) | {"32": OPTIMUM - 1}, {})
    assert {found.code for found in check(problem, hasty)} == {"too_early"}
    heaps = Answer(dict.fromkeys(solved.answer.starts, 0), {})
    assert "supply" in {found.code for found in check(problem, heaps)}


#: Instances of set j30 that lie beside the checkout, in groups of ten.
J30 = Path(__file__).resolve().parents[3] / "shared" / "data" / "psplib" / "j30"
GROUPS = sorted({path.stem.rsplit("_", 1)[0] for path in J30.glob("*.sm")})
#: Published optima of j301_1 to j301_10 (read).
FIRST_TEN = (43, 47, 47, 62, 39, 48, 60, 53, 49, 45)


def instances(group):
    """(text, question) of the instances of one group, in the order of their numbers."""
    paths = sorted(J30.glob(f"{group}_*.sm"), key=lambda path: int(path.stem.rsplit("_", 1)[1]))
    texts = [path.read_text("utf-8") for path in paths]
    return [(text, problem_of_psplib(text)) for text in texts]


@pytest.mark.parametrize("group", GROUPS)
def test_longest_path_and_sum_of_durations_are_those_of_every_file(group):
    """PSPLIB files: MPM-Time is the longest path over the precedence graph, horizon the sum (read)."""
    for text, problem in instances(group):
        longest = int(text.split("MPM-Time")[1].split()[5])
        horizon = int(text.split("horizon")[1].split()[1])
        assert longest_chain(problem).minutes == longest
        assert sum(task.minutes for task in problem.tasks) == horizon


@pytest.mark.parametrize("group", [group for group in GROUPS if group == "j301"])
def test_no_answer_is_better_than_the_published_optimum(group):
    for (_, problem), optimum in zip(instances(group), FIRST_TEN, strict=True):
        answer = plan_by_hand(problem)
        assert check(problem, answer) == []
        assert best_bound(problem).minutes <= optimum <= answer.finish(problem)
