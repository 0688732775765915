"""The steps of a recipe as hands and waits."""

from kitchen.timeplan.demonstration_steps import SWAPPED, TRAY, Steps
from tests.builders.recipes import college_recipe


def test_a_step_that_waits_first_is_two_nodes():
    steps = Steps(college_recipe("R01"))
    assert [(node.step, node.hands, node.stay) for node in steps.nodes][-2:] == [(9, 0, 25), (9, 6, 0)]
    assert steps.node_of(9) == len(steps.nodes) - 1


def test_the_wait_of_a_step_is_part_of_the_way_to_the_next():
    steps = Steps(college_recipe("R01"))
    edge = steps.before[steps.node_of(4)][0]
    assert (edge.before, edge.least, edge.keeps) == (steps.node_of(2), 25, 1440)


def test_hands_and_minutes_behind_a_baked_shell():
    steps = Steps(college_recipe("R01"))
    shell = steps.node_of(5)
    assert steps.hands_of(steps.ancestors[shell]) == 8 + 4 + 10 + 4
    assert steps.minutes_behind(shell) == 8 + 4 + 25 + 10 + 15 + 4 + 14
    assert steps.steps_behind(shell) == (1, 2, 4, 5)


def test_what_a_stage_takes_of_the_class():
    steps = Steps(college_recipe("R01"))
    assert steps.shown_minutes(steps.node_of(4), SWAPPED) == 11
    assert steps.shown_minutes(steps.node_of(4), TRAY) == 2
