"""The order on paper: what, how many packs, from whom, by when, and the sum."""

import io
from dataclasses import replace

from pypdf import PdfReader

from kitchen.stores.orders.paper import order_pdf
from tests.kitchen.stores.orders.test_sheet import SHEET


def words(order, charge=0):
    pages = PdfReader(io.BytesIO(order_pdf(order, charge))).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_the_paper_names_the_day_the_packs_and_the_sum_with_delivery():
    text = words(SHEET, 450)
    for said in ("Order ABC23456", "Monday 15 February 2027", "Butter", "250 g", "£8.40", "£14.90"):
        assert said in text, said


def test_a_supplementary_order_names_the_one_it_is_added_to():
    assert "Added to order" not in words(SHEET)
    assert "Added to order XYZ23456." in words(replace(SHEET, supplements="XYZ23456"))
