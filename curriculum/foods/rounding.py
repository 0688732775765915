"""Rounding of weights: once, last, and only here.

For whoever issues, prints or buys. A weight is carried as an exact ``Fraction`` of
milligrams until the moment it is shown on a scale. Then it is rounded to what the
scale shows: *nearest* for salt, raising agent, gel and spice, because a little too
much spoils as a little too little does; *up* for bulk and purchases, because a bench
that is one gram short of flour has to come back.

The fine scale. A weight under 20 g goes on the fine scale: it shows 0.5 g steps down
to 5 g and 0.1 g steps below (common practice, no source). A food whose own increment
is finer keeps it.

Worked example: 3 g of salt for four fifths of a batch is 2.4 g. Salt has an increment
of 0.5 g, but under 5 g the fine scale shows 0.1 g, so 2.4 g is issued. 187.5 g of flour
with an increment of 1 g is issued as 188 g.
"""

from fractions import Fraction
from math import ceil, floor

FINE_BELOW_MILLIGRAMS = 20_000
FINE_STEP_MILLIGRAMS = 500
FINEST_BELOW_MILLIGRAMS = 5_000
FINEST_STEP_MILLIGRAMS = 100
#: A rounded weight further off than this is named (issue of a ratio that matters; common practice).
WORTH_NAMING = Fraction(3, 100)


def nearest(exact: Fraction | int, step: int) -> int:
    """The multiple of ``step`` nearest to ``exact``; a half goes up. ValueError for a step of nothing."""
    _demand_step(step)
    return floor(Fraction(exact) / step + Fraction(1, 2)) * step


def up(exact: Fraction | int, step: int) -> int:
    """The least multiple of ``step`` that is not below ``exact``: an exact multiple stays as it is."""
    _demand_step(step)
    return ceil(Fraction(exact) / step) * step


def scale_step(exact: Fraction | int, increment: int) -> int:
    """What the scale in use shows, in milligrams, for a weight of ``exact`` milligrams."""
    if exact < FINEST_BELOW_MILLIGRAMS:
        return min(increment, FINEST_STEP_MILLIGRAMS)
    if exact < FINE_BELOW_MILLIGRAMS:
        return min(increment, FINE_STEP_MILLIGRAMS)
    return increment


def to_issue(exact: Fraction | int, increment: int, rounding: str) -> int:
    """``exact`` milligrams as the scale is to show them; ``rounding`` is "up" or "nearest".

    Something is never rounded to nothing: it becomes one step of the scale.
    """
    step = scale_step(exact, increment)
    rounded = up(exact, step) if rounding == "up" else nearest(exact, step)
    return step if rounded == 0 < exact else rounded


def relative_error(exact: Fraction | int, issued: int) -> Fraction:
    """How far the issued weight is off the exact one, as a share of it (signed). Nothing is not off."""
    return Fraction(0) if exact == 0 else (issued - Fraction(exact)) / Fraction(exact)


def whole_pieces(exact: Fraction | int) -> int:
    """Whole pieces that hold ``exact`` of them: 4.3 eggs are 5 eggs, 4 eggs are 4."""
    return ceil(exact)


def _demand_step(step: int) -> None:
    if step <= 0:
        raise ValueError("A scale shows steps of more than nothing.")
