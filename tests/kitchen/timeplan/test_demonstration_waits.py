"""A wait that can no longer be filled is left out early, and nothing that can be is."""

from itertools import product

import pytest

from kitchen.timeplan.demonstration_steps import LIVE, OUT, READY, SWAPPED, TRAY, Steps
from kitchen.timeplan.demonstration_waits import Waits
from tests.kitchen.timeplan.test_demonstration_search import (
    a_random_recipe,
    a_recipe,
    a_step,
    is_legal,
    order_exists,
)


def three_steps(stay=10, filler=10, keeps=None):
    return Steps(
        a_recipe(a_step(1, 5, stay), a_step(2, filler), a_step(3, 5, after=[(1, 0, keeps), (2, 0, None)]))
    )


def test_a_wait_is_filled_by_what_stands_beside_it():
    assert Waits(three_steps(), 60).can_be(0, (LIVE, LIVE, LIVE), 20)
    assert not Waits(three_steps(filler=9), 60).can_be(0, (LIVE, LIVE, LIVE), 19)
    assert Waits(three_steps(filler=9), 60).can_be(0, (SWAPPED, LIVE, LIVE), 20)


def test_what_is_not_decided_yet_may_still_fill_it():
    steps = Steps(a_recipe(a_step(1, 10), a_step(2, 5, 10), a_step(3, 5, after=[(1, 0, None), (2, 0, None)])))
    assert Waits(steps, 60).can_be(1, (LIVE, LIVE), 10)
    assert not Waits(steps, 15).can_be(1, (LIVE, LIVE), 10)


def test_what_must_stand_between_may_not_outlast_what_keeps():
    steps = Steps(
        a_recipe(
            a_step(1, 5), a_step(2, 8, after=[(1, 0, None)]), a_step(3, 5, after=[(1, 0, 7), (2, 0, None)])
        )
    )
    assert not Waits(steps, 60).can_be(0, (LIVE, LIVE, LIVE), 18)
    assert Waits(steps, 60).can_be(0, (LIVE, TRAY, LIVE), 12)


def test_a_cooling_between_two_steps_is_part_of_the_wait():
    steps = Steps(
        a_recipe(a_step(1, 5, 4), a_step(2, 13), a_step(3, 4, 10, after=[(1, 0, None)], wait_first=True))
    )
    assert not Waits(steps, 60).can_be(0, (LIVE, LIVE, LIVE, LIVE), 22)
    assert Waits(steps, 60).can_be(0, (LIVE, LIVE, READY, LIVE), 22)


@pytest.mark.parametrize("seed", range(25))
def test_nothing_that_has_an_order_is_left_out(seed):
    steps = Steps(a_random_recipe(seed))
    waits = Waits(steps, 60)
    for ways in product((LIVE, SWAPPED, TRAY, READY, OUT), repeat=len(steps.nodes)):
        used = sum(steps.shown_minutes(index, way) for index, way in enumerate(ways))
        if used <= 60 and is_legal(steps, ways) and order_exists(steps, ways):
            assert all(
                waits.can_be(index, ways[index:], _used(steps, ways, index)) for index in range(len(ways))
            )


def _used(steps, ways, index):
    return sum(steps.shown_minutes(at, way) for at, way in enumerate(ways) if at >= index)
