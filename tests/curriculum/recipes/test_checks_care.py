from dataclasses import replace

import pytest

from curriculum.recipes import checks, checks_care
from curriculum.recipes.data import AfterData, ComponentData, LineData, StepData, WayData
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_food, college_recipe, fixture


def _found(recipe, code):
    return [each for each in checks.findings(recipe) if each.code == code]


def _with(code, position, **changes):
    recipe = college_recipe(code)
    steps = tuple(replace(s, **changes) if s.position == position else s for s in recipe.steps)
    return replace(recipe, steps=steps)


def _mousse(*more_steps, caution="", food="egg_white", words="Fold the whisked egg into the chocolate."):
    """A mousse of raw egg that nobody heats: one component, one step, and what is added."""
    egg = ComponentData("A", "Mousse", "portions", (LineData(1, food, 120_000),))
    step = StepData(1, words, (WayData("hand", 10),), components=("A",), cue="Light.", caution=caution)
    base = replace(college_recipe("R01"), tins=(), finished=(), caution="")
    return replace(base, components=(egg,), steps=(step, *more_steps), foods=(college_food(food),))


@pytest.mark.parametrize("code", RECIPE_CODES + VARIANT_CODES)
def test_the_demonstration_book_has_its_cautions_and_heats_its_egg(code):
    recipe = college_recipe(code)
    assert _found(recipe, "no_caution") == [] and _found(recipe, "raw_egg") == []


@pytest.mark.parametrize("technique", sorted(checks_care.RISKY_TECHNIQUES))
def test_a_technique_that_burns_or_cuts_asks_for_a_caution(technique):
    assert technique in {each["code"] for each in fixture("techniques.json")["techniques"]}
    bare = _with("R01", 2, techniques=(technique,), caution="")
    found = _found(bare, "no_caution")
    assert [each.step for each in found] == [2]
    assert checks_care.RISKY_TECHNIQUES[technique] in found[0].words and "Write it" in found[0].words
    assert _found(_with("R01", 2, techniques=(technique,), caution="Hot: dry cloths."), "no_caution") == []


@pytest.mark.parametrize("place", sorted(checks_care.RISKY_PLACES))
def test_a_place_that_hurts_asks_for_a_caution(place):
    ways = (WayData("machine", 5, at=place),)
    assert len(_found(_with("R01", 2, ways=ways, caution=""), "no_caution")) == 1
    assert _found(_with("R01", 2, ways=ways, caution="Guard down."), "no_caution") == []


def test_egg_that_no_step_heats_is_found_and_says_what_would_mend_it():
    (found,) = _found(_mousse(), "raw_egg")
    assert (found.component, found.step, found.stops) == ("A", 1, False)
    for words in ("Hen egg white", "core temperature", "pasteurised egg", "write the caution at step 1"):
        assert words in found.words


@pytest.mark.parametrize(
    "clean",
    [
        _mousse(caution="Raw egg: not for everybody."),
        replace(_mousse(), caution="Raw egg is eaten: ask who may."),
        _mousse(food="pasteurised_egg_white"),
        _mousse(StepData(2, "Bake.", (WayData("hand", 2, at="ring"),), components=("A",))),
        _mousse(StepData(2, "To 82 °C.", (WayData("hand", 2),), components=("A",), core_decicelsius=820)),
    ],
)
def test_egg_with_a_caution_treated_or_heated_is_in_order(clean):
    assert _found(clean, "raw_egg") == []


def test_a_caution_about_something_else_is_none_about_the_egg():
    assert len(_found(_mousse(caution="Guard down before it starts."), "raw_egg")) == 1


def _filling(heated_component):
    """The mousse is rolled into meat at step 2; step 3 heats one component."""
    rolled = StepData(2, "Roll.", (WayData("hand", 5),), components=("A", "B"), after=(AfterData(1),))
    ring = (WayData("hand", 5, at="ring"),)
    heated = StepData(3, "Poach.", ring, components=(heated_component,), after=(AfterData(2),))
    meat = ComponentData("B", "Meat", "portions", (LineData(1, "egg_white", 1_000),))
    made = _mousse(rolled, heated)
    return replace(made, components=(*made.components, meat, replace(meat, code="C")))


def test_egg_in_a_filling_is_heated_with_what_it_is_rolled_in():
    assert _found(_filling("B"), "raw_egg") == []


def test_what_is_heated_beside_it_does_not_heat_it():
    assert [each.component for each in _found(_filling("C"), "raw_egg")] == ["A", "B"]
