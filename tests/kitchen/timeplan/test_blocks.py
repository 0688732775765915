"""Blocks: what keeps its distance is placed at once."""

from dataclasses import replace

from kitchen.timeplan.blocks import ways_to_block
from kitchen.timeplan.problem import Problem, Task, Window
from tests.builders.timeplan import two_benches


def test_a_fixed_distance_joins_two_tasks():
    first = next(ways_to_block(two_benches()))
    assert (("1/mix", 0), ("1/rest", 10)) in {block.members for block in first}


def test_a_wave_joins_its_benches():
    led = replace(two_benches(), together=(("1/mix", "2/mix"),))
    first = next(ways_to_block(led))
    assert any({"1/mix", "1/rest", "2/mix", "2/rest"} == dict(b.members).keys() for b in first)


def test_distances_that_contradict_one_another_leave_the_waves():
    tasks = (Task("a", 5), Task("b", 5), Task("c", 5))
    windows = (Window("a", "b", 0, 0), Window("b", "c", 0, 0), Window("a", "c", 0, 0))
    blocks = list(ways_to_block(Problem(tasks, windows)))
    assert len(blocks) == 1
    assert all(len(block.members) == 1 for block in blocks[0])
