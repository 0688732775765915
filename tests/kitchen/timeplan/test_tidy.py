"""Ovens stay with their bench where the times allow it."""

from dataclasses import replace

from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.problem import Oven
from kitchen.timeplan.tidy import tidied
from tests.builders.timeplan import two_benches

STARTS = {
    "1/mix": 4, "1/rest": 14, "1/bake": 21, "1/plate": 41,
    "2/mix": 14, "2/rest": 24, "2/bake": 31, "2/plate": 51,
    "plating": 0,
}  # fmt: skip


def test_each_bench_gets_the_oven_of_its_place():
    crossed = Answer(STARTS, {"1/bake": "right", "2/bake": "left"})
    tidy = tidied(two_benches(), crossed)
    assert dict(tidy.ovens) == {"1/bake": "left", "2/bake": "right"}
    assert tidy.starts == STARTS
    assert check(two_benches(), tidy) == []


def test_where_the_own_oven_is_taken_the_next_one_serves():
    problem = replace(
        two_benches(), ovens=(Oven("weak", 1, most_decicelsius=900), Oven("a", 1), Oven("b", 1))
    )
    tidy = tidied(problem, Answer(STARTS, {"1/bake": "b", "2/bake": "a"}))
    assert dict(tidy.ovens) == {"1/bake": "a", "2/bake": "b"}
