import pytest

from curriculum.recipes.interchange import plain_text
from curriculum.recipes.interchange.words import all_lines, line_words
from tests.builders.cast import shortbread
from tests.builders.recipes import RECIPE_CODES, college_recipe


def test_the_text_holds_title_lines_and_numbered_method():
    recipe = shortbread()
    out = plain_text.write(recipe).splitlines()
    assert out[0] == recipe.title and f"1. {recipe.steps[0].words}" in out


@pytest.mark.parametrize("code", RECIPE_CODES)
def test_what_is_written_is_read_again(code):
    recipe = college_recipe(code)
    read = plain_text.read(plain_text.write(recipe))
    assert read.title == recipe.title and (read.portions, read.unit) == (recipe.portions_stated, recipe.unit)
    lines = [(component.name, line_words(recipe, line)) for component, line in all_lines(recipe)]
    assert [(line.section, line.text) for line in read.lines] == lines
    assert [step.words for step in read.steps] == [step.words for step in recipe.steps]
    assert read.not_read == ()


def test_headings_a_yield_and_a_method_without_numbers_are_read():
    read = plain_text.read(
        "Rolls\nFrom the valley.\nServes 4\n\nINGREDIENTS:\nFor the dough:\n500 g flour\nsalt, to taste\n"
        "\nMETHOD\nMix.\n\nBake.\n\nNotes\nKeep dry.\n"
    )
    assert (read.title, read.portions) == ("Rolls", 4)
    assert [(line.section, line.text) for line in read.lines] == [
        ("For the dough", "500 g flour"),
        ("For the dough", "salt, to taste"),
    ]
    assert [step.words for step in read.steps] == ["Mix.", "Bake."]
    assert read.notes == "Keep dry." and read.not_read[0].what == "“From the valley.”"


def test_numbers_behind_the_lines_begin_a_method_and_a_broken_line_goes_on():
    read = plain_text.read("Rolls\n\n500 g flour\n1.5 l milk\n\n1. Mix it\nwell.\n2) Bake.\n")
    assert [line.text for line in read.lines] == ["500 g flour", "1.5 l milk"]
    assert [step.words for step in read.steps] == ["Mix it well.", "Bake."]


def test_a_text_without_lines_or_steps_says_so():
    read = plain_text.read("Rolls\n")
    assert [each.what for each in read.not_read] == ["Ingredients", "Method"]
