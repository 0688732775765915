from curriculum.recipes.interchange import plain_text
from tests.builders.cast import shortbread


def test_the_text_holds_title_lines_and_numbered_method():
    recipe = shortbread()
    out = plain_text.write(recipe).splitlines()
    assert out[0] == recipe.title and f"1. {recipe.steps[0].words}" in out
