"""PSPLIB j301_1 through the same question, solver and check as a class.

Source: PSPLIB, single-mode set j30, instance j301_1: optimum 43 (published table of optima),
longest path 38 (MPM-time in the file), horizon 158 (sum of durations). Read and run.
"""

import re

from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.bounds import best_bound, longest_chain
from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.solver import Effort, solve
from tests.builders.timeplan import project

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
    heaps = Answer(dict.fromkeys(solved.answer.starts, 0), {})
    assert "supply" in {found.code for found in check(problem, heaps)}
