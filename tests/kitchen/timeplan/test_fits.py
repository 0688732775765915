"""Does it fit, what is in the way, and ways out that were solved.

The figures of the quiche are those of the demonstration college's own check.
"""

from dataclasses import replace

import pytest

from kitchen.timeplan.class_data import ShownData
from kitchen.timeplan.fits import in_pairs, judge, step_words, ways_out, what_would_help
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.solver import Effort
from tests.builders.recipes import college_recipe
from tests.builders.timeplan_lessons import appliances_of, class_of, college_lesson, first_wish

STEADY = Effort(work=0.4)


@pytest.fixture(scope="module")
def wish():
    return judge(first_wish(), STEADY)


@pytest.fixture(scope="module")
def ways():
    return {way.kind: way for way in ways_out(first_wish(), STEADY)}


def test_the_first_wish_is_26_minutes_and_two_benches_short(wish):
    assert not wish.fits
    assert (wish.chain_minutes, wish.usable_minutes) == (161, 135)
    assert (wish.benches, wish.room_benches) == (14, 12)
    missing = {reason.code: reason.missing_minutes for reason in wish.reasons}
    assert missing == {"benches": 0, "chain": 26}


def test_the_reasons_are_whole_sentences_with_figures(wish):
    assert [reason.words for reason in wish.reasons] == [
        "Juniper Kitchen has twelve benches; 14 are wanted.",
        "Steps 1, 2, 4, 5, 6, 8 and 9 follow one another and take 161 minutes. The slot leaves 135 minutes"
        " for cooking: that alone is 26 minutes too long.",
    ]


def test_paste_ahead_and_pairs_is_found_and_solved(ways):
    way = ways["pairs+ahead"]
    assert (way.ahead, way.pairs, way.benches) == ((1, 2), True, 7)
    assert (way.chain_minutes, way.usable_minutes) == (124, 135)
    assert 130 <= way.bound_minutes <= way.finish_minutes <= 135
    assert way.words.startswith("Do steps 1 and 2 ahead and work in pairs on seven benches.")


def test_two_days_of_165_minutes_are_found_and_solved(ways):
    way = ways["sittings+longer"]
    assert (way.sittings, way.benches, way.usable_minutes) == (2, 7, 165)
    assert way.finish_minutes <= 165
    assert way.ahead == ()


def test_who_shares_a_bench_with_a_variant_works_the_variant():
    paired = in_pairs(first_wish())
    dishes = [bench.recipe.code for bench in paired.benches]
    assert sorted(dishes) == ["R01"] * 5 + ["V1", "V2"]
    assert all(len(bench.learners) == 2 for bench in paired.benches)


@pytest.mark.parametrize(("code", "bound"), [("main-1", 130), ("main-2", 128)])
def test_the_lessons_as_planned_fit_with_their_demonstrations(code, bound):
    verdict = judge(college_lesson(code), STEADY)
    assert verdict.fits, verdict.reasons
    assert verdict.reasons == ()
    assert bound <= verdict.planned.plan.bound_minutes <= verdict.planned.plan.finish_minutes
    assert ways_out(college_lesson(code), STEADY) == ()


def test_a_lesson_without_the_solver_is_judged_by_our_own_rule():
    verdict = judge(college_lesson("main-1"), None)
    assert verdict.fits
    assert verdict.planned.plan.status in ("by hand", "proved")


def test_what_the_room_lacks_is_said_and_nothing_is_planned():
    without = tuple(a for a in appliances_of("juniper") if a.kind != "oven")
    verdict = judge(class_of("R01", "juniper", 2, 210, appliances=without), None)
    assert verdict.planned is None
    assert verdict.reasons[0].code == "room_lacks"
    assert "oven (step 5)" in verdict.reasons[0].words


def test_too_few_shelves_are_named_with_their_minutes():
    """One oven of one shelf for seven tarts: 7 x 35 minutes of custard alone."""
    ovens = [a for a in appliances_of("juniper") if a.kind != "oven"]
    one = replace(appliances_of("juniper")[0], units=1)
    verdict = judge(class_of("R01", "juniper", 7, 225, appliances=(one, *ovens)), None)
    assert [reason.code for reason in verdict.reasons][0] == "ovens"
    assert verdict.reasons[0].missing_minutes > 0
    assert "shelf of the ovens" in verdict.reasons[0].words


def test_what_the_benches_wait_for_most_is_named():
    mixers = [a for a in appliances_of("saffron") if a.kind == "mixer"]
    one = tuple(a for a in appliances_of("saffron") if a not in mixers[1:])
    (queue,) = what_would_help(problem_of(class_of("R03", "saffron", 4, 210, appliances=one)))
    assert queue.words.startswith("What the benches wait for most is the mixers:")
    assert list(what_would_help(problem_of(class_of("R03", "saffron", 1, 210)))) == []


def test_a_machine_of_which_there_are_too_few_is_named():
    mixers = [a for a in appliances_of("saffron") if a.kind == "mixer"]
    one = tuple(a for a in appliances_of("saffron") if a not in mixers[1:])
    verdict = judge(class_of("R03", "saffron", 4, 180, appliances=one), None)
    assert verdict.reasons[0].words == (
        "The work at the mixers, of which there is one, ends at minute 158 at the earliest;"
        " the slot leaves 135 minutes."
    )


def test_a_step_ahead_must_keep_and_have_all_before_it_ahead():
    ways = ways_out(class_of("R07", "saffron", 4, 180), Effort(work=0.3))
    for way in ways:
        chosen = set(way.ahead)
        for step in college_recipe("R07").steps:
            for after in step.after:
                if step.position in chosen:
                    assert after.needs in chosen
                elif after.needs in chosen:
                    assert after.longest_minutes is None or after.longest_minutes >= 720
    assert any(way.ahead for way in ways)


def test_no_time_at_all_is_said():
    verdict = judge(class_of("R10", "juniper", 1, 45), None)
    assert "no_time" in {reason.code for reason in verdict.reasons}


def test_a_way_out_that_was_not_solved_would_be_caught():
    """Planted: the chain alone would promise step 1 ahead; it keeps only ten minutes."""
    lesson = replace(first_wish(), benches=first_wish().benches[:1], minutes=200)
    offered = {way.ahead for way in ways_out(lesson, None)}
    assert (1,) not in offered


def test_steps_are_listed_in_words():
    assert step_words((4,)) == "Step 4"
    assert step_words((1, 2, 4)) == "Steps 1, 2 and 4"


def test_a_demonstration_is_part_of_what_does_not_fit():
    lesson = replace(class_of("R01", "juniper", 2, 210), shown=(ShownData(1, 30),))
    verdict = judge(lesson, None)
    assert not verdict.fits
    assert verdict.reasons[0].code == "start"


def test_no_way_changes_more_than_is_needed():
    """Twelve benches stand in the room: pairs would change the class for nothing."""
    kinds = {way.kind for way in ways_out(class_of("R01", "juniper", 12, 180), None)}
    assert kinds == {"ahead", "longer"}
