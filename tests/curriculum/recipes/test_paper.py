"""The recipe sheet on paper: what the page says, and large print with nothing left out."""

import re
from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PdfReader

from curriculum.lettering import strong
from curriculum.recipes.bench_sheet import BenchFacts, bench_sheet
from curriculum.recipes.paper import _step, bench_sheets_paper
from tests.builders.recipes import RECIPE_CODES, VARIANT_CODES, college_recipe
from tests.curriculum.recipes.test_bench_sheet import a_sheet


def bench_sheet_paper(sheet):
    return bench_sheets_paper([sheet], f"Recipe sheet: {sheet.title}")


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


@pytest.mark.parametrize("code", ["R03", "R11", "V1"])
def test_large_print_has_no_letter_under_eighteen_points(code):
    pdf = PdfReader(BytesIO(bench_sheet_paper(a_sheet(code, large_print=True, extra_percent=25))))
    content = b"".join(page.get_contents().get_data() for page in pdf.pages)
    sizes = [float(size) for size in re.findall(rb"/F\S+ ([\d.]+) Tf", content)]
    assert len(sizes) > 100
    assert min(sizes) >= 18


@pytest.mark.parametrize("code", [*RECIPE_CODES, *VARIANT_CODES])
def test_every_word_of_the_ordinary_sheet_stands_in_the_large_one(code):
    ordinary, large = (
        re.sub(r"[\s\xa0]+", "", words_of(bench_sheet_paper(a_sheet(code, large_print=print_large))))
        for print_large in (False, True)
    )
    foot = re.compile(r"bench6,\d+of\d+")
    title = a_sheet(code).title.replace(" ", "")
    words = {word for line in told(a_sheet(code)) for word in re.split(r"[\s\xa0]+", line)}
    assert len(words) > 60
    assert [word for word in words if word not in ordinary] == []
    assert [word for word in words if word not in large] == []
    assert foot.search(large) and title in large


def told(sheet):
    """Everything a sheet says, from the dataclass that the page is made from too."""
    said = [sheet.title, sheet.facts, sheet.free_from, *sheet.adjustments, sheet.presentation, sheet.serve]
    said += [*sheet.cautions, sheet.source, *sheet.page.words, *sheet.page.contains, *sheet.page.may_contain]
    said += [*sheet.page.not_read, *(each.words.name for each in sheet.components)]
    for line in (line for each in sheet.components for line in each.words.lines):
        said += [line.figure, line.unit, line.food, *line.contains, *line.points, line.exact]
    for step in sheet.steps:
        words = step.words
        said += [words.words, words.cue, words.times, step.extra, words.core, words.watch, *words.care]
        said += [words.caution, *(way.said for way in words.ways)]
    return said


def test_the_sheets_of_several_benches_have_their_bookmarks_and_their_own_print():
    sheets = [a_sheet("R03", plate="4"), a_sheet("V3", plate="5", large_print=True)]
    pdf = PdfReader(BytesIO(bench_sheets_paper(sheets, "Recipe sheets")))
    starts = [pdf.get_destination_page_number(each) for each in pdf.outline]
    assert [each.title for each in pdf.outline] == [
        "Bench 4, Otto, Jonas, Coffee éclairs",
        "Bench 5, Otto, Jonas, Éclairs without milk",
    ]
    assert f"bench 4, 1 of {starts[1]}" in pdf.pages[0].extract_text()
    assert f"bench 5, 1 of {len(pdf.pages) - starts[1]}" in pdf.pages[starts[1]].extract_text()


def test_a_core_temperature_and_its_hold_are_in_bold():
    step = next(each for each in a_sheet("R11").steps if each.words.core)
    assert strong("Core 75 to 82\xa0°C, held 30\xa0s.") in _step(step).words


def test_both_ways_of_a_step_and_what_a_load_takes_are_on_paper():
    said = words_of(bench_sheet_paper(a_sheet("R03"))).replace("\xa0", " ")
    assert "By machine, mixer: 10 min." in said
    assert "By hand: 14 min. Beat with a stiff spoon in the pan." in said


def test_what_the_cook_wrote_stands_beside_the_grams():
    recipe = college_recipe("R01")
    first = replace(recipe.components[0].lines[0], written="1 1/2 cups")
    component = replace(recipe.components[0], lines=(first, *recipe.components[0].lines[1:]))
    recipe = replace(recipe, measures="us", components=(component, *recipe.components[1:]))
    facts = BenchFacts("6", ("Otto",), recipe.portions_stated * 2)
    assert "3 cups." in words_of(bench_sheet_paper(bench_sheet(recipe, facts, {}))).replace("\xa0", " ")


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
