"""What is learned from tests and lessons, against butcher's tests, yield tests and a textbook median."""

from datetime import date
from fractions import Fraction

import pytest

from curriculum.foods import yields
from kitchen.stores.learning import wastage
from kitchen.stores.learning.robust import middle
from kitchen.stores.learning.usable import Weighed, propose
from tests.published.rows import row

BC = "BCcampus, Basic Kitchen and Food Service Management, example 12 (results read in a copy)"
BUTCHER = "butcher's test, lamb loin 12 lb: kidneys 1, flanks 1.5, fat 3, loss 0.5 lb"


def learned(*tests, in_use=1000):
    """Per cent usable by a proposal from tests of (bought, usable) in any one unit of weight."""
    weighed = [
        Weighed(yields.TestedYield(date(2027, 1, 5), int(bought * 1000), int(left * 1000)), "")
        for bought, left in tests
    ]
    return Fraction(propose("food", weighed, in_use).amount, 10)


LAMB_LEFT = 12 - (Fraction(1) + Fraction("1.5") + 3 + Fraction("0.5"))
#: A proposal is a whole per mille, so a tenth of a per cent is its last digit.
ROWS = [
    row("lamb loin: what is left is half", learned((12, LAMB_LEFT)), "exact 50", BUTCHER),
    row("tenderloin 2.5 kg less 750 g", learned((Fraction("2.5"), Fraction("1.75"))), "exact 70", BC),
    row("tuna tin 750 less brine", learned((750, 400)), "53.3", BC, "read in a copy"),
    row("striploin 5.2 to 4.6 kg", learned((Fraction("5.2"), Fraction("4.6"))), "88.5", "a yield test"),
    row("sprouts: 8 lb of 10 lb", learned((10, 8)), "exact 80", "a culinary arithmetic text"),
]


@pytest.mark.parametrize("each", ROWS, ids=lambda each: each.what)
def test_a_share_learned_from_one_published_test_is_what_was_published(each):
    assert each.holds(), float(each.computed)


def test_two_published_tests_are_pooled_by_weight():
    """12 lb of lamb at 50 % and 10 lb of sprouts at 80 % are 14 of 22 lb; their mean would be 65 %."""
    assert learned((12, 6), (10, 8)) == Fraction("63.6")


def test_the_middle_and_the_usual_distance_are_those_of_a_textbook():
    """1, 1, 2, 2, 4, 6, 9: the median is 2 and the median distance from it 1 (from memory)."""
    values = [1, 1, 2, 2, 4, 6, 9]
    assert middle(values) == 2
    assert middle(abs(each - 2) for each in values) == 1


def test_common_allowances_are_shown_as_the_trade_gives_them():
    """3-5 % weighed dry, 5-10 % fresh, 10-20 % by novices: common practice, no source."""
    assert (wastage.COMMON_DRY, wastage.COMMON_FRESH, wastage.COMMON_NOVICE) == (
        (30, 50),
        (50, 100),
        (100, 200),
    )
