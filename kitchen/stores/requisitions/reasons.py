"""Why each food of a requisition is asked for: the need of a class taken apart by what asks for it.

For the action that draws a requisition up and for its page. Plain data in, plain data out.

Each reason is what it adds when it comes to those before it: the benches with the portions that
learners make for themselves, the plates for tasting, for the photograph and for the second
marker (whole portions more a bench), the batches to demonstrate, the stage trays, the batches to
spare; then the over-issue (dusting, greasing) of all of them. Whole pieces are pooled over the
class, so that a reason may add none. These reasons of a food add up to its need. Last and beyond
it comes the allowance for wastage, where a person accepted one: no kit holds it.

Worked example: six benches take 4.3 eggs each, 25.8 together, so 26 for the benches; with a batch
to demonstrate 30.1 are 31, so the demonstration adds 5; with one to spare 34.4 are 35, so that the
spare adds 4.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from kitchen.stores.kits import KitPlan, plan_kits
from kitchen.stores.learning.figures import allowances, allowed
from kitchen.stores.needs import Need, class_need
from kitchen.stores.proposal import Question, batches_of

BENCHES = "kits of the benches"
TASTING, PHOTOGRAPH = "plates for tasting", "plates for the photograph"
SECOND_MARKER = "plates for the second marker"
DEMONSTRATION, FOR_TRAYS = "demonstration", "stage trays of the demonstration"
SPARE, OVER_ISSUE, ALLOWANCE = "spare", "over-issue", "allowance for wastage"
REASONS = (
    *(BENCHES, TASTING, PHOTOGRAPH, SECOND_MARKER),
    *(DEMONSTRATION, FOR_TRAYS, SPARE, OVER_ISSUE, ALLOWANCE),
)


def rank(why: str) -> int:
    """The place of a reason among the others; one that is no reason any more comes last."""
    return REASONS.index(why) if why in REASONS else len(REASONS)


@dataclass(frozen=True, slots=True)
class Asked:
    """So much of one food for one reason; ``pieces`` is none where a food is weighed."""

    food: str
    why: str
    milligrams: int
    pieces: int | None = None


def asked_for(question: Question) -> tuple[Asked, ...]:
    """Every food by its reasons, nothing left out and nothing twice."""
    found: list[Asked] = []
    before: dict[str, Need] = {}
    for why, kits in _stages(question):
        needs = {need.food: need for need in class_need(kits)}
        found += (each for food in sorted(needs) if (each := _added(why, needs[food], before.get(food))))
        before = needs
    return (*found, *_allowances(question, before))


def _allowances(question: Question, needs: Mapping[str, Need]) -> Iterator[Asked]:
    """What a class commonly loses of a food beyond what its kits hold."""
    shares = allowances(question.recipes.values(), question.learned)
    for food, need in sorted(needs.items()):
        milligrams, pieces = allowed(need, shares.get(food))
        if milligrams:
            yield Asked(food, ALLOWANCE, milligrams, pieces)


def _stages(question: Question) -> Iterator[tuple[str, tuple[KitPlan, ...]]]:
    """The kits as they are with one reason more each time."""
    plates = dict(zip((TASTING, PHOTOGRAPH, SECOND_MARKER), question.plates, strict=True))
    now = replace(question, demonstration_batches=0, spare_batches=0, shown=None)
    now = replace(now, portions=question.portions - sum(plates.values()))
    yield BENCHES, _weighed(now)
    for why, more in plates.items():
        if more:
            now = replace(now, portions=now.portions + more)
            yield why, _weighed(now)
    table = replace(question.shown, trays=()) if question.shown else None
    now = replace(now, demonstration_batches=question.demonstration_batches, shown=table)
    yield DEMONSTRATION, _weighed(now)
    now = replace(now, shown=question.shown)
    yield FOR_TRAYS, _weighed(now)
    now = replace(now, spare_batches=question.spare_batches)
    yield SPARE, _weighed(now)
    yield OVER_ISSUE, _kits(now)


def _kits(question: Question) -> tuple[KitPlan, ...]:
    return plan_kits(batches_of(question), question.ahead_steps)


def _weighed(question: Question) -> tuple[KitPlan, ...]:
    """The kits without what is only for dusting and greasing."""
    return tuple(
        replace(kit, lines=tuple(line for line in kit.lines if line.part != "over_issue"))
        for kit in _kits(question)
    )


def _added(why: str, need: Need, before: Need | None) -> Asked | None:
    """What a reason adds to a food; None for nothing."""
    milligrams = need.ordered_milligrams - (before.ordered_milligrams if before else 0)
    if milligrams <= 0:
        return None
    if need.pooled_pieces is None:
        return Asked(need.food, why, milligrams)
    return Asked(need.food, why, milligrams, need.pooled_pieces - ((before and before.pooled_pieces) or 0))
