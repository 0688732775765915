import pytest

from curriculum.foods import units
from curriculum.foods.reading.figures import Unreadable
from curriculum.foods.reading.lines import read_line
from curriculum.foods.reading.words import measure, misspelt


@pytest.mark.parametrize(
    ("word", "meant"),
    [("tbps", "tbsp"), ("teaspon", "teaspoon"), ("tabelspoon", "tablespoon"), ("round", ""), ("mint", "")],
)
def test_a_measure_one_slip_away_is_known_and_a_word_of_its_own_is_not(word, meant):
    assert misspelt(word) == meant


def test_a_level_spoon_is_the_measure_and_a_heaped_one_is_none():
    assert measure("level tsp salt", "metric") == (units.METRIC_TEASPOON, "salt", "")
    with pytest.raises(Unreadable, match="no one size"):
        measure("heaped tsp salt", "metric")


def test_a_stick_is_butter_or_it_is_counted():
    assert measure("stick butter", "us")[0] is units.STICK
    assert measure("stick celery", "us")[0] is units.COUNTED_STICK
    assert measure("stick cinnamon", None)[0] is units.COUNTED_STICK
    with pytest.raises(Unreadable, match="not the same everywhere"):
        measure("stick butter", None)


@pytest.mark.parametrize("text", ["pound cake", "cup cakes", "cm piece", "servings", "mugs rice", "T salt"])
def test_what_looks_like_a_measure_and_is_none_is_refused(text):
    with pytest.raises(Unreadable):
        measure(text, "us")


@pytest.mark.parametrize(
    "text",
    ["250 grs flour", "100 gs sugar", "1 saltspoon salt", "1 dram brandy", "1 Tb butter", "1 peck apples",
     "1 teacup milk", "2 wineglasses wine", "1 cwt potatoes", "2 shots rum", "1 ladleful stock",
     "1 livre beurre"],
)  # fmt: skip
def test_a_measure_that_is_not_carried_is_never_so_many_pieces_of_a_food(text):
    """Units list of GNU has a size for some of them; a recipe that means one says it in grams."""
    for system in (None, *units.SYSTEMS):
        read = read_line(text, system)
        assert read.amount is None and read.trouble, text


def test_a_cupful_is_a_cup_and_a_dessertspoonful_a_dessertspoon():
    assert read_line("2 cupfuls flour", units.US).amount.unit is units.US_CUP
    assert read_line("2 cupfuls flour").amount is None
    assert read_line("3 dessertspoonfuls sugar").amount.unit is units.METRIC_DESSERTSPOON
