"""An order as a table: no cell is a formula, and the figures are plain."""

import csv
import io
from dataclasses import replace
from datetime import date

from kitchen.stores.orders.filling import Filling
from kitchen.stores.orders.sheet import HEADS, OrderSheet, SheetLine, table

LINES = (SheetLine(1, "Butter", "250 g", 4, 4, 210), SheetLine(2, "=SUM(A1)", "-1 g", 2, None, 100))
SHEET = OrderSheet("ABC23456", "+Dairy", date(2027, 2, 15), "College", "", LINES)


def rows():
    return list(csv.reader(io.StringIO(table(SHEET))))


def test_a_row_a_line_with_packs_and_prices_in_pence():
    head, first, _ = rows()
    assert tuple(head) == HEADS
    assert first == ["ABC23456", "'+Dairy", "2027-02-15", "Butter", "250 g", "4", "210", "840", ""]


def test_packs_that_only_fill_up_say_so_in_the_last_column():
    filling = Filling(2, date(2027, 3, 1), date(2027, 3, 1))
    sheet = replace(SHEET, lines=(replace(LINES[0], filling=filling),))
    (row,) = list(csv.reader(io.StringIO(table(sheet))))[1:]
    assert row[-1] == "2 packs only fill up the least order, used in the week of Monday 1 March"


def test_what_a_program_would_take_for_a_formula_begins_with_an_apostrophe():
    assert rows()[2][3:5] == ["'=SUM(A1)", "'-1 g"]
    assert not any(each.startswith(("=", "+", "-", "@")) for row in rows() for each in row)


def test_another_number_than_was_proposed_is_by_hand():
    assert [line.by_hand for line in LINES] == [False, True] and SHEET.pence == 1040
