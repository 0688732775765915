from dataclasses import replace

import pytest

from curriculum.recipes import checks, portions
from curriculum.recipes.data import FinishedData
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
