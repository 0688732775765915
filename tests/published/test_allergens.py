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


#: What each food of the book must declare from what it is made of; every other food declares nothing.
COMPOSITION = {
    "wheat": ("soft_wheat_flour", "strong_wheat_flour"),
    "milk": (
        "unsalted_butter",
        "double_cream_48",
        "whipping_cream_38",
        "creme_fraiche_30",
        "whole_milk",
        "mature_cheddar",
    ),
    "egg": ("egg_in_shell", "egg_beaten", "egg_yolk", "egg_white"),
    "almond": ("flaked_almonds",),
    "soya": ("soya_drink", "dark_couverture_62", "plant_fat_block", "white_fondant_with_soya"),
    "fish": ("plaice_whole", "whiting_fillet", "fish_stock"),
    "celery": ("white_chicken_stock", "brown_chicken_stock", "fish_stock"),
    "sulphites": ("white_wine_vinegar", "dry_white_wine"),
}


@pytest.mark.parametrize("food", sorted(college_foods()))
def test_foods_of_the_book_are_declared_as_their_composition_says(food):
    """From composition: trade knowledge, no source; the label in hand rules."""
    expected = {kind for kind, foods in COMPOSITION.items() if food in foods}
    assert set(college_foods()[food].contains) == expected


@pytest.mark.parametrize(
    "food",
    ["desiccated_coconut", "rice_flour", "leaf_gelatine_gold", "cornflour", "glucose_syrup", "vegetable_oil"],
)
def test_foods_that_only_sound_alike_declare_nothing(food):
    """Coconut is no nut of the annex, glucose syrup and refined oil are among its exceptions."""
    assert college_foods()[food].contains == (), ANNEX


def test_a_nut_forgotten_or_a_coconut_declared_would_be_seen():
    """Planted: the same comparison over a book with two wrong labels."""
    wrong = {"flaked_almonds": set(), "desiccated_coconut": {"almond"}}
    assert all(
        said != {kind for kind, foods in COMPOSITION.items() if food in foods} for food, said in wrong.items()
    )


def test_nuts_and_gluten_cereals_are_printed_by_kind():
    assert allergens.printed("almond") == "nuts (almond)"
    assert allergens.printed("wheat") == "gluten (wheat)"
    assert allergens.printed("milk") == "milk"
