import pytest

from curriculum.foods import units
from curriculum.foods.reading.figures import Unreadable
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
