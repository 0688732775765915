"""Any answer is checked without the solver; every rule has an answer that breaks it."""

from dataclasses import replace

import pytest

from kitchen.timeplan.answer import Answer, check, holding_minutes, minutes_over
from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.problem import Bake, Demonstration, Oven, Pause, Problem, Stay, Task
from tests.builders.timeplan import two_benches

LEGAL = {
    "1/mix": 4, "1/rest": 14, "1/bake": 21, "1/plate": 41,
    "2/mix": 14, "2/rest": 24, "2/bake": 31, "2/plate": 51,
    "plating": 0,
}  # fmt: skip
OVENS = {"1/bake": "left", "2/bake": "right"}


def codes(problem, starts, ovens=OVENS):
    return {found.code for found in check(problem, Answer(starts, ovens))}


def test_a_legal_answer_breaks_nothing():
    assert check(two_benches(), Answer(LEGAL, OVENS)) == []


@pytest.mark.parametrize(
    ("moved", "code"),
    [
        ({"1/rest": 13}, "too_early"),
        ({"1/bake": 20}, "too_soon"),
        ({"1/bake": 30, "1/plate": 56}, "too_late"),
        ({"plating": 38}, "not_shown"),
        ({"2/mix": 4, "2/rest": 14, "2/bake": 21}, "supply"),
        ({"2/plate": 43}, "lecturer"),
        ({"2/plate": 43}, "assessor"),
        ({"1/plate": 2, "plating": 5}, "hands"),
        ({"1/mix": -1}, "before_start"),
    ],
)
def test_a_moved_start_is_caught(moved, code):
    assert code in codes(two_benches(), LEGAL | moved)


def test_what_is_missing_is_said_first():
    starts = {name: start for name, start in LEGAL.items() if name != "1/rest"}
    assert codes(two_benches(), starts) == {"no_start"}
    assert codes(two_benches(), LEGAL, {"1/bake": "left"}) == {"no_oven"}


def test_two_trays_in_an_oven_for_one_are_caught():
    assert codes(two_benches(), LEGAL, {"1/bake": "left", "2/bake": "left"}) == {"trays"}


def test_waves_and_clock_are_checked():
    led = replace(
        two_benches(), together=(("1/mix", "2/mix"),), on_the_clock=frozenset({"1/mix"}), clock_minutes=5
    )
    assert codes(led, LEGAL) == {"wave", "clock"}


def oven_question(first: Bake, second: Bake, trays: int = 2, heat: int = 60) -> Problem:
    tasks = (Task("a", first.minutes, bake=first), Task("b", second.minutes, bake=second))
    return Problem(tasks=tasks, ovens=(Oven("o", trays, heat_seconds=heat, most_decicelsius=2000),))


HOT, COOLER = Bake((Stay(20, 1800),)), Bake((Stay(20, 1500),))
SHUT = Bake((Stay(20, 1800),), door_shut=True)
IN_O = {"a": "o", "b": "o"}


@pytest.mark.parametrize(
    ("first", "second", "starts", "code"),
    [
        (HOT, HOT, {"a": 15, "b": 16}, "cold_oven"),
        (HOT, COOLER, {"a": 20, "b": 45}, "change"),
        (HOT, COOLER, {"a": 20, "b": 46}, None),
        (HOT, COOLER, {"a": 20, "b": 30}, "two_temperatures"),
        (replace(HOT, heat="fan"), replace(HOT, heat="conventional"), {"a": 20, "b": 30}, "two_heats"),
        (replace(HOT, heat="fan"), replace(HOT, heat="fan"), {"a": 20, "b": 30}, None),
        (HOT, HOT, {"a": 20, "b": 30}, None),
        (SHUT, HOT, {"a": 20, "b": 30}, "door"),
        (SHUT, SHUT, {"a": 20, "b": 20}, None),
        (SHUT, SHUT, {"a": 20, "b": 40}, None),
    ],
)
def test_one_oven_keeps_its_heat_and_its_door(first, second, starts, code):
    assert codes(oven_question(first, second), starts, IN_O) == ({code} if code else set())


def test_an_oven_that_does_not_reach_the_heat_is_caught():
    problem = oven_question(HOT, HOT)
    weak = replace(problem, ovens=(*problem.ovens, Oven("weak", 2, most_decicelsius=1000)))
    assert "oven_range" in codes(weak, {"a": 20, "b": 20}, {"a": "weak", "b": "o"})


def test_words_name_what_breaks_with_its_minutes():
    words = [found.words for found in check(two_benches(), Answer(LEGAL | {"1/bake": 20}, OVENS))]
    assert words == ["bake, bench 1 follows 1/rest after 1 min; at least 2 min."]


def test_minutes_over_and_holding_are_counted():
    answer = Answer(LEGAL, OVENS)
    assert answer.finish(two_benches()) == 56
    assert minutes_over(two_benches(), answer) == 0
    assert minutes_over(replace(two_benches(), usable_minutes=50), answer) == 6
    assert holding_minutes(two_benches(), answer) == 0


def test_demonstrations_keep_their_order_where_that_is_asked_for():
    tasks = (Task("a", 5),)
    shows = (Demonstration("first", 5), Demonstration("second", 5))
    problem = Problem(tasks, demonstrations=shows)
    turned = {"a": 0, "first": 10, "second": 0}
    assert codes(problem, turned, {}) == set()
    assert codes(replace(problem, shows_in_order=True), turned, {}) == {"show_order"}


def test_nothing_is_done_by_people_in_a_break_and_food_may_bake_through_it():
    answer = plan_by_hand(two_benches())
    at = answer.starts
    for name in ("1/mix", "1/plate", "plating"):
        problem = replace(two_benches(), breaks=(Pause(at[name] + 1, 2),))
        words = [found.words for found in check(problem, answer) if found.code == "break"]
        assert words and "falls into the break" in words[0]
    alone = replace(two_benches(), breaks=(Pause(at["1/bake"] + 1, 2),))
    assert not any("bake" in found.words for found in check(alone, answer))
