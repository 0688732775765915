"""What leading costs in a sentence and a table."""

from dataclasses import replace

import pytest

from kitchen.timeplan.lead import plan_lesson
from kitchen.timeplan.price import Led
from kitchen.timeplan.price_words import price_facts
from tests.builders.timeplan_lessons import class_of


@pytest.fixture(scope="module")
def plan():
    found = plan_lesson(class_of("R01", "juniper", 2, 210), None).plan
    return replace(found, waves=2, by_the_minute=(), clock_minutes=5, finish_minutes=172, bound_minutes=160)


def test_the_sentence_says_the_price_and_what_it_is_at_most(plan):
    """Led 172, free 165, none below 160: 7 as far as was found, 12 at most."""
    facts = price_facts((Led(0, 165, 160), Led(1, 180, 161), Led(2, 172, 163)), plan)
    assert facts.lead == (
        "Led in two waves on the fives: 172 min. Led by nobody: 165 min. The price of leading is 7 min as far"
        " as was found, and 12 min at most, since no plan at all is shorter than 160 min."
    )
    assert [(line.head, line.finish, line.more, line.bound, line.this) for line in facts.lines] == [
        ("Led by nobody", "165 min", "none", "160 min", False),
        ("Led all together on the fives", "180 min", "15 min", "161 min", False),
        ("Led in two waves on the fives", "172 min", "7 min", "163 min", True),
    ]


@pytest.mark.parametrize(
    ("free", "words"),
    [
        (Led(0, 165, 165), "The price of leading is 7 min; no plan at all is shorter than 165 min."),
        (Led(0, 172, 160), "Leading costs no minute as far as was found, and 12 min at most"),
        (Led(0, 172, 172), "Leading costs no minute."),
    ],
)
def test_a_price_that_is_proved_or_nothing_is_said_so(plan, free, words):
    assert words in price_facts((free, Led(2, 172, 160)), plan).lead


def test_a_way_without_a_plan_and_steps_by_the_minute_are_said(plan):
    own = replace(plan, by_the_minute=(3, 7))
    facts = price_facts((Led(0, 165, 160), Led(1, None, 160), Led(2, 172, 160, False, (3, 7))), own)
    assert (facts.lines[1].finish, facts.lines[1].more) == ("no plan found", "")
    assert facts.lines[2].head == "Led in two waves on the fives, steps 3 and 7 by the minute"
    assert facts.lines[2].this
    assert "a longer search may find shorter ones" in facts.looked


def test_without_any_plan_nothing_is_said(plan):
    assert price_facts((Led(0, None, 160), Led(1, None, 160)), plan) is None


def test_what_was_searched_is_said(plan):
    searched = (Led(0, 165, 160, True), Led(1, 172, 160, True))
    assert price_facts(searched, plan).looked == "Each way was searched for a few seconds."
