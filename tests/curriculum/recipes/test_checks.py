from dataclasses import replace

import pytest

from curriculum.recipes import checks
from curriculum.recipes.data import AfterData, ComponentData, StayData, StepData, TinData, WayData
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_recipe

QUICHE = college_recipe("R01")


def _codes(recipe):
    return [finding.code for finding in checks.stopping(recipe)]


@pytest.mark.parametrize("code", RECIPE_CODES + VARIANT_CODES)
def test_nothing_stops_the_demonstration_book(code):
    assert checks.stopping(college_recipe(code)) == ()


def _with_step(position, **changes):
    steps = tuple(replace(s, **changes) if s.position == position else s for s in QUICHE.steps)
    return replace(QUICHE, steps=steps)


@pytest.mark.parametrize(
    ("broken", "code"),
    [
        (replace(QUICHE, portions_stated=0), "no_portions"),
        (replace(QUICHE, portions_obtainable=0), "no_portions"),
        (replace(QUICHE, components=(), tins=(), steps=()), "no_components"),
        (replace(QUICHE, steps=()), "no_steps"),
        (
            replace(QUICHE, components=(*QUICHE.components, ComponentData("E", "Salad", "portions", ()))),
            "component_without_lines",
        ),
        (
            replace(QUICHE, components=(*QUICHE.components, replace(QUICHE.components[0], code="E"))),
            "component_no_step_uses",
        ),
        (
            replace(QUICHE, tins=(TinData("tin", 1, "round", filled_with=("Z",)),)),
            "tin_of_no_component",
        ),
        (_with_step(1, ways=()), "step_without_way"),
        (_with_step(1, ways=(WayData("hand", 0),), stays=()), "step_takes_no_time"),
        (_with_step(1, components=("A", "Q")), "step_of_no_component"),
        (_with_step(5, stays=(StayData(14, "oven", None, "fan"),)), "oven_without_setting"),
        (_with_step(5, stays=(StayData(14, "oven", 1800, ""),)), "oven_without_setting"),
        (_with_step(3, after=(AfterData(99),)), "step_after_nothing"),
        (_with_step(1, after=(AfterData(2),)), "steps_in_a_loop"),
    ],
)
def test_what_a_lesson_cannot_be_planned_from_stops(broken, code):
    assert code in _codes(broken)
    assert all(". " in each.words for each in checks.findings(broken)), "what would mend it is said"


def test_an_oven_that_is_off_and_shut_needs_no_setting():
    stays = (StayData(60, "oven", 1050, "fan"), StayData(30, "oven", None, "", "off_and_shut"))
    assert _codes(_with_step(5, stays=stays)) == []


@pytest.mark.parametrize(
    "before", [(), (StayData(10),), (StayData(60, "oven", 1050, "fan"), StayData(10, "chiller"))]
)
def test_an_oven_that_is_off_before_it_was_hot_stops(before):
    """A class could not be planned: nobody knows how hot an oven is that another step has left."""
    stays = (*before, StayData(30, "oven", None, "", "off_and_shut"))
    assert _codes(_with_step(5, stays=stays)) == ["oven_off_from_the_start"]


def test_an_oven_at_freezing_point_stops():
    assert _codes(_with_step(5, stays=(StayData(30, "oven", 0, "fan"),))) == ["oven_at_no_heat"]


def test_fish_that_is_heated_without_a_core_temperature_stops():
    paupiettes = college_recipe("R12")
    bare = tuple(replace(step, core_decicelsius=None) for step in paupiettes.steps)
    found = checks.stopping(replace(paupiettes, steps=bare))
    assert {finding.code for finding in found} == {"no_core_temperature"}
    assert "Plaice" in found[0].words


def test_a_missing_cue_is_only_to_look_at():
    found = [each for each in checks.findings(_with_step(1, cue="")) if not each.stops]
    assert [(each.code, each.step) for each in found] == [("step_without_cue", 1)]


def test_what_stops_comes_first_and_every_finding_is_a_sentence():
    found = checks.findings(replace(_with_step(1, cue="", after=(AfterData(2),)), portions_stated=0))
    assert [each.stops for each in found] == sorted((each.stops for each in found), reverse=True)
    assert all(each.words.endswith(".") and "safe" not in each.words for each in found)


def test_a_step_without_any_way_is_not_asked_for_its_oven():
    step = StepData(10, "Nothing.", ())
    assert _codes(replace(QUICHE, steps=(*QUICHE.steps, step))) == ["step_without_way"]


def _found(recipe, code):
    return [each for each in checks.findings(recipe) if each.code == code]


def _of(code, position, **changes):
    recipe = college_recipe(code)
    steps = tuple(replace(s, **changes) if s.position == position else s for s in recipe.steps)
    return replace(recipe, steps=steps)


#: A meringue is filled from the oven that was shut off for half an hour: its words let it cool there, and
#: a longer wait would make the dish longer than the college reckons it. It is rightly to look at.
STRAIGHT_FROM_HEAT = {"R08": [6]}


@pytest.mark.parametrize("code", RECIPE_CODES + VARIANT_CODES)
def test_what_is_found_in_the_demonstration_book_is_only_what_has_no_time_to_cool(code):
    found = _found(college_recipe(code), "filled_hot")
    assert [each.step for each in found] == STRAIGHT_FROM_HEAT.get(code, [])
    assert _found(college_recipe(code), "no_caution") == []


def test_cold_cream_straight_after_its_heat_is_found():
    """The pastry cream of the éclairs without its time in the blast chiller."""
    found = _found(_of("R03", 2, stays=()), "filled_hot")
    assert [each.step for each in found] == [8]
    assert "heat of step 1" in found[0].words


def test_a_written_wait_between_heat_and_filling_is_enough():
    hot = _of("R03", 2, stays=())
    steps = tuple(
        replace(s, after=tuple(replace(a, least_minutes=60) for a in s.after)) if s.position == 8 else s
        for s in hot.steps
    )
    assert _found(replace(hot, steps=steps), "filled_hot") == []


@pytest.mark.parametrize(("code", "position", "risk"), [("R02", 9, "blowtorch"), ("R04", 6, "hot sugar")])
def test_a_flame_or_hot_sugar_without_a_caution_is_found(code, position, risk):
    found = _found(_of(code, position, caution=""), "no_caution")
    assert [(each.step, risk in each.words) for each in found] == [(position, True)]


def test_frying_without_a_caution_is_found():
    fried = _with_step(5, stays=(StayData(4, "fryer", 1800),), caution="")
    assert [each.step for each in _found(fried, "no_caution")] == [5]


def test_a_step_that_would_be_planned_before_what_it_bakes_is_named():
    recipe = college_recipe("R01")
    assert "step_may_come_first" not in {each.code for each in checks.findings(recipe)}
    last = recipe.steps[-1]
    used = next(step for step in reversed(recipe.steps[:-1]) if step.components)
    loose = replace(last, after=(), components=used.components)
    found = checks.findings(replace(recipe, steps=(*recipe.steps[:-1], loose)))
    (one,) = [each for each in found if each.code == "step_may_come_first"]
    assert one.step == last.position and not one.stops
    assert f"as step {used.position} does, and comes after nothing" in one.words
