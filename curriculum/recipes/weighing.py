"""What the scales of a kitchen show: each exact weight rounded once, last, with how far it is off.

For the page "Scale it" and whatever must know what a step of the scale does to a recipe.
Three steps: of the bench scale for bulk, of the same scale for what is rounded to the
nearest (salt, raising agent, gel, spice), and of the fine scale for weights under 20 g.
What is left empty is as each food says (``foods.rounding``). What comes from the tap is
weighed at the bench and not issued, so it goes to the gram.

Worked example: 3.75 g of yeast for a quarter of a batch. On the fine scale it is 3.8 g, 1.3 %
over; on a bench scale of 5 g it is 5 g, a third over.
"""

from dataclasses import dataclass
from fractions import Fraction

from curriculum.foods import rounding
from curriculum.foods.data import FoodData


@dataclass(frozen=True, slots=True)
class Scales:
    """Steps in milligrams; None is as each food says. ``fine`` counts under 20 g.

    ``no_fine`` says that there is no fine scale: everything is weighed on the bench scale.
    """

    bulk: int | None = None
    small: int | None = None
    fine: int | None = None
    no_fine: bool = False


#: What a bench scale shows of water (common practice, no source).
TAP_STEP = 1000
#: As each food says.
OF_THE_BOOK = Scales()


@dataclass(frozen=True, slots=True)
class Weighed:
    """One exact weight as a scale shows it, in milligrams, and the step of that scale."""

    exact: Fraction
    milligrams: int
    step: int

    @property
    def error(self) -> Fraction:
        """How far off it is, as a share of the exact weight, with its sign."""
        return rounding.relative_error(self.exact, self.milligrams)


def step_for(exact: Fraction, food: FoodData, scales: Scales = OF_THE_BOOK) -> int:
    """The step of the scale that a weight of this food goes on."""
    own = scales.bulk if food.rounding == "up" else scales.small
    increment = food.increment_milligrams if own is None else own
    if food.from_tap and own is None:
        increment = min(increment, TAP_STEP)
    if scales.no_fine:
        return increment
    if scales.fine is not None and exact < rounding.FINE_BELOW_MILLIGRAMS:
        return min(increment, scales.fine)
    return rounding.scale_step(exact, increment)


def weigh(exact: Fraction | int, food: FoodData, scales: Scales = OF_THE_BOOK) -> Weighed:
    """``exact`` milligrams of a food as the scale shows it: nearest or up, as its food is rounded.

    Something is never rounded to nothing: it becomes one step of the scale.
    """
    exact = Fraction(exact)
    step = step_for(exact, food, scales)
    shown = rounding.up(exact, step) if food.rounding == "up" else rounding.nearest(exact, step)
    return Weighed(exact, step if shown == 0 < exact else shown, step)


def with_step(exact: Fraction | int, food: FoodData, step: int) -> Weighed:
    """The same on a scale of another step, where that is finer than what is used."""
    return weigh(exact, food, Scales(step, step, step))
