"""The reasons of a requisition add up to its need, and each is what it adds to those before it."""

from dataclasses import replace

import pytest

from kitchen.stores.learning.figures import Figure
from kitchen.stores.proposal import BenchAsked, Question, prepare
from kitchen.stores.requisitions.difference import totals
from kitchen.stores.requisitions.reasons import (
    ALLOWANCE,
    BENCHES,
    DEMONSTRATION,
    FOR_TRAYS,
    OVER_ISSUE,
    PHOTOGRAPH,
    SECOND_MARKER,
    SPARE,
    TASTING,
    asked_for,
)
from kitchen.timeplan.demonstration_kept import for_stores
from tests.builders.kits import QUICHE_DAY
from tests.builders.recipes import college_recipe
from tests.kitchen.timeplan.test_demonstration import the_quiche

#: Six benches make quiches of 4.3 eggs, as in the worked example.
WORKED = ("R01",) * 6
RECIPES = {1: college_recipe("R01"), 3: college_recipe("R03")}
QUESTION = Question(
    lesson="LESSQN22",
    use_on=QUICHE_DAY,
    portions=8,
    version=1,
    recipes=RECIPES,
    benches=tuple(BenchAsked(n, str(n), n, 1) for n in range(1, len(WORKED) + 1)),
    demonstration_batches=1,
    spare_batches=1,
    ahead_steps=(1, 2),
)
SHOWN = replace(QUESTION, shown=for_stores(the_quiche()))
PLATED = replace(QUESTION, portions=11, plates=(1, 0, 2))


def shares(question, food):
    return {each.why: each.milligrams for each in asked_for(question) if each.food == food}


def test_eggs_are_the_worked_example():
    pieces = {each.why: each.pieces for each in asked_for(QUESTION) if each.food == "egg_in_shell"}
    assert pieces == {BENCHES: 26, DEMONSTRATION: 5, SPARE: 4}


@pytest.mark.parametrize("question", [QUESTION, SHOWN, PLATED, replace(SHOWN, plates=(1, 1, 1))])
def test_the_reasons_of_each_food_add_up_to_its_need(question):
    need = {each.food: each.ordered_milligrams for each in prepare(question).needs if each.ordered_milligrams}
    assert totals(asked_for(question)) == need


def test_a_reason_that_was_forgotten_would_be_seen():
    """Planted: the spare is left out."""
    need = {each.food: each.ordered_milligrams for each in prepare(QUESTION).needs}
    assert totals(each for each in asked_for(QUESTION) if each.why != SPARE) != need


def test_dusting_and_greasing_are_a_reason_of_their_own():
    assert shares(QUESTION, "soft_wheat_flour")[OVER_ISSUE] == 8 * 20_000
    assert OVER_ISSUE not in shares(QUESTION, "leek")


def test_plates_are_portions_of_the_benches_by_what_they_are_for():
    """Eclairs are scaled by the portion: twelve for the learners, one to taste, two for the second marker."""
    eclairs = replace(QUESTION, version=3, benches=(BenchAsked(1, "1", 1, 3),), ahead_steps=(), portions=12)
    plain = shares(eclairs, "whole_milk")
    milk = shares(replace(eclairs, portions=15, plates=(1, 0, 2)), "whole_milk")
    assert milk[BENCHES] == plain[BENCHES]
    assert (PHOTOGRAPH in milk, milk[SECOND_MARKER] > milk[TASTING] > 0) == (False, True)


def test_a_plate_out_of_a_tin_that_holds_no_more_is_a_whole_tin_more():
    """Eight portions fill a tin: a ninth asks for a second one, a tenth and an eleventh lie in it."""
    leek = shares(PLATED, "leek")
    assert leek[TASTING] == leek[BENCHES] and SECOND_MARKER not in leek


def test_trays_stand_beside_the_table_of_the_demonstration():
    butter = shares(SHOWN, "unsalted_butter")
    assert butter[FOR_TRAYS] == 3 * 130_000 + 30_000
    assert FOR_TRAYS not in shares(QUESTION, "unsalted_butter")


def test_nobody_and_nothing_asks_for_nothing():
    assert asked_for(replace(QUESTION, benches=(), demonstration_batches=0, spare_batches=0)) == ()


def test_an_accepted_allowance_is_a_reason_of_its_own_beyond_the_need():
    learned = (
        Figure("wastage", "leek", "", 50, "learned from six lessons"),
        Figure("wastage", "egg_in_shell", "", 50, ""),
    )
    allowed = [each for each in asked_for(replace(QUESTION, learned=learned)) if each.why == ALLOWANCE]
    assert [(each.food, each.milligrams, each.pieces) for each in allowed] == [
        ("egg_in_shell", 2 * 57_000, 2),
        ("leek", 8 * 400_000 * 5 // 100, None),
    ]
    assert [each for each in asked_for(QUESTION) if each.why == ALLOWANCE] == []


def test_an_allowance_is_in_no_kit():
    learned = (Figure("wastage", "leek", "", 50, ""),)
    assert prepare(replace(QUESTION, learned=learned)).kits == prepare(QUESTION).kits
