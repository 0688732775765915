"""How one line behaves when one batch in one pan is itself made larger or smaller.

For ``scaling``. A class acts on the factor of its component, never on a number of benches.
Exact fractions in, exact fractions out.

The classes (source: common practice, no source, unless said)
-------------------------------------------------------------
linear        x factor.
seasoning     Up to double: half of what is added, so doubling takes 1.5 times as much (a web
              kitchen's published rule); beyond double, three quarters of linear (trade habit,
              75 to 80 %). Made smaller: linear. Always: taste, then add.
              Doubling 4 g of salt gives 6 g, three times 9 g, half 2 g.
leavening     linear to four times one batch; above that the trade uses less, no figure is
              published, so linear is shown and a person decides.
gelling       linear on the mass to be set; bloom and leaf weight are confirmed by a person.
piece         beaten egg, white and yolk by weight, linear; what is counted comes in whole pieces.
minimum_mass  what leaves in the pieces is linear, what goes back is not, and the sum is never
              below the least mass of the line: a bath of chocolate under 500 g cannot be held
              in temper. 800 g of which 495 g go back is 1,105 g for double the pieces.
frying_fat    by the pan, not by portions: unchanged.
vessel        by the pan, not by portions: unchanged.
evaporating   linear to start with; the weight to reduce to is written and rules.
range         linear, its least and its most too; the cue decides.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from curriculum.foods.rounding import nearest

#: From here on three quarters of linear (trade habit, no source): the published 1.5 meets it at 2.
SEASONING_TURNS_AT = Fraction(2)
SEASONING_SHARE = Fraction(3, 4)
#: Linear to four batches in one (common practice, no source).
LEAVENING_LINEAR_UP_TO = Fraction(4)
UNCHANGED_CLASSES = frozenset(("frying_fat", "vessel"))


@dataclass(frozen=True, slots=True)
class Prose:
    """One class as a cook is told of it: its name, its rule, an example, and whose rule it is."""

    name: str
    rule: str
    example: str
    source: str


PRACTICE = "common practice, no source."
#: What a page says of a class where it acted.
PROSE = {
    "linear": Prose("in proportion", "Times the factor of its component.", "260 g twice is 520 g.", PRACTICE),
    "seasoning": Prose(
        "seasoning",
        "Up to double, half of what is added; beyond double, three quarters of the proportion. "
        "Made smaller, in proportion. Always taste, then add.",
        "4 g for a doubled batch is 6 g, for three times 9 g.",
        "one and a half times for a doubled batch: a web kitchen’s published rule; the rest: common "
        "practice, no source.",
    ),
    "leavening": Prose(
        "raising agent",
        "In proportion to four batches in one. Above that the trade uses less and no figure is published.",
        "15 g of yeast twice is 30 g.",
        PRACTICE,
    ),
    "gelling": Prose(
        "gel",
        "In proportion to the whole mass to be set. Confirm bloom and leaf weight of the pack in hand.",
        "8 g for twice the cream is 16 g.",
        "two public guides disagree; the rule by the square root is from memory.",
    ),
    "piece": Prose(
        "by the piece",
        "In proportion by weight; what is counted is handed out whole.",
        "4.3 eggs are 5 eggs for one bench.",
        PRACTICE,
    ),
    "minimum_mass": Prose(
        "a least mass",
        "What leaves in the pieces goes with the batch, what comes back does not, and the bath is never "
        "below what it needs to work.",
        "800 g of which 495 g come back is 1,105 g for twice the pieces.",
        PRACTICE,
    ),
    "frying_fat": Prose(
        "by the pan", "To the depth of the pan, not by portions.", "1,000 g stays 1,000 g.", PRACTICE
    ),
    "vessel": Prose(
        "by the pan", "To the depth of the pan, not by portions.", "Two litres stay two litres.", PRACTICE
    ),
    "evaporating": Prose(
        "a reduction",
        "In proportion to start with. The weight to reduce to rules, and never the time: loss goes by the "
        "surface of the pan.",
        "500 g reduced to 150 g is, twice, 1,000 g reduced to 300 g.",
        PRACTICE,
    ),
    "range": Prose(
        "a range",
        "In proportion, its least and its most too. The cue decides how much goes in.",
        "230 to 260 g twice is 460 to 520 g.",
        PRACTICE,
    ),
}


def act(
    rule: str, exact: Fraction, factor: Fraction, least: int | None = None, goes_back: int = 0
) -> Fraction:
    """The weight of one line when one batch is made ``factor`` as large, by its class ``rule``.

    ``least`` is the least mass of the class "minimum_mass" (None: the recipe's own weight),
    ``goes_back`` the part of the line that comes back, both in milligrams.
    """
    if rule in UNCHANGED_CLASSES:
        return exact
    if rule == "seasoning" and factor > 1:
        return exact * _seasoning(factor)
    if rule == "minimum_mass":
        wanted = (exact - goes_back) * factor + goes_back
        return max(wanted, Fraction(exact if least is None else least))
    return exact * factor


def words(rule: str, factor: Fraction, has_target: bool) -> tuple[str, bool]:
    """What the class did to a line, in words (empty: nothing to say), and whether a person decides."""
    if rule == "range":
        return "The cue decides how much goes in.", False
    if rule == "evaporating" or has_target:
        return "Reduce to the weight written, not for a time.", False
    if factor == 1:
        return "", False
    if rule == "seasoning":
        return ("Less than in proportion: taste, then add." if factor > 1 else "Taste, then add."), False
    if rule == "leavening" and factor > LEAVENING_LINEAR_UP_TO:
        return "Above four batches in one the trade uses less; no figure is published. Decide.", True
    if rule == "gelling":
        return "On the whole mass to be set; confirm bloom and leaf weight of the pack in hand.", True
    if rule == "minimum_mass":
        return "What the bath needs to work is not scaled; the rest goes back.", False
    if rule in UNCHANGED_CLASSES:
        return "By the pan, not by portions.", False
    return "", False


def gelatine(milligrams: int, bloom: int, other_bloom: int) -> tuple[int, int]:
    """Milligrams of gelatine of another bloom, by both rules in use: (square root, linear).

    The rules disagree, so both are shown and a person decides (both from memory and public
    guides): mass x sqrt(bloom / other bloom), and mass x bloom / other bloom. 8 g of bloom 200
    is 8.94 g or 10 g of bloom 160. Each is to the nearest milligram.
    """
    rooted = (isqrt(4 * milligrams**2 * bloom // other_bloom) + 1) // 2
    return rooted, nearest(Fraction(milligrams * bloom, other_bloom), 1)


def _seasoning(factor: Fraction) -> Fraction:
    return 1 + (factor - 1) / 2 if factor <= SEASONING_TURNS_AT else factor * SEASONING_SHARE
