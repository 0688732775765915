"""An accepted demonstration as the JSON that is kept, and back; what others read of it.

For the actions and queries of ``kitchen.timeplan.demonstrations`` and for the time plan, which shows
the same stages to the whole class. One reader for each ``shape``.
"""

import hashlib
import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from curriculum.recipes.data import RecipeData
from curriculum.recipes.sheets import sheet_hash, write_sheet
from kitchen.timeplan.class_data import ShownData
from kitchen.timeplan.demonstration import Ahead, Batches, Demonstration, Stage

SHAPE = 1


@dataclass(frozen=True, slots=True)
class AheadBatch:
    """One thing that stores make before for the demonstration: the recipe as far as ``step``."""

    step: int
    words: str
    components: tuple[str, ...]
    batches: int = 1


def kept_demonstration(plan: Demonstration) -> dict[str, Any]:
    """The plan as JSON; ``shown`` is what the time plan reads."""
    shown = [
        {"step": stage.step, "minutes": stage.minutes, "way": _kept_way(stage.way)} for stage in plan.stages
    ]
    return {"shape": SHAPE, **asdict(plan), "shown": shown}


def _kept_way(way: str) -> str:
    return "live" if way == "swapped" else way


def read_demonstration(kept: dict[str, Any]) -> Demonstration:
    """The plan from its JSON. ValueError for a shape that nobody wrote."""
    if kept.get("shape") != SHAPE:
        raise ValueError(f"A demonstration of shape {kept.get('shape')} is not known.")
    values = {key: _tuples(value) for key, value in kept.items() if key not in ("shape", "shown")}
    for name, kind in (("stages", Stage), ("ahead", Ahead), ("batches", Batches)):
        values[name] = tuple(kind(**each) for each in values[name])
    return Demonstration(**values)


def _tuples(value: Any) -> Any:
    """Lists as tuples, also inside."""
    if isinstance(value, list | tuple):
        return tuple(_tuples(each) for each in value)
    if isinstance(value, dict):
        return {key: _tuples(each) for key, each in value.items()}
    return value


def shown_steps(answer: dict[str, Any]) -> tuple[ShownData, ...]:
    """The stages that the whole class watches, in order, from the JSON of an accepted plan."""
    return tuple(
        ShownData(step=stage.step, minutes=stage.minutes, way=_kept_way(stage.way))
        for stage in read_demonstration(answer).stages
    )


def batches_of(plan: Demonstration) -> tuple[AheadBatch, ...]:
    """What stores make before, one batch for each finished thing."""
    return tuple(AheadBatch(each.step, each.words, each.components) for each in plan.ahead)


def kept_question(recipe: RecipeData, slot: int, targets: Sequence[str]) -> dict[str, Any]:
    """What a plan was computed from."""
    return {
        "shape": SHAPE,
        "recipe": recipe.code,
        "version": recipe.number,
        "sheet_hash": sheet_hash(write_sheet(recipe)),
        "slot": slot,
        "targets": sorted(targets),
    }


def question_hash(question: dict[str, Any]) -> str:
    """The same question has the same hash."""
    return hashlib.sha256(json.dumps(question, sort_keys=True).encode()).hexdigest()
