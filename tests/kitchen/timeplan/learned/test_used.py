"""Which paces a lesson is planned by, in words; what the recipe itself says; what the chances take."""

from dataclasses import replace
from datetime import date

import pytest

from curriculum.recipes.data import WayData
from kitchen.timeplan.kept import kept_question
from kitchen.timeplan.learned.used import (
    kept_pacing,
    learned_spreads,
    pace_words,
    recipe_minutes,
    spread_words,
    used_paces,
)
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.paces import LearnedPace, times_words
from tests.builders.timeplan_lessons import class_of

LESSON = class_of("R01", "juniper", 2, 210)


def learned(technique="lining_ring", name="Lining a ring", per_mille=1300, timings=(1300,) * 14):
    when, count = date(2027, 2, 9), len(timings)
    level = LESSON.benches[0].recipe.level
    return LearnedPace(technique, name, level, per_mille, count, 4, "Marek Hazel", when, tuple(timings))


def asked(lesson):
    return kept_question(problem_of(lesson))


def by(*paces):
    return replace(LESSON, paces=paces)


def test_only_paces_that_govern_a_step_are_used():
    used = used_paces(by(learned(), learned("pinning_out", "Pinning out", 1100), learned("grilling")))
    assert [(each.pace.technique, each.steps) for each in used] == [("lining_ring", (4,))]


def test_a_step_that_is_not_in_the_lesson_uses_no_pace():
    assert used_paces(replace(by(learned()), ahead=(4,))) == ()


def test_a_step_without_hands_uses_no_pace():
    recipe = LESSON.benches[0].recipe
    idle = tuple(
        replace(step, ways=(WayData("bench", 0),)) if step.position == 4 else step for step in recipe.steps
    )
    benches = tuple(replace(bench, recipe=replace(recipe, steps=idle)) for bench in LESSON.benches)
    assert used_paces(replace(by(learned()), benches=benches)) == ()


def test_a_pace_is_said_with_what_it_rests_on_and_who_accepted_it():
    (used,) = used_paces(by(learned()))
    assert pace_words(used) == (
        "Step 4: the foundation level took 1.3 × the recipe’s minutes in four lessons (14 timings);"
        " accepted by Marek Hazel on Tuesday 9 February 2027."
    )
    (thin,) = used_paces(by(learned(timings=(1300,) * 4)))
    assert pace_words(thin).endswith("That is thin evidence.")
    (enough,) = used_paces(by(learned(timings=(1300,) * 5)))
    assert "thin" not in pace_words(enough)


@pytest.mark.parametrize(
    ("per_mille", "words"),
    [(1300, "1.3 ×"), (1304, "1.3 ×"), (1305, "1.31 ×"), (1000, "1 ×"), (950, "0.95 ×"), (10000, "10 ×")],
)
def test_a_pace_is_said_in_hundredths_at_most(per_mille, words):
    assert times_words(per_mille) == words


def test_the_recipes_minutes_are_kept_where_the_plan_counts_others():
    assert recipe_minutes(by(learned()), asked(by(learned()))) == {"1/4/0": 10, "2/4/0": 10}
    slow = replace(by(learned()), benches=(replace(LESSON.benches[0], pace_per_mille=1250),))
    assert problem_of(slow).task["1/4/0"].minutes == 17
    assert recipe_minutes(slow, asked(slow)) == {"1/4/0": 13}
    assert kept_pacing(LESSON, asked(LESSON)) == {"paces": [], "recipe_minutes": {}}


def test_of_two_ways_of_a_step_the_recipes_minutes_are_those_of_the_way_that_was_planned():
    """Beaten for 9 min by machine or 14 by hand, at 1.5: 21 planned are 14 in the recipe."""
    step = replace(LESSON.benches[0].recipe.steps[3], ways=(WayData("machine", 9), WayData("hand", 14)))
    recipe = replace(LESSON.benches[0].recipe, steps=(step,))
    lesson = replace(by(learned(per_mille=1500)), benches=(replace(LESSON.benches[0], recipe=recipe),))
    task = {"name": "1/4/0", "bench": "1", "step": 4, "hands": True}
    assert recipe_minutes(lesson, {"tasks": [task | {"minutes": 21}]}) == {"1/4/0": 14}
    assert recipe_minutes(lesson, {"tasks": [task | {"minutes": 14}]}) == {"1/4/0": 9}
    assert recipe_minutes(lesson, {"tasks": [task | {"minutes": 99}]}) == {}


def test_the_chances_take_the_spread_of_enough_timings_and_say_how_many():
    wide = learned(timings=[800, 1250] * 5)
    lesson = by(wide, learned("sweating", "Sweating", timings=(1100,) * 6))
    spreads = learned_spreads(lesson, problem_of(lesson))
    assert spreads == {"1/4/0": 235, "2/4/0": 235, "1/3/0": None, "2/3/0": None}
    words = spread_words(lesson)
    assert "with how far learners differ: lining a ring (10 timings)." in words
    assert "since a spread needs ten timings: sweating (6 timings)." in words
    assert spread_words(LESSON) == ""
