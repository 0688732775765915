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


def row(what, computed, published, source, seen="read", within=None) -> Row:
    """A row whose tolerance is half a unit of the last published digit, unless it is said.

    ``published`` is text, so that its last digit is known: "2.71" allows 0.005, "exact 4" nothing.
    """
    text = str(published).removeprefix("exact ")
    value = Fraction(text)
    if within is None:
        decimals = len(text.split(".")[1]) if "." in text else 0
        within = Fraction(0) if str(published).startswith("exact ") else Fraction(1, 2 * 10**decimals)
    return Row(what, Fraction(computed), value, Fraction(within), source, seen)
