"""Figures of which several sources say several things: each of ours is its own source's, and is named.

A published truth does not exist for the weight of a cup, the share of a shell or a trimmed
vegetable. The arithmetic is exact; a stored figure is held against the source it claims and against
the spread of another one.
"""

from fractions import Fraction as F

import pytest

from curriculum.foods import egg_sizes, eggs, yields
from curriculum.foods import units as u
from curriculum.foods.measures import convert, read_line
from tests.builders.recipes import fixture
from tests.published.rows import row

FOODS = {each["code"]: each for each in fixture("foods.json")["foods"]}

GNU = "units list of GNU 2.22 after a baking book (read): the least and the most of one US cup"
#: Ounces or grams of one US cup, least and most: sifted, spooned, dipped.
SPREAD = {
    "soft_wheat_flour": (F(4), F(5), u.OUNCE),
    "strong_wheat_flour": (F("4.25"), F("5.5"), u.OUNCE),
    "cocoa_powder": (F(75), F(95), u.GRAM),
    "granulated_sugar": (F(200), F(200), u.GRAM),
    "light_brown_sugar": (F(217), F(239), u.GRAM),
    "dark_brown_sugar": (F(217), F(239), u.GRAM),
    "unsalted_butter": (F(8), F(8), u.OUNCE),
}
#: Where USDA SR28 says more than the second source: ounces or grams of the second, per cent more.
APART = {
    "cake_wheat_flour": (F("4.5"), u.OUNCE, "7.4"),
    "cornflour": (F(120), u.GRAM, "6.7"),
    "icing_sugar": (F(4), u.OUNCE, "5.8"),
    "clear_honey": (F("11.75"), u.OUNCE, "1.8"),
    "black_treacle": (F("11.25"), u.OUNCE, "5.7"),
    "glucose_syrup": (F("11.5"), u.OUNCE, "4.6"),
    "olive_oil": (F("7.5"), u.OUNCE, "1.6"),
    "whole_milk": (F(242), u.GRAM, "0.8"),
}


def _grams_of_a_cup(code):
    return FOODS[code]["milligrams_per_ml"] * u.US_CUP.size / 1000


@pytest.mark.parametrize("code", SPREAD)
def test_a_cup_lies_in_the_spread_of_the_second_source(code):
    """Half a gram is what the table of SR28 rounds to."""
    least, most, unit = SPREAD[code]
    low, high = (convert(each, unit, u.GRAM) for each in (least, most))
    assert low - F(1, 2) <= _grams_of_a_cup(code) <= high + F(1, 2), GNU


@pytest.mark.parametrize("code", APART)
def test_a_cup_of_sr28_is_so_much_more_than_one_of_the_second_source(code):
    """Computed from both tables: SR28 rounds to whole grams, which is up to half a per cent."""
    size, unit, per_cent = APART[code]
    more = _grams_of_a_cup(code) / convert(size, unit, u.GRAM) - 1
    assert abs(more * 100 - F(per_cent)) <= F(1, 2), (float(more * 100), GNU)


def test_a_syrup_of_half_sugar_has_the_density_of_its_table():
    exact = F("1.23202") * F("0.99717") * 1000
    assert round(exact) == FOODS["sugar_syrup_50"]["milligrams_per_ml"], (
        "Brix 50 of the table after NIST Circular 440, table 114, times 0.99717 g/ml"
    )


# Shares of an egg, as three others weigh them

SHARES = [
    ("white", "57.0", "63.4", "Japan Poultry Association, questions and answers (read)"),
    ("yolk", "28.0", "30.6", "Japan Poultry Association, questions and answers (read)"),
    ("white", "56", "60", "a poultry lecture page: 58 %, within two points (read)"),
    ("yolk", "29", "33", "a poultry lecture page: 31 %, within two points (read)"),
    (
        "yolk",
        "25.5",
        "29.95",
        "Cotterill and Geiger 1977, 27.5 % within two points, and half of the last digit",
    ),
]


@pytest.mark.parametrize(("part", "low", "high", "source"), SHARES)
def test_white_and_yolk_are_the_share_of_an_egg_that_others_weigh(part, low, high, source):
    share = getattr(egg_sizes.gives(60_000), part) / 60_000 * 100
    assert F(low) <= share <= F(high), (float(share), source)


@pytest.mark.parametrize(
    ("spoons", "part", "grams"), [("2 tbsp", "white", "30"), ("3.5 tsp", "yolk", "18.6")]
)
def test_spoons_of_white_and_yolk_are_the_grams_of_the_same_source(spoons, part, grams):
    """Units list of GNU: white of a large egg 2 tbsp, yolk 3.5 tsp; SR28: 243 g a cup of either.

    Half a teaspoon, 2.5 g, is the least the first source counts in; half of it either way.
    """
    read = read_line(f"{spoons} egg {part}", u.US).amount
    weight = read.millilitres * FOODS[f"egg_{part}"]["milligrams_per_ml"] / 1000
    assert abs(weight - F(grams)) <= F("1.27"), float(weight)


def test_the_shell_share_is_twelve_per_cent_of_sr28():
    assert row("shell", F(eggs.SHELL_PER_MILLE, 10), "exact 12", "USDA SR28, refuse of 01123").holds()


# Trimmed, by the second text and by the trade table of its lineage

TEXT = "Bakery and Business Math, openwa.pressbooks.pub, chapter Yield Percents (read)"
TRADE = "a trade table of the same lineage (read)"
#: Usable per cent as printed; a mushroom stands in the brief of the trade as 97.
PRINTED = {
    "yield_tables": {
        "cooking_apple": 76, "dessert_apple": 76, "apricot_fresh": 94, "globe_artichoke": 48, "asparagus": 56,
        "avocado": 75, "banana": 68, "green_beans": 88, "beetroot": 76, "blackberries": 92, "blueberries": 92,
        "broccoli": 61, "brussels_sprouts": 74, "white_cabbage": 79, "cantaloupe_melon": 50, "carrot": 82,
        "cauliflower": 45, "firm_pear": 78, "strawberries": 87, "courgette": 95, "button_mushroom": 97,
    },
    "trade_table": {
        "celery": 75, "cucumber": 95, "aubergine": 81, "fennel_bulb": 60, "onion": 89, "parsnip": 85,
        "floury_potato": 81, "waxy_potato": 81, "radish": 63, "swede": 85, "spinach": 74, "sweet_potato": 80,
        "tomato": 91, "turnip": 81,
    },
}  # fmt: skip


@pytest.mark.parametrize(("table", "source"), [("yield_tables", TEXT), ("trade_table", TRADE)])
def test_every_figure_of_another_table_is_the_one_that_it_prints(table, source):
    stored = {
        code: one["usable_per_mille"]
        for code, food in FOODS.items()
        for one in food.get("yield_figures", ())
        if one["source"] == table
    }
    assert stored == {code: per_cent * 10 for code, per_cent in PRINTED[table].items()}, source


def test_a_food_that_goes_by_another_table_goes_by_a_figure_of_it():
    for code, food in FOODS.items():
        if food["usable_source"] in PRINTED:
            assert food["usable_per_mille"] == PRINTED[food["usable_source"]][code] * 10, code


# Cooked: weights of SR28, WEIGHT.txt and its footnotes (read); the shares were computed from them

POUND = convert(1, u.POUND, u.GRAM)
COOKED = [
    ("chicken, meat and skin, roasted, of a pound", POUND, "178", "39.2"),
    ("the same of its raw flesh", F(276), "178", "64.5"),
    ("chicken, meat only, roasted", POUND, "146", "32.2"),
    ("chicken, meat only, stewed", POUND, "157", "34.6"),
    ("chicken, meat only, fried", POUND, "155", "34.2"),
    ("duck, meat and skin, roasted", POUND, "173", "38.1"),
    ("minced turkey", POUND, "330", "72.8"),
    ("pork tenderloin, roasted", POUND, "333", "73.4"),
    ("pork shoulder blade, roasted", POUND, "262", "57.8"),
    ("pork spare ribs, braised", POUND, "177", "39.0"),
    ("pork rib chop, braised", F(113), "81", "71.7"),
    ("pork rib chop, grilled", F(113), "80", "70.8"),
    ("pork rib chop, pan-fried", F(113), "75", "66.4"),
    ("beef flank, braised", POUND, "262", "57.8"),
    ("beef flank, grilled", F(483), "387", "80.1"),
    ("beef rib eye, grilled", F(297), "236", "79.5"),
    ("beef short ribs, braised", POUND, "225", "49.6"),
    ("frozen spinach, boiled, of 10 oz", convert(10, u.OUNCE, u.GRAM), "220", "77.6"),
    ("frozen peas, boiled, of 10 oz", convert(10, u.OUNCE, u.GRAM), "253", "89.2"),
]


@pytest.mark.parametrize(("what", "raw", "cooked", "per_cent"), COOKED, ids=[each[0] for each in COOKED])
def test_a_cooking_loss_is_reckoned_as_a_share_of_what_went_in(what, raw, cooked, per_cent):
    found = yields.share(raw, F(cooked)) * 100
    assert row(what, found, per_cent, "USDA SR28 (2015), WEIGHT.txt", "computed").holds(), float(found)


def test_a_rib_eye_that_was_printed_as_92_per_cent_is_91_and_a_half():
    """A catering page: 1,605 g to 1,468 g, printed as 92 %; exact 91.46."""
    assert F("91.46") < yields.share(1605, 1468) * 100 < F("91.47")


# Measures of the tables that no recipe here is written in

NOT_CARRIED = [
    "1 saltspoon salt", "4 drams brandy", "1 fluid dram brandy", "2 scoops sorbet", "1 disher sorbet",
    "1 no. 10 can tomatoes", "1 peck apples", "1 bushel apples",
]  # fmt: skip


@pytest.mark.parametrize("text", NOT_CARRIED)
def test_a_measure_that_is_not_carried_is_handed_back(text):
    """Units list of GNU and NIST SP 430 have sizes for them; a guess here would be a silent one."""
    for system in (None, *u.SYSTEMS):
        assert read_line(text, system).trouble, (text, system)
