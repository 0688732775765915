from dataclasses import replace
from fractions import Fraction

import pytest

from curriculum.recipes import checks, portions
from curriculum.recipes.data import FinishedData
from curriculum.recipes.scaling import scale
from tests.builders.recipes import college_recipe

PAVLOVA = college_recipe("R08")


def test_the_part_that_gives_the_fewest_portions_decides():
    assert portions.by_weight(PAVLOVA) == 8


def test_rejects_are_taken_off_whole_portions():
    assert portions.to_be_had(PAVLOVA) == 7
    assert portions.after_rejects(10, 0) == 10


def test_without_finished_weights_nothing_is_reckoned():
    assert portions.by_weight(replace(PAVLOVA, finished=())) is None
    assert portions.to_be_had(replace(PAVLOVA, finished=(FinishedData(("A",), 100, 0),))) is None


@pytest.mark.parametrize(("said", "found"), [(7, []), (8, ["more_portions_than_it_weighs"])])
def test_more_portions_than_the_weights_give_are_looked_at_and_stop_nothing(said, found):
    recipe = replace(PAVLOVA, portions_obtainable=said)
    codes = [each.code for each in checks.findings(recipe)]
    assert [code for code in codes if code.startswith("more_")] == found
    assert checks.stopping(recipe) == ()


# A scaled batch


def test_a_scaled_batch_gives_each_part_in_proportion_and_the_scarcest_is_named():
    gives = portions.of_batch(PAVLOVA, scale(PAVLOVA, 16))
    assert [part.portions for part in gives.parts] == [16, 20, 16]
    assert gives.scarcest.components == ("A",) and gives.portions == 14


def test_whole_tins_give_more_than_was_asked_and_what_goes_by_portions_does_not():
    """A lemon tart for 12 takes two rings, 16 portions of tart, and cream for 12."""
    tart = college_recipe("R02")
    gives = portions.of_batch(tart, scale(tart, 12))
    assert [part.portions for part in gives.parts] == [16, 12]
    assert gives.scarcest.components == ("C",) and gives.portions == 12


def test_portions_of_another_weight_are_counted_by_it():
    size = Fraction(3, 2)
    assert portions.of_batch(PAVLOVA, scale(PAVLOVA, 8, size=size), size).portions == 7
    assert portions.of_batch(PAVLOVA, scale(PAVLOVA, 8), size).portions == 4


def test_enough_is_scaled_for_that_the_rejects_are_made_up_for():
    enough = portions.batch_for(PAVLOVA, 8)
    assert enough == 9 and portions.of_batch(PAVLOVA, scale(PAVLOVA, enough)).portions == 8
    assert portions.batch_for(replace(PAVLOVA, finished=()), 8) is None


def test_a_recipe_that_rejects_nearly_all_has_no_batch_that_does():
    assert portions.batch_for(replace(PAVLOVA, reject_per_mille=900), 8) is None


def test_without_finished_weights_a_batch_gives_nobody_knows_what():
    assert portions.of_batch(replace(PAVLOVA, finished=()), scale(PAVLOVA, 8)) is None


def test_a_batch_of_which_half_is_rejected_is_made_for_twice_as_many():
    """16 portions less half are eight; with one more rejected in a thousand no such batch is named."""
    half = replace(PAVLOVA, reject_per_mille=500)
    assert portions.batch_for(half, 8) == 16
    assert portions.batch_for(replace(half, reject_per_mille=501), 8) is None
