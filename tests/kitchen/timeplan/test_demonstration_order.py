"""The order of what is shown: no gap, no wait cut short, nothing past its time."""

from kitchen.timeplan.demonstration_order import in_order
from kitchen.timeplan.demonstration_steps import LIVE, READY, SWAPPED, TRAY, Steps
from tests.kitchen.timeplan.test_demonstration_search import a_recipe, a_step


def test_a_wait_is_filled_by_another_step():
    steps = Steps(a_recipe(a_step(1, 5, 10), a_step(2, 10), a_step(3, 5, after=[(1, 0, None), (2, 0, None)])))
    assert in_order(steps, (LIVE, LIVE, LIVE))[:2] == ((0, 1, 2), True)


def test_a_wait_that_nothing_fills_has_no_order():
    steps = Steps(a_recipe(a_step(1, 5, 10), a_step(2, 9), a_step(3, 5, after=[(1, 0, None), (2, 0, None)])))
    assert in_order(steps, (LIVE, LIVE, LIVE))[:2] == (None, True)
    assert in_order(steps, (SWAPPED, LIVE, LIVE))[:2] == ((0, 1, 2), True)


def test_what_does_not_keep_is_taken_up_in_time():
    steps = Steps(a_recipe(a_step(1, 5), a_step(2, 10), a_step(3, 5, after=[(1, 0, 3), (2, 0, None)])))
    assert in_order(steps, (LIVE, LIVE, LIVE))[:2] == ((1, 0, 2), True)


def test_cooling_begins_at_once_and_needs_no_hands():
    steps = Steps(
        a_recipe(a_step(1, 5), a_step(2, 12), a_step(3, 4, 10, after=[(1, 0, None)], wait_first=True))
    )
    assert in_order(steps, (LIVE, LIVE, LIVE, LIVE))[:2] == ((0, 1, 3), True)


def test_a_tray_stands_where_its_step_stands():
    steps = Steps(
        a_recipe(a_step(1, 5), a_step(2, 3, 20, [(1, 0, None)]), a_step(3, 5, after=[(2, 0, None)]))
    )
    assert in_order(steps, (LIVE, TRAY, LIVE))[:2] == ((0, 1, 2), True)
    assert in_order(steps, (LIVE, READY, LIVE))[:2] == ((0, 2), True)
