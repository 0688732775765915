from dataclasses import replace
from fractions import Fraction as F

import pytest

from curriculum.foods.data import FoodData, MadeFrom
from curriculum.foods.measures import read_line
from curriculum.recipes.pasting.matching import propose
from curriculum.recipes.pasting.sizes import kept_words, needs_system, sized

FLOUR = FoodData("flour", "Soft flour", milligrams_per_ml=528)
GARLIC = FoodData("garlic", "Garlic", piece_weights=(("clove", 3000), ("head", 40_000)))
THYME = FoodData("thyme", "Thyme", piece_weights=(("bunch", 25_000), ("sprig", 500)))
LEAF = FoodData("leaf", "Leaf gelatine", piece_weights=(("leaf", 2000),))
ONION = FoodData(
    "onion", "Onion", piece_weights=(("large", 150_000), ("medium", 110_000), ("onion", 110_000))
)
LEMON = FoodData(
    "lemon", "Lemon", counted_in="pieces", piece_milligrams=120_000, edible_piece_milligrams=45_000
)
YOLK = FoodData("yolk", "Egg yolk", made_from=MadeFrom("egg", 18_000))
SALT = FoodData("salt", "Fine salt", milligrams_per_ml=1217)
SOURCES = {"density": "a table of weights", "clove": "a table of weights", "piece": "the college"}


def _sized(text, food, system="us"):
    read = read_line(text, system)
    return sized(read.amount, read.food, food, SOURCES)


@pytest.mark.parametrize(
    ("text", "food", "milligrams"),
    [
        ("2 cloves garlic", GARLIC, 6000),
        ("1 head garlic", GARLIC, 40_000),
        ("1 bulb garlic", GARLIC, 40_000),
        ("1 bunch thyme", THYME, 25_000),
        ("3 sprigs thyme", THYME, 1500),
        ("2 leaves gelatine", LEAF, 4000),
        ("2 sheets gelatine", LEAF, 4000),
        ("2 large onions", ONION, 300_000),
        ("2 onions", ONION, 220_000),
        ("half a lemon", LEMON, 22_500),
        ("4 egg yolks", YOLK, 72_000),
        ("1 oz garlic", GARLIC, F(45359237, 1600)),
    ],
)
def test_what_is_counted_weighs_what_one_of_it_weighs(text, food, milligrams):
    assert _sized(text, food).most == milligrams


def test_a_volume_weighs_by_the_density_and_says_whose_it_is():
    found = _sized("1 cup flour", FLOUR)
    assert found.most == F("236.5882365") * 528
    assert found.how == "236.6 ml at 0.528 g a ml (a table of weights)."


def test_a_figure_without_a_source_says_so():
    read = read_line("1 head garlic")
    assert "no source on file" in sized(read.amount, read.food, GARLIC, {}).how


def test_whole_pieces_stay_pieces_and_a_part_of_one_is_a_weight():
    assert _sized("2 lemons", LEMON).pieces == 2
    assert _sized("half a lemon", LEMON).pieces is None
    assert _sized("1-2 lemons", LEMON).pieces is None


@pytest.mark.parametrize(
    ("text", "food", "says"),
    [
        ("1 cup garlic", GARLIC, "no density"),
        ("1 bunch garlic", GARLIC, "one bunch of Garlic weighs is not in the book"),
        ("2 flour", FLOUR, "one piece of Soft flour"),
        ("a pinch of salt", SALT, "1/16 tsp in tables, 0.37 g of Fine salt; practice varies"),
        ("a dash of salt", SALT, "1/16 tsp or 1/8 tsp in tables, 0.37 g to 0.75 g"),
        ("salt to taste", SALT, "has no size"),
    ],
)
def test_what_nobody_knows_is_not_weighed_and_says_why(text, food, says):
    found = _sized(text, food)
    assert found.most is None and says in found.how


def test_words_are_kept_where_the_measures_of_the_recipe_mean_the_same():
    assert kept_words("1 cup", "us", "us") == "1 cup"
    assert kept_words("1 cup", "us", "imperial") == ""
    assert kept_words("1 lb 3 oz", "us", "metric") == "1 lb 3 oz"
    assert kept_words("1 tbsp", "metric", "imperial") == "1 tbsp"
    assert kept_words("to taste", "us", "") == "to taste"


def test_a_system_is_needed_only_by_words_that_differ():
    assert needs_system("1 cup") and not needs_system("1 lb") and not needs_system("to taste")


def test_a_density_twice_as_large_would_be_seen():
    heavy = replace(FLOUR, milligrams_per_ml=1056)
    assert _sized("1 cup flour", heavy).most == 2 * _sized("1 cup flour", FLOUR).most
    assert propose(read_line("1 cup soft flour", "us"), [heavy]).milligrams == 249_840


def test_a_size_said_of_eggs_means_another_weight_in_each_country_and_is_said():
    egg = replace(LEMON, code="egg", name="Hen egg in shell, medium", contains=("egg",))
    found = _sized("3 large eggs", egg)
    assert found.pieces == 3 and "55.4 g to 64.2 g beaten by Reg. (EC) No 589/2008" in found.look
    assert "50 g in the United States" in found.look
    assert not _sized("3 eggs", egg).look and not _sized("3 large lemons", LEMON).look
    assert "under 46.6 g" in _sized("2 small eggs", egg).look
    assert propose(read_line("3 large eggs"), [egg]).trouble == found.look


def test_both_ends_of_a_range_of_spoons_are_weighed():
    """Metric spoons of 15 ml at 0.528 g a ml: 15.84 and 23.76 g."""
    found = _sized("2-3 tbsp soft flour", FLOUR, "metric")
    assert (found.least, found.most) == (15_840, 23_760)
