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
#: Trade knowledge, no source; where a food is a mixture, what its invented label names.
COMPOSITION = {
    "wheat": """soft_wheat_flour strong_wheat_flour wholemeal_wheat_flour cake_wheat_flour
        self_raising_wheat_flour durum_semolina bulgur_wheat couscous_dry wheat_bran wheat_germ
        dried_breadcrumbs panko_crumbs dried_macaroni dried_spaghetti dried_egg_noodles filo_pastry
        beef_suet soy_sauce oyster_sauce""",
    "spelt": "spelt_flour",
    "rye": "rye_flour_medium rye_flour_dark",
    "barley": "pearl_barley malt_extract_barley malt_vinegar worcestershire_sauce",
    "oats": "rolled_oats",
    "milk": """unsalted_butter salted_butter ghee double_cream_48 whipping_cream_38 single_cream_18
        soured_cream_18 creme_fraiche_30 whole_milk semi_skimmed_milk skimmed_milk skimmed_milk_powder
        sweetened_condensed_milk evaporated_milk cultured_buttermilk plain_yogurt strained_yogurt
        mature_cheddar soft_cheese_full_fat ricotta mascarpone parmesan mozzarella goats_cheese_soft
        blue_cheese feta gruyere milk_couverture_35 white_couverture_30 gianduja""",
    "egg": """egg_in_shell egg_beaten egg_yolk egg_white pasteurised_egg_white pasteurised_egg_yolk
        dried_egg_white dried_egg_noodles mayonnaise""",
    "almond": "flaked_almonds ground_almonds whole_almonds marzipan",
    "hazelnut": "hazelnuts hazelnut_praline_paste gianduja",
    "walnut": "walnut_halves walnut_oil",
    "pecan": "pecan_halves",
    "pistachio": "pistachio_kernels",
    "cashew": "cashew_nuts",
    "macadamia": "macadamia_nuts",
    "brazil_nut": "brazil_nuts",
    "peanuts": "peanuts peanut_butter",
    "sesame": "sesame_seed sesame_oil tahini",
    "soya": """soya_drink dark_couverture_62 milk_couverture_35 white_couverture_30 gianduja
        plant_fat_block white_fondant_with_soya firm_tofu soy_sauce oyster_sauce""",
    "fish": """plaice_whole whiting_fillet fish_stock salmon_fillet cod_fillet haddock_fillet
        mackerel_fillet trout_fillet anchovy_in_oil fish_gelatine worcestershire_sauce fish_sauce""",
    "crustaceans": "prawns_shell_on brown_crab_meat langoustine",
    "molluscs": "mussels_live squid_cleaned scallops_shucked oyster_sauce",
    "celery": """white_chicken_stock brown_chicken_stock brown_beef_stock vegetable_stock fish_stock
        stock_powder_vegetable celery celeriac celery_salt tomato_ketchup""",
    "mustard": "mustard_powder curry_powder dijon_mustard wholegrain_mustard mayonnaise gherkins",
    "lupin": "lupin_flour",
    "sulphites": """white_wine_vinegar red_wine_vinegar cider_vinegar balsamic_vinegar dry_white_wine
        dry_red_wine sweet_fortified_wine sultanas dried_apricots glace_cherries mixed_candied_peel
        dijon_mustard gherkins horseradish_grated""",
}


def composed(food: str) -> set[str]:
    """The kinds that a food is made of."""
    return {kind for kind, foods in COMPOSITION.items() if food in foods.split()}


@pytest.mark.parametrize("food", sorted(college_foods()))
def test_foods_of_the_book_are_declared_as_their_composition_says(food):
    """From composition: trade knowledge, no source; the label in hand rules."""
    assert set(college_foods()[food].contains) == composed(food)


def test_every_food_of_the_composition_is_in_the_book_and_every_kind_but_one_is_met():
    """Khorasan wheat is the one kind that no food of the book holds."""
    named = {food for foods in COMPOSITION.values() for food in foods.split()}
    assert named <= set(college_foods())
    assert set(allergens.KINDS) - set(COMPOSITION) == {"khorasan"}


@pytest.mark.parametrize(
    "food",
    [
        "desiccated_coconut",
        "coconut_fat",
        "coconut_milk_tinned",
        "pine_nuts",
        "chestnuts_cooked",
        "buckwheat_flour",
        "rice_flour",
        "maize_meal",
        "leaf_gelatine_gold",
        "powdered_gelatine",
        "cornflour",
        "glucose_syrup",
        "nutmeg",
        "vegetable_oil",
        "cocoa_butter",
        "quinoa",
        "lamb_leg",
    ],
)
def test_foods_that_only_sound_alike_declare_nothing(food):
    """Coconut, pine nut and chestnut are no nuts of the annex, buckwheat is no gluten cereal;

    glucose syrup is among its exceptions.
    """
    assert college_foods()[food].contains == (), ANNEX


def test_a_nut_forgotten_or_a_coconut_declared_would_be_seen():
    """Planted: the same comparison over a book with two wrong labels."""
    wrong = {"flaked_almonds": set(), "desiccated_coconut": {"almond"}}
    assert all(said != composed(food) for food, said in wrong.items())


def test_nuts_and_gluten_cereals_are_printed_by_kind():
    assert allergens.printed("almond") == "nuts (almond)"
    assert allergens.printed("wheat") == "gluten (wheat)"
    assert allergens.printed("milk") == "milk"
