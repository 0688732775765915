"""An own order is judged by the plan's own check, restricted to its bench."""

from dataclasses import replace

import pytest

from curriculum.wording import clock_minutes, temperature
from kitchen.timeplan.answer import check
from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.own_order import judging
from kitchen.timeplan.own_order.judging import around, bench_problem, judged
from kitchen.timeplan.own_order.written import CleanLine, StepLine, WrittenOrder
from kitchen.timeplan.pins.data import PinData
from kitchen.timeplan.plan_answer import answer_of
from tests.builders.timeplan_lessons import class_of, college_lesson

LESSON = college_lesson("main-1")
PLAN = plan_lesson(LESSON, None).plan
CLASS = around(LESSON, PLAN)
CLEAN = (CleanLine("09:15", "1", "Wipe"),)


def first_minutes(bench):
    """When the plan begins each step of a bench."""
    first = {}
    for bar in sorted(bench.bars, key=lambda bar: bar.start):
        first.setdefault(bar.step, bar.start)
    return first


def as_planned(bench="1", **moved):
    """The plan's own times written by a learner; ``step_3=-10`` moves a step."""
    plan = next(each for each in PLAN.benches if each.name == bench)
    lines = [
        StepLine(step, clock_minutes(at + moved.get(f"step_{step}", 0)))
        for step, at in first_minutes(plan).items()
    ]
    return WrittenOrder(tuple(lines))


def codes(found):
    return {each.code for each in found.breaks}


@pytest.mark.parametrize("bench", [each.name for each in PLAN.benches])
def test_the_plans_own_times_break_nothing(bench):
    found = judged(CLASS, bench, as_planned(bench))
    assert (found.breaks, found.troubles, found.missing, found.unlooked) == ((), (), (), "")


def test_a_hold_that_breaks_is_said_with_the_figure_and_the_limit():
    found = judged(CLASS, "1", as_planned(step_6=40, step_8=40, step_9=40))
    words = [each.words for each in found.breaks if each.code == "too_late"]
    assert words == ["Step 6 follows step 5 after 41 min; at most 15 min."]


def test_a_step_before_the_end_of_what_it_needs_is_said():
    found = judged(CLASS, "1", as_planned(step_5=-10))
    assert "too_early" in codes(found)
    assert {4, 5} <= {step for each in found.breaks for step in each.steps}


def test_a_step_before_its_demonstration_is_said_without_saying_when_that_is():
    shown = {show.step: show.start + show.minutes for show in PLAN.shows}
    found = judged(CLASS, "1", as_planned(step_8=-30))
    words = [each.words for each in found.breaks if each.code == "not_shown"]
    assert words == ["Step 8 begins at 09:45, before its demonstration has ended."]
    assert clock_minutes(shown[8]) not in words[0]


def test_an_oven_that_is_cold_is_said_in_minutes_and_not_when_it_is_hot():
    found = judged(CLASS, "1", as_planned(step_5=-30))
    words = next(each.words for each in found.breaks if each.code == "cold_oven")
    assert words.startswith("Step 5 goes in at 09:20:")
    assert words.endswith(f"needs 13 min from cold to {temperature(1800)} and gets 5 min.")


def test_two_hands_too_many_name_the_steps():
    found = judged(CLASS, "1", as_planned(step_3=-10))
    hands = next(each for each in found.breaks if each.code == "hands")
    assert hands.steps == (3, 4, 7)
    assert "step 3, step 4 and step 7 at once" in hands.words


def test_hands_too_many_at_two_times_are_said_twice():
    order = replace(
        as_planned(),
        cleaning=(CleanLine("10:00", "10", "Bowls"), CleanLine("09:36", "2", "Bench")),
    )
    found = [each.words[:8] for each in judged(CLASS, "1", order).breaks if each.code == "hands"]
    assert found == ["At 09:36", "At 10:00"]


def test_an_order_without_a_time_that_can_be_used_is_not_called_one_in_which_nothing_breaks():
    nothing = judged(CLASS, "1", WrittenOrder((StepLine(3, "25:99"),)))
    assert not nothing.any_timed
    assert judged(CLASS, "1", as_planned()).any_timed


def test_cleaning_takes_hands_like_a_step():
    order = replace(as_planned(), cleaning=(CleanLine("10:00", "10", "Bowls"),))
    assert codes(judged(CLASS, "1", order)) == {"hands"}


def test_a_step_that_ends_after_cooking_has_to_end_is_said():
    found = judged(CLASS, "1", as_planned(step_9=5))
    assert [each.words for each in found.breaks] == ["Step 9 ends at 11:31, 1 min after cooking has to end."]


def test_steps_without_a_time_are_named_and_the_others_are_judged():
    order = as_planned(step_6=40)
    order = replace(order, steps=tuple(line for line in order.steps if line.step not in (8, 9)))
    found = judged(CLASS, "1", order)
    assert found.missing == (8, 9)
    assert codes(found) == {"too_late"}


@pytest.mark.parametrize(
    ("typed", "says"), [("25:99", "“25:99”"), ("08:00", "“08:00”"), ("11:30", "“11:30”")]
)
def test_a_time_that_cannot_be_used_is_named_at_its_field_and_left_out(typed, says):
    order = as_planned()
    order = replace(order, steps=(*order.steps[:-1], replace(order.steps[-1], at=typed)))
    found = judged(CLASS, "1", order)
    assert [trouble.field for trouble in found.troubles] == [f"at_{order.steps[-1].step}"]
    assert says in found.troubles[0].words
    assert found.breaks == ()
    assert found.missing == ()


def test_nothing_written_breaks_nothing_and_misses_every_step():
    found = judged(CLASS, "1", WrittenOrder())
    assert found.breaks == ()
    assert found.missing == tuple(step.position for step in LESSON.steps_of(LESSON.benches[0]))


def test_missing_cleaning_and_contingency_are_remarks_and_no_breaks():
    bare = judged(CLASS, "1", as_planned())
    assert "No cleaning has a time and its minutes yet." in bare.remarks
    assert "Nothing is written for when something goes wrong." in bare.remarks
    whole = judged(CLASS, "1", replace(as_planned(), cleaning=CLEAN, contingency="If it shrinks …"))
    assert not [words for words in whole.remarks if "cleaning" in words.lower() or "wrong" in words]


def test_a_long_wait_with_nothing_in_it_is_a_remark_until_it_is_filled():
    words = "Nothing is written for the 35 min in which the food of step 8 stays."
    assert words in judged(CLASS, "1", as_planned()).remarks
    order = as_planned()
    filled = tuple(replace(line, meanwhile="Wash up") if line.step == 8 else line for line in order.steps)
    assert words not in judged(CLASS, "1", replace(order, steps=filled)).remarks


def test_a_long_wait_is_filled_by_cleaning_within_it_and_not_by_cleaning_that_ends_as_it_begins():
    words = "Nothing is written for the 35 min in which the food of step 8 stays."
    begins = first_minutes(PLAN.benches[0])[8]
    wait = next(bar for bar in PLAN.benches[0].bars if bar.step == 8 and bar.kind != "hands").start
    order = as_planned()
    within = (CleanLine(clock_minutes(wait + 5), "5", "Bench"),)
    assert words not in judged(CLASS, "1", replace(order, cleaning=within)).remarks
    before = (CleanLine(clock_minutes(begins - 5), str(wait - begins + 5), "Bench"),)
    assert words in judged(CLASS, "1", replace(order, cleaning=before)).remarks


def test_without_an_accepted_plan_demonstrations_are_not_looked_at():
    found = judged(around(LESSON, None), "1", as_planned(step_8=-30))
    assert "not_shown" not in codes(found)
    assert "No time plan of the lesson as it is now is accepted" in found.unlooked


@pytest.mark.parametrize(
    ("supervisors", "code", "says"),
    [
        (1, "lecturer", "must have the lecturer beside it, who is beside another bench."),
        (2, "supply", "must have somebody beside it; all who may are elsewhere."),
    ],
)
def test_who_stands_beside_another_bench_is_where_the_plan_says(supervisors, code, says):
    recipe = LESSON.benches[0].recipe
    steps = tuple(replace(step, supervised=step.position == 6) for step in recipe.steps)
    benches = tuple(replace(each, recipe=replace(recipe, steps=steps)) for each in LESSON.benches[:3])
    lesson = replace(LESSON, benches=benches, shown=(), supervisors=supervisors)
    plan = plan_lesson(lesson, None).plan
    at = {bench.name: first_minutes(bench) for bench in plan.benches}
    last = max(at, key=lambda name: at[name][6])
    lines = [StepLine(step, clock_minutes(minute)) for step, minute in at[last].items()]
    assert judged(around(lesson, plan), last, WrittenOrder(tuple(lines))).breaks == ()
    first = min(minutes[6] for minutes in at.values())
    moved = [replace(line, at=clock_minutes(first)) if line.step == 6 else line for line in lines]
    found = judged(around(lesson, plan), last, WrittenOrder(tuple(moved)))
    words = [each.words for each in found.breaks if each.code == code]
    assert len(words) == 1
    assert says in words[0]
    assert "step 6" in words[0]


def test_a_step_in_the_break_of_the_lesson_is_said_on_the_clock():
    at = first_minutes(PLAN.benches[0])
    lesson = replace(LESSON, break_after=at[6] - LESSON.starts, break_minutes=10, shown=())
    found = judged(around(lesson, None), "1", as_planned())
    words = [each.words for each in found.breaks if each.code == "break"]
    assert f"Step 6 falls into the break: it begins at {clock_minutes(at[6])} and takes 4 min." in words


def test_what_a_person_fixed_by_hand_is_not_asked_of_a_learner():
    at = first_minutes(PLAN.benches[0])
    pin = PinData(1, "start", "1", 6, minute=at[6] + 5 - LESSON.starts)
    lesson = replace(LESSON, pins=(pin,), shown=())
    assert "is fixed" in str(check(problem_of(lesson), answer_of(PLAN)))
    assert judged(around(lesson, None), "1", as_planned()).breaks == ()


def test_the_plate_at_the_pass_has_a_time_of_its_own_where_it_is_marked():
    lesson = replace(LESSON, minutes_a_plate=4, shown=())
    found = judged(around(lesson, None), "1", replace(as_planned(), cleaning=CLEAN))
    assert found.missing == (judging.PLATE,)
    late = replace(as_planned(), steps=(*as_planned().steps, StepLine(judging.PLATE, "11:29")))
    assert "over" in codes(judged(around(lesson, None), "1", late))


def test_without_a_plan_a_bake_goes_into_an_oven_that_it_does_not_break():
    lesson = class_of("R01", "juniper", benches=1, minutes=240)
    plan = plan_lesson(lesson, None).plan
    lines = [StepLine(step, clock_minutes(at)) for step, at in first_minutes(plan.benches[0]).items()]
    assert judged(around(lesson, None), "1", WrittenOrder(tuple(lines))).breaks == ()


def test_without_a_plan_a_bake_goes_into_the_oven_that_is_hot_in_time():
    lesson = class_of("R01", "juniper", benches=1, minutes=240)
    plan = plan_lesson(lesson, None).plan
    lines = [StepLine(step, clock_minutes(at)) for step, at in first_minutes(plan.benches[0]).items()]
    oven = next(each for each in lesson.appliances if each.kind == "oven")
    slow = replace(oven, code="a-slow", name="Slow oven", heat_seconds_per_10=3600)
    both = replace(lesson, appliances=(slow, *lesson.appliances))
    assert judged(around(both, None), "1", WrittenOrder(tuple(lines))).breaks == ()
    alone = replace(lesson, appliances=(slow, *(a for a in lesson.appliances if a.kind != "oven")))
    assert "cold_oven" in codes(judged(around(alone, None), "1", WrittenOrder(tuple(lines))))


def test_a_room_that_lacks_what_a_step_needs_is_said_and_nothing_else_is_judged():
    lesson = replace(LESSON, appliances=())
    found = judged(around(lesson, None), "1", as_planned())
    assert (found.breaks, found.looked_at) == ((), False)
    assert found.unlooked.startswith("The room lacks something")


def test_no_rule_is_written_twice(monkeypatch):
    """The planted violation: with a check that finds nothing, nothing but the end of the slot is said."""
    monkeypatch.setattr(judging, "check", lambda problem, answer: [])
    assert judged(CLASS, "1", as_planned(step_6=40)).breaks == ()


def test_the_question_is_of_that_bench_alone():
    assert {task.bench for task in bench_problem(CLASS, "3").tasks} == {"3"}
