"""The question refuses nonsense, and ovens know how long they take to change."""

from dataclasses import replace

import pytest

from kitchen.timeplan.problem import (
    Bake,
    Bench,
    Demonstration,
    Oven,
    Problem,
    Stay,
    Supply,
    Task,
    Window,
)
from tests.builders.timeplan import two_benches


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: Bench("1", cooks=3), "3 cooks"),
        (lambda: Bench("1", pace_per_mille=0), "pace"),
        (lambda: Stay(0, 1800), "at least a minute"),
        (lambda: Bake(()), "at least one stay"),
        (lambda: Bake((Stay(5, None),)), "begin with the oven off"),
        (lambda: Bake((Stay(5, 1800),), trays=0), "at least one tray"),
        (lambda: Oven("1", 0), "holds no tray"),
        (lambda: Oven("1", 1, least_decicelsius=900, most_decicelsius=800), "range"),
        (lambda: Supply("mixer", -1), "-1 units"),
        (lambda: Demonstration("pipe", 0), "no minute"),
        (lambda: Task("mix", -1), "-1 minutes"),
        (lambda: Task("mix", 5, hands=True), "hands of no bench"),
        (lambda: Task("bake", 5, bake=Bake((Stay(6, 1800),))), "do not add up"),
        (lambda: Task("mix", 5, uses=(("mixer", 0),)), "uses no unit"),
        (lambda: Window("a", "b", -1), "least -1"),
        (lambda: Window("a", "b", 5, 4), "over longest 4"),
        (lambda: Problem(tasks=()), "nothing to plan"),
        (lambda: Problem(tasks=(Task("a", 1), Task("a", 2))), "task a is there twice"),
        (lambda: Problem(tasks=(Task("a", 1),), windows=(Window("a", "b"),)), "window of no task"),
        (lambda: Problem(tasks=(Task("a", 1, bench="1"),)), "at no known bench"),
        (lambda: Problem(tasks=(Task("a", 1, shown_by="x"),)), "shown by nobody"),
        (lambda: Problem(tasks=(Task("a", 1, uses=(("mixer", 1),)),)), "of which nothing is known"),
        (
            lambda: Problem(tasks=(Task("a", 1, uses=(("mixer", 2),)),), supplies=(Supply("mixer", 1),)),
            "uses 2 of mixer, there are 1",
        ),
        (lambda: Problem(tasks=(Task("a", 5, bake=Bake((Stay(5, 1800),))),)), "no oven takes"),
        (lambda: Problem(tasks=(Task("a", 1),), clock_minutes=0), "at least a minute"),
        (lambda: Problem(tasks=(Task("a", 1),), together=(("b",),)), "not there"),
    ],
)
def test_nonsense_is_refused_in_words(make, words):
    with pytest.raises(ValueError, match=words):
        make()


def test_a_loop_is_named():
    tasks = (Task("a", 1), Task("b", 1), Task("c", 1))
    with pytest.raises(ValueError, match="in a loop: b, c"):
        Problem(tasks=tasks, windows=(Window("b", "c"), Window("c", "b"), Window("a", "b")))


def test_an_oven_heats_a_minute_and_cools_two_for_ten_degrees():
    oven = Oven("1", 2, heat_seconds=60, cool_seconds=120, cold_decicelsius=200)
    assert oven.heat_up_minutes(Bake((Stay(10, 1800),))) == 16
    assert oven.change_minutes(1800, 1500) == 6
    assert oven.change_minutes(1550, 1800) == 3


def test_after_a_part_with_the_oven_off_the_longer_change_counts():
    oven = Oven("1", 2, heat_seconds=60, cool_seconds=120, cold_decicelsius=200)
    dried = Bake((Stay(60, 1050), Stay(30, None)))
    assert oven.between_minutes(dried, Bake((Stay(10, 1800),))) == 16
    assert oven.between_minutes(dried, Bake((Stay(10, 300),))) == 15


def test_an_oven_takes_only_what_it_reaches():
    oven = Oven("1", 1, least_decicelsius=800, most_decicelsius=2500)
    assert oven.takes(Bake((Stay(10, 1800),)))
    assert not oven.takes(Bake((Stay(10, 1800), Stay(10, 2600))))
    assert not oven.takes(Bake((Stay(10, 1800),), trays=2))


def test_the_free_question_has_neither_waves_nor_clock():
    led = replace(
        two_benches(), together=(("1/mix", "2/mix"),), on_the_clock=frozenset({"1/mix"}), clock_minutes=5
    )
    assert led.free() == two_benches()


def test_an_oven_has_its_kinds_of_heat_and_may_or_may_not_end_off_and_shut():
    fan_only = Oven("1", 1, heats=("fan",), may_stand_off=False)
    assert fan_only.takes(Bake((Stay(10, 1800),), heat="fan"))
    assert fan_only.takes(Bake((Stay(10, 1800),)))
    assert not fan_only.takes(Bake((Stay(10, 1800),), heat="conventional"))
    assert not fan_only.takes(Bake((Stay(10, 1800), Stay(10, None)), heat="fan"))
    assert Oven("1", 1).takes(Bake((Stay(10, 1800), Stay(10, None)), heat="conventional"))
