"""The papers: the lecturer's calls and a strip a bench, in the words of the plan."""

import io

import pytest
from pypdf import PdfReader

from curriculum.paper import LARGE, NORMAL
from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.paper import lecturer_sheet, strip_rows, strips
from tests.builders.timeplan_lessons import college_lesson

FACTS = "Tuesday 16 February 2027, 09:00 to 12:00."
STAMP = "Plan 3, 16 Feb 2027 09:42"


@pytest.fixture(scope="module")
def plan():
    return plan_lesson(college_lesson("main-1"), None).plan


def pages(pdf):
    return [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]


def test_the_lecturer_sees_every_call_and_bench(plan):
    text = " ".join(pages(lecturer_sheet(plan, FACTS, STAMP)))
    assert "Time plan: Leek and Cheddar quiche" in text
    for step in (3, 4, 5, 6, 7, 8, 9):
        assert f"step {step}" in text
    assert "Demonstration of step 4, live" in text
    assert "Quiche without egg" in text


def test_each_bench_has_its_own_strip(plan):
    found = pages(strips(plan, FACTS, plan.benches, STAMP))
    assert len(found) >= 7
    one = " ".join(pages(strips(plan, FACTS, plan.benches[6:], STAMP)))
    assert "FREE FROM EGG" in one
    assert "wren" not in one


def test_large_print_leaves_nothing_out(plan):
    usual, large = (
        " ".join(" ".join(pages(strips(plan, FACTS, plan.benches[:1], STAMP, size))).split())
        for size in (NORMAL, LARGE)
    )
    for words in ("Pin out to", "Look for:", "Present,", "down, clean"):
        assert words in usual
        assert words in large


def test_the_strip_ends_with_what_is_in_hand(plan):
    rows = strip_rows(plan, plan.benches[0])
    assert rows[-1][0] == "11:30"
    assert rows[-1][2] == f"{135 - (plan.benches[0].end - plan.cooking_from)} min in hand before it."


def test_a_strip_leaves_no_page_for_its_last_line_alone(plan):
    found = pages(strips(plan, FACTS, plan.benches, STAMP))
    assert len(found) < 2 * len(plan.benches)
    for bench in plan.benches:
        own = pages(strips(plan, FACTS, (bench,), STAMP))
        assert "The times are a plan." in own[0]
        assert "Present, clear down" in own[-1]


def test_a_step_without_hands_says_nothing_of_hands():
    cooling = plan_lesson(college_lesson("main-2"), None).plan
    lines = [line for line in cooling.benches[0].lines if not line.hands_minutes]
    text = " ".join(pages(strips(cooling, FACTS, cooling.benches[:1], STAMP)))
    assert lines[0].words in text
    assert " 0 min of hands" not in text.replace("\n", " ")
