"""Plates that are ready together and one who tastes: what cannot be done is known in a moment."""

from dataclasses import replace

import pytest

from kitchen.timeplan.byhand import NoPlanByHand, one_pass, plan_by_hand
from kitchen.timeplan.fits import judge
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.problem import Problem, Task, Window
from kitchen.timeplan.tasting import plates_wait_too_long
from tests.builders.timeplan_lessons import class_of


def a_tasting(benches, minutes=4, longest=10, extra=0):
    """Benches that plate up together for five minutes, the last one ``extra`` minutes longer."""
    last = benches - 1
    tasks, windows = [], []
    for n in range(benches):
        tasks += [Task(f"{n}/plate", 5 + extra * (n == last)), Task(f"{n}/taste", minutes, assessor=True)]
        windows.append(Window(f"{n}/plate", f"{n}/taste", 0, longest))
    group = tuple(f"{n}/plate" for n in range(benches))
    return Problem(tuple(tasks), tuple(windows), together=(group,))


@pytest.mark.parametrize(
    ("benches", "extra", "late"),
    [(3, 0, False), (4, 0, True), (4, 1, True), (4, 2, False), (5, 2, True)],
)
def test_one_who_tastes_follows_as_many_plates_as_may_wait(benches, extra, late):
    problem = a_tasting(benches, extra=extra)
    assert plates_wait_too_long(problem) is late
    if late:
        with pytest.raises(NoPlanByHand, match="taster"):
            plan_by_hand(problem)
        with pytest.raises(NoPlanByHand, match="taster"):
            one_pass(problem)
    else:
        assert plan_by_hand(problem).starts


def test_benches_that_do_not_begin_together_are_not_judged():
    assert not plates_wait_too_long(replace(a_tasting(9), together=()))
    assert not plates_wait_too_long(a_tasting(4, longest=None))


def test_a_wait_that_carries_the_last_hands_is_followed_back_to_what_begins_together():
    few, many = (class_of("R01", "juniper", count, 300) for count in (3, 4))
    assert not plates_wait_too_long(problem_of(replace(few, minutes_a_plate=4), 1))
    assert plates_wait_too_long(problem_of(replace(many, minutes_a_plate=4), 1))


def test_a_class_whose_plates_cannot_all_be_tasted_is_told_so_at_once():
    lesson = replace(class_of("R01", "juniper", 12, 300), minutes_a_plate=4)
    found = judge(lesson, None)
    assert found.planned is None
    assert "plates of twelve benches in at most three waves are ready too close" in found.reasons[-1].words
