"""An accepted plan as the JSON that is kept, and back: one reader for each ``shape``.

For ``actions.py`` (writes) and ``queries.py`` (reads). Shape 1 is ``LessonPlan`` with its
parts as objects, and the question as one object with everything that was computed from.
"""

import hashlib
import json
from dataclasses import asdict
from typing import Any

from kitchen.timeplan.plan import Bar, BenchPlan, Heat, LessonPlan, OvenPlan, PlanLine, ShowPlan
from kitchen.timeplan.problem import (
    Bake,
    Bench,
    Demonstration,
    Oven,
    Pause,
    Problem,
    Stay,
    Supply,
    Task,
    Window,
)
from kitchen.timeplan.ways import Way

SHAPE = 1
#: What came to tasks and demonstrations later, as it is where nothing is said: not kept then, so that
#: a plan accepted before stays the plan of its question.
UNLESS_SAID = {"earliest": 0, "latest": None, "only_ovens": (), "ways": ()}


def kept_plan(plan: LessonPlan) -> dict[str, Any]:
    """The plan as JSON."""
    return {"shape": SHAPE, **asdict(plan)}


def kept_question(problem: Problem) -> dict[str, Any]:
    """The question as JSON: what the plan was computed from."""
    question = {"shape": SHAPE, **asdict(problem), "on_the_clock": sorted(problem.on_the_clock)}
    if not problem.breaks:
        question.pop("breaks")
    for thing in (*question["tasks"], *question["demonstrations"]):
        for name, usual in UNLESS_SAID.items():
            if thing.get(name) == usual:
                thing.pop(name, None)
    return question


def question_hash(problem: Problem) -> str:
    """The same question has the same hash; any change of the lesson, its recipes or room another."""
    text = json.dumps(kept_question(problem), sort_keys=True)
    return hashlib.sha256(text.encode()).hexdigest()


def read_question(kept: dict[str, Any]) -> Problem:
    """The question from its JSON. ValueError for a shape that nobody wrote."""
    if kept.get("shape") != SHAPE:
        raise ValueError(f"a question of shape {kept.get('shape')} is not known")
    values = {key: value for key, value in kept.items() if key != "shape"}
    return Problem(
        **values
        | {
            "tasks": tuple(_task(each) for each in values["tasks"]),
            "windows": tuple(Window(**each) for each in values["windows"]),
            "benches": tuple(Bench(**each) for each in values["benches"]),
            "ovens": tuple(Oven(**{**each, "heats": tuple(each["heats"])}) for each in values["ovens"]),
            "supplies": tuple(Supply(**each) for each in values["supplies"]),
            "demonstrations": tuple(Demonstration(**each) for each in values["demonstrations"]),
            "breaks": tuple(Pause(**each) for each in values.get("breaks", ())),
            "together": tuple(tuple(group) for group in values["together"]),
            "on_the_clock": frozenset(values["on_the_clock"]),
        }
    )


def _task(kept: dict[str, Any]) -> Task:
    bake = kept["bake"]
    if bake is not None:
        bake = Bake(**{**bake, "stays": tuple(Stay(**stay) for stay in bake["stays"])})
    uses = tuple((name, units) for name, units in kept["uses"])
    ways = tuple(Way(**{**way, "uses": tuple(map(tuple, way["uses"]))}) for way in kept.get("ways", ()))
    only = tuple(kept.get("only_ovens", ()))
    return Task(**{**kept, "bake": bake, "uses": uses, "only_ovens": only, "ways": ways})


def read_plan(kept: dict[str, Any]) -> LessonPlan:
    """The plan from its JSON. ValueError for a shape that nobody wrote."""
    if kept.get("shape") != SHAPE:
        raise ValueError(f"a time plan of shape {kept.get('shape')} is not known")
    values = {key: value for key, value in kept.items() if key != "shape"}
    values["benches"] = tuple(_bench(each) for each in values["benches"])
    values["ovens"] = tuple(_oven(each) for each in values["ovens"])
    values["shows"] = tuple(ShowPlan(**each) for each in values["shows"])
    values["ahead"] = tuple(values["ahead"])
    values["by_the_minute"] = tuple(values["by_the_minute"])
    values["gone"] = tuple(values.get("gone", ()))
    return LessonPlan(**values)


def _bench(kept: dict[str, Any]) -> BenchPlan:
    bars = tuple(Bar(**each) for each in kept["bars"])
    lines = tuple(PlanLine(**{**each, "points": tuple(each["points"])}) for each in kept["lines"])
    names = {"learners": tuple(kept["learners"]), "free_from": tuple(kept["free_from"])}
    return BenchPlan(**{**kept, **names, "bars": bars, "lines": lines})


def _oven(kept: dict[str, Any]) -> OvenPlan:
    heats = tuple(Heat(**{**each, "benches": tuple(each["benches"])}) for each in kept["heats"])
    return OvenPlan(**{**kept, "heats": heats})
