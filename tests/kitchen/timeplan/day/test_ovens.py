"""The ovens and the demonstration on the page of the day."""

import pytest

from kitchen.timeplan.day.live import Deed, live
from kitchen.timeplan.day.ovens import oven_rows, show_row
from kitchen.timeplan.day.told import Told
from kitchen.timeplan.lead import plan_lesson
from tests.builders.day import as_planned
from tests.builders.timeplan_lessons import college_lesson


@pytest.fixture(scope="module")
def planned():
    return plan_lesson(college_lesson("main-2"), None)


def at(planned, now, *deeds):
    taps = as_planned(planned.problem, planned.solved.answer, now)
    more = [Deed(len(taps) + n, *deed) for n, deed in enumerate(deeds, 1)]
    names = {oven.code: oven.name for oven in planned.plan.ovens}
    return Told(planned.plan, live(planned.problem, planned.solved.answer, [*taps, *more], now), names)


def test_an_oven_says_who_is_in_it_at_which_heat_and_how_long(planned):
    bake = next(t for t in planned.problem.tasks if t.bake)
    start, oven = planned.solved.answer.starts[bake.name], planned.solved.answer.ovens[bake.name]
    (row,) = [r for r in oven_rows(at(planned, start + 3)) if r.code == oven]
    assert row.state == "doing"
    assert f"{bake.bake.begins_at // 10}\xa0°C" in row.words
    assert row.minutes == bake.minutes - 3
    assert [tap.what for tap in row.taps] == ["failed"]


def test_an_oven_left_too_long_is_late_and_a_failed_one_is_stopped_without_a_button(planned):
    bake = next(t for t in planned.problem.tasks if t.bake)
    start, oven = planned.solved.answer.starts[bake.name], planned.solved.answer.ovens[bake.name]
    started = [Deed(1, "started", start, bake.name, oven=oven)]
    names = {o.code: o.name for o in planned.plan.ovens}
    state = live(planned.problem, planned.solved.answer, started, start + bake.minutes + 5)
    (late,) = [r for r in oven_rows(Told(planned.plan, state, names)) if r.code == oven]
    assert (late.state, late.minutes, late.counted) == ("late", -5, "over")
    (out,) = [r for r in oven_rows(at(planned, start, ("failed", start, "", "", oven))) if r.code == oven]
    assert (out.state, out.taps) == ("stopped", ())
    assert (out.state_words, out.words[:3]) == ("Failed", "at ")


def test_the_demonstration_that_runs_or_comes_next_is_shown(planned):
    if not planned.problem.demonstrations:
        pytest.fail("The lesson of this test has lost its demonstrations.")
    first = min(planned.problem.demonstrations, key=lambda d: planned.solved.answer.starts[d.name])
    start = planned.solved.answer.starts[first.name]
    assert show_row(at(planned, start - 1)).taps[0].what == "started"
    running = show_row(at(planned, start + 1))
    assert (running.state_words, running.taps[0].what) == ("Everybody watches", "done")
    assert show_row(at(planned, planned.plan.finish_minutes + 5)) is None
