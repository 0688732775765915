"""Gas marks, degrees and kinds of heat, for reading a setting that is written in another way.

For the writing of steps. A setting of the book is in degrees Celsius with its kind of heat;
these figures only help to write it. Gas marks: F = 250 + 25 x mark from mark 1 on, each
halving below takes 25 F off (units list of GNU); the usual Celsius and fan figures are
common practice, as four charts print them. A fan oven is set 20 °C lower in most charts and
25 °C in two; a college chooses its own.

Worked example: gas mark 4 is 350 °F, exactly 176.7 °C, usually written 180 °C, fan 160 °C.
"""

from fractions import Fraction

#: mark -> (Fahrenheit, usual Celsius, usual fan Celsius)
GAS_MARKS: dict[Fraction, tuple[int, int, int]] = {
    Fraction(1, 4): (225, 110, 90),
    Fraction(1, 2): (250, 120, 100),
    Fraction(1): (275, 140, 120),
    Fraction(2): (300, 150, 130),
    Fraction(3): (325, 160, 140),
    Fraction(4): (350, 180, 160),
    Fraction(5): (375, 190, 170),
    Fraction(6): (400, 200, 180),
    Fraction(7): (425, 220, 200),
    Fraction(8): (450, 230, 210),
    Fraction(9): (475, 240, 220),
    Fraction(10): (500, 260, 240),
}
#: A fan oven is set so much lower (most charts; common practice).
FAN_LOWER_DECICELSIUS = 200


def celsius(fahrenheit: Fraction | int) -> Fraction:
    """Exact degrees Celsius."""
    return (Fraction(fahrenheit) - 32) * 5 / 9


def fahrenheit(degrees: Fraction | int) -> Fraction:
    """Exact degrees Fahrenheit of degrees Celsius."""
    return Fraction(degrees) * 9 / 5 + 32


def fahrenheit_of_mark(mark: Fraction) -> Fraction:
    """Exact degrees Fahrenheit of a gas mark by its rule. ValueError for a mark that is none."""
    if mark >= 1:
        return 250 + 25 * mark
    below = {Fraction(1, 2): 250, Fraction(1, 4): 225}
    if mark not in below:
        raise ValueError(f"There is no gas mark {mark}.")
    return Fraction(below[mark])


def fan(decicelsius: int, lower: int = FAN_LOWER_DECICELSIUS) -> int:
    """The setting of a fan oven for one of a conventional oven, in tenths of a degree."""
    return decicelsius - lower


def heat_words(heat: str) -> str:
    """The other kind of heat in words: "fan; a conventional oven runs about 20 °C higher"."""
    degrees = FAN_LOWER_DECICELSIUS // 10
    if heat == "fan":
        return f"fan; a conventional oven is set about {degrees} °C higher"
    return f"conventional; a fan oven is set about {degrees} °C lower"
