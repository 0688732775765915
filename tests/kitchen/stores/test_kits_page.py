"""The kits page in words: what stands, what is short, what comes next."""

from dataclasses import replace

from kitchen.stores.allocation import Allocation
from kitchen.stores.kits_page import accepted_page, proposed_page
from kitchen.stores.proposal import prepare
from kitchen.stores.tools.standing import Standing
from tests.kitchen.stores.test_proposal import QUESTION


def proposed(**changes):
    question = replace(QUESTION, **changes)
    return proposed_page(question, prepare(question))


def test_the_page_counts_its_kits_in_words():
    assert proposed().summary == (
        "Seven kits: two for benches, one to demonstrate, two to spare and two prepared ahead."
    )


def test_what_is_not_weighed_is_counted():
    page = proposed()
    assert page.lines_left_words == f"{page.lines} lines are not weighed yet."
    assert replace(page, trays=()).lines_left_words == ""


def test_each_food_shows_exact_beside_issued_and_its_lots():
    rows = {row.food: row for row in proposed().needs}
    assert rows["Hen egg in shell, medium"].issued == "25 pieces"
    assert rows["Hen egg in shell, medium"].note == "22 in an order, pooled over the class"
    assert rows["Unsalted butter"].lots == "lot LS-2207"


def test_a_shortage_says_how_much_and_the_way_out():
    lots = tuple(replace(lot, held=True) if lot.food == "leek" else lot for lot in QUESTION.lots)
    (words,) = proposed(lots=lots).shortages
    assert words == (
        "Short of 2,000 g Leek: 2,000 g needed, 0 g in stock for it. "
        "Lot GS-142 is held. Take more in, or issue what is there and say so."
    )


def test_eggs_are_short_in_pieces_as_they_lie_in_the_store():
    page = proposed(lots=tuple(lot for lot in QUESTION.lots if lot.food != "egg_in_shell"))
    (words,) = (words for words in page.shortages if "Hen egg" in words)
    assert words.startswith(
        "Short of 25 pieces Hen egg in shell, medium: 25 pieces needed, 0 pieces in stock for it."
    )
    rows = {row.food: row for row in page.needs}
    assert rows["Hen egg in shell, medium"].short == "short of 25 pieces"
    assert rows["Unsalted butter"].short == ""


def test_equipment_that_is_short_stands_below_the_food_in_its_own_words():
    tins = Standing("flan_tin_fluted_24", 8, 6)
    assert proposed(equipment=(tins,)).shortages[-1] == tins.words != ""


def test_a_label_nobody_has_read_blocks_once_in_words():
    assert len(proposed().blocked) == 1 and "Gluten-free flour blend" in proposed().blocked[0]


def test_kits_that_have_left_are_no_longer_stale():
    proposal, trays = prepare(QUESTION), proposed().trays
    waiting = accepted_page(trays, proposal, proposal.allocation, stale=True)
    gone = tuple(replace(tray, issued=True) for tray in trays)
    left = accepted_page(gone, proposal, Allocation((), ()), stale=True)
    again = accepted_page(gone, proposal, proposal.allocation, stale=False)
    assert (waiting.stale, waiting.issued, left.stale, left.issued) == (True, False, False, True)
    assert not again.issued
