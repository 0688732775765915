"""From a lesson to the question: steps to tasks, rooms to ovens and supplies, waves and the clock."""

from dataclasses import replace

import pytest

from kitchen.timeplan.class_data import ApplianceData, ShownData
from kitchen.timeplan.lesson_problem import RoomLacks, parts, problem_of, steps_by_turns, wave_of, way_of
from kitchen.timeplan.problem import Pause, Stay, Window
from tests.builders.recipes import college_recipe
from tests.builders.timeplan_lessons import appliances_of, class_of, college_lesson


def test_a_step_is_its_hands_then_its_stay_without_a_pause():
    problem = problem_of(class_of("R01", "juniper", 1, 210))
    hands, chill = problem.task["1/4/0"], problem.task["1/4/1"]
    assert (hands.minutes, hands.hands, hands.uses) == (10, True, ())
    assert (chill.minutes, chill.hands, chill.uses) == (15, False, (("chiller", 1),))
    assert Window("1/4/0", "1/4/1", 0, 0) in problem.windows


def test_the_stay_comes_first_where_the_recipe_says_so():
    problem = problem_of(class_of("R01", "juniper", 1, 210))
    assert [problem.task[f"1/9/{part}"].hands for part in (0, 1)] == [False, True]


def test_stays_in_one_oven_are_one_bake_with_the_door_shut():
    bake = problem_of(class_of("R03", "saffron", 1, 240)).task["1/6/1"].bake
    assert bake.stays == (Stay(25, 1800), Stay(15, 1500))
    assert bake.door_shut
    assert bake.alone


def test_an_oven_may_finish_off_and_shut():
    bake = problem_of(class_of("R08", "saffron", 1, 240)).task["1/3/1"].bake
    assert bake.stays[-1] == Stay(30, None)


def test_steps_ahead_are_left_out_with_every_wait_for_them():
    problem = problem_of(class_of("R01", "juniper", 1, 210, ahead=(1, 2)))
    assert "1/1/0" not in problem.task
    assert problem.windows_before["1/4/0"] == []


def test_only_taught_steps_are_planned():
    problem = problem_of(class_of("R01", "juniper", 1, 210, taught=(3, 7)))
    assert {task.step for task in problem.tasks} == {3, 7}


def test_the_longest_hold_reaches_the_question():
    problem = problem_of(class_of("R01", "juniper", 1, 210))
    assert Window("1/5/1", "1/6/0", 0, 15) in problem.windows


def test_a_demonstration_comes_before_the_hands_of_its_step():
    problem = problem_of(class_of("R01", "juniper", 1, 210, shown=(ShownData(9, 5),)))
    assert problem.task["1/9/1"].shown_by == "demonstration/9"
    assert problem.task["1/9/0"].shown_by is None
    assert problem.demonstrations[0].minutes == 5


def test_rings_and_shelves_of_the_room_are_counted():
    units = {s.name: s.units for s in problem_of(class_of("R01", "juniper", 2, 210)).supplies}
    assert (units["ring"], units["chiller"], units["mixer"]) == (48, 24, 4)


def test_without_a_mixer_the_step_is_done_by_hand_with_its_own_minutes():
    without = tuple(a for a in appliances_of("saffron") if a.kind != "mixer")
    problem = problem_of(class_of("R03", "saffron", 1, 240, appliances=without))
    beat = problem.task["1/4/1"]
    assert (beat.minutes, beat.uses) == (14, ())


def test_what_the_room_lacks_is_named_by_step():
    without = tuple(a for a in appliances_of("juniper") if a.kind not in ("oven", "chiller"))
    with pytest.raises(RoomLacks) as caught:
        problem_of(class_of("R01", "juniper", 1, 210, appliances=without))
    assert caught.value.lacks == ((2, "chiller"), (4, "chiller"), (5, "oven"), (6, "oven"), (8, "oven"))


def test_a_chiller_with_too_few_shelves_for_one_stay_is_lacking_and_no_crash():
    steps = college_recipe("R01").steps
    stay = next(s for step in steps for s in step.stays if s.appliance_kind == "chiller")
    few = tuple(
        replace(a, units=stay.shelves) if a.kind == "chiller" else a for a in appliances_of("juniper")
    )
    one = next(a for a in few if a.kind == "chiller")
    rest = tuple(a for a in few if a.kind != "chiller")
    problem_of(class_of("R01", "juniper", 1, 210, appliances=(*rest, one)))
    recipe = replace(
        college_recipe("R01"),
        steps=tuple(
            replace(
                s, stays=tuple(replace(x, shelves=2) if x.appliance_kind == "chiller" else x for x in s.stays)
            )
            for s in steps
        ),
    )
    lesson = class_of("R01", "juniper", 1, 210, appliances=(*rest, replace(one, units=1)))
    benches = tuple(replace(bench, recipe=recipe) for bench in lesson.benches)
    with pytest.raises(RoomLacks) as caught:
        problem_of(replace(lesson, benches=benches))
    assert (2, "2 places at once in the chiller, which has 1") in caught.value.lacks


def test_an_oven_that_does_not_get_hot_enough_is_lacking():
    cool = (ApplianceData("o", "Oven", "oven", 2, most_decicelsius=1600), *appliances_of("juniper")[12:24])
    rest = tuple(a for a in appliances_of("juniper") if a.kind not in ("oven", "hob"))
    with pytest.raises(RoomLacks) as caught:
        problem_of(class_of("R01", "juniper", 1, 210, appliances=(*cool, *rest)))
    assert [step for step, _ in caught.value.lacks] == [5, 6]


def test_a_slower_bench_has_longer_hands_and_the_same_stays():
    lesson = class_of("R01", "juniper", 1, 210)
    slow = replace(lesson, benches=(replace(lesson.benches[0], pace_per_mille=1250),))
    assert problem_of(slow).task["1/4/0"].minutes == 13
    assert problem_of(slow).task["1/4/1"].minutes == 15


def test_waves_are_neighbours_of_equal_size():
    lesson = class_of("R01", "juniper", 7, 210)
    assert list(wave_of(lesson, 2).values()) == [1, 1, 1, 1, 2, 2, 2]
    assert set(wave_of(lesson, 9).values()) == {1, 2, 3, 4, 5, 6, 7}


def test_a_wave_begins_each_step_together_and_on_the_fives():
    problem = problem_of(class_of("R01", "juniper", 4, 210), waves=2)
    assert ("1/4/0", "2/4/0") in problem.together
    assert "1/4/0" in problem.on_the_clock
    assert "1/4/1" not in problem.on_the_clock
    assert problem.clock_minutes == 5


def test_a_step_that_must_follow_at_once_is_not_called():
    """The genoise: flour within two minutes of whisking, oven within two of folding."""
    called = problem_of(class_of("R04", "saffron", 1, 240)).on_the_clock
    assert "1/2/0" in called
    assert not called & {"1/3/0", "1/4/0"}


def test_a_step_with_too_few_places_is_done_by_turns_and_what_cannot_wait_with_it():
    """Two places at the torch for seven benches; the plate follows within its hold."""
    problem = problem_of(class_of("R02", "saffron", 7, 300))
    benches = [str(n) for n in range(1, 8)]
    assert {9, 10} <= steps_by_turns(problem, benches)
    assert 1 not in steps_by_turns(problem, benches)
    assert steps_by_turns(problem, ["1"]) == frozenset()


def test_a_step_with_nothing_to_do_is_still_a_task():
    step = replace(
        college_recipe("R01").step(7),
        ways=(replace(college_recipe("R01").step(7).ways[0], active_minutes=0),),
    )
    assert len(parts(step, way_of(step, ()))) == 1


@pytest.mark.parametrize("code", ["main-1", "main-2"])
def test_lessons_of_the_college_become_questions(code):
    problem = problem_of(college_lesson(code))
    assert len(problem.benches) == len(college_lesson(code).benches)
    assert problem.usable_minutes == {"main-1": 135, "main-2": 195}[code]


def test_an_oven_that_may_not_stand_off_does_not_dry_a_meringue():
    ovens = tuple(replace(a, may_stand_off=False) for a in appliances_of("saffron"))
    with pytest.raises(RoomLacks) as caught:
        problem_of(class_of("R08", "saffron", 1, 240, appliances=ovens))
    assert caught.value.lacks == ((3, "oven"),)


def test_a_bake_by_fan_needs_an_oven_with_a_fan():
    ovens = tuple(replace(a, heats=("conventional",)) for a in appliances_of("juniper"))
    with pytest.raises(RoomLacks) as caught:
        problem_of(class_of("R01", "juniper", 1, 210, appliances=ovens))
    assert [step for step, _ in caught.value.lacks] == [5, 6, 8]


def test_a_break_stands_in_the_minutes_for_cooking_and_contingency_shortens_them():
    lesson = replace(college_lesson("main-1"), break_after=75, break_minutes=15, contingency_minutes=10)
    problem = problem_of(lesson)
    assert problem.breaks == (Pause(60, 15),)
    assert problem.usable_minutes == 125
    assert problem_of(college_lesson("main-1")).breaks == ()


@pytest.mark.parametrize(
    ("after", "minutes", "breaks"),
    [(5, 10, ()), (0, 5, ()), (10, 10, (Pause(0, 5),)), (5, 15, (Pause(0, 5),)), (15, 10, (Pause(0, 10),))],
)
def test_only_the_part_of_a_break_after_cooking_begins_takes_minutes_from_it(after, minutes, breaks):
    lesson = replace(college_lesson("main-1"), break_after=after, break_minutes=minutes)
    assert lesson.start_minutes == 15
    assert problem_of(lesson).breaks == breaks


def test_a_step_may_be_done_by_machine_or_by_hand_where_the_room_has_the_machine():
    lesson = class_of("R08", "juniper", 6, 300)
    task = problem_of(lesson).task["1/1/0"]
    assert (task.minutes, task.uses) == (16, (("mixer", 1),))
    assert [(way.name, way.minutes, way.uses) for way in task.ways] == [("hand", 22, ())]
    without = replace(lesson, appliances=tuple(a for a in lesson.appliances if a.kind != "mixer"))
    task = problem_of(without).task["1/1/0"]
    assert (task.minutes, task.uses, task.ways) == (22, (), ())


def test_each_way_has_somebody_beside_of_its_own():
    lesson = class_of("R12", "saffron", 2, 300, listed=frozenset({"food_processor"}))
    young = replace(lesson, benches=tuple(replace(bench, under_18=True) for bench in lesson.benches))
    task = problem_of(young).task["1/3/0"]
    assert (task.lecturer, [way.lecturer for way in task.ways]) == (True, [False])
