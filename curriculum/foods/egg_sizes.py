"""What an egg gives by its size: beaten, white and yolk, as two sources weigh them.

For whoever reads "3 large eggs" or buys another size. A class is a span of weights in the shell;
its words mean other weights in the United States, so the class is never told from the word alone.
An egg gives what its inside weighs, and of white and yolk the share that a source found in a
large egg; the two sources differ, and which one is meant is said.

Worked example: an egg of 63 g in its shell is the least large one; 88 % of it, 55.44 g, is eaten.
By USDA SR28 (33 and 17 of 50 g) that is 36.59 g of white and 18.85 g of yolk.
"""

from dataclasses import dataclass
from fractions import Fraction

from curriculum.foods.eggs import SHELL_PER_MILLE, SIZE_CLASSES

REGULATION = "Reg. (EC) No 589/2008, article 4"
SR28 = "USDA SR28 (2015), 01123 to 01125"
BAKING_BOOK = "units list of GNU 2.22 after a baking book"
#: White and yolk as shares of the edible weight of one large egg. The second source's parts are
#: 30 and 18.6 of 50 g: it leaves 1.4 g that sticks to the shell and the fingers.
SHARES: dict[str, tuple[Fraction, Fraction]] = {
    SR28: (Fraction(33, 50), Fraction(17, 50)),
    BAKING_BOOK: (Fraction(30, 50), Fraction(186, 500)),
}
#: Edible milligrams of one egg by the sizes of the United States: USDA SR28 (2015), 01123.
US_EDIBLE_MILLIGRAMS = {
    "small": 38_000,
    "medium": 44_000,
    "large": 50_000,
    "extra large": 56_000,
    "jumbo": 63_000,
}


@dataclass(frozen=True, slots=True)
class EggGives:
    """Exact milligrams that one egg gives: beaten whole, or its white and its yolk."""

    beaten: Fraction
    white: Fraction
    yolk: Fraction


def bounds(name: str) -> tuple[int, int | None]:
    """Milligrams in the shell from which a class begins and below which it ends (None: no end).

    KeyError for a name that is no class.
    """
    most: int | None = None
    for each, least in SIZE_CLASSES:
        if each == name:
            return least, most
        most = least
    raise KeyError(name)


def gives(shell_milligrams: Fraction | int, source: str = SR28) -> EggGives:
    """What an egg of that weight in its shell gives. KeyError for a source that is not here."""
    white, yolk = SHARES[source]
    inside = Fraction(shell_milligrams) * (1000 - SHELL_PER_MILLE) / 1000
    return EggGives(inside, inside * white, inside * yolk)


def class_gives(name: str, source: str = SR28) -> tuple[EggGives, EggGives | None]:
    """What the least egg of a class gives, and what the class stays below (None: it has no end)."""
    least, most = bounds(name)
    return gives(least, source), None if most is None else gives(most, source)


def eggs_for(
    milligrams: Fraction | int, part: str, shell_milligrams: Fraction | int, source: str = SR28
) -> Fraction:
    """Exact eggs that give so much "beaten", "white" or "yolk". AttributeError for another part."""
    return Fraction(milligrams) / getattr(gives(shell_milligrams, source), part)


def what_whole_eggs_give(count: Fraction | int, shell_milligrams: int, source: str = SR28) -> EggGives:
    """What so many eggs give of each part."""
    one = gives(shell_milligrams, source)
    return EggGives(one.beaten * count, one.white * count, one.yolk * count)
