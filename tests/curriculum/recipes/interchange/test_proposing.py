import pytest

from curriculum.recipes.interchange import json_ld, plain_text, proposing, table
from curriculum.recipes.interchange.reading import ImportedLine
from tests.builders.recipes import RECIPE_CODES, college_foods, college_recipe

FOODS = tuple(college_foods().values())


def _one(text, system="", chosen=None, **cells):
    (found,) = proposing.proposals(
        [ImportedLine(text, **cells)], system, FOODS, {}, {0: chosen} if chosen else None
    )
    return found


@pytest.mark.parametrize("code", RECIPE_CODES)
@pytest.mark.parametrize("form", [json_ld, plain_text, table])
def test_our_own_lines_mean_the_same_foods_and_the_same_milligrams(code, form):
    recipe = college_recipe(code)
    out = json_ld.document(recipe) if form is json_ld else form.write(recipe)
    found = proposing.proposals(form.read(out).lines, "", FOODS, {})
    lines = [line for component in recipe.components for line in component.lines]
    assert [(each.food, each.milligrams) for each in found] == [
        (line.food, line.milligrams) for line in lines
    ]


def test_a_name_is_whole_only_at_its_end():
    assert _one("250 g unsalted butter, soft").note == "soft"
    assert _one("2 Hen egg in shell, medium, beaten").note == "beaten"
    assert _one("250 g unsalted butter beans, soft").note == "soft"


def test_the_amount_as_written_stands_in_brackets_behind_the_food():
    found = _one("118.3 g Unsalted butter (1/2 cup), soft", "us")
    assert (found.written, found.note, found.milligrams) == ("1/2 cup", "soft", 118_300)
    assert _one("118.3 g Unsalted butter (1/2 cup)").note == "(1/2 cup)"


def test_a_food_that_a_person_chose_is_weighed():
    assert _one("1 cup moon dust", "us").milligrams is None
    assert _one("1 cup moon dust", "us", "soft_wheat_flour").milligrams


def test_measures_are_never_guessed():
    assert "not the same everywhere" in _one("1 cup soft wheat flour").trouble


def test_a_row_of_a_table_without_grams_goes_by_what_was_written():
    assert _one("x", food="Unsalted butter", written="1 kg").milligrams == 1_000_000
    assert _one("x", food="Unsalted butter").trouble
