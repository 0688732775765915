"""The facts of the pages: a learner's strip holds the own bench and nobody else's."""

from datetime import date, time
from types import SimpleNamespace

import pytest

from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.pages import lesson_facts, strip_lines, strip_page, way_facts
from tests.builders.timeplan_lessons import college_lesson

LESSON = SimpleNamespace(
    on=date(2027, 2, 16),
    starts=time(9),
    minutes=180,
    room=SimpleNamespace(name="Juniper Kitchen"),
    group=SimpleNamespace(code="PC2-A"),
)


@pytest.fixture(scope="module")
def plan():
    return plan_lesson(college_lesson("main-1"), None).plan


def ruling(plan):
    return SimpleNamespace(plan=plan, stamp="Plan 3, 16 Feb 2027 09:42")


def test_a_lesson_is_one_sentence_of_facts():
    assert lesson_facts(LESSON) == "Tuesday 16 February 2027, 09:00 to 12:00, Juniper Kitchen, PC2-A."


def test_a_strip_is_the_own_bench_by_the_clock(plan):
    facts = strip_page(LESSON, ruling(plan), "7")
    assert facts["bench"].name == "7"
    assert facts["free_from"] == "FREE FROM EGG"
    ats = [line.at for line in facts["lines"]]
    assert ats == sorted(ats)
    assert facts["lines"][-1].head == "Clear-down"
    assert "wren" not in str(facts["lines"])


def test_demonstrations_stand_in_the_strip(plan):
    heads = [line.head for line in strip_lines(plan, plan.benches[0])]
    assert sum(head.startswith("Watch: ") for head in heads) == 4
    assert sum(head.startswith("Step ") for head in heads) == 7


def test_without_a_plan_or_a_bench_there_is_no_strip(plan):
    assert strip_page(LESSON)["bench"] is None
    assert strip_page(LESSON, ruling(plan), "99")["bench"] is None


KINDS = ("pairs+ahead", "longer", "sittings+longer", "oven", "ahead+helper")


def test_two_sittings_and_what_somebody_brings_cannot_be_taken_here():
    taken = {kinds: way_facts(SimpleNamespace(kinds=set(kinds.split("+")))) for kinds in KINDS}
    assert [kinds for kinds in KINDS if taken[kinds]["can_take"]] == ["pairs+ahead", "longer"]
    assert "second day" in taken["sittings+longer"]["instead"]
    assert "Ask for it first" in taken["oven"]["instead"]
