"""The recipe sheet on paper: what the page says, and large print with nothing left out."""

import re
from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PdfReader

from curriculum.recipes.paper import bench_sheet_paper
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES
from tests.curriculum.recipes.test_bench_sheet import a_sheet


def words_of(pdf):
    return " ".join(" ".join(page.extract_text() for page in PdfReader(BytesIO(pdf)).pages).split())


def body(pdf):
    """The words without the foot, which stands on each page."""
    pages = [page.extract_text() for page in PdfReader(BytesIO(pdf)).pages]
    foot = re.compile(r"^(Coffee éclairs|bench 6, \d+ of \d+)$")
    lines = [line for page in pages for line in page.splitlines() if not foot.match(line.strip())]
    return sorted("".join(lines).replace(" ", ""))


def test_everything_the_page_says_is_on_paper():
    sheet = a_sheet(extra_percent=25)
    said = words_of(bench_sheet_paper(sheet)).replace(" ", "")
    wanted = [sheet.title, *sheet.adjustments, *sheet.page.equipment[1:], *sheet.page.cautions, sheet.source]
    wanted += [step.words.words for step in sheet.steps] + [step.words.cue for step in sheet.steps]
    wanted += [line.food for each in sheet.components for line in each.words.lines]
    assert [words for words in wanted if words.replace(" ", "").replace("\\xa0", "") not in said] == []


def test_large_print_leaves_nothing_out():
    normal = bench_sheet_paper(a_sheet("R03"))
    large = bench_sheet_paper(a_sheet("R03", large_print=True))
    assert body(normal) == body(large)
    assert len(PdfReader(BytesIO(large)).pages) > len(PdfReader(BytesIO(normal)).pages)


def test_the_free_from_box_is_on_the_sheet_of_a_variant():
    assert "FREE FROM EGG: this bench" in words_of(bench_sheet_paper(a_sheet("V2")))


def test_a_label_that_nobody_read_is_told():
    sheet = a_sheet()
    unread = replace(sheet, page=replace(sheet.page, not_read=("Desiccated coconut",)))
    assert "No label read: Desiccated coconut." in words_of(bench_sheet_paper(unread))


@pytest.mark.parametrize("code", [*RECIPE_CODES, *VARIANT_CODES])
def test_every_recipe_of_the_book_can_be_printed_large(code):
    assert bench_sheet_paper(a_sheet(code, large_print=True)).startswith(b"%PDF")


def test_the_word_that_is_never_said_of_food_is_not_on_it():
    assert all(
        "safe" not in words_of(bench_sheet_paper(a_sheet(code))).lower() for code in ("R01", "V1", "R09")
    )
