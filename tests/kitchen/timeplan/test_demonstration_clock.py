"""One clock: the class's where it is cooked, its own where it is only shown, none where nobody knows."""

from dataclasses import replace

import pytest

from kitchen.timeplan.demonstration import chosen, plan
from kitchen.timeplan.demonstration_clock import CLASS, OPEN, OWN, minutes_by_step, on_the_clock
from kitchen.timeplan.demonstration_data import Shown
from tests.builders.recipes import college_recipe
from tests.kitchen.timeplan.test_demonstration import the_quiche

AT = 9 * 60 + 15
#: (step, minutes, minute of the day) as a class's plan shows the quiche.
SHOWS = ((4, 6, AT), (5, 4, AT + 20), (6, 3, AT + 25), (8, 3, AT + 55))


def quiche_at(*shows):
    return on_the_clock(college_recipe("R01"), the_quiche(), AT, shows)


def test_a_lesson_that_is_only_shown_keeps_its_own_clock():
    clock = on_the_clock(college_recipe("R01"), the_quiche(), AT, None)
    assert (clock.kind, clock.plan) == (OWN, the_quiche())


def test_the_class_s_plan_is_the_clock_and_the_minutes_stay():
    clock = quiche_at(*SHOWS)
    assert clock.kind == CLASS
    assert [(s.step, s.minutes, s.starts) for s in clock.plan.stages] == [
        (4, 6, 0),
        (5, 4, 20),
        (6, 3, 25),
        (8, 3, 55),
    ]


@pytest.mark.parametrize(
    "shows", [(), SHOWS[:3], ((4, 7, AT), *SHOWS[1:]), (*SHOWS, (9, 5, AT + 90))], ids=str
)
def test_other_stages_or_no_plan_leave_the_clock_open(shows):
    assert quiche_at(*shows).kind == OPEN


def test_what_is_made_before_is_wanted_when_the_class_sees_it():
    shell = quiche_at(*SHOWS).plan.ahead[1]
    assert (shell.step, shell.needed_at, shell.needed_until, shell.ready_from) == (5, 20, 25, 10)


def test_a_shell_that_is_seen_twice_further_apart_than_it_keeps_is_made_twice():
    apart = quiche_at(*SHOWS[:2], (6, 3, AT + 45), SHOWS[3])
    (said,) = [words for words in apart.plan.remarks if "make two" in words]
    assert "keeps 15 min and is wanted twice, 25 min apart" in said
    assert not any("make two" in words for words in quiche_at(*SHOWS).plan.remarks)


def test_a_piece_made_before_the_class_has_rested_by_its_stage_and_saves_a_tray():
    shown = (Shown(4, "live", 10), Shown(5, "live", 4))
    made = chosen(college_recipe("R01"), shown, 30)
    assert 4 in {thing.step for thing in made.ahead}
    later = on_the_clock(college_recipe("R01"), made, AT, ((4, 10, AT), (5, 4, AT + 25)))
    assert 4 not in {thing.step for thing in later.plan.ahead}
    sooner = on_the_clock(college_recipe("R01"), made, AT, ((4, 10, AT), (5, 4, AT + 24)))
    assert 4 in {thing.step for thing in sooner.plan.ahead}


def test_a_piece_that_is_past_its_time_at_its_stage_is_made_before():
    shown = (Shown(5, "live", 4), Shown(6, "live", 3))
    made = chosen(college_recipe("R01"), shown, 30)
    in_time = ((5, 4, AT), (6, 3, AT + 4 + 14 + 15))
    late = ((5, 4, AT), (6, 3, AT + 4 + 14 + 16))
    recipe = college_recipe("R01")
    assert 5 not in {thing.step for thing in on_the_clock(recipe, made, AT, in_time).plan.ahead}
    assert 5 in {thing.step for thing in on_the_clock(recipe, made, AT, late).plan.ahead}


def test_a_few_minutes_of_talk_that_would_save_a_tray_are_named():
    made = chosen(college_recipe("R03"), (Shown(3, "live", 8), Shown(4, "live", 8)), 30)
    (said,) = [words for words in made.remarks if "save a tray" in words]
    assert "ready 5 min after step 4 is begun: 5 min more for the stage before" in said
    longer = chosen(college_recipe("R03"), (Shown(3, "live", 13), Shown(4, "live", 8)), 30)
    assert any("save a tray" in words for words in longer.remarks)


@pytest.mark.parametrize("slot", [45, 60, 90])
@pytest.mark.parametrize("code", ["R01", "R03", "R05", "R09"])
def test_a_plan_moved_to_where_it_stood_is_the_same_plan(code, slot):
    recipe = college_recipe(code)
    made = plan(recipe, slot)
    starts: dict[int, int] = {}
    for stage in made.stages:
        starts.setdefault(stage.step, stage.starts)
    shows = tuple((step, minutes, AT + starts[step]) for step, minutes in minutes_by_step(made).items())
    clock = on_the_clock(recipe, made, AT, shows)
    assert clock.kind == CLASS
    assert [(s.step, s.way, s.minutes) for s in clock.plan.stages] == [
        (s.step, s.way, s.minutes) for s in made.stages
    ]
    assert {(a.step, a.waited_only) for a in clock.plan.ahead} <= {
        (a.step, a.waited_only) for a in made.ahead
    }


def test_a_demonstration_of_nothing_has_no_clock():
    assert on_the_clock(college_recipe("R01"), replace(the_quiche(), stages=()), AT, ()).is_open
