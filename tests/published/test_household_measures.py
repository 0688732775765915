"""The whole table of household measures of USDA SR28 (2015, public domain) through our reader.

Where the table lies beside the checkout (``../shared/data/usda``) every one of its descriptions is
read: none breaks the reader, every weight it reads is the weight the table gives, every
volume gives a density that a food can have. What the table says twice of one food is checked below.
"""

import csv
from fractions import Fraction as F
from functools import cache
from pathlib import Path

import pytest

from curriculum.foods import measures, units, yields
from curriculum.foods.measures import read_line
from tests.published.rows import row

USDA = Path(__file__).resolve().parents[3] / "shared" / "data" / "usda"
PORTIONS = sorted(USDA.glob("sr28_portions_all.csv"))
REFUSE = sorted(USDA.glob("sr28_refuse.csv"))
#: Words of a description after which the grams are no longer those of what was measured.
CHANGED = ("yield", "prepared", "drained", "cooked", "crumbles", "liquid", "serving")
#: The table prints whole grams, or tenths; nominal packs are up to 2 % off.
NEAR = F(2, 100)
#: Rows in which the table says two things ("2 oz" of fresh pasta as 128 g); as counted.
AT_ODDS = 45
#: g/ml: freeze-dried chives 0.0135 and sauces, syrups and honey up to 1.5 in the table itself.
LIGHTEST, HEAVIEST = F("0.0135"), F("1.72")


@cache
def rows(path):
    with path.open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def _read(each):
    named = each["description"].replace(",", " ") if each["measure"].startswith("stick") else ""
    return read_line(f"{each['amount']} {each['measure']} {named}".strip(), units.US)


def _off(each, read=_read):
    """How far the table is from what was read, as a share; None for no weight."""
    amount = read(each).amount
    if amount is None or amount.milligrams is None or any(word in each["measure"] for word in CHANGED):
        return None
    exact, grams = amount.milligrams / 1000, F(each["grams"])
    return F(0) if abs(exact - grams) <= F(1, 2) else abs(exact - grams) / exact


@pytest.mark.parametrize("path", PORTIONS, ids=lambda path: path.stem)
def test_every_description_of_the_table_is_read_or_handed_back(path):
    assert len(rows(path)) == 15_438
    for each in rows(path):
        read = _read(each)
        assert read.amount is not None or read.trouble, each


@pytest.mark.parametrize("path", PORTIONS, ids=lambda path: path.stem)
def test_every_weight_that_is_read_is_the_weight_that_the_table_gives(path):
    found = {index: _off(each) for index, each in enumerate(rows(path))}
    weights = [off for off in found.values() if off is not None]
    far = [rows(path)[index] for index, off in found.items() if off is not None and off > NEAR]
    assert len(weights) > 3_400 and len(far) <= AT_ODDS, [each["measure"] for each in far]


@pytest.mark.parametrize("path", PORTIONS, ids=lambda path: path.stem)
def test_a_reader_that_took_an_ounce_for_a_fluid_ounce_would_be_seen(path):
    def fluid(each):
        return read_line(f"{each['amount']} {each['measure']}".replace("lb", "oz"), units.US)

    off = [_off(each, fluid) for each in rows(path) if each["measure"].startswith("lb")]
    assert off and all(share > NEAR for share in off if share is not None)


@pytest.mark.parametrize("path", PORTIONS, ids=lambda path: path.stem)
def test_every_volume_that_is_read_gives_a_density_that_a_food_can_have(path):
    odd, read = [], 0
    for each in rows(path):
        amount = _read(each).amount
        if amount is None or amount.millilitres is None or any(word in each["measure"] for word in CHANGED):
            continue
        read += 1
        if not LIGHTEST <= F(each["grams"]) / amount.millilitres <= HEAVIEST:
            odd.append(each)
    assert read > 4_300
    assert [each["description"] for each in odd] == ["Babyfood, dinner, broccoli and chicken, junior"]


@pytest.mark.parametrize("path", PORTIONS, ids=lambda path: path.stem)
def test_spoons_and_cups_of_liquids_agree_within_the_rounding_of_the_table(path):
    """The suggested band for liquids is 3 %; a spoon is printed in tenths or whole grams."""
    liquids = {"01077": "milk, whole", "04053": "oil, olive", "19296": "honey", "01085": "milk, nonfat"}
    for number, name in liquids.items():
        found = [
            (F(each["grams"]), amount.millilitres)
            for each in rows(path)
            if each["ndb_no"] == number and (amount := _read(each).amount) and amount.millilitres
        ]
        cup = next(grams / size for grams, size in found if size == units.US_CUP.size)
        assert len(found) > 1
        for grams, size in found:
            assert abs(grams - cup * size) <= max(F(3, 100) * grams, F(1, 2)), name


@pytest.mark.parametrize("path", REFUSE, ids=lambda path: path.stem)
def test_every_refuse_of_the_table_is_a_usable_share_there_and_back(path):
    """SR28 documentation: EP = AP x (1 - refuse / 100), exactly; the table prints the factor as well."""
    for each in rows(path):
        share = 1000 - 10 * int(each["refuse_pct"])
        if not share:
            continue
        left = yields.usable(1_000_000, share)
        assert left == 1_000_000 * (1 - F(each["refuse_pct"]) / 100)
        assert abs(left / 1_000_000 - F(each["edible_portion_factor"])) <= F(1, 200)
        assert yields.as_bought(left, share) == 1_000_000


SR28 = "USDA SR28 (2015), WEIGHT.txt"


def _in(grams, measure, other):
    """Grams of one ``other`` when one ``measure`` weighs ``grams``, both US."""
    one, two = measures.read_amount(measure, units.US), measures.read_amount(other, units.US)
    return F(grams) * two.millilitres / one.millilitres


SPREAD = [
    ("table salt, cup in teaspoons", _in("292", "1 cup", "1 tsp"), "6", "0.014"),
    ("table salt, tablespoon in teaspoons", _in("18", "1 tbsp", "1 tsp"), "6", "0"),
    ("butter, cup in tablespoons", _in("227", "1 cup", "1 tbsp"), "14.2", "0.001"),
    ("vanilla, cup in teaspoons", _in("208", "1 cup", "1 tsp"), "4.2", "0.032"),
    ("milk, cup in tablespoons", _in("244", "1 cup", "1 tbsp"), "15", "0.017"),
    ("milk, cup in fluid ounces", _in("244", "1 cup", "1 fl oz"), "30.5", "0"),
    ("milk, cup in quarts", _in("244", "1 cup", "1 qt"), "976", "0"),
    ("soybean oil, cup in tablespoons", _in("218", "1 cup", "1 tbsp"), "13.6", "0.002"),
]


@pytest.mark.parametrize(("what", "computed", "printed", "share"), SPREAD, ids=[each[0] for each in SPREAD])
def test_measures_of_one_food_are_as_far_apart_as_the_table_rounds_them(what, computed, printed, share):
    assert abs(computed - F(printed)) <= F(share) * F(printed), (what, float(computed), SR28)
    if share == "0":
        assert row(what, computed, f"exact {printed}", SR28).holds()
