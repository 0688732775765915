"""The best demonstration: against enumeration of everything on small recipes, and by laws."""

import random
from itertools import permutations, product

import pytest

from curriculum.recipes.data import AfterData, RecipeData, StayData, StepData, WayData
from kitchen.timeplan.demonstration_search import SHORTEST_HOLD, Found, Search
from kitchen.timeplan.demonstration_steps import LIVE, OUT, READY, SWAPPED, TRAY, Steps
from tests.builders.recipes import RECIPE_CODES, college_recipe


def a_recipe(*steps):
    return RecipeData("T", "Trial", 1, "foundation", 8, 8, 0, (), tuple(steps), ())


def a_step(position, hands, stay=0, after=(), techniques=(), wait_first=False):
    return StepData(
        position=position,
        words=f"Step {position}.",
        ways=(WayData("hand", hands),),
        stays=(StayData(stay),) if stay else (),
        after=tuple(AfterData(*each) for each in after),
        techniques=techniques,
        wait_first=wait_first,
    )


def a_random_recipe(seed):
    dice = random.Random(seed)
    steps = []
    for position in range(1, dice.randint(3, 5) + 1):
        needs = [each for each in range(1, position) if dice.random() < 0.5]
        if position > 1 and not needs and dice.random() < 0.7:
            needs = [position - 1]
        stay = dice.choice([0, 0, 5, 10, 20])
        after = [(each, 0, dice.choice([None, 10, 90, 1440])) for each in needs]
        techniques = (dice.choice("abc"),)
        wait_first = bool(stay) and dice.random() < 0.3
        steps.append(a_step(position, dice.randint(1, 12), stay, after, techniques, wait_first))
    return a_recipe(*steps)


def is_legal(steps, ways):
    """The rule of the module's docstring, said again in another way."""
    for index, way in enumerate(ways):
        takers = [edge for edge in steps.after[index] if ways[edge.after] in (LIVE, SWAPPED)]
        node = steps.nodes[index]
        if way == OUT and (takers or steps.is_last(index)):
            return False
        if way in (SWAPPED, TRAY, READY) and any(
            edge.keeps is not None and edge.keeps < SHORTEST_HOLD for edge in takers
        ):
            return False
        if way in (SWAPPED, READY) and not takers:
            return False
        if way == TRAY and not takers and not steps.is_last(index):
            return False
        if way == SWAPPED and not (node.stay and node.hands):
            return False
    return True


def order_exists(steps, ways):
    shown = [
        index
        for index, way in enumerate(ways)
        if way in (SWAPPED, TRAY) or (way == LIVE and steps.nodes[index].hands)
    ]
    return any(keeps_time(steps, ways, order) for order in permutations(shown))


def keeps_time(steps, ways, order):
    starts, ends, now = {}, {}, 0
    for index in order:
        starts[index] = now
        now += steps.shown_minutes(index, ways[index])
        ends[index] = now
    for index, way in enumerate(ways):
        if way == LIVE and index not in starts:
            fresh = [edge for edge in steps.before[index] if ways[edge.before] == LIVE]
            starts[index] = ends[index] = max((ends[edge.before] + edge.least for edge in fresh), default=0)
    for early in range(len(order)):
        if any(steps.ancestors[order[early]] >> later & 1 for later in order[early + 1 :]):
            return False
    for edge in steps.edges:
        if ways[edge.before] == LIVE and ways[edge.after] in (LIVE, SWAPPED):
            wait = starts[edge.after] - ends[edge.before]
            stay = steps.nodes[edge.before].stay
            if wait < edge.least or (edge.keeps is not None and wait > stay + edge.keeps):
                return False
    return True


def worth_of(steps, ways, targets):
    live = {
        code
        for index, way in enumerate(ways)
        if way in (LIVE, SWAPPED) and steps.nodes[index].hands
        for code in steps.nodes[index].techniques
    }
    trained = {code for node in steps.nodes if node.hands for code in node.techniques}
    made = 0
    for index, way in enumerate(ways):
        made |= steps.ancestors[index] if way in (SWAPPED, TRAY, READY) else 0
    cost = sum(node.hands for index, node in enumerate(steps.nodes) if made >> index & 1)
    unshown = sum(way in (READY, OUT) and steps.nodes[i].hands > 0 for i, way in enumerate(ways))
    minutes = sum(steps.shown_minutes(i, way) for i, way in enumerate(ways))
    return len((targets & trained) - live), cost, unshown, minutes


def by_enumeration(steps, slot, targets):
    """The best worth of all ways of all nodes; None when nothing can be shown."""
    all_ways = product((LIVE, SWAPPED, TRAY, READY, OUT), repeat=len(steps.nodes))
    ranked = sorted((worth_of(steps, ways, targets), ways) for ways in all_ways if is_legal(steps, ways))
    for worth, ways in ranked:
        if worth[3] <= slot and order_exists(steps, ways):
            return worth
    return None


def worth_found(found: Found | None):
    return None if found is None else (found.missed, found.cost, found.unshown, found.minutes)


@pytest.mark.parametrize("seed", [*range(60), 211])
def test_the_search_finds_what_enumeration_finds(seed):
    steps = Steps(a_random_recipe(seed))
    dice = random.Random(seed)
    targets = frozenset(each for each in "abc" if dice.random() < 0.5)
    slot = dice.choice([4, 8, 12, 20, 30, 60])
    found = Search(steps, slot, targets).best()
    assert worth_found(found) == by_enumeration(steps, slot, targets)
    assert found is None or found.proved


def test_a_search_that_forgets_the_order_of_the_hands_would_be_caught():
    steps = Steps(a_recipe(a_step(1, 8, 30), a_step(2, 10, after=[(1, 0, 1440)])))
    unordered = (LIVE, LIVE)
    assert is_legal(steps, unordered)
    assert not order_exists(steps, unordered)
    assert by_enumeration(steps, 60, frozenset()) != worth_of(steps, unordered, frozenset())


def test_the_worked_example_of_the_paste_comes_out():
    steps = Steps(a_recipe(a_step(1, 8, 30, techniques=("a",)), a_step(2, 10, after=[(1, 0, 1440)])))
    found = Search(steps, 20, frozenset("a")).best()
    assert (found.ways, found.minutes, found.cost) == ((SWAPPED, LIVE), 19, 8)
    found = Search(steps, 20, frozenset()).best()
    assert (found.ways, found.minutes, found.cost) == ((TRAY, LIVE), 12, 8)


@pytest.mark.parametrize("code", RECIPE_CODES)
@pytest.mark.parametrize("slot", [15, 30, 60, 90])
def test_every_dish_of_the_book_has_a_plan_whose_hands_never_wait(code, slot):
    recipe = college_recipe(code)
    steps = Steps(recipe)
    targets = frozenset(code for step in recipe.steps for code in step.techniques)
    found = Search(steps, slot, targets).best()
    assert found.proved
    assert found.minutes <= slot
    assert is_legal(steps, found.ways)
    assert keeps_time(steps, found.ways, found.order)


@pytest.mark.parametrize("code", RECIPE_CODES)
def test_a_longer_slot_never_misses_more(code):
    recipe = college_recipe(code)
    targets = frozenset(code for step in recipe.steps for code in step.techniques)
    missed = [Search(Steps(recipe), slot, targets).best().missed for slot in (15, 30, 45, 60, 90)]
    assert missed == sorted(missed, reverse=True)


def test_thirty_steps_are_few_enough():
    steps = [a_step(1, 3)]
    for position in range(2, 31):
        stay = 15 if position % 3 == 0 else 0
        needs = position - 1 if position % 5 else max(1, position - 4)
        steps.append(a_step(position, 2 + position % 4, stay, [(needs, 0, 240)], (f"t{position}",)))
    targets = frozenset(f"t{position}" for position in range(2, 31, 3))
    search = Search(Steps(a_recipe(*steps)), 60, targets)
    assert search.best().minutes <= 60
    assert len(search._remembered) < 5_000


def test_nothing_fits_a_minute():
    assert Search(Steps(college_recipe("R01")), 1, frozenset()).best() is None


def a_large_recipe(seed, count=30):
    dice = random.Random(seed)
    steps = []
    for position in range(1, count + 1):
        needs = [each for each in range(max(1, position - 6), position) if dice.random() < 0.25]
        needs = needs or ([position - 1] if position > 1 and dice.random() < 0.7 else [])
        after = [(each, 0, dice.choice([None, 30, 90, 1440])) for each in needs]
        stay = dice.choice([0, 0, 0, 5, 10, 20, 40])
        steps.append(a_step(position, dice.randint(2, 12), stay, after, (f"t{dice.randint(1, 25)}",)))
    return a_recipe(*steps)


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("slot", [30, 90])
def test_thirty_tangled_steps_have_a_plan_that_holds_proved_or_not(seed, slot):
    steps = Steps(a_large_recipe(seed))
    found = Search(steps, slot, frozenset(f"t{n}" for n in range(1, 26, 3))).best()
    assert found is not None
    assert found.minutes <= slot
    assert is_legal(steps, found.ways)
    assert keeps_time(steps, found.ways, found.order)


def test_too_much_to_look_at_is_said_and_a_plan_without_waits_stands_in(monkeypatch):
    really = Search._first
    monkeypatch.setattr(Search, "_first", lambda self: (None, False) if self.waits else really(self))
    steps = Steps(college_recipe("R03"))
    found = Search(steps, 90, frozenset()).best()
    assert not found.proved
    assert is_legal(steps, found.ways)
    assert keeps_time(steps, found.ways, found.order)
