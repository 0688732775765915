"""The page of a food in words: what is in use stands first, and how far the figures lie apart."""

from dataclasses import replace
from datetime import date

import pytest

from curriculum.foods import yields
from curriculum.foods.costs import PackPrice
from curriculum.foods.data import FoodData
from curriculum.foods.listing import CLASS_WORDS
from curriculum.foods.models import Food
from curriculum.foods.one.page import Known, OwnTest, PackKnown, TableFigure, page_of

TODAY = date(2027, 2, 16)
CAULIFLOWER = Known(
    food=FoodData("cauliflower", "Cauliflower", usable_per_mille=390),
    usable_source="One table",
    density_source="",
    piece_source="",
    label_read_by="",
    note="",
    retired=False,
    pieces=(),
    tables=(TableFigure(4, 390, "One table"), TableFigure(5, 450, "Another")),
    tests=(),
    packs=(),
    made_from=None,
    whole_is_costed=False,
    parts=(),
)


def test_the_table_in_use_is_marked_and_the_spread_is_said_in_what_to_buy():
    page = page_of(CAULIFLOWER, TODAY)
    assert [(line.figure, line.number, line.in_use) for line in page.figures] == [
        ("39 %", 4, True),
        ("45 %", 5, False),
    ]
    assert "between 39 % and 45 %: for 1,000 g usable buy 2,222 g or 2,564 g" in page.spread


def test_a_figure_in_use_that_is_no_tables_stands_first_and_joins_the_spread():
    page = page_of(replace(CAULIFLOWER, usable_source="Own estimate"), TODAY)
    assert [(line.source, line.in_use) for line in page.figures][0] == ("Own estimate", True)
    assert [line.in_use for line in page.figures].count(True) == 1


def test_own_tests_count_together_by_weight_and_are_in_use_only_as_they_stand_now():
    tests = (
        OwnTest(yields.TestedYield(date(2027, 1, 5), 1000, 400), "Hana"),
        OwnTest(yields.TestedYield(date(2027, 2, 1), 1000, 500), "Hana"),
    )
    chosen = "own yield tests, 1, the last on 5 January 2027"
    page = page_of(replace(CAULIFLOWER, tests=tests, usable_source=chosen), TODAY)
    assert page.figures[1].figure == "45 %" and not page.figures[1].in_use
    assert page.tests[0].figure == "40 %"


def test_one_figure_has_no_spread():
    assert page_of(replace(CAULIFLOWER, tables=CAULIFLOWER.tables[:1]), TODAY).spread == ""


@pytest.mark.parametrize(
    ("from_on", "until_on", "kind"),
    [
        (date(2027, 1, 1), None, "now"),
        (date(2027, 2, 16), date(2027, 2, 16), "now"),
        (date(2027, 2, 17), None, "to come"),
        (date(2027, 1, 1), date(2027, 2, 15), "ended"),
    ],
)
def test_a_price_says_whether_it_stands(from_on, until_on, kind):
    pack = PackKnown("A", PackPrice("cauliflower", 2_000_000, 300), from_on, until_on, True)
    page = page_of(replace(CAULIFLOWER, packs=(pack,)), TODAY)
    line = page.prices[0]
    assert (line.kind, line.as_bought, line.as_used) == (kind, "£1.50", "£3.85")
    assert page.has_price == (kind == "now")


def test_a_part_is_costed_by_the_piece_it_is_from():
    assert not page_of(CAULIFLOWER, TODAY).has_price
    assert page_of(replace(CAULIFLOWER, whole_is_costed=True), TODAY).has_price


def test_what_nobody_has_said_is_not_known():
    food = replace(CAULIFLOWER.food, facts=(("meat", "no"), ("alcohol", "yes"), ("fish", "unknown")))
    ways = dict(page_of(replace(CAULIFLOWER, food=food), TODAY).ways)
    assert ways["Without"] == "Meat." and ways["Is or holds"] == "Alcohol." and "fish" in ways["Not known"]


def test_a_label_that_nobody_read_is_not_an_empty_label():
    page = page_of(CAULIFLOWER, TODAY)
    assert not page.is_read and "what it contains is not known" in page.read


def test_every_class_of_scaling_has_its_words():
    assert set(CLASS_WORDS) == set(Food.ScalingClass.values)
