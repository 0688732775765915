"""The facts of the page: what is fixed, what it costs, what breaks."""

from dataclasses import replace

from kitchen.timeplan import drafts
from kitchen.timeplan.drafts import better_drafts, breaks_of, draft_of
from kitchen.timeplan.pins.data import START, PinData
from kitchen.timeplan.pins.pages import NO_PLAN, NONE_FOUND, cost_words, fix_page
from tests.builders.timeplan_lessons import class_of


def fixed(minute, part=0):
    lesson = class_of("R01", "juniper", 2, 210)
    return replace(lesson, pins=(PinData(1, START, "1", 8, part, minute=minute),))


def test_what_is_fixed_costs_the_minutes_between_two_plans_of_our_own_rule():
    lesson = fixed(130)
    with_it, without = draft_of(lesson), draft_of(replace(lesson, pins=()))
    costs = with_it.plan.finish_minutes - without.plan.finish_minutes
    assert costs > 0
    assert cost_words(lesson, with_it).startswith("What is fixed costs ")
    assert "costs no time" in cost_words(lesson, without)


def test_what_breaks_is_on_the_page_and_in_the_long_work():
    lesson = fixed(20)
    page = fix_page(lesson, draft_of(lesson))
    assert page["heading"] == NO_PLAN
    assert page["breaks"][0].startswith("This cannot hold: “Step 8 of bench 1 begins at 09:20”")
    *_, last = better_drafts(lesson)
    assert set(page["breaks"][:2]) <= set(last.reasons)


def test_where_nothing_is_proved_the_head_says_only_that_no_plan_is_found(monkeypatch):
    lesson = fixed(20)
    monkeypatch.setattr(drafts, "what_breaks", lambda *_: None)
    page = fix_page(lesson, draft_of(lesson))
    assert page["heading"] == NONE_FOUND
    assert page["breaks"] == (drafts.NOT_ROUND,)


def test_nothing_breaks_where_nothing_is_fixed():
    lesson = replace(fixed(20), pins=())
    assert breaks_of(lesson, draft_of(lesson)) == ()
