"""What the stores must prepare for one lesson: kits, needs, lots and what is short.

For the kits page, the requisition and the actions that accept and issue kits. A
``Question`` holds everything that is asked, as plain data; ``prepare`` answers it. The same
question always has the same answer, and ``inputs_of`` is kept with an accepted kit set, so
that a later change of places, portions or labels can be seen.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from curriculum.recipes.data import RecipeData
from kitchen.stores.allocation import Allocation, LineNeed, LotData, Use, allocate
from kitchen.stores.kits import (
    Batch,
    KitPlan,
    ahead_components,
    plan_kits,
    unnamed_components,
    weighing_rank,
)
from kitchen.stores.learning.figures import Figure, kept, with_sources
from kitchen.stores.needs import Need, class_need
from kitchen.stores.tools.standing import Standing
from kitchen.timeplan.demonstration_kept import AheadBatch, ForStores

#: The shape of what is kept with an accepted kit set.
INPUTS_SHAPE = 1


@dataclass(frozen=True, slots=True)
class BenchAsked:
    """One bench that cooks: its place, the number on its plate, who works there, which version."""

    place: int
    label: str
    bench: int
    version: int
    cooks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Question:
    """Everything the kits of a lesson are reckoned from.

    ``version`` is the key of the ordinary recipe and ``recipes`` holds every version used,
    with its foods as their labels stand today. ``shown`` is what the accepted
    demonstration takes; until one is accepted ``demonstration_batches`` whole batches stand in.
    ``equipment`` is how each thing stands that is short (``kitchen.stores.tools``).
    ``plates`` are those of the ``portions`` that a bench makes for tasting, for the photograph and
    for the second marker. ``learned`` are the accepted figures that are laid on the ``recipes``,
    and the wastage allowances that the requisition adds.
    """

    lesson: str
    use_on: date
    portions: int
    version: int
    recipes: Mapping[int, RecipeData]
    benches: tuple[BenchAsked, ...]
    demonstration_batches: int = 0
    spare_batches: int = 0
    plates: tuple[int, int, int] = (0, 0, 0)
    shown: ForStores | None = None
    learned: tuple[Figure, ...] = ()
    ahead_steps: tuple[int, ...] = ()
    lots: tuple[LotData, ...] = ()
    equipment: tuple[Standing, ...] = ()

    @property
    def demonstrates(self) -> bool:
        """Whether anything is shown to the class."""
        return bool(self.demonstration_batches) if self.shown is None else bool(self.shown.batches())

    @property
    def asks_for_something(self) -> bool:
        """Whether anybody cooks or shows."""
        return bool(self.benches) or self.demonstrates


@dataclass(frozen=True, slots=True)
class Proposal:
    """The answer: kits, the class's needs, the draws from lots, what is short."""

    kits: tuple[KitPlan, ...]
    needs: tuple[Need, ...]
    allocation: Allocation
    equipment: tuple[Standing, ...]

    @property
    def blocked(self) -> tuple[KitPlan, ...]:
        """Kits that may not leave yet."""
        return tuple(kit for kit in self.kits if kit.blocked_why)


def prepare(question: Question) -> Proposal:
    """Kits, needs, lots and shortages of a lesson."""
    kits = plan_kits(batches_of(question), question.ahead_steps)
    kits = with_sources(kits, question.recipes.values(), question.learned)
    return Proposal(
        kits=kits,
        needs=class_need(kits),
        allocation=allocate(line_needs(kits), question.lots, Use(question.use_on, question.lesson)),
        equipment=tuple(each for each in question.equipment if each.missing),
    )


def batches_of(question: Question) -> tuple[Batch, ...]:
    """One batch a bench in bench order, then those to demonstrate with their trays, then those to spare."""
    ordinary = question.recipes[question.version]
    benches = [
        Batch("bench", each.label, question.recipes[each.version], question.portions, each.bench)
        for each in question.benches
    ]
    shown = _whole("demonstration", "D", question.demonstration_batches, question)
    if question.shown is not None:
        shown = _shown(question.shown, ordinary, question.portions)
    return (*benches, *shown, *_whole("spare", "S", question.spare_batches, question))


def _whole(kind: str, letter: str, count: int, question: Question) -> list[Batch]:
    """So many whole batches of the ordinary recipe."""
    ordinary = question.recipes[question.version]
    return [
        Batch(kind, letter if count == 1 else f"{letter}{number}", ordinary, question.portions)
        for number in range(1, count + 1)
    ]


def _shown(shown: ForStores, recipe: RecipeData, portions: int) -> list[Batch]:
    """What is worked on the table, then a stage tray for each thing that is made before.

    Over-issue, which no step names, goes with each of them.
    """
    dust = unnamed_components(recipe)
    table = [Batch("demonstration", "D", recipe, portions, components=(*shown.live, *dust))]
    trays = [
        Batch(
            kind="stage_tray",
            label=plate,
            recipe=recipe,
            portions=portions,
            components=(*tray.components, *dust),
            words=tray.as_far_as,
        )
        for plate, tray in _plated(shown)
        if tray.components
    ]
    return (table if shown.live else []) + trays


def _plated(shown: ForStores) -> list[tuple[str, AheadBatch]]:
    """The trays with their plates: T1, T2, …; one alone is T."""
    many = len(shown.trays) > 1
    return [(f"T{number}" if many else "T", tray) for number, tray in enumerate(shown.trays, start=1)]


def line_needs(kits: Iterable[KitPlan]) -> tuple[LineNeed, ...]:
    """What each line takes out of the lots, free-from kits first; key is (kit label, position)."""
    return tuple(
        LineNeed(
            (kit.label, line.position),
            line.food,
            line.stock_milligrams,
            line.unit_milligrams,
            bool(kit.free_from),
        )
        for kit in sorted(kits, key=weighing_rank)
        for line in kit.lines
        if line.stock_milligrams
    )


def inputs_of(question: Question) -> dict:
    """What an accepted kit set was computed from, as plain JSON of shape 1; stock is left out."""
    foods = {food.code: food for recipe in question.recipes.values() for food in recipe.foods}
    shown = {} if question.shown is None else {"shown": _kept_shown(question, question.shown)}
    plates = {"plates": list(question.plates)} if any(question.plates) else {}
    learned = {"learned": kept(question.learned)} if question.learned else {}
    return {
        "shape": INPUTS_SHAPE,
        "lesson": question.lesson,
        "use_on": question.use_on.isoformat(),
        "portions": question.portions,
        "version": question.version,
        "benches": [[each.place, each.label, each.version] for each in question.benches],
        "demonstration_batches": 0 if shown else question.demonstration_batches,
        "spare_batches": question.spare_batches,
        "ahead_steps": list(question.ahead_steps),
        "labels": {
            code: [str(food.label_read_on), list(food.contains), list(food.may_contain)]
            for code, food in sorted(foods.items())
        },
        **plates,
        **learned,
        **shown,
    }


def _kept_shown(question: Question, shown: ForStores) -> dict:
    """What is shown, as plain JSON: each tray with its plate, and the components on the table.

    ``weighed``: a kit of its own is weighed for it; ``ahead``: part of it is prepared with the
    benches' batches.
    """
    recipe = question.recipes[question.version]
    ahead, dust = ahead_components(recipe, question.ahead_steps), set(unnamed_components(recipe))
    trays = [
        {
            "plate": plate,
            "made": tray.as_far_as,
            "components": list(tray.components),
            "weighed": bool(({*tray.components} | dust) - ahead),
            "ahead": bool(set(tray.components) & ahead),
        }
        for plate, tray in _plated(shown)
        if tray.components
    ]
    return {"trays": trays, "live": list(shown.live)}


def hash_of(inputs: dict) -> str:
    """SHA-256 (64 hexadecimal digits) of the inputs as canonical JSON, labels and plates left out.

    A label that is read later is printed on waiting trays at once, and which portions are plates
    changes no tray, so that neither makes a kit stale.
    """
    asked = {name: value for name, value in inputs.items() if name not in ("labels", "plates")}
    text = json.dumps(asked, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def shortages_of(proposal: Proposal, names: Mapping[str, str]) -> list[dict]:
    """What is short as plain JSON: foods with milligrams, equipment with counts; ``names`` by food code."""
    foods = [
        {
            "what": "food",
            "code": each.food,
            "name": names.get(each.food, each.food),
            "short_milligrams": each.short_milligrams,
            "needed_milligrams": each.needed_milligrams,
            "left_out": list(each.left_out),
        }
        for each in proposal.allocation.shortages
    ]
    things = [
        {
            "what": "equipment",
            "code": each.item,
            "name": each.name,
            "short": each.missing,
            "needed": each.needed,
            "there": each.needed - each.missing,
            "elsewhere": each.missing - each.short,
        }
        for each in proposal.equipment
    ]
    return foods + things
