"""What breaks is said by step and clock, and never with the minute that would have been right."""

from curriculum.wording import temperature
from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.own_order.told import Clock, told
from kitchen.timeplan.problem import Bake, Bench, Oven, Problem, Stay, Supply, Task, Window

CLOCK = Clock(555, {"oven-1": "Oven 1"})
BAKE = Bake((Stay(20, 1800),))


def said(tasks, starts, ovens=None, **more):
    """What is said of a bench with these tasks."""
    problem = Problem(tasks=tuple(tasks), benches=(Bench("1"),), ovens=(Oven("oven-1", 1),), **more)
    answer = Answer(starts, ovens or {})
    return [told(problem, answer, found, CLOCK) for found in check(problem, answer)]


def hands(step, minutes=10, **more):
    return Task(f"1/{step}/0", minutes, "1", hands=True, step=step, words=f"step {step}", **more)


def bake(step):
    return Task(f"1/{step}/0", 20, "1", bake=BAKE, step=step, words=f"step {step}")


def test_a_hold_keeps_its_figure_and_limit_and_names_both_steps():
    window = Window("1/1/0", "1/2/0", 0, 30)
    (found,) = said([hands(1), hands(2)], {"1/1/0": 0, "1/2/0": 45}, windows=(window,))
    assert found.words == "Step 2 follows step 1 after 35 min; at most 30 min."
    assert found.steps == (1, 2)


def test_hands_are_said_on_the_clock():
    (found,) = said([hands(1), hands(2)], {"1/1/0": 0, "1/2/0": 5})
    assert found.words == (
        "At 09:20 more hands are needed than you have (one pair of hands): step 1 and step 2 at once."
    )


def test_a_cold_oven_has_its_minutes_and_its_name():
    (found,) = said([bake(1)], {"1/1/0": 4}, {"1/1/0": "oven-1"})
    assert (
        found.words
        == f"Step 1 goes in at 09:19: Oven 1 needs 16 min from cold to {temperature(1800)} and gets 4 min."
    )


def test_trays_are_said_with_the_ovens_name():
    found = said([bake(1), bake(2)], {"1/1/0": 20, "1/2/0": 25}, {"1/1/0": "oven-1", "1/2/0": "oven-1"})
    assert "Oven 1 holds 1 trays; 2 at 09:40." in [each.words for each in found]


def test_a_supply_is_yours_and_not_the_classs():
    tasks = [
        hands(1, uses=(("ring", 1),)),
        Task("1/2/0", 9, "1", uses=(("ring", 1),), step=2, words="step 2"),
    ]
    (found,) = said(tasks, {"1/1/0": 0, "1/2/0": 1}, supplies=(Supply("ring", 1, "rings"),))
    assert found.words == "At 09:16 you need 2 of rings; there are 1."
