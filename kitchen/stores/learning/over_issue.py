"""How much dusting flour, greasing butter or test piece a bench really takes, from what came back.

Over-issue does not go with the portions: a bench is given it beside the recipe. The rule:

1. What a bench took = what its kit held as over-issue + (issued + given later because there was
   too little - back sealed - thrown away unused - kept for re-work - planned) / batches.
2. What was given later for food that was lost (dropped, burnt) is no over-issue and is left out;
   so is the spare kit, whether it came back or not.
3. The middle of at least ``ENOUGH_LESSONS`` lessons is proposed, rounded up to what the food is
   weighed in. Never less than nothing.

Worked example: eight benches and a demonstration had 20 g of flour each for dusting and
1,440 g in all, the paste among them. 90 g were given later. Nothing came back. (1,440 + 90 -
1,440) / 9 = 10 g, so a bench took 30 g.

What it cannot know: where the same food stands in the dough too, flour that was left of the dough
and flour for the table lie in the same tub. Weighing up to the next gram counts as taken. Method
of the college's own (no source).
"""

from collections.abc import Iterable

from curriculum.foods import rounding
from kitchen.stores.learning.evidence import (
    NOT_NEEDED,
    OVER_ISSUE,
    TOO_LITTLE,
    LessonFood,
    Proposal,
    rows_of,
    taught,
)
from kitchen.stores.learning.robust import middle

#: Lessons that differ by less than this part of the figure in use are near each other (our own choice).
NEAR = 4


def taken(each: LessonFood) -> int:
    """Milligrams of over-issue that a batch took in one lesson; never less than nothing."""
    back = each.sealed + each.reworked + each.thrown_for(NOT_NEEDED)
    beyond = each.issued + each.given_for(TOO_LITTLE) - back - each.planned
    return max(0, each.given + beyond // max(1, each.batches))


def propose(
    food: str,
    recipe: str,
    lessons: Iterable[LessonFood],
    in_use: int,
    increment: int,
    same_food_in: tuple[str, ...] = (),
) -> Proposal | None:
    """The over-issue of a food in a recipe; None when no lesson teaches it.

    ``in_use`` and ``increment`` in milligrams; ``same_food_in`` names components with that food.
    """
    teaching, left_out = taught(lessons)
    rows = rows_of([(each, _figures(each), taken(each)) for each in teaching], max(increment, in_use // NEAR))
    if not rows:
        return None
    at = middle(row.value for row in rows)
    amount = rounding.up(at, increment) if at else 0
    return Proposal(OVER_ISSUE, food, recipe, amount, in_use, rows, left_out, same_food_in=same_food_in)


def _figures(each: LessonFood) -> tuple[tuple[str, int], ...]:
    return (
        ("Kits held", each.given),
        ("Planned in all", each.planned),
        ("Given later", each.given_for(TOO_LITTLE)),
        ("Back sealed", each.sealed),
        ("Opened, not used", each.thrown_for(NOT_NEEDED) + each.reworked),
    )
