"""Machines and their reach: a batch too small for the whisk, too large for the bowl.

For the page "Scale it". A way of a step may say the least and the most that one load of
its machine takes (published maxima of makers; least loads are common practice). The batch
is the weight of the components that the step works on, over-issue left out.

Below the least there are three ways: so many benches together, by hand with the minutes of
that way, or a batch of so many portions. Above the most: so many loads.

Worked example: a 20-litre bowl whisks from 600 g of white on. One bench's 150 g are below
it: four benches together, or a batch of 32 portions and not 8, or by hand.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from curriculum.recipes.data import RecipeData, StepData, WayData
from curriculum.recipes.scaling import ScaledRecipe


@dataclass(frozen=True, slots=True)
class OutOfReach:
    """One step whose machine the batch does not suit; weights in milligrams.

    Below the least: ``pool`` benches together reach it (None when all of the class do not),
    ``portions`` make a batch that does, ``by_hand`` is the other way with its own minutes.
    Above the most: ``loads``.
    """

    step: StepData
    way: WayData
    batch_milligrams: Fraction
    pool: int | None = None
    portions: int | None = None
    by_hand: WayData | None = None
    loads: int | None = None


def out_of_reach(recipe: RecipeData, scaled: ScaledRecipe, benches: int = 1) -> list[OutOfReach]:
    """Every step of a bench whose machine is too large or too small for its batch."""
    found = []
    for step in recipe.steps:
        batch = batch_of(step, scaled)
        for way in step.ways:
            if batch and way.least_milligrams is not None and batch < way.least_milligrams:
                found.append(_too_small(step, way, batch, scaled.portions, benches))
            elif batch and way.most_milligrams is not None and batch > way.most_milligrams:
                found.append(OutOfReach(step, way, batch, loads=ceil(batch / way.most_milligrams)))
    return found


def batch_of(step: StepData, scaled: ScaledRecipe) -> Fraction:
    """Exact milligrams that a step works on."""
    return sum(
        (
            line.exact_milligrams
            for component in scaled.components
            if component.code in step.components
            for line in component.lines
            if line.part != "over_issue"
        ),
        Fraction(0),
    )


def _too_small(step: StepData, way: WayData, batch: Fraction, portions: int, benches: int) -> OutOfReach:
    least = Fraction(way.least_milligrams or 0)
    pool = ceil(least / batch)
    return OutOfReach(
        step,
        way,
        batch,
        pool=pool if pool <= benches else None,
        portions=ceil(portions * least / batch),
        by_hand=next((each for each in step.ways if each.name == "hand" and each != way), None),
    )
