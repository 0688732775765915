from curriculum.recipes.interchange.words import exact_grams, yield_words
from tests.builders.recipes import college_recipe


def test_grams_are_exact_to_the_milligram():
    assert [exact_grams(each) for each in (91_670, 1, 100_000, 1_000)] == ["91.67", "0.001", "100", "1"]


def test_what_it_makes_is_counted_by_its_first_word():
    assert yield_words(college_recipe("R09")) == "10 portions of four pieces"
    assert yield_words(college_recipe("R01")) == "8 wedges"
