"""Drafts: made of a lesson as it is, better and better, kept as JSON."""

import json
from dataclasses import replace

import pytest

from kitchen.timeplan import drafts, price
from kitchen.timeplan.drafts import basis_of, better_drafts, draft_of, kept_draft, read_draft, with_ways
from tests.builders.timeplan_lessons import appliances_of, class_of, college_lesson


def test_a_draft_reads_back_as_it_was_written():
    lesson = class_of("R01", "juniper", 2, 180)
    draft = with_ways(lesson, draft_of(lesson))
    assert draft.ways
    assert read_draft(json.loads(json.dumps(kept_draft(draft)))).ways == draft.ways
    assert read_draft(json.loads(json.dumps(kept_draft(draft)))).plan == draft.plan
    with pytest.raises(ValueError, match="shape 7"):
        read_draft({"shape": 7})


def test_the_basis_follows_the_lesson():
    lesson = college_lesson("main-1")
    assert basis_of(lesson) == basis_of(college_lesson("main-1"))
    for changed in (
        replace(lesson, starts=600),
        replace(lesson, minutes=200),
        replace(lesson, ahead=(1,)),
        replace(lesson, benches=lesson.benches[:5]),
        replace(lesson, appliances=lesson.appliances[1:]),
        replace(lesson, shown=()),
        replace(lesson, appliances=()),
    ):
        assert basis_of(changed) != basis_of(lesson)


def test_what_nobody_can_plan_is_a_draft_without_a_plan():
    without = tuple(a for a in appliances_of("juniper") if a.kind != "oven")
    draft = draft_of(class_of("R01", "juniper", 2, 210, appliances=without))
    assert (draft.plan, draft.fits, draft.gap_minutes) == (None, False, 0)
    assert draft.reasons
    assert read_draft(kept_draft(draft)).plan is None


def test_drafts_only_get_better(monkeypatch):
    monkeypatch.setattr(drafts, "LONG_SEARCHES", (0.5, 0.5))
    monkeypatch.setattr(price, "SEARCH_SECONDS", 0.3)
    found = list(better_drafts(college_lesson("main-2")))
    finishes = [draft.plan.finish_minutes for draft in found]
    assert [draft.prices is None for draft in found] == [True] * 3 + [False] * 4
    assert finishes == sorted(finishes, reverse=True)
    assert read_draft(json.loads(json.dumps(kept_draft(found[-1])))).prices == found[-1].prices


def test_a_draft_that_was_kept_before_prices_were_looked_for_is_read():
    kept = kept_draft(draft_of(college_lesson("main-2")))
    del kept["prices"]
    assert read_draft(kept).prices is None


def test_a_lesson_that_cannot_fit_is_not_searched_but_helped(monkeypatch):
    monkeypatch.setattr(drafts, "LONG_SEARCHES", (0.5,))
    found = list(better_drafts(class_of("R01", "juniper", 2, 180)))
    assert [draft.ways is None for draft in found] == [True, True, False]
    assert any("ahead" in way.kind for way in found[-1].ways)
