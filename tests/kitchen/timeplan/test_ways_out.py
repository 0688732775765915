"""Ways out that were solved: the cheapest sets of changes, none needless, none a proof forbids."""

from dataclasses import replace

import pytest

from kitchen.timeplan.effort import Effort
from kitchen.timeplan.fits import judge
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.ways_out import COST, in_pairs, making, ways_out
from tests.builders.recipes import college_recipe
from tests.builders.timeplan_lessons import appliances_of, class_of, college_lesson, first_wish

STEADY = Effort(work=0.4)


@pytest.fixture(scope="module")
def ways():
    return {way.kind: way for way in ways_out(first_wish(), STEADY)}


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


def test_two_days_are_offered_only_when_both_of_them_were_planned():
    """Planted: all of the second day are far slower than those of the first."""
    whole = replace(first_wish(), benches=first_wish().benches[:2], room_benches=1, minutes=240)
    first, second = whole.benches
    slower = replace(whole, benches=(first, replace(second, pace_per_mille=3000)))
    assert 2 in {way.sittings for way in ways_out(whole, None)}
    assert 2 not in {way.sittings for way in ways_out(slower, None)}


def test_who_shares_a_bench_with_a_variant_works_the_variant():
    paired = in_pairs(first_wish())
    dishes = [bench.recipe.code for bench in paired.benches]
    assert sorted(dishes) == ["R01"] * 5 + ["V1", "V2"]
    assert all(len(bench.learners) == 2 for bench in paired.benches)


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


def test_a_way_out_that_was_not_solved_would_be_caught():
    """Planted: the chain alone would promise step 1 ahead; it keeps only ten minutes."""
    lesson = replace(first_wish(), benches=first_wish().benches[:1], minutes=200)
    offered = {way.ahead for way in ways_out(lesson, None)}
    assert (1,) not in offered


def test_no_way_changes_more_than_is_needed():
    """Twelve benches stand in the room: pairs would change the class for nothing."""
    kinds = {way.kind for way in ways_out(class_of("R01", "juniper", 12, 180), None)}
    assert kinds == {"ahead", "longer"}


@pytest.mark.parametrize("code", ["main-1", "main-2"])
def test_what_fits_needs_no_way_out(code):
    assert ways_out(college_lesson(code), STEADY) == ()


def few_shelves(minutes=225):
    """Seven tarts and one oven of two shelves."""
    others = tuple(each for each in appliances_of("juniper") if each.kind != "oven")
    one = replace(appliances_of("juniper")[0], units=2)
    return class_of("R01", "juniper", 7, minutes, appliances=(one, *others))


def test_where_shelves_are_short_one_more_oven_is_offered_and_solved():
    lesson = few_shelves(270)
    assert not judge(lesson, None).fits
    way = next(way for way in ways_out(lesson, STEADY) if way.kinds == {"oven"})
    assert way.words.startswith("Have one more oven. Planned: ")
    assert way.finish_minutes <= way.usable_minutes == lesson.usable_minutes


def test_somebody_beside_the_lecturer_lifts_the_turns_at_supervised_steps():
    lesson = class_of("R02", "saffron", 4, 240)
    assert any(task.lecturer for task in problem_of(lesson).tasks)
    assert not any(task.lecturer for task in problem_of(replace(lesson, supervisors=2)).tasks)


def test_ways_come_cheapest_first_and_no_way_holds_another():
    ways = ways_out(few_shelves(), STEADY)
    kinds = [way.kinds for way in ways]
    assert len(ways) > 1
    assert not any(a < b for a in kinds for b in kinds)
    costs = [sum(COST[kind] for kind in way.kinds if kind not in ("ahead", "longer")) for way in ways]
    assert costs[0] == min(costs)


def test_more_ahead_and_a_longer_slot_are_combined_where_neither_is_enough():
    lesson = class_of("R01", "juniper", 2, 120)
    ways = {way.kind: way for way in ways_out(lesson, STEADY)}
    assert "ahead+longer" in ways
    way = ways["ahead+longer"]
    assert way.ahead and way.usable_minutes > lesson.usable_minutes
    assert way.finish_minutes <= way.usable_minutes


def test_without_the_break_or_with_nothing_kept_free_is_offered_where_that_is_enough():
    lesson = college_lesson("main-1")
    tight = replace(lesson, break_after=75, break_minutes=15, contingency_minutes=10)
    kinds = {way.kind: way for way in ways_out(tight, None)}
    assert any("no_break" in way.kinds or "no_contingency" in way.kinds for way in kinds.values())
    for way in kinds.values():
        assert way.finish_minutes <= way.usable_minutes


def eclairs(minutes, portions=None, plates=0):
    """Four benches of éclairs; piping, filling and dipping take longer for more of them."""
    return making(replace(class_of("R03", "juniper", 4, minutes), plates=plates), portions or 12)


def test_fewer_portions_a_bench_are_offered_where_the_minutes_grow_with_them():
    lesson = next(each for minutes in range(240, 100, -5) if not judge(each := eclairs(minutes), None).fits)
    way = next(way for way in ways_out(lesson, STEADY) if "fewer" in way.kinds)
    assert (way.kinds, way.portions) == ({"fewer"}, 6)
    assert way.words.startswith("Make 6 portions a bench in place of 12. Planned: ")
    assert judge(making(lesson, 6), STEADY).fits and not judge(making(lesson, 9), STEADY).fits
    assert way.finish_minutes <= way.usable_minutes == lesson.usable_minutes


def test_no_fewer_portions_than_the_plates_that_were_asked_for():
    lesson = next(each for minutes in range(240, 100, -5) if not judge(each := eclairs(minutes), None).fits)
    asked = replace(lesson, plates=11)
    assert not any("fewer" in way.kinds for way in ways_out(asked, STEADY))


def test_where_no_minute_grows_with_the_portions_fewer_are_no_way_out():
    genoise = class_of("R04", "juniper", 4, 120)
    assert not any("fewer" in way.kinds for way in ways_out(genoise, None))


def test_twice_the_portions_take_the_bench_longer():
    assert judge(eclairs(240, 24), None).chain_minutes > judge(eclairs(240), None).chain_minutes


def test_a_pair_with_one_under_18_is_still_stood_beside_and_makes_what_its_benches_made():
    lesson = eclairs(240, 8)
    young = replace(lesson, benches=(replace(lesson.benches[0], under_18=True), *lesson.benches[1:]))
    assert [(each.under_18, each.portions) for each in in_pairs(young).benches] == [(True, 8), (False, 8)]


def test_where_plates_are_marked_nobody_is_put_into_a_pair():
    """An assessed piece is one learner's own; the same class at practice is offered pairs."""
    assessed = replace(first_wish(), minutes_a_plate=2)
    assert any(way.pairs for way in ways_out(first_wish(), None))
    assert not any(way.pairs for way in ways_out(assessed, None))
