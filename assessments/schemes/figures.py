"""How marks, measured figures and times of marking are written for people."""

from fractions import Fraction

from curriculum.wording import counted, figure


def half_up(value: Fraction, step: int) -> int:
    """A value of nought or more, to the nearest multiple of ``step``; a half goes up."""
    return step * ((2 * value + step) // (2 * step))


def plain(value: Fraction | int, places: int = 2) -> str:
    """A figure with at most ``places`` decimals and no trailing noughts: "7.5", "15.56", "−5"."""
    return figure(Fraction(value), places)


def points(milli: Fraction | int) -> str:
    """Thousandths of a point as points: 7500 is "7.5"."""
    return plain(Fraction(milli) / 1000)


def percent(share: Fraction) -> str:
    """A share with its sign, for a deviation: "−5 %", "+3.2 %"."""
    sign = "+" if share > 0 else ""
    return f"{sign}{plain(share * 100, 1)} %"


def count(number: int, one: str, many: str = "") -> str:
    """A number with its noun: "1 minute", "4 minutes"."""
    return counted(number, one, many)
