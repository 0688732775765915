"""The paper holds the same dataclass as the page, in three columns."""

import io

from pypdf import PdfReader

from kitchen.timeplan.own_order.paper import order_paper
from kitchen.timeplan.own_order.sheet import StepFacts, sheet_of
from tests.builders.own_order import GOOD

SHEET = sheet_of(GOOD, (StepFacts(1, "Rub in.", 10), StepFacts(2, "Bake.", 2)))


def words_of(pdf):
    pages = PdfReader(io.BytesIO(pdf)).pages
    return " ".join(" ".join(page.extract_text().split()) for page in pages)


def test_every_line_is_on_the_paper_in_its_columns():
    words = words_of(order_paper(SHEET, "Shortbread", "Learner N100.", plate="1"))
    for each in ("Time", "Task", "Special points", "09:20", "Cold hands", "Meanwhile: Wash the bowl"):
        assert each in words
    assert "If my paste crumbles, a teaspoon of water." in words


def test_large_print_drops_nothing():
    words = words_of(order_paper(SHEET, "Shortbread", "Learner N100.", plate="1", large=True))
    for each in ("09:20", "Cold hands", "Meanwhile: Wash the bowl", "Bowl and bench"):
        assert each in words


def test_the_sheet_is_a4():
    box = PdfReader(io.BytesIO(order_paper(SHEET, "Shortbread", "", plate="1"))).pages[0].mediabox
    assert (round(box.width), round(box.height)) == (595, 842)
