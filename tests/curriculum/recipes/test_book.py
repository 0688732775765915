from dataclasses import replace
from datetime import date

from curriculum.recipes.book import count_words, line_of
from curriculum.recipes.figures import Figures
from tests.builders.recipes import college_recipe

KEPT = Figures(one_cook_minutes=221, work_minutes=100, oven_minutes=45, portion_pence=72)
UNKNOWN = Figures(None, None, None, None)


def test_a_line_of_the_book_says_time_portions_techniques_and_allergens():
    line = line_of(college_recipe("R02"), {"sanding": "Sanding and sweet pastes"}, KEPT, date(2027, 2, 16))
    assert (line.minutes, line.contains, line.free_from) == ("3 h 41", ("gluten (wheat)", "egg", "milk"), ())
    assert line.facts == "Intermediate, eight slices."
    assert "mise" not in line.techniques.lower()
    assert (line.oven, line.cost) == ("45 min in an oven", "£0.72 a portion, at prices of 16 Feb 2027")


def test_a_line_says_what_is_not_known_of_a_recipe():
    line = line_of(college_recipe("R02"), {}, UNKNOWN)
    assert (line.minutes, line.oven, line.cost) == ("", "Oven not reckoned", "Cost not known")
    assert line_of(college_recipe("R02"), {}, replace(KEPT, oven_minutes=0)).oven == "No oven"


def test_a_variant_says_what_it_is_made_without():
    assert line_of(college_recipe("V1"), {}, KEPT).free_from == ("cereals containing gluten",)


def test_the_sentence_counts_what_was_found_of_what_there_is():
    assert count_words(17, 17, []) == "17 recipes approved to teach."
    assert (
        count_words(2, 12, ["with blind baking", "without egg"])
        == "Two of twelve recipes: with blind baking, without egg."
    )
    assert count_words(9, 9, [], "cost of a portion").endswith("to teach. Sorted by cost of a portion.")
    assert count_words(0, 1, ["foundation"]) == "None of one recipe: foundation."
