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
from kitchen.timeplan.demonstration_data import Ahead, Batches, Demonstration, Stage

#: Shape 2 says of each thing made before which of its minutes nothing else shares.
SHAPE, QUESTION_SHAPE = 2, 1


@dataclass(frozen=True, slots=True)
class AheadBatch:
    """One thing that stores make before for the demonstration: the recipe as far as ``step``."""

    step: int
    words: str
    components: tuple[str, ...]
    batches: int = 1
    waited_only: bool = False

    @property
    def as_far_as(self) -> str:
        """How far it is made: "as far as step 5"."""
        return f"as far as {'the wait of ' if self.waited_only else ''}step {self.step}"


@dataclass(frozen=True, slots=True)
class ForStores:
    """What the stores weigh for a demonstration: a stage tray for each thing made before, and the table.

    ``live`` are components of which a batch lies on the table to be worked in front of the class.
    """

    trays: tuple[AheadBatch, ...]
    live: tuple[str, ...]

    def batches(self) -> dict[str, int]:
        """Batches of each component, made before and on the table together."""
        every = [*(code for tray in self.trays for code in tray.components), *self.live]
        return {code: every.count(code) for code in dict.fromkeys(every)}


def kept_demonstration(plan: Demonstration) -> dict[str, Any]:
    """The plan as JSON; ``shown`` is what the time plan reads."""
    return {"shape": SHAPE, **asdict(plan), "shown": [asdict(each) for each in _shown(plan)]}


def _shown(plan: Demonstration) -> list[ShownData]:
    """One entry for each step, in the order shown: stages of one step follow one another."""
    taken: dict[int, ShownData] = {}
    for stage in plan.stages:
        way = "stage_tray" if stage.way == "stage_tray" else "live"
        before = taken.get(stage.step)
        if before is not None:
            way = "live" if "live" in (way, before.way) else way
        minutes = stage.minutes + (before.minutes if before else 0)
        taken[stage.step] = ShownData(step=stage.step, minutes=minutes, way=way)
    return list(taken.values())


def read_demonstration(kept: dict[str, Any]) -> Demonstration:
    """The plan from its JSON. ValueError for a shape that nobody wrote."""
    if kept.get("shape") == 1:
        return read_demonstration(_of_shape_1(kept))
    if kept.get("shape") != SHAPE:
        raise ValueError(f"A demonstration of shape {kept.get('shape')} is not known.")
    values = {key: _tuples(value) for key, value in kept.items() if key not in ("shape", "shown")}
    for name, kind in (("stages", Stage), ("ahead", Ahead), ("batches", Batches)):
        values[name] = tuple(kind(**each) for each in values[name])
    return Demonstration(**values)


def _of_shape_1(kept: dict[str, Any]) -> dict[str, Any]:
    """A demonstration kept before shared work was reckoned once, in the shape of today."""
    things = [{**each, "own_minutes": each["hands_minutes"]} for each in kept["ahead"]]
    return {**kept, "shape": SHAPE, "ahead": things}


def _tuples(value: Any) -> Any:
    """Lists as tuples, also inside."""
    if isinstance(value, list | tuple):
        return tuple(_tuples(each) for each in value)
    if isinstance(value, dict):
        return {key: _tuples(each) for key, each in value.items()}
    return value


def shown_steps(answer: dict[str, Any]) -> tuple[ShownData, ...]:
    """The stages that the whole class watches, in order, from the JSON of an accepted plan."""
    return tuple(_shown(read_demonstration(answer)))


def batches_of(plan: Demonstration) -> tuple[AheadBatch, ...]:
    """What stores make before, one batch for each finished thing."""
    return tuple(
        AheadBatch(each.step, each.words, each.components, waited_only=each.waited_only)
        for each in plan.ahead
    )


def for_stores(plan: Demonstration) -> ForStores:
    """What the stores weigh for a plan."""
    return ForStores(batches_of(plan), tuple(each.code for each in plan.batches if each.live))


def kept_question(recipe: RecipeData, slot: int, targets: Sequence[str]) -> dict[str, Any]:
    """What a plan was computed from."""
    return {
        "shape": QUESTION_SHAPE,
        "recipe": recipe.code,
        "version": recipe.number,
        "sheet_hash": sheet_hash(write_sheet(recipe)),
        "slot": slot,
        "targets": sorted(targets),
    }


def question_hash(question: dict[str, Any]) -> str:
    """The same question has the same hash."""
    return hashlib.sha256(json.dumps(question, sort_keys=True).encode()).hexdigest()
