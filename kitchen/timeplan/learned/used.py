"""Which learned paces a lesson is planned by, in words, and what the recipe itself would say.

For the page of the time plan, the page of its chances, and whoever keeps a plan: a kept plan
says what it was computed from, and the day compares real minutes with the recipe's, so that
a pace is never learned from a pace.

Worked example: a lining that the plan counts at 13 min by a pace of 1.3 is 10 min in the
recipe. A bench that took 12 min has taken 1.2 times the recipe's minutes, not 12/13 of them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from curriculum.wording import counted, counted_words, long_date
from kitchen.timeplan.class_data import LessonData
from kitchen.timeplan.fits import step_words
from kitchen.timeplan.paces import (
    ENOUGH_FOR_SPREAD,
    ENOUGH_TIMINGS,
    LearnedPace,
    hands_minutes,
    kept_paces,
    pace_of,
    times_words,
)
from kitchen.timeplan.problem import Problem


@dataclass(frozen=True, slots=True)
class Used:
    """A learned pace and the steps that are planned by it."""

    pace: LearnedPace
    steps: tuple[int, ...]


def used_paces(lesson: LessonData) -> tuple[Used, ...]:
    """The paces by which at least one step of a bench is planned, by the name of the technique."""
    steps: dict[LearnedPace, set[int]] = {}
    for bench in lesson.benches:
        for step in lesson.steps_of(bench):
            pace = pace_of(lesson.paces, bench.recipe, step)
            if pace is not None and step.active_minutes:
                steps.setdefault(pace, set()).add(step.position)
    found = [Used(pace, tuple(sorted(positions))) for pace, positions in steps.items()]
    return tuple(sorted(found, key=lambda used: (used.pace.name, used.pace.level)))


def recipe_minutes(lesson: LessonData, question: Mapping[str, Any]) -> dict[str, int]:
    """Minutes as the recipes write them, extra time on top, by the name of the task; of those that differ.

    ``question`` is a kept one of the lesson (``kept.py``). Of several ways of a step the one
    counts whose minutes the question has.
    """
    benches = {bench.name: bench for bench in lesson.benches}
    steps = {(b.name, step.position): step for b in lesson.benches for step in lesson.steps_of(b)}
    found = {}
    for task in question["tasks"]:
        step = steps.get((task["bench"], task["step"])) if task["hands"] else None
        bench = benches.get(task["bench"])
        pace = pace_of(lesson.paces, bench.recipe, step) if bench and step else None
        for way in step.ways if pace else ():
            written = hands_minutes(way.active_minutes, None, bench.pace_per_mille)
            if hands_minutes(way.active_minutes, pace, bench.pace_per_mille) == task["minutes"] != written:
                found.setdefault(task["name"], written)
    return found


def kept_pacing(lesson: LessonData, question: Mapping[str, Any]) -> dict[str, Any]:
    """What a kept plan says of its minutes, as JSON: paces used, and the recipes' minutes they changed."""
    paces = [used.pace for used in used_paces(lesson)]
    return {"paces": kept_paces(paces), "recipe_minutes": recipe_minutes(lesson, question)}


def learned_spreads(lesson: LessonData, problem: Problem) -> dict[str, int | None]:
    """The spread of every task planned at a learned pace, per mille; None: too few timings to say."""
    found = {
        (bench.name, step.position): pace.spread_per_mille
        for bench in lesson.benches
        for step in lesson.steps_of(bench)
        if (pace := pace_of(lesson.paces, bench.recipe, step)) is not None
    }
    here = {task.name: (task.bench or "", task.step or 0) for task in problem.tasks if task.hands}
    return {name: found[key] for name, key in here.items() if key in found}


def pace_words(used: Used) -> str:
    """ "Step 4: this level took 1.3 × the recipe's minutes in four lessons (14 timings); accepted by ..."."""
    pace = used.pace
    thin = " That is thin evidence." if pace.count < ENOUGH_TIMINGS else ""
    return (
        f"{step_words(used.steps)}: the {pace.level} level took {times_words(pace.per_mille)} the recipe’s"
        f" minutes in {counted_words(pace.lessons, 'lesson')} ({counted(pace.count, 'timing')});"
        f" accepted by {pace.by} on {long_date(pace.on)}.{thin}"
    )


def spread_words(lesson: LessonData) -> str:
    """What the chances take from the days that were run; empty when nothing was learned."""
    used = used_paces(lesson)
    own = [each.pace for each in used if each.pace.spread_per_mille is not None]
    few = [each.pace for each in used if each.pace.spread_per_mille is None]
    words = ""
    if own:
        words = f"Learned from the days that were run, with how far learners differ: {_counts(own)}. "
    if few:
        words += (
            f"Learned is only the middle, since a spread needs {counted_words(ENOUGH_FOR_SPREAD, 'timing')}:"
            f" {_counts(few)}. "
        )
    return words.strip()


def _counts(paces: list[LearnedPace]) -> str:
    return ", ".join(f"{_name(pace)} ({counted(pace.count, 'timing')})" for pace in paces)


def _name(pace: LearnedPace) -> str:
    return pace.name[:1].lower() + pace.name[1:]
