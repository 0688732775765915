"""Phases of ovens and benches that are alike, without the solver."""

from dataclasses import replace

from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.model import phases_of, sorted_by_twins, twin_benches
from kitchen.timeplan.problem import Bake, Oven, Problem, Stay, Task
from tests.builders.timeplan import two_benches


def test_bakes_of_one_heat_are_one_phase_and_another_heat_begins_the_next():
    hot, cool = Bake((Stay(20, 1800),)), Bake((Stay(20, 1500),))
    tasks = (Task("a", 20, bake=hot), Task("b", 20, bake=hot), Task("c", 20, bake=cool))
    problem = Problem(tasks=tasks, ovens=(Oven("o", 2), Oven("empty", 2)))
    answer = Answer({"a": 20, "b": 30, "c": 60}, {"a": "o", "b": "o", "c": "o"})
    phases = phases_of(problem, answer)
    assert [(p.start, p.end, p.bakes) for p in phases["o"]] == [(20, 50, ("a", "b")), (60, 80, ("c",))]
    assert phases["empty"] == []


def test_bakes_that_must_be_alone_make_a_phase_for_each_start():
    shut = Bake((Stay(20, 1800),), door_shut=True)
    tasks = tuple(Task(name, 20, bake=shut) for name in "abc")
    problem = Problem(tasks=tasks, ovens=(Oven("o", 2),))
    phases = phases_of(problem, Answer({"a": 20, "b": 20, "c": 40}, dict.fromkeys("abc", "o")))
    assert [p.bakes for p in phases["o"]] == [("a", "b"), ("c",)]


def test_like_benches_are_found_and_put_in_order():
    problem = two_benches()
    assert twin_benches(problem) == [
        [[f"{b}/{part}" for part in ("mix", "rest", "bake", "plate")] for b in ("1", "2")]
    ]
    late_first = {"1/mix": 14, "1/rest": 24, "1/bake": 31, "1/plate": 51, "plating": 0,
                  "2/mix": 4, "2/rest": 14, "2/bake": 21, "2/plate": 41}  # fmt: skip
    answer = sorted_by_twins(problem, Answer(late_first, {"1/bake": "left", "2/bake": "right"}))
    assert answer.starts["1/mix"] == 4
    assert answer.ovens["1/bake"] == "right"
    assert check(problem, answer) == []


def test_a_bench_with_one_minute_more_is_no_twin():
    problem = two_benches()
    tasks = tuple(replace(t, minutes=6) if t.name == "2/plate" else t for t in problem.tasks)
    assert twin_benches(replace(problem, tasks=tasks)) == []
