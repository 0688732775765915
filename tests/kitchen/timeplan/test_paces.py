"""Learned paces: which technique of several, extra time on top, rounded once, and their spread."""

import json
from dataclasses import replace
from datetime import date

import pytest

from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.paces import (
    LearnedPace,
    hands_minutes,
    kept_paces,
    pace_of,
    read_paces,
    spread_of,
)
from tests.builders.recipes import college_recipe
from tests.builders.timeplan_lessons import class_of

QUICHE = college_recipe("R01")


def learned(technique="lining_ring", per_mille=1300, level=QUICHE.level, timings=()):
    when = date(2027, 2, 9)
    return LearnedPace(technique, "Lining a ring", level, per_mille, 14, 4, "Marek Hazel", when, timings)


def a_step(*techniques):
    return replace(QUICHE.steps[0], techniques=techniques)


@pytest.mark.parametrize(
    ("minutes", "per_mille", "bench", "expected"),
    [(10, 1300, 1000, 13), (10, 1300, 1250, 17), (10, 800, 1000, 8), (7, 1010, 1000, 8), (1, 400, 1000, 1)],
)
def test_minutes_are_the_recipes_at_the_pace_with_extra_time_rounded_up_once(
    minutes, per_mille, bench, expected
):
    assert hands_minutes(minutes, learned(per_mille=per_mille), bench) == expected


def test_rounding_after_each_factor_would_give_another_figure():
    """11 min x 1.01 x 1.25 = 13.89, so 14; rounded in between it would be 12 x 1.25 = 15."""
    assert hands_minutes(11, learned(per_mille=1010), 1250) == 14


def test_without_a_pace_the_recipes_minutes_stand():
    assert hands_minutes(10, None) == 10
    assert hands_minutes(10, None, 1250) == 13
    assert pace_of([learned()], QUICHE, a_step("sweating")) is None


def test_of_several_techniques_the_slowest_counts():
    paces = [learned("rubbing_in", 1100), learned("lining_ring", 1300)]
    assert pace_of(paces, QUICHE, a_step("rubbing_in", "lining_ring")).per_mille == 1300
    assert pace_of(paces, QUICHE, a_step("rubbing_in", "sweating")).per_mille == 1100


def test_a_pace_of_another_level_does_not_count():
    other = next(level for level in ("foundation", "advanced") if level != QUICHE.level)
    assert pace_of([learned(level=other)], QUICHE, a_step("lining_ring")) is None


def test_the_question_has_the_learned_minutes_of_hands_and_the_stays_as_written():
    lesson = class_of("R01", "juniper", 2, 210)
    step = next(s for s in QUICHE.steps if s.position == 4)
    paced = replace(lesson, paces=(learned(step.techniques[0]),))
    before, after = problem_of(lesson), problem_of(paced)
    assert (before.task["1/4/0"].minutes, after.task["1/4/0"].minutes) == (10, 13)
    assert before.task["1/4/1"].minutes == after.task["1/4/1"].minutes == 15


def test_ten_timings_have_a_spread_and_nine_have_none():
    assert spread_of([800, 1250] * 5) == 235
    assert spread_of([800, 1250] * 4 + [1000]) is None


def test_a_tap_an_hour_late_does_not_blow_up_the_spread():
    wild = spread_of([1000] * 9 + [60_000])
    assert wild == spread_of([1000] * 9 + [4000])


def test_paces_read_back_as_they_were_kept():
    paces = (learned(timings=(1200, 1300)), learned("sweating"))
    assert read_paces(json.loads(json.dumps(kept_paces(paces)))) == paces
