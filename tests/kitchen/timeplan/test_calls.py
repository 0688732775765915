"""The plan in words: what the lecturer calls, in order of the clock."""

from dataclasses import replace

import pytest

from kitchen.timeplan.calls import benches_words, calls_of, ovens_words, spans
from kitchen.timeplan.lead import plan_lesson
from tests.builders.timeplan_lessons import college_lesson


@pytest.fixture(scope="module")
def calls():
    return calls_of(plan_lesson(college_lesson("main-1"), None).plan)


def test_calls_are_in_order_and_whole(calls):
    starts = [call.start for call in calls]
    assert starts == sorted(starts)
    assert calls[0].head == "Start-up"
    assert calls[-1].head == "Clear-down"
    assert sum(call.kind == "show" for call in calls) == 4


def test_benches_that_do_the_same_are_one_call(calls):
    heads = [call.head for call in calls if call.step == 5 and call.kind == "step"]
    assert heads == ["All benches: step 5"]


def test_a_variant_in_other_words_is_its_own_call(calls):
    heads = {call.head for call in calls if call.step == 7}
    assert heads == {"Benches 1 to 6: step 7", "Bench 7: step 7"}


def test_ovens_lit_together_are_one_call(calls):
    lit = [call for call in calls if call.kind == "oven"]
    assert len(lit) == 1
    assert lit[0].head == "Set to 180\xa0°C"


def test_an_oven_for_each_bench_is_one_sentence():
    calls = calls_of(plan_lesson(college_lesson("main-2"), None).plan)
    call = next(call for call in calls if call.step == 6 and call.kind == "step")
    assert ", each in an oven of its own: 180\xa0°C fan for 25 min, then" in call.points[0]
    assert call.points[1].startswith("Look for: ")


def test_benches_that_share_ovens_are_told_which():
    plan = plan_lesson(college_lesson("main-1"), None).plan
    shared = {
        step: {
            bar.where
            for bench in plan.benches
            for bar in bench.bars
            if (bar.kind, bar.step) == ("oven", step)
        }
        for step in (5, 6, 8)
    }
    for step, ovens in shared.items():
        assert len(ovens) < len(plan.benches)
        said = " ".join(" ".join(call.points) for call in calls_of(plan) if call.step == step)
        assert "of its own" not in said
        assert all(f" in {oven}: " in said for oven in ovens)


@pytest.mark.parametrize(
    ("names", "words"),
    [
        (["Oven 1", "Oven 2", "Oven 3", "Oven 7"], "Ovens 1 to 3 and 7"),
        (["Oven 1, upper deck", "Oven 1, lower deck"], "Oven 1, both decks"),
        (
            ["Oven 1, upper deck", "Oven 1, lower deck", "Oven 3, upper deck"],
            "Oven 1, both decks; Oven 3, upper deck",
        ),
        (["Oven 4", "The range"], "Oven 4 and The range"),
    ],
)
def test_ovens_are_said_shortly(names, words):
    assert ovens_words(names) == words


@pytest.mark.parametrize(
    ("names", "words"),
    [
        (["4"], "Bench 4"),
        (["1", "2"], "Benches 1 and 2"),
        (["3", "1", "2"], "Benches 1 to 3"),
        (["1", "3", "5", "6", "7"], "Benches 1, 3 and 5 to 7"),
    ],
)
def test_bench_numbers_are_said_shortly(names, words):
    assert benches_words(names) == words


def test_names_that_are_no_numbers_are_listed():
    assert spans(["A", "window"]) == "A and window"
    assert benches_words(["1", "2"], 2) == "All benches"


def test_benches_that_share_a_point_share_its_line():
    """Bench 7 has extra time, so its food comes out later; bench 6 works a variant in other words."""
    lesson = college_lesson("main-1")
    slower = replace(lesson.benches[6], pace_per_mille=1250)
    plan = plan_lesson(replace(lesson, minutes=240, benches=(*lesson.benches[:6], slower)), None).plan
    call = next(call for call in calls_of(plan) if call.step == 4 and call.kind == "step")
    assert call.minutes == 10
    assert call.points[0] == "Bench 7: 13 min at work."
    assert [point.split(":")[0] for point in call.points[1:3]] == ["Benches 1 to 5", "Bench 7"]
    assert len(call.points) == 4
