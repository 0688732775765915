"""What a class loses of a food while it works it: the allowance that a requisition adds.

The rule:

1. Lost in a lesson = the larger of two sums, never both, since a burnt custard is thrown away and
   given once more: what was given later for food that was lost, with the spare kit when it did
   not come back; or what was thrown away dropped, burnt, spoiled, contaminated. Where nobody wrote
   that any of the food was lost, a spare kit that did not come back is no loss: nobody said where
   it went.
2. The share of a lesson is lost / planned. The middle of at least ``ENOUGH_LESSONS`` lessons is
   proposed, rounded up to a whole per cent.
3. It stands for the food and a technique by which the recipe works it. No movement says at
   which step food was lost: techniques of the same lessons share a row, and a person says which.
4. Of several techniques that work a food in a class the largest share counts, not their sum; one
   for the food and the technique goes before one for the technique alone, and both before one for
   the food alone.

Worked example: 1,440 g of cream planned; 180 g given again over-baked, 150 g thrown away burnt:
180 g are lost, 12.5 %, so 13 %.

Beside it stands what kitchens commonly allow: 3-5 % of what is weighed dry, 5-10 % of fresh food,
10-20 % when novices make it first time (common practice, no source).
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping

from curriculum import wording
from curriculum.foods import rounding
from kitchen.stores.learning.evidence import (
    LOST,
    LOST_AND_GIVEN,
    WASTAGE,
    LessonFood,
    Proposal,
    rows_of,
    taught,
)
from kitchen.stores.learning.robust import middle

#: Common practice, no source: per mille of what is needed, by storage of the food; and for novices.
COMMON_DRY, COMMON_FRESH, COMMON_NOVICE = (30, 50), (50, 100), (100, 200)
#: A whole per cent, in per mille.
PER_CENT = 10


def lost(each: LessonFood) -> int:
    """Milligrams lost in one lesson: given again or thrown away, whichever is more."""
    given, thrown = each.given_for(LOST_AND_GIVEN), each.thrown_for(LOST)
    spare = each.spare_used if given or thrown else 0
    return max(given + spare, thrown)


def share(each: LessonFood) -> int:
    """What was lost over what was planned, per mille, rounded down; at most all of it."""
    return min(1000, lost(each) * 1000 // each.planned)


def propose(
    food: str,
    lessons: Iterable[LessonFood],
    techniques: Mapping[str, tuple[str, ...]],
    in_use: Mapping[str, int],
) -> tuple[Proposal, ...]:
    """Allowances of a food, one for each set of lessons that techniques share, by code of the first.

    ``techniques`` by which each recipe works the food; ``in_use`` per mille by technique, by ""
    for whatever works it. Of techniques that the same lessons cannot tell apart the one that stands
    already comes first.
    """
    teaching, left_out = taught(each for each in lessons if each.planned)
    by_technique: dict[str, list[LessonFood]] = defaultdict(list)
    for each in teaching:
        for code in techniques.get(each.recipe, ()):
            by_technique[code].append(each)
    together: dict[tuple[str, ...], list[str]] = defaultdict(list)
    for code in sorted(by_technique):
        together[tuple(each.lesson for each in by_technique[code])].append(code)
    found, base = [], in_use.get("", 0)
    for codes in together.values():
        first = max(codes, key=lambda code: (code in in_use, in_use.get(code, 0)))
        others = tuple(code for code in codes if code != first)
        found.append(_proposal(food, first, by_technique[first], left_out, others, in_use.get(first, base)))
    return tuple(sorted(found, key=lambda each: each.of))


def common_words(storage: str) -> str:
    """What kitchens commonly allow for such food: "3 to 5 % of what is weighed dry, ..."."""
    least, most = COMMON_DRY if storage == "ambient" else COMMON_FRESH
    kind = "food that is weighed dry" if storage == "ambient" else "fresh food"
    low, high = COMMON_NOVICE
    return (
        f"{_range(least, most)} of {kind}, {_range(low, high)} where novices "
        "make it for the first time (common practice, no source)"
    )


def _range(low: int, high: int) -> str:
    """From one share in thousandths to another, on one line of the page: "3 to 5 %"."""
    return f"{low // 10} to {high // 10} %".replace(" ", wording.NO_BREAK)


def _proposal(
    food: str,
    technique: str,
    lessons: list[LessonFood],
    left_out: tuple[tuple[str, str], ...],
    others: tuple[str, ...],
    in_use: int,
) -> Proposal:
    rows = rows_of([(each, _figures(each), share(each)) for each in lessons], 2 * PER_CENT)
    at = middle(row.value for row in rows)
    amount = rounding.up(at, PER_CENT) if at else 0
    return Proposal(WASTAGE, food, technique, amount, in_use, rows, left_out, others)


def _figures(each: LessonFood) -> tuple[tuple[str, int], ...]:
    return (
        ("Planned", each.planned),
        ("Given again", each.given_for(LOST_AND_GIVEN)),
        ("Spare kit used", each.spare_used),
        ("Thrown away, lost", each.thrown_for(LOST)),
    )
