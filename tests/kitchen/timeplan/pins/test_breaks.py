"""What breaks: irreducible, proved from both sides, and which single thing to let go."""

from dataclasses import replace

import pytest

from kitchen.timeplan.answer import check
from kitchen.timeplan.bounds import far
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.pins import breaks
from kitchen.timeplan.pins.breaks import OTHERS, SLOT, Asked, contradicts, only_benches, what_breaks
from kitchen.timeplan.pins.data import ORDER, OVEN, START, PinData
from kitchen.timeplan.pins.pinned import fixed_by
from kitchen.timeplan.problem import Bake, Bench, Oven, Pause, Problem, Stay, Supply, Task, Window
from kitchen.timeplan.solver import cannot_end_by, solve
from kitchen.timeplan.ways import Way

STEADY = Effort(work=0.6, holding=False, workers=1)


def two_heats() -> Problem:
    """Two benches, each 10 min of hands and a bake of 20, at 180 and 150 °C, and two like ovens."""
    tasks, windows = [], []
    for bench, heat in (("1", 1800), ("2", 1500)):
        tasks.append(Task(f"{bench}/1/0", 10, bench, hands=True, step=1, words=f"step 1 of bench {bench}"))
        bake = Bake((Stay(20, heat),))
        tasks.append(Task(f"{bench}/2/0", 20, bench, bake=bake, step=2, words=f"step 2 of bench {bench}"))
        windows.append(Window(f"{bench}/1/0", f"{bench}/2/0", 0, 60))
    ovens = (Oven("left", 1), Oven("right", 1))
    benches = (Bench("1"), Bench("2"), Bench("3"))
    tasks.append(Task("3/1/0", 5, "3", hands=True, step=1))
    return Problem(tuple(tasks), tuple(windows), benches, ovens, usable_minutes=120)


def start(number, bench, minute, step=2):
    return PinData(number, START, bench, step, minute=minute)


def oven(number, bench, name):
    return PinData(number, OVEN, bench, 2, oven=name)


#: The first bake ends at minute 50; the oven cools thirty degrees in six minutes.
CLASH = (start(1, "1", 30), start(2, "2", 55), oven(3, "1", "left"), oven(4, "2", "left"))


def test_two_bakes_fixed_too_close_in_one_oven_break_its_heats():
    found = what_breaks(two_heats(), CLASH, 0, False, STEADY)
    assert {pin.number for pin in found.pins} == {1, 2, 3, 4}
    assert found.rules == ("heats",)
    assert {pin.number for pin, _ in found.let_go} == {1, 2, 3, 4}


def test_a_minute_later_nothing_breaks():
    later = (CLASH[0], start(2, "2", 56), *CLASH[2:])
    assert what_breaks(two_heats(), later, 0, False, STEADY) is None


def test_what_is_found_is_irreducible_on_both_sides():
    """Together impossible by the solver, and without any one member a plan that the check allows."""
    problem = two_heats()
    found = what_breaks(problem, (*CLASH, start(5, "3", 40, step=1)), 0, False, STEADY)
    asked = Asked(problem, CLASH, 0, STEADY)
    kept = (*found.pins, *found.rules)
    assert 5 not in {pin.number for pin in found.pins}
    assert cannot_end_by(found.question, found.limit, STEADY, with_ovens=True)
    for member in kept:
        question = asked.question(tuple(other for other in kept if other != member))
        solved = solve(question, STEADY)
        assert check(question, solved.answer) == []


def test_what_could_be_left_out_would_be_caught(monkeypatch):
    """Planted: without the reduction a member stays that is not needed."""
    monkeypatch.setattr(breaks, "_irreducible", lambda asked, kept: kept)
    found = what_breaks(two_heats(), (*CLASH, start(5, "3", 40, step=1)), 0, False, STEADY)
    assert 5 in {pin.number for pin in found.pins}


class Told:
    """Answers for the questions of a reduction: which sets are proved impossible, and where plans end."""

    def __init__(self, impossible, ends):
        self.sets, self.minutes = impossible, ends

    def ends_by_hand(self, kept):
        return None

    def impossible(self, kept):
        return kept in self.sets

    def ends(self, kept):
        return self.minutes.get(kept)


def test_where_it_stays_open_whether_one_is_needed_nothing_is_said():
    proved = {("a", "b"), ("b",)}
    assert breaks._irreducible(Told(proved, {(): 30}), ("a", "b")) == ("b",)
    assert breaks._irreducible(Told(proved, {}), ("a", "b")) is None


def test_what_to_let_go_comes_with_the_shortest_plan_first_and_never_without_one():
    whole = CLASH[:3]
    without = {tuple(pin for pin in whole if pin != gone): gone.minute for gone in whole[:2]}
    found = breaks._alone(Told(set(), {key: 100 - minute for key, minute in without.items()}), whole, whole)
    assert [(pin.number, ends) for pin, ends in found] == [(2, 45), (1, 70)]


def test_a_start_before_what_must_come_before_it_is_proved_by_the_chain_alone():
    problem = two_heats()
    pins = (start(1, "1", 9),)
    assert contradicts(fixed_by(problem, pins, 0).problem)
    found = what_breaks(problem, pins, 0, False, STEADY)
    assert [pin.number for pin in found.pins] == [1]
    assert [pin.number for pin, _ in found.let_go] == [1]


def test_what_only_makes_the_class_too_long_breaks_the_slot():
    pins = (start(1, "1", 101),)
    found = what_breaks(two_heats(), pins, 0, True, STEADY)
    assert (found.rules, found.limit) == ((SLOT,), 120)
    assert what_breaks(two_heats(), pins, 0, False, STEADY) is None


def test_an_order_and_a_start_break_together_and_the_other_start_is_not_named():
    order = PinData(3, ORDER, "2", 2, other_bench="1", other_step=2)
    pins = (start(1, "1", 30), start(2, "2", 60), order)
    found = what_breaks(two_heats(), pins, 0, False, STEADY)
    assert {pin.number for pin in found.pins} == {1, 3}
    assert {pin.number for pin, _ in found.let_go} == {1, 3}


def test_other_benches_are_named_where_they_are_needed():
    """One oven of one tray: bench 1 bakes in the last minutes, so bench 2 must bake before; it cannot."""
    problem = replace(two_heats(), ovens=(Oven("left", 1),), usable_minutes=57)
    found = what_breaks(problem, (start(1, "1", 19),), 0, True, STEADY)
    assert OTHERS in found.rules
    assert found.pins[0].number == 1


def test_nothing_is_said_where_nothing_is_fixed_or_the_lesson_itself_is_impossible():
    assert what_breaks(two_heats(), (), 0, True, STEADY) is None
    short = replace(two_heats(), usable_minutes=20)
    assert what_breaks(short, (start(1, "1", 50),), 0, True, STEADY) is None


def test_only_the_benches_at_which_something_is_fixed_are_left():
    small = only_benches(two_heats(), (start(1, "1", 30),))
    assert {task.bench for task in small.tasks} == {"1"}
    assert [bench.name for bench in small.benches] == ["1"]


@pytest.mark.parametrize("minute", [0, 40, 200])
def test_every_question_that_has_a_plan_has_one_by_the_far_minute(minute):
    problem = fixed_by(two_heats(), (start(1, "3", minute, step=1),), 0).problem
    assert solve(problem, STEADY).finish_minutes <= far(problem)


def test_a_break_and_the_longest_way_do_not_make_a_plan_impossible():
    """An hour's break comes first, and one way takes an hour and a half."""
    slow = Task("1/1/0", 5, "1", hands=True, uses=(("mixer", 1),), step=1, ways=(Way(90, name="hand"),))
    away = Task("away", 1, uses=(("mixer", 1),), latest=0)
    supplies = (Supply("mixer", 1),)
    problem = Problem((slow, away), benches=(Bench("1"),), supplies=supplies, breaks=(Pause(0, 60),))
    assert far(problem) >= 60 + 90
    assert what_breaks(problem, (start(1, "1", 60),), 0, False, STEADY) is None
