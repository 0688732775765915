"""Kitchen measures against their definitions, and what pint alone would have made of them."""

from fractions import Fraction

import pint
import pytest

from curriculum.foods import measures
from curriculum.foods import units as u
from curriculum.foods.measures import Unreadable, convert, read_amount, read_line
from tests.published.rows import row

NIST = "NIST SP 811 / Handbook 44 appendix C: 1 in = 2.54 cm, 1 US gallon = 231 cubic inches"
UK = "UK Units of Measurement Regulations: 1 gallon = 4.54609 l"
POUND = "1959 agreement: 1 lb = 0.45359237 kg"
GNU = "units list of GNU, version 2.22"
SI = "International System of Units: deci, centi, milli and kilo"


def _ml(unit):
    return convert(1, unit, u.MILLILITRE)


def _g(unit):
    return convert(1, unit, u.GRAM)


FACTORS = [
    row("US teaspoon", _ml(u.US_TEASPOON), "exact 4.92892159375", NIST, "read in a copy"),
    row("US tablespoon", _ml(u.US_TABLESPOON), "exact 14.78676478125", NIST, "read in a copy"),
    row("US fluid ounce", _ml(u.US_FLUID_OUNCE), "exact 29.5735295625", NIST, "read in a copy"),
    row("US cup", _ml(u.US_CUP), "exact 236.5882365", NIST, "computed"),
    row("US cup as printed", _ml(u.US_CUP), "237", "NIST SP 430"),
    row("US gill", _ml(u.US_GILL), "exact 118.29411825", NIST, "computed"),
    row("US gill as printed", _ml(u.US_GILL), "118", "NIST SP 430"),
    row("US pint", _ml(u.US_PINT), "exact 473.176473", NIST, "computed"),
    row("US quart", _ml(u.US_QUART), "exact 946.352946", NIST, "computed"),
    row("US gallon", _ml(u.US_GALLON), "exact 3785.411784", NIST, "computed"),
    row("imperial gallon", _ml(u.IMPERIAL_GALLON), "exact 4546.09", UK),
    row("imperial pint", _ml(u.IMPERIAL_PINT), "exact 568.26125", UK, "computed"),
    row(
        "imperial pint in US pints",
        convert(1, u.IMPERIAL_PINT, u.US_PINT),
        "1.200949925",
        UK,
        "computed",
        "0.000000001",
        "the table that carries it states 1e-9",
    ),
    row("imperial fluid ounce", _ml(u.IMPERIAL_FLUID_OUNCE), "exact 28.4130625", UK, "computed"),
    row("imperial gill", _ml(u.IMPERIAL_GILL), "exact 142.0653125", UK, "computed"),
    row("imperial cup", _ml(u.IMPERIAL_CUP), "exact 284.130625", UK, "computed"),
    row("UK teaspoon", _ml(u.METRIC_TEASPOON), "exact 5", GNU),
    row("UK dessertspoon", _ml(u.METRIC_DESSERTSPOON), "exact 10", GNU),
    row("UK tablespoon", _ml(u.METRIC_TABLESPOON), "exact 15", GNU),
    row("Australian tablespoon", _ml(u.AUSTRALIAN_TABLESPOON), "exact 20", GNU),
    row("metric cup", _ml(u.METRIC_CUP), "exact 250", GNU),
    row("ounce", _g(u.OUNCE), "exact 28.349523125", POUND, "computed"),
    row("pound", _g(u.POUND), "exact 453.59237", POUND, "computed"),
    row("stick of butter", _g(u.STICK), "exact 113.3980925", "units list of GNU: a quarter of a pound"),
    row("stick of butter in USDA SR28", _g(u.STICK), "113", "USDA SR28 01001"),
    row("teaspoons in a US cup", convert(1, u.US_CUP, u.US_TEASPOON), "exact 48", "NIST SP 430"),
    row("tablespoons in a US cup", convert(1, u.US_CUP, u.US_TABLESPOON), "exact 16", "NIST SP 430"),
    row("cups in a US pint", convert(1, u.US_PINT, u.US_CUP), "exact 2", "NIST SP 430"),
    row("cups in a US quart", convert(1, u.US_QUART, u.US_CUP), "exact 4", "NIST SP 430"),
    row("tablespoons in a litre", convert(1, u.LITRE, u.US_TABLESPOON), "67.6", "NIST SP 430"),
    row("teaspoons in a litre", convert(1, u.LITRE, u.US_TEASPOON), "203", "NIST SP 430"),
    row("fluid ounces in a litre", convert(1, u.LITRE, u.US_FLUID_OUNCE), "33.8", "NIST SP 430"),
    row("cups in a litre", convert(1, u.LITRE, u.US_CUP), "4.23", "NIST SP 430"),
    row(
        "fluid ounces in a gill",
        convert(1, u.IMPERIAL_GILL, u.IMPERIAL_FLUID_OUNCE),
        "exact 5",
        UK,
        "computed",
    ),
    row(
        "US pint in fluid ounces",
        convert(1, u.US_PINT, u.IMPERIAL_FLUID_OUNCE) * Fraction("28.4130625"),
        "exact 473.176473",
        f"{NIST}; {UK}",
        "computed",
    ),
    row(
        "US pint in imperial fluid ounces, as computed",
        convert(1, u.US_PINT, u.IMPERIAL_FLUID_OUNCE),
        "16.6534837",
        f"{NIST}; {UK}; a copy ends in 370, from a reciprocal that was rounded before",
        "computed",
    ),
    row("US pint as printed", _ml(u.US_PINT), "473", "NIST SP 430"),
    row("US quart as printed", _ml(u.US_QUART), "946", "NIST SP 430"),
    row("teaspoons in a tablespoon", convert(1, u.US_TABLESPOON, u.US_TEASPOON), "exact 3", "NIST SP 430"),
    row(
        "tablespoons in a fluid ounce",
        convert(1, u.US_FLUID_OUNCE, u.US_TABLESPOON),
        "exact 2",
        "NIST SP 430",
    ),
    row("quarts in a gallon", convert(1, u.US_GALLON, u.US_QUART), "exact 4", "NIST SP 430"),
    row(
        "imperial fluid ounces in a pint", convert(1, u.IMPERIAL_PINT, u.IMPERIAL_FLUID_OUNCE), "exact 20", UK
    ),
    row(
        "tablespoons in a third of a cup, three times",
        convert(Fraction(1, 3), u.US_CUP, u.US_TABLESPOON) * 3,
        "exact 16",
        "NIST SP 430",
    ),
    row("imperial quart", _ml(u.IMPERIAL_QUART), "exact 1136.5225", UK, "computed"),
    row("centilitre", _ml(u.CENTILITRE), "exact 10", SI),
    row("decilitre", _ml(u.DECILITRE), "exact 100", SI),
    row("litre", _ml(u.LITRE), "exact 1000", SI),
    row("kilogram", _g(u.KILOGRAM), "exact 1000", SI),
    row("milligram", _g(u.MILLIGRAM), "exact 0.001", SI),
    row("ounces in a pound", convert(1, u.POUND, u.OUNCE), "exact 16", POUND),
]


@pytest.mark.parametrize("each", FACTORS, ids=lambda each: each.what)
def test_a_measure_has_its_defined_size(each):
    assert each.holds(), (each.what, float(each.computed), each.source)


#: What one of a word measures in each system, in millilitres; None: the system has no such word.
WORDS = [
    ("tbsp", u.METRIC, "15", GNU),
    ("tbsp", u.IMPERIAL, "15", GNU),
    ("tbsp", u.AUSTRALIAN, "20", GNU),
    ("tbsp", u.US, "14.78676478125", NIST),
    ("tsp", u.METRIC, "5", GNU),
    ("tsp", u.IMPERIAL, "5", GNU),
    ("tsp", u.AUSTRALIAN, "5", GNU),
    ("tsp", u.US, "4.92892159375", NIST),
    ("dsp", u.IMPERIAL, "10", GNU),
    ("cup", u.METRIC, "250", GNU),
    ("cup", u.AUSTRALIAN, "250", GNU),
    ("cup", u.IMPERIAL, "284.130625", UK),
    ("cup", u.US, "236.5882365", NIST),
    ("pint", u.IMPERIAL, "568.26125", UK),
    ("pint", u.US, "473.176473", NIST),
    ("quart", u.IMPERIAL, "1136.5225", UK),
    ("quart", u.US, "946.352946", NIST),
    ("gallon", u.IMPERIAL, "4546.09", UK),
    ("gallon", u.US, "3785.411784", NIST),
    ("gill", u.IMPERIAL, "142.0653125", UK),
    ("gill", u.US, "118.29411825", NIST),
    ("fl oz", u.IMPERIAL, "28.4130625", UK),
    ("fl oz", u.US, "29.5735295625", NIST),
    ("pint", u.METRIC, None, UK),
    ("pint", u.AUSTRALIAN, None, UK),
]


@pytest.mark.parametrize(("word", "system", "millilitres", "source"), WORDS)
def test_a_word_measures_what_its_own_system_says(word, system, millilitres, source):
    if millilitres is None:
        with pytest.raises(Unreadable):
            read_amount(f"1 {word}", system)
    else:
        assert read_amount(f"1 {word}", system).millilitres == Fraction(millilitres), source


#: What pint 0.25 makes of the words, as run, and what a cook means. ``None``: nobody can know.
TRAPS = [
    ("1 1/2 cup", u.US, Fraction(3, 2), u.US_CUP),
    ("1½ cup", u.US, Fraction(3, 2), u.US_CUP),
    ("½ cup", u.US, Fraction(1, 2), u.US_CUP),
    ("1,5 l", None, Fraction(3, 2), u.LITRE),
    ("1 cup 2 tablespoon", u.US, 18, u.US_TABLESPOON),
    ("1 pint", u.IMPERIAL, 1, u.IMPERIAL_PINT),
    ("1 pinch", None, 1, u.PINCH),
    ("2 kilos", None, 2, u.KILOGRAM),
    ("1 bag", None, 1, u.COUNTED["bag"]),
    ("100 ML", None, 100, u.MILLILITRE),
    ("1 KG", None, 1, u.KILOGRAM),
    ("2 CUP", u.US, 2, u.US_CUP),
    ("3 fl.oz", u.IMPERIAL, 3, u.IMPERIAL_FLUID_OUNCE),
    ("2 tbs", u.METRIC, 2, u.METRIC_TABLESPOON),
    ("2 dsp", u.METRIC, 2, u.METRIC_DESSERTSPOON),
    ("250 gms", None, 250, u.GRAM),
    ("1 stick", u.US, 1, u.STICK),
    ("2 cloves", None, 2, u.COUNTED["cloves"]),
    ("3 leaf", None, 3, u.COUNTED["leaf"]),
    ("2 tbl", u.METRIC, 2, u.METRIC_TABLESPOON),
    ("2 gm", None, 2, u.GRAM),
    ("2 grm", None, 2, u.GRAM),
    ("5 G", None, 5, u.GRAM),
    ("1 dash", None, 1, u.DASH),
    ("1 drop", None, 1, u.COUNTED["drop"]),
    ("1 sprig", None, 1, u.COUNTED["sprig"]),
    ("1 sheet", None, 1, u.COUNTED["sheet"]),
    ("1 bunch", None, 1, u.COUNTED["bunch"]),
    ("1 slice", None, 1, u.COUNTED["slice"]),
    ("1 tin", None, 1, u.COUNTED["tin"]),
    ("1 can", None, 1, u.COUNTED["can"]),
    ("2 doz", None, 24, u.PIECE),
    ("1 dozen", None, 12, u.PIECE),
]


@pytest.mark.parametrize(("text", "system", "figure", "unit"), TRAPS)
def test_what_pint_misreads_is_read_as_a_cook_means_it(text, system, figure, unit):
    amount = read_amount(text, system)
    assert (amount.most, amount.unit.name) == (figure, unit.name)


@pytest.mark.parametrize("text", ["3 t", "3 T", "2 c", "2 C", "5 gr", "2 units", "1 pat", "1 cup", "1 pint"])
def test_what_has_two_meanings_is_handed_back(text):
    with pytest.raises(Unreadable):
        read_amount(text)


def test_a_range_and_a_percentage_are_no_trap():
    amount = read_amount("2-3 cups", u.US)
    assert (amount.least, amount.most) == (2, 3)
    assert read_line("2 % milk").trouble


def test_eggs_are_counted_and_never_added_to_a_number():
    with pytest.raises(Unreadable):
        convert(3, u.PIECE, u.GRAM)


#: As run with pint 0.25.3: a quantity it gives instead, or a unit of another kind.
MISREAD = [
    ("1 1/2 cup", 0.5, "cup"),
    ("1½ cup", 1, "cup"),
    ("1,5 l", 15, "litre"),
    ("1 cup 2 tablespoon", 2, "cup * tablespoon"),
]
OTHER_KINDS = {
    "pinch": "[length]",
    "kilos": "[time]",
    "hand": "[length]",
    "rod": "[length]",
    "bag": "[mass]",
    "doz": "[mass]",
    "t": "[mass]",
}
UNKNOWN = ["tbl", "gm", "gms", "grm", "dsp", "stick", "dash", "clove", "leaf", "tin", "CUP", "KG", "dozen"]


def test_the_traps_are_still_there_so_that_this_reader_is_still_needed():
    plain = pint.UnitRegistry()
    for text, figure, unit in MISREAD:
        assert plain(text) == plain.Quantity(figure, unit), text
    for word, kind in OTHER_KINDS.items():
        assert plain.Unit(word).dimensionality == {kind: 1}, word
    for word in UNKNOWN:
        with pytest.raises(pint.UndefinedUnitError):
            plain.Unit(word)
    assert plain.Quantity(1, "pint").to("ml").magnitude == pytest.approx(473.176473, rel=1e-12)
    assert plain.Quantity(1, "ML").to("l").magnitude == pytest.approx(1e6, rel=1e-12)


def test_pint_never_sees_what_a_person_typed(monkeypatch):
    def refuse(*_, **__):
        raise AssertionError("pint was asked to read a text")

    for name in ("parse_expression", "parse_pattern", "__call__"):
        monkeypatch.setattr(type(measures._REGISTRY), name, refuse)
    for text, system, figure, _ in TRAPS:
        assert read_amount(text, system).most == figure
    assert convert(1, u.US_CUP, u.US_TABLESPOON) == 16
    with pytest.raises(AssertionError):
        measures._REGISTRY("1 litre")


def test_no_contexts_are_used_because_they_are_not_safe_between_threads():
    assert not measures._REGISTRY._contexts
