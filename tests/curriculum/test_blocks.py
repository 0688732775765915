"""The blocks of a sheet: nothing lost over a page, nothing broken that fits, large print whole."""

from io import BytesIO

import pytest
from pypdf import PdfReader

from curriculum.blocks import DocketLine, Sheet
from curriculum.lettering import allergen, strong
from curriculum.paper import LARGE, NORMAL


def pages(sheet):
    return [page.extract_text() for page in PdfReader(BytesIO(sheet.finish())).pages]


def words_of(sheet):
    return " ".join(" ".join(pages(sheet)).split())


@pytest.mark.parametrize("size", [NORMAL, LARGE])
def test_every_line_of_a_long_docket_is_printed_once(size):
    sheet = Sheet("Trial", size=size, foot="Trial")
    sheet.docket([DocketLine(f"{n} g", f"Food number {n}.", f"Point {n}.") for n in range(90)], points=8)
    said = words_of(sheet)
    assert all(said.count(f"Food number {n}.") == 1 for n in range(90))
    assert all(said.count(f"Point {n}.") == 1 for n in range(90))
    assert len(pages(sheet)) > 1


def test_large_print_leaves_nothing_out():
    def made(size):
        sheet = Sheet("Trial", size=size)
        sheet.head("Éclairs", "Ten.", plate="4", free_from="FREE FROM MILK: this bench")
        sheet.side_by_side([(f"Part {n}", [DocketLine("1 g", f"Line {n}")]) for n in range(5)])
        sheet.caution("Before you start", ["Hot oven."], "Source: the college.")
        return sorted(words_of(sheet).split())

    assert made(NORMAL) == made(LARGE)


def test_a_head_stands_on_each_page_of_a_table():
    sheet = Sheet("Trial")
    sheet.rows([0, 6], [[f"Food {n}", "1 g"] for n in range(120)], head=["What is it", "How much"])
    assert all("What is it" in page for page in pages(sheet))


def test_a_row_longer_than_a_page_goes_on_and_loses_nothing():
    sheet = Sheet("Trial")
    words = [f"word{n}" for n in range(2_000)]
    sheet.rows([4, 0], [["1", " ".join(words)]])
    said = set(words_of(sheet).split())
    assert set(words) <= said


def test_a_row_that_fits_a_page_is_not_broken():
    sheet = Sheet("Trial")
    sheet.y = sheet.bottom - 40
    sheet.rows([0], [["first\nsecond\nthird\nfourth\nfifth"]])
    assert [("first" in page, "fifth" in page) for page in pages(sheet)][-1] == (True, True)


def test_a_heading_does_not_stand_alone_at_the_end():
    sheet = Sheet("Trial")
    sheet.paragraph("before")
    sheet.y = sheet.bottom - 30
    sheet.heading("Weigh")
    sheet.docket([DocketLine("1 g", "Salt")])
    first, second = pages(sheet)
    assert "Weigh" not in first
    assert "Weigh" in second and "Salt" in second


def test_a_slip_ends_with_its_total():
    sheet = Sheet("Trial")
    sheet.slip([("Judgement", "72"), ("Cap", "−2")], total=("Total", "70"))
    assert words_of(sheet).endswith("Total 70")


def test_allergens_are_in_bold_inside_the_list():
    sheet = Sheet("Trial")
    sheet.docket([DocketLine("1 g", ("Butter (", allergen("milk"), ")"))])
    assert "Butter (milk)" in words_of(sheet).replace("( ", "(").replace(" )", ")")
    assert allergen("milk").voice == "strong" and allergen("milk").ruled


def test_a_very_long_name_is_printed_whole():
    sheet = Sheet("Trial")
    name = "W" * 400
    sheet.docket([DocketLine("1", strong(name), "point")], points=9)
    sheet.head("Title", name, plate="1")
    assert words_of(sheet).count("W") == 800


def test_a_box_stands_on_a_line_of_its_own():
    sheet = Sheet("Trial")
    before = sheet.y
    sheet.boxed("FREE FROM EGG: this bench")
    assert sheet.y > before
    assert "FREE FROM EGG" in words_of(sheet)
