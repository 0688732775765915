import random
from dataclasses import replace
from itertools import permutations

import pytest

from curriculum.errors import RuleBroken
from curriculum.recipes import timing
from curriculum.recipes.data import AfterData, RecipeData, StayData, StepData, WayData
from tests.builders.recipes import college_recipe

#: (longest chain, one cook) in minutes, computed for the demonstration book by another program.
ONE_COOK = {
    "R01": (161, 161),
    "R02": (221, 221),
    "R03": (128, 130),
    "R04": (140, 140),
    "R05": (200, 200),
    "R06": (179, 179),
    "R07": (181, 181),
    "R08": (126, 126),
    "R09": (267, 269),
    "R10": (32, 51),
    "R11": (118, 141),
    "R12": (73, 101),
    "V1": (161, 161),
    "V3": (128, 130),
}


def _step(position, hands, waits=0, after=(), wait_first=False):
    return StepData(
        position=position,
        words=f"Step {position}.",
        ways=(WayData("hand", hands),),
        stays=(StayData(waits),) if waits else (),
        after=tuple(each if isinstance(each, AfterData) else AfterData(each) for each in after),
        wait_first=wait_first,
    )


def _recipe(*steps):
    return RecipeData("T", "Test", 1, "foundation", 1, 1, 0, (), tuple(steps), ())


@pytest.mark.parametrize("code", ONE_COOK)
def test_one_cook_of_the_demonstration_book_is_the_shortest_plan(code):
    plan = timing.one_cook(college_recipe(code))
    assert (plan.longest_chain_minutes, plan.minutes) == ONE_COOK[code]
    assert plan.proved and plan.bound_minutes == plan.minutes and plan.broken == ()


def test_a_paste_made_and_rested_ahead_shortens_the_quiche():
    assert timing.one_cook(college_recipe("R01"), frozenset({1, 2})).minutes == 124


def test_waiting_is_filled_with_other_work():
    plan = timing.one_cook(_recipe(_step(1, 12, 45), _step(2, 10, 20)))
    assert plan.minutes == 57 and plan.work_minutes == 22 and plan.waiting_minutes == 65
    assert plan.step(2).hands_start == 12


def test_a_step_that_waits_first_takes_hands_at_its_end():
    plan = timing.one_cook(_recipe(_step(1, 5), _step(2, 6, 25, after=[1], wait_first=True)))
    assert (plan.step(2).starts, plan.step(2).hands_start, plan.step(2).ends) == (5, 30, 36)


def test_the_machine_way_of_a_step_has_its_own_minutes():
    whisk = StepData(1, "Whisk.", (WayData("machine", 6, "mixer"), WayData("hand", 10)))
    assert timing.one_cook(_recipe(whisk)).minutes == 6
    assert timing.one_cook(_recipe(whisk), ways={1: "hand"}).minutes == 10


def test_a_longest_wait_moves_the_work_before_it():
    dough = _step(1, 5, 0)
    slow = _step(2, 30, 0)
    kept = _step(3, 5, 0, after=[AfterData(1, longest_minutes=10), 2])
    plan = timing.one_cook(_recipe(dough, slow, kept))
    assert plan.minutes == 40 and plan.broken == ()
    assert plan.step(1).starts == 30


def test_a_longest_wait_that_nobody_can_keep_is_named():
    plan = timing.one_cook(
        _recipe(
            _step(1, 5), _step(2, 5, 60, after=[1]), _step(3, 5, after=[AfterData(1, 0, 10), AfterData(2)])
        )
    )
    assert plan.broken == ((1, 3, 65, 10),)


def test_a_least_wait_is_kept():
    plan = timing.one_cook(_recipe(_step(1, 5), _step(2, 5, after=[AfterData(1, least_minutes=20)])))
    assert plan.minutes == 30


def test_a_loop_is_found_and_named():
    recipe = _recipe(_step(1, 5), _step(2, 5, after=[4]), _step(3, 5, after=[1, 2]), _step(4, 5, after=[3]))
    assert set(timing.loop(recipe)) == {2, 3, 4}
    words = timing.loop_words(timing.loop(recipe))
    assert words.startswith("Step 2 waits for step 4, which waits for step 3, which waits for step 2.")
    with pytest.raises(RuleBroken):
        timing.one_cook(recipe)
    assert timing.loop(college_recipe("R01")) == ()


def test_a_step_after_itself_is_a_loop():
    assert timing.loop_words(timing.loop(_recipe(_step(1, 5, after=[1])))).startswith(
        "Step 1 waits for itself."
    )


def test_a_recipe_all_of_whose_steps_are_done_ahead_takes_no_time():
    assert timing.one_cook(_recipe(_step(1, 5)), frozenset({1})).minutes == 0


def test_the_chain_is_named_step_by_step():
    assert timing.one_cook(college_recipe("R08")).chain == (1, 2, 3, 6)


def test_the_serial_rule_never_uses_the_hands_twice_and_keeps_what_comes_first():
    for code in ONE_COOK:
        recipe = college_recipe(code)
        assert _faults(recipe, timing.serial(recipe)) == []


def test_a_plan_keeps_every_rule_of_its_recipe():
    for code in ONE_COOK:
        recipe = college_recipe(code)
        assert _faults(recipe, timing.one_cook(recipe).steps) == []


def test_the_check_of_plans_catches_hands_used_twice_and_a_step_too_early():
    recipe = college_recipe("R01")
    times = list(timing.one_cook(recipe).steps)
    early = replace(times[8], starts=0, hands_start=25, hands_end=31, ends=31)
    assert _faults(recipe, [*times[:8], early]) != []
    twice = replace(times[1], hands_start=times[0].hands_start, hands_end=times[0].hands_end)
    assert _faults(recipe, [times[0], twice, *times[2:]]) != []


@pytest.mark.parametrize("seed", range(60))
def test_on_small_recipes_the_plan_is_what_trying_every_order_finds(seed):
    recipe = _random_recipe(random.Random(seed))
    plan = timing.one_cook(recipe)
    if not plan.broken:
        assert plan.minutes == _by_every_order(recipe)
        assert _faults(recipe, plan.steps) == []
    else:
        assert _by_every_order(recipe) is None


def test_the_serial_rule_alone_would_not_pass_that_law():
    recipes = [_random_recipe(random.Random(seed)) for seed in range(60)]
    assert any(
        max(each.ends for each in timing.serial(recipe)) != _by_every_order(recipe) for recipe in recipes
    )


def _random_recipe(chance):
    steps = []
    for position in range(1, chance.randint(2, 6)):
        needs = [
            AfterData(needed, 0, chance.choice([None, None, 5, 20]))
            for needed in range(1, position)
            if chance.random() < 0.4
        ]
        steps.append(
            _step(
                position,
                chance.choice([0, 3, 8, 15]),
                chance.choice([0, 0, 10, 30]),
                needs,
                chance.random() < 0.3,
            )
        )
    return _recipe(*steps)


def _by_every_order(recipe):
    """The shortest plan by trying every order of the hands; None when no order keeps the waits."""
    working = [step for step in recipe.steps if step.active_minutes]
    found = [_finish_in_order(recipe, order) for order in permutations(working)]
    return min((minutes for minutes in found if minutes is not None), default=None)


def _finish_in_order(recipe, order):
    lengths = {step.position: step.active_minutes + step.waiting_minutes for step in recipe.steps}
    offsets = {step.position: step.waiting_minutes if step.wait_first else 0 for step in recipe.steps}
    rules = []
    for step in recipe.steps:
        for after in step.after:
            rules.append((after.needs, step.position, lengths[after.needs] + after.least_minutes))
            if after.longest_minutes is not None:
                rules.append((step.position, after.needs, -lengths[after.needs] - after.longest_minutes))
    for first, second in zip(order, order[1:], strict=False):
        gap = offsets[first.position] + first.active_minutes - offsets[second.position]
        rules.append((first.position, second.position, gap))
    starts = dict.fromkeys(lengths, 0)
    for _ in range(len(starts) * 3):
        before = dict(starts)
        for first, second, gap in rules:
            starts[second] = max(starts[second], starts[first] + gap)
        if starts == before:
            return max(starts[position] + lengths[position] for position in lengths)
    return None


def _faults(recipe, times):
    by = {each.position: each for each in times}
    found = []
    for step in recipe.steps:
        for after in step.after:
            if by[step.position].starts < by[after.needs].ends + after.least_minutes:
                found.append(("early", step.position))
    works = sorted((each.hands_start, each.hands_end) for each in times if each.hands_end > each.hands_start)
    found += [("twice", later) for (_, end), (later, _) in zip(works, works[1:], strict=False) if later < end]
    return found
