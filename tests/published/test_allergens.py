"""The declarable allergens against Annex II, and the look-alikes that are not on the list."""

import pytest

from curriculum import allergens
from tests.builders.recipes import college_foods

ANNEX = "Reg. (EU) No 1169/2011, Annex II (copy of Reading University)"

FOURTEEN = {
    "gluten": {"wheat", "rye", "barley", "oats", "spelt", "khorasan"},
    "crustaceans": {"crustaceans"},
    "egg": {"egg"},
    "fish": {"fish"},
    "peanuts": {"peanuts"},
    "soya": {"soya"},
    "milk": {"milk"},
    "nuts": {"almond", "hazelnut", "walnut", "cashew", "pecan", "brazil_nut", "pistachio", "macadamia"},
    "celery": {"celery"},
    "mustard": {"mustard"},
    "sesame": {"sesame"},
    "sulphites": {"sulphites"},
    "lupin": {"lupin"},
    "molluscs": {"molluscs"},
}


def test_the_fourteen_groups_and_their_kinds_are_those_of_the_annex():
    assert {code: set(kinds) for code, (_, kinds) in allergens.GROUPS.items()} == FOURTEEN, ANNEX


@pytest.mark.parametrize(
    "alike", ["coconut", "pine_nut", "chestnut", "buckwheat", "maize", "rice", "gelatine"]
)
def test_what_only_sounds_alike_is_not_on_the_list(alike):
    with pytest.raises(KeyError):
        allergens.kinds_of(alike)
    assert alike not in allergens.KINDS, ANNEX


@pytest.mark.parametrize(
    ("food", "kinds"),
    [
        ("soft_wheat_flour", {"wheat"}),
        ("strong_wheat_flour", {"wheat"}),
        ("unsalted_butter", {"milk"}),
        ("double_cream_48", {"milk"}),
        ("egg_in_shell", {"egg"}),
        ("egg_yolk", {"egg"}),
        ("flaked_almonds", {"almond"}),
        ("soya_drink", {"soya"}),
        ("plaice_whole", {"fish"}),
        ("white_wine_vinegar", {"sulphites"}),
        ("desiccated_coconut", set()),
        ("rice_flour", set()),
        ("leaf_gelatine_gold", set()),
    ],
)
def test_foods_of_the_book_are_declared_as_their_composition_says(food, kinds):
    """From composition: trade knowledge, no source; the label in hand rules."""
    assert kinds <= set(college_foods()[food].contains)
    if not kinds:
        assert not {"almond", "wheat", "fish"} & set(college_foods()[food].contains)


def test_nuts_and_gluten_cereals_are_printed_by_kind():
    assert allergens.printed("almond") == "nuts (almond)"
    assert allergens.printed("wheat") == "gluten (wheat)"
    assert allergens.printed("milk") == "milk"
