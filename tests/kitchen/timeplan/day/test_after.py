"""Planned against real, by table and by hand: medians, lateness, what the day teaches."""

import pytest

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.day.after import Pace, Timed, kept_words, median, paces_of, timed, untimed
from kitchen.timeplan.day.live import Deed, live
from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.problem import Bench, Pause, Problem, Task
from tests.builders.timeplan_lessons import college_lesson


@pytest.mark.parametrize(
    ("values", "middle"), [([3], 3), ([9, 15, 12, 12, 14], 12), ([4, 1, 3, 2], 2), ([5, 5], 5)]
)
def test_the_median_is_one_that_happened(values, middle):
    assert median(values) == middle


def test_there_is_no_median_of_nothing():
    with pytest.raises(ValueError, match="nothing"):
        median([])


def test_a_pace_is_the_median_share_over_all_timed_steps_of_a_technique():
    found = [Timed(str(n), 3, 10, real, 0) for n, real in enumerate((9, 12, 12, 14, 15))]
    found.append(Timed("1", 4, 10, 20, 0))
    paces = paces_of(found, {3: ("sweating",), 4: ("lining",)}, "foundation")
    assert paces == (
        Pace("lining", "foundation", (2000,)),
        Pace("sweating", "foundation", (900, 1200, 1200, 1400, 1500)),
    )
    assert [(pace.per_mille, pace.count) for pace in paces] == [(2000, 1), (1200, 5)]
    assert [pace.is_thin for pace in paces] == [True, False]


def test_a_pace_is_of_the_recipes_minutes_and_never_of_a_pace_learned_before():
    """13 planned at 1.3 are 10 in the recipe; 12 real minutes teach 1.2."""
    found = Timed("1", 4, 13, 12, 0, written=10)
    assert paces_of([found], {4: ("lining",)}, "foundation")[0].per_mille == 1200


def test_what_stands_is_said_with_what_it_rests_on():
    words = kept_words(1250, 14, 4)
    assert words == "Kept at this level: 1.25 × the recipe’s minutes, from 14 timings in four lessons."


def test_only_what_was_tapped_at_both_ends_is_timed():
    planned = plan_lesson(college_lesson("main-2"), None)
    task = next(t for t in planned.problem.tasks if t.hands and not planned.problem.windows_before[t.name])
    tapped = [Deed(1, "started", 5, task.name), Deed(2, "done", 17, task.name)]
    state = live(planned.problem, planned.solved.answer, tapped, 20)
    (one,) = timed(state, planned.solved.answer.starts)
    assert (one.planned, one.real) == (task.minutes, 12)
    assert one.late == 5 - planned.solved.answer.starts[task.name]
    only_done = live(planned.problem, planned.solved.answer, tapped[1:], 20)
    assert timed(only_done, {}) == ()
    assert untimed(only_done) == untimed(state) + 1


@pytest.mark.parametrize(("begun", "done", "real"), [(5, 5, None), (5, 17, 12), (5, 200, None)])
def test_a_slip_of_the_finger_and_a_forgotten_tap_are_no_timings(begun, done, real):
    planned = plan_lesson(college_lesson("main-2"), None)
    task = next(t for t in planned.problem.tasks if t.hands and not planned.problem.windows_before[t.name])
    taps = [Deed(1, "started", begun, task.name), Deed(2, "done", done, task.name)]
    found = timed(live(planned.problem, planned.solved.answer, taps, 210), {})
    assert [each.real for each in found] == ([real] if real else [])


def test_minutes_of_a_break_are_not_work():
    """Ten minutes of work with a break of twenty in it: thirty by the clock."""
    work = Task("1/1/0", 10, "1", hands=True, step=1)
    problem = Problem((work,), (), (Bench("1"),), breaks=(Pause(12, 20),))
    taps = [Deed(1, "started", 5, "1/1/0"), Deed(2, "done", 35, "1/1/0")]
    (one,) = timed(live(problem, Answer({"1/1/0": 0}, {}), taps, 40), {})
    assert one.real == 10
