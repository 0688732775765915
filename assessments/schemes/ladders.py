"""Points for marks on a ladder: for one mark, and for the mean of several judges."""

from fractions import Fraction


def ladder_points(value: Fraction, scale_maximum: int, milli_points: int) -> Fraction:
    """Thousandths that a mark on a ladder earns: mark / maximum × points."""
    return value * milli_points / scale_maximum


def spread(scores: tuple[Fraction, ...]) -> Fraction:
    """Highest less lowest score of the judges."""
    return max(scores) - min(scores)


def judged_points(scores: tuple[Fraction, ...], scale_maximum: int, milli_points: int) -> Fraction:
    """Thousandths for judges' scores: their mean / maximum × points."""
    return ladder_points(sum(scores, Fraction(0)) / len(scores), scale_maximum, milli_points)
