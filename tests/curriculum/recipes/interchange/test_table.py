import csv
import io
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from curriculum.errors import RuleBroken
from curriculum.recipes.interchange import table
from curriculum.recipes.interchange.words import all_lines, exact_grams
from tests.builders.cast import shortbread
from tests.builders.recipes import RECIPE_CODES, college_recipe


@pytest.mark.parametrize("begin", ["=", "+", "-", "@", "\t", "\r", "'"])
def test_no_cell_begins_like_a_formula(begin):
    recipe = shortbread()
    first = recipe.components[0]
    lines = (replace(first.lines[0], note=f"{begin}1+1"), *first.lines[1:])
    rows = list(
        csv.reader(
            io.StringIO(table.write(replace(recipe, components=(replace(first, lines=lines),))), newline="")
        )
    )
    assert rows[1][-1] == f"'{begin}1+1" and tuple(rows[0]) == table.HEADS


@given(st.text(st.sampled_from("'=+-@\t\ra1 "), max_size=6))
def test_the_apostrophe_is_taken_off_again_and_no_other(text):
    assert table.text_of(table.cell(text)) == text


def test_an_apostrophe_of_another_program_stays():
    assert table.text_of("'tis") == "'tis" and table.text_of("'") == "'"


@pytest.mark.parametrize("code", RECIPE_CODES)
def test_the_lines_that_are_written_are_read_again(code):
    recipe = college_recipe(code)
    read = table.read(table.write(recipe)).lines
    assert [(line.section, line.food, line.grams, line.pieces, line.written, line.note) for line in read] == [
        (
            component.name,
            recipe.food(line.food).name,
            exact_grams(line.milligrams),
            line.pieces,
            line.written,
            line.note,
        )
        for component, line in all_lines(recipe)
    ]


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_heads_in_any_order_and_delimiter_are_read(delimiter):
    text = "Grams,Food,Note\n5,Butter,soft\n,,\n3,,x\n".replace(",", delimiter)
    assert table.is_table(text)
    read = table.read(text)
    assert [(line.food, line.grams, line.note) for line in read.lines] == [("Butter", "5", "soft")]
    assert [each.what for each in read.not_read] == ["Row 4", "Title, portions and method"]


def test_other_text_is_no_table():
    assert not table.is_table("Rolls\nfood, grams\n") and not table.is_table("")


def test_a_broken_row_is_named():
    with pytest.raises(RuleBroken, match="Row 2 of the table is broken"):
        table.read('food,grams\n"' + "x" * 200_000)


def test_a_cell_that_is_too_long_and_a_row_without_a_food_are_named():
    read = table.read(f"food,grams,written\nsalt,1,{'x' * 121}\n,2,\nsalt,3,\n")
    assert [line.grams for line in read.lines] == ["3"]
    assert [each.what for each in read.not_read][:2] == ["Row 2", "Row 3"]
    assert "“written” has more than 120" in read.not_read[0].why
