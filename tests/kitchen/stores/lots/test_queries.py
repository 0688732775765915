"""A lot says in words why it waits, which delivery it came with, and for which lessons it was accepted."""

import pytest

from curriculum.foods.models import Food
from kitchen.stores.deliveries.actions import accept_substitute
from kitchen.stores.lots.queries import lot_page, stock_rows
from kitchen.stores.models import Lot
from tests.builders.book import a_book
from tests.builders.cast import TERM, TODAY, build_cast
from tests.builders.deliveries import a_delivery, a_pack, an_order, as_ordered, checked
from tests.builders.stores import COOKED, a_lot

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    """The small college, its labels read."""
    made = build_cast()
    Food.objects.update(label_read_on=TERM)
    return made


def came(cast, **changes):
    order = an_order(a_pack("plain_flour"), by=cast.stores)
    delivery = a_delivery(order, by=cast.stores)
    return checked(delivery, as_ordered(order.lines.get(), **changes), cast.stores)


def test_an_unread_lot_waits_for_its_label_in_words_on_the_stock_list(cast):
    lot = came(cast, label_read=False).lot
    (row,) = stock_rows(TODAY)
    assert row.state == ("cannot", "waits for its label")
    assert row.why == f"Lot {lot.code} waits for its label: nobody has read it."


def test_the_page_of_a_lot_leads_to_its_delivery(cast):
    line = came(cast)
    page = lot_page(line.lot, TODAY)
    assert (page.came.delivery, page.accepted_for) == (line.delivery, ())


def test_a_substitute_names_the_lessons_it_was_accepted_for(cast):
    made = accept_substitute(line=came(cast, contains=("soya",)), lessons=[cast.lesson], by=cast.stores)
    assert lot_page(Lot.objects.get(pk=made.lot_id), TODAY).accepted_for == (cast.lesson,)
    (row,) = stock_rows(TODAY)
    assert row.state == ("late", "look at it") and "and no other" in row.why


def test_a_substitute_accepted_for_no_lesson_is_not_to_be_issued(cast):
    accept_substitute(line=came(cast, contains=("soya",)), lessons=[], by=cast.stores)
    (row,) = stock_rows(TODAY)
    assert row.state == ("stopped", "not to be issued") and "for no lesson" in row.why


def test_what_is_counted_in_pieces_moves_in_pieces():
    a_book(*COOKED)
    lot = a_lot("egg_in_shell", "E-1", 570)
    (row,) = lot_page(lot, TODAY).moves
    assert (
        row.amount.startswith("+") and row.amount.removeprefix("+") == row.balance and "piece" in row.balance
    )
