"""One checked figure: what is computed, what was published, how far apart they may be, and whence."""

from dataclasses import dataclass
from fractions import Fraction

#: How a figure was seen: in the source itself, in a copy of it, computed by a general package,
#: from memory, or common practice without a source.
SEEN = frozenset(("read", "read in a copy", "computed", "from memory", "common practice, no source"))


@dataclass(frozen=True)
class Row:
    """``computed`` is the project's value, ``published`` the source's, ``within`` their allowed distance."""

    what: str
    computed: Fraction
    published: Fraction
    within: Fraction
    source: str
    seen: str

    def holds(self) -> bool:
        """Whether the computed value is as near to the published one as the source allows."""
        return abs(self.computed - self.published) <= self.within


def row(what, computed, published, source, seen="read", within=None, because="") -> Row:
    """A row whose tolerance is half a unit of the last published digit, unless it is said.

    ``published`` is text, so that its last digit is known: "2.71" allows 0.005, "exact 4" nothing.
    ValueError for a tolerance wider than that without ``because`` (a figure cut and not rounded
    allows a whole unit), and for a way of seeing that has no name.
    """
    text = str(published).removeprefix("exact ")
    value = Fraction(text)
    decimals = len(text.split(".")[1]) if "." in text else 0
    allowed = Fraction(0) if str(published).startswith("exact ") else Fraction(1, 2 * 10**decimals)
    within = allowed if within is None else Fraction(within)
    if (within > allowed and not because) or within > 2 * allowed:
        raise ValueError(f"{what}: {within} is wider than its source allows, which is {allowed}.")
    if seen not in SEEN:
        raise ValueError(f"{what}: nobody knows how it was seen ({seen}).")
    return Row(what, Fraction(computed), value, Fraction(within), source, seen)
