import pytest

from curriculum.recipes.variants.avoided import foods_without
from curriculum.recipes.variants.proposals import likeness, proposed, telling_words
from tests.builders.recipes import college_food, college_foods


@pytest.mark.parametrize(
    "food, without, offered",
    [
        ("soft_wheat_flour", "gluten", {"rice_flour", "gluten_free_flour_blend"}),
        ("unsalted_butter", "milk", {"plant_fat_block"}),
        ("whole_milk", "milk", {"soya_drink"}),
    ],
)
def test_what_is_like_it_in_a_dough_is_proposed(food, without, offered):
    found = proposed(college_food(food), foods_without(without, college_foods()))
    assert offered & {each.code for each in found} and len(found) <= 8


def test_the_same_part_counts_more_than_a_word_and_a_word_more_than_the_shelf():
    flour = college_food("soft_wheat_flour")
    assert likeness(flour, college_food("rice_flour")) > likeness(flour, college_food("cornflour"))
    assert likeness(flour, college_food("leek")) == 0


def test_how_a_food_is_does_not_tell_what_it_is():
    assert telling_words("Soft wheat flour") == {"wheat", "flour"}
    assert telling_words("Unsalted butter") == {"butter"}
