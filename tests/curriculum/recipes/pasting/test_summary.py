from curriculum.foods.measures import read_lines
from curriculum.recipes.data import LineData
from curriculum.recipes.pasting.matching import propose
from curriculum.recipes.pasting.summary import summary_of, system_of

MIXED = "1 cup flour\n1 pint milk\n100 g butter"


def _summary(text, system="", of_recipe=""):
    return summary_of(
        [propose(each, []) for each in read_lines(text, system or None)], text, system, of_recipe
    )


def test_words_that_differ_ask_for_the_measures_and_are_never_chosen():
    found = _summary(MIXED)
    assert found.asks and [word for word, _ in found.words] == ["cup", "pint"]
    assert "US cups and spoons" in found.fitting and "Australian" not in found.fitting


def test_measures_that_were_said_are_said_again():
    found = _summary(MIXED, "us")
    assert not found.asks and "US cups and spoons" in found.system


def test_a_text_in_grams_says_that_nothing_had_to_be_chosen():
    found = _summary("100 g butter")
    assert not found.asks and "no measures had to be chosen" in found.system


def test_other_measures_than_the_recipe_has_are_named():
    assert "only the grams are kept" in _summary("1 cup flour", "us", "metric").system


def test_the_recipe_is_in_a_system_only_when_its_words_need_one():
    assert system_of([LineData(0, "a", 1, written="1 cup")], "us") == "us"
    assert system_of([LineData(0, "a", 1, written="1 lb"), LineData(0, "b", 1)], "us") == ""
