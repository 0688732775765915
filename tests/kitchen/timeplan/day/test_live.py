"""A running class from its deeds: what has begun, ended, was lost, and what nobody tapped."""

import pytest

from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.day.live import Deed, live, standing
from tests.builders.day import as_planned
from tests.builders.timeplan import two_benches


@pytest.fixture
def problem():
    return two_benches()


@pytest.fixture
def plan(problem):
    return plan_by_hand(problem)


def told(problem, plan, now, *deeds):
    numbered = [Deed(n, what, minute, *more) for n, (what, minute, *more) in enumerate(deeds, 1)]
    return live(problem, plan, numbered, now)


def test_hands_end_with_a_tap_and_rest_ends_by_the_clock(problem, plan):
    state = told(problem, plan, 25, ("started", 0, "1/mix"), ("done", 14, "1/mix"))
    assert (state.begun["1/mix"], state.ended["1/mix"]) == (0, 14)
    assert (state.begun["1/rest"], state.ended["1/rest"]) == (14, 19)
    assert told(problem, plan, 18, ("done", 14, "1/mix")).is_running("1/rest")


def test_hands_that_nobody_ended_are_still_at_work(problem, plan):
    state = told(problem, plan, 40, ("started", 0, "1/mix"))
    assert state.is_running("1/mix")
    assert state.expected_end("1/mix") == 40


def test_five_minutes_more_make_a_step_longer_and_add_up(problem, plan):
    more = ("later", 5, "1/mix", "", "", 5)
    state = told(problem, plan, 6, ("started", 0, "1/mix"), more, more)
    assert state.expected_end("1/mix") == 20


def test_starting_a_step_ends_what_comes_before_it_and_says_that_it_is_assumed(problem, plan):
    state = told(problem, plan, 30, ("started", 0, "1/mix"), ("started", 22, "1/bake"))
    assert state.ended["1/mix"] == 17
    assert "1/mix" in state.assumed
    assert state.ended["1/rest"] == 22
    assert "1/bake" not in state.assumed


def test_a_deed_that_was_undone_counts_as_never_tapped_and_an_undone_undo_restores(problem, plan):
    start, undo = Deed(1, "started", 0, "1/mix"), Deed(2, "undo", 1, undoes=1)
    again = Deed(3, "undo", 2, undoes=2)
    assert standing([start, undo]) == []
    assert standing([undo, start, again]) == [start]
    assert "1/mix" not in live(problem, plan, [start, undo], 5).begun


def test_deeds_count_in_the_order_of_their_number_and_not_of_their_clock(problem, plan):
    late = Deed(1, "done", 12, "1/mix")
    early = Deed(2, "started", 3, "1/mix")
    again = Deed(3, "started", 12, "1/mix")
    assert live(problem, plan, [again, early, late], 20).is_running("1/mix")


def test_a_start_that_is_told_late_says_when_it_began_and_ends_nothing_else(problem, plan):
    """One tablet was without a network: its "started" of the first step arrives after all that followed."""
    taps = [("done", 10, "1/mix"), ("started", 17, "1/bake"), ("started", 1, "1/mix")]
    state = told(problem, plan, 18, *taps)
    assert (state.begun["1/mix"], state.ended["1/mix"]) == (1, 10)
    assert state.is_running("1/bake") and state.begun["1/bake"] == 17
    in_time = told(problem, plan, 18, taps[2], taps[0], taps[1])
    assert (in_time.begun, in_time.ended) == (state.begun, state.ended)


def test_a_step_that_has_not_begun_begins_five_minutes_later_and_lasts_as_long(problem, plan):
    more = ("later", 1, "1/bake", "", "", 5)
    state = told(problem, plan, 3, ("started", 0, "1/mix"), more, more)
    assert state.not_before["1/bake"] == plan.starts["1/bake"] + 10
    assert state.lasts("1/bake") == problem.task["1/bake"].minutes


def test_food_in_an_oven_that_fails_has_the_rest_of_its_minutes_before_it(problem, plan):
    oven = plan.ovens["1/bake"]
    state = told(problem, plan, 40, ("started", 20, "1/bake", "", oven), ("failed", 32, "", "", oven))
    assert "1/bake" not in state.begun
    assert state.rescued == {"1/bake"}
    assert (state.lasts("1/bake"), state.not_before["1/bake"]) == (8, 32)
    moved = told(
        problem,
        plan,
        40,
        ("started", 20, "1/bake", "", oven),
        ("failed", 32, "", "", oven),
        ("started", 34, "1/bake", "", "right"),
    )
    assert (moved.oven_of("1/bake"), moved.expected_end("1/bake"), moved.rescued) == ("right", 42, set())


def test_a_bench_that_starts_again_does_the_step_and_all_that_follows_once_more(problem, plan):
    deeds = [("done", 10, "1/mix"), ("started", 17, "1/bake"), ("again", 20, "1/rest", "1")]
    state = told(problem, plan, 21, *deeds)
    assert "1/mix" in state.ended
    assert not {"1/rest", "1/bake", "1/plate"} & state.begun.keys()
    assert state.not_before["1/bake"] == 20
    whole = told(problem, plan, 21, *deeds[:2], ("again", 20, "", "1"))
    assert "1/mix" not in whole.begun


def test_a_bench_is_left_out_when_its_last_cook_is_away(problem, plan):
    assert told(problem, plan, 3, ("absent", 2, "", "1")).gone == {"1"}


def test_a_deed_of_a_step_that_the_plan_does_not_know_is_left_out(problem, plan):
    assert told(problem, plan, 3, ("started", 2, "9/mix")).begun == {}


def test_a_class_that_goes_to_plan_stands_where_the_plan_says(problem, plan):
    for now in range(0, 70, 5):
        state = live(problem, plan, as_planned(problem, plan, now), now)
        for name, start in state.begun.items():
            assert start == plan.starts[name], name
        assert not state.assumed
