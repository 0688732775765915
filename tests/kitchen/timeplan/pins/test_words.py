"""What is fixed and what breaks, in sentences with clock times, names of ovens and figures."""

from dataclasses import replace

from kitchen.timeplan.effort import Effort
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.pins.breaks import what_breaks
from kitchen.timeplan.pins.data import ORDER, OVEN, START, PinData
from kitchen.timeplan.pins.words import break_words, grouped, in_clock_words, left_out, pin_words
from tests.builders.timeplan_lessons import class_of

STEADY = Effort(work=0.6, holding=False, workers=1)


def a_lesson():
    return class_of("R01", "juniper", 2, 210)


def test_each_kind_is_said_in_a_sentence():
    lesson = a_lesson()
    oven = next(each for each in lesson.appliances if each.kind == "oven")
    start = PinData(1, START, "1", 3, minute=67)
    assert pin_words(lesson, start) == "Step 3 of bench 1 begins at 10:07."
    assert pin_words(lesson, PinData(2, START, "", 4, minute=20)) == (
        "The demonstration of step 4 begins at 09:20."
    )
    assert pin_words(lesson, PinData(3, OVEN, "2", 5, 1, oven=oven.code)) == (
        f"Step 5 of bench 2, in the oven, bakes in {oven.name}."
    )
    order = PinData(4, ORDER, "1", 2, other_bench="2", other_step=2)
    assert pin_words(lesson, order) == "Step 2 of bench 1 has ended before step 2 of bench 2 begins."


def test_the_same_of_several_benches_is_said_once_and_orders_each():
    lesson = a_lesson()
    starts = [PinData(n, START, bench, 3, minute=67) for n, bench in ((1, "1"), (2, "2"))]
    orders = [PinData(n, ORDER, "1", 2, other_bench="2", other_step=n) for n in (3, 4)]
    said = grouped(lesson, (*starts, *orders))
    assert ("Step 3 of benches 1 and 2 begins at 10:07.", (1, 2)) in said
    assert len(said) == 3
    many = tuple(PinData(n, START, str(n), 3, minute=67) for n in range(1, 6))
    assert grouped(lesson, many)[0][0] == "Step 3 of benches 1 to 5 begins at 10:07."


def test_minutes_become_times_and_codes_of_ovens_their_names():
    lesson = a_lesson()
    oven = next(each for each in lesson.appliances if each.kind == "oven")
    named = replace(lesson, appliances=(replace(oven, name="Oven 13"),))
    assert in_clock_words(named, f"oven {oven.code} is hot at minute 20.") == "Oven 13 is hot at 09:35."


def test_two_bakes_too_close_are_said_with_the_minutes_that_the_oven_needs():
    lesson = a_lesson()
    oven = next(each for each in lesson.appliances if each.kind == "oven")
    pins = (
        PinData(1, START, "1", 5, 1, minute=112),
        PinData(2, START, "2", 8, 1, minute=128),
        PinData(3, OVEN, "1", 5, 1, oven=oven.code),
        PinData(4, OVEN, "2", 8, 1, oven=oven.code),
    )
    problem = problem_of(lesson)
    found = what_breaks(problem, pins, lesson.start_minutes, False, STEADY)
    said = " ".join(break_words(lesson, problem, found))
    assert "with ovens that hold one heat at a time" in said
    assert "needs 5 min before step 8 of bench 2 and gets 2 min." in said
    assert "It is proved that no plan keeps this; without any one part of it there is one." in said


def test_a_start_too_late_for_the_slot_is_said_with_the_minutes_over():
    lesson = a_lesson()
    problem = problem_of(lesson)
    pins = (PinData(1, START, "1", 8, 1, minute=140),)
    found = what_breaks(problem, pins, lesson.start_minutes, True, STEADY)
    said = " ".join(break_words(lesson, problem, found))
    assert "the end of cooking at 12:00" in said
    assert "What comes after step 8 of bench 1, in the oven, would end at 12:26" in said
    assert "26 min over" in said


def test_a_start_too_early_is_said_with_all_that_comes_before_it():
    lesson = a_lesson()
    problem = problem_of(lesson)
    pins = (PinData(1, START, "1", 8, 1, minute=35),)
    found = what_breaks(problem, pins, lesson.start_minutes, False, STEADY)
    said = " ".join(break_words(lesson, problem, found))
    assert "Step 8 of bench 1, in the oven, can begin at 10:50 at the earliest" in said
    assert "75 min too few" in said


def test_what_means_nothing_is_said_with_why():
    lesson = replace(a_lesson(), pins=(PinData(7, START, "9", 3, minute=60),))
    ((said, number),) = left_out(lesson, problem_of(lesson))
    assert number == 7
    assert said.endswith("The lesson has no such step at that bench now.")
