"""The words of a requisition: what changed, who is too late and who still can, what an order holds."""

from datetime import date, datetime, time

from kitchen.stores.orders.calendar import SupplierData
from kitchen.stores.orders.page import FoodWords
from kitchen.stores.requisitions.difference import Difference
from kitchen.stores.requisitions.late import Bought, Chance, Missing
from kitchen.stores.requisitions.page import change_rows, late_rows, order_words, reason_words
from kitchen.stores.requisitions.reasons import BENCHES, OVER_ISSUE, SPARE, Asked

FOODS = {"egg": FoodWords("Hen egg", "chilled", 57_000), "cream": FoodWords("Double cream", "chilled")}
DAIRY = SupplierData("dairy", "Dairy", 1, time(12), (1, 2, 3, 4, 5, 6, 7))
MISSING = Missing("cream", 800_000, date(2027, 2, 16), 3)
CHANCE = Chance(DAIRY, date(2027, 2, 15), datetime(2027, 2, 14, 12))
NOW = datetime(2027, 2, 14, 15)


def test_eggs_change_in_pieces_and_a_food_that_is_gone_says_so():
    found = (
        Difference("egg", 26 * 57_000, 31 * 57_000, ((BENCHES, 5 * 57_000),)),
        Difference("cream", 400_000, 0, ((BENCHES, -400_000),)),
    )
    cream, egg = change_rows(found, FOODS)
    assert (egg.before, egg.now, egg.difference) == ("26 pieces", "31 pieces", "5 pieces more")
    assert egg.why == "kits of the benches 5 pieces more"
    assert (cream.before, cream.now, cream.difference, cream.kind) == (
        "400 g",
        "nothing",
        "400 g less",
        "no more",
    )


def test_one_reason_that_goes_without_saying_is_not_said():
    cream = FOODS["cream"]
    assert reason_words([Asked("cream", BENCHES, 400_000)], cream) == ""
    assert reason_words([Asked("cream", OVER_ISSUE, 400_000)], cream) == OVER_ISSUE
    both = [Asked("cream", SPARE, 100_000), Asked("cream", BENCHES, 400_000)]
    assert reason_words(both, cream) == "kits of the benches 400 g, spare 100 g"


def test_who_is_too_late_by_how_much_and_who_still_can():
    (row,) = late_rows([Bought(MISSING, past=(CHANCE,), can=(CHANCE,))], FOODS, {"cream": 200_000}, NOW)
    assert row.words == (
        "800 g is missing; 200 g of it is in stock.",
        "Dairy took orders for it until 12:00 on Sunday 14 February: 3 h too late.",
        "Dairy still brings it: order by 12:00 on Sunday 14 February.",
    )
    assert not row.nobody


def test_where_nobody_can_the_words_say_what_would_do_and_come_first():
    late, nobody = Bought(MISSING, past=(CHANCE,)), Bought(Missing("egg", 57_000, MISSING.use_on, 5))
    rows = late_rows(
        [Bought(MISSING, past=(CHANCE,), can=(CHANCE,)), nobody, late], FOODS, {"egg": 57_000}, NOW
    )
    assert [row.nobody for row in rows] == [True, True, False]
    said = " ".join(word for row in rows for word in row.words)
    assert "No supplier on the list sells it. Buy it elsewhere, or cook with what is in stock." in said
    assert "Ask the supplier, or cook without it." in said


def test_a_food_that_everybody_brings_in_time_is_no_row():
    assert late_rows([Bought(MISSING, can=(CHANCE,))], FOODS, {}, NOW) == ()


def test_an_order_holds_too_much_or_too_little():
    assert (
        order_words("3 packs", FOODS["cream"], -160_000)
        == "It holds 3 packs, and 160 g less is asked for now."
    )
    assert order_words("3 packs", FOODS["cream"], 160_000).endswith("160 g more is asked for now.")
