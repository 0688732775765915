"""One row of a comparison: what it was, what it is, by how much, and a shape with its word.

For every part of the page that compares two versions, and for the page of a variant.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from curriculum import wording
from curriculum.recipes.differences import NOTHING

#: Keeps a figure and its per cent sign on one line of a narrow column.
NARROW = "\N{NO-BREAK SPACE}"
SAME = ("", "The same")
CHANGED = ("swap", "Changed")
REPLACED = ("swap", "Replaced")
GONE = ("cannot", "Left out")
NEW = ("done", "New")


@dataclass(frozen=True, slots=True)
class Row:
    """``state`` is (shape of the look or empty, word); ``change`` says by how much, or in what."""

    where: str
    before: str
    now: str
    change: str
    state: tuple[str, str]

    @property
    def is_same(self) -> bool:
        """Whether nothing is different in this row."""
        return self.state == SAME


@dataclass(frozen=True, slots=True)
class Section:
    """Rows about one thing: the whole, a component, the steps."""

    heading: str
    rows: tuple[Row, ...]

    @property
    def changed(self) -> tuple[Row, ...]:
        """The rows in which something is different."""
        return tuple(row for row in self.rows if not row.is_same)

    @property
    def same(self) -> tuple[Row, ...]:
        """The rows in which nothing is different."""
        return tuple(row for row in self.rows if row.is_same)


def text_row(where: str, before: str, now: str) -> Row:
    """Two texts; an empty one is not there."""
    if before == now:
        return Row(where, before or NOTHING, now or NOTHING, "", SAME)
    state = NEW if not before else GONE if not now else CHANGED
    return Row(where, before or NOTHING, now or NOTHING, "", state)


def weight_change(before: int | Fraction, now: int | Fraction) -> str:
    """Milligrams: "10 g more, 7.7 %" with the figure and its sign kept together, or empty."""
    if before == now or not before:
        return ""
    by = abs(Fraction(now) - before)
    word = "more" if now > before else "less"
    share = wording.per_cent(by / before, 1).replace(" ", NARROW)
    return f"{wording.amount(by)} {word}, {share}"


def minutes_change(before: int | None, now: int | None) -> str:
    """Minutes: "5 min more", or empty."""
    if before is None or now is None or before == now:
        return ""
    return f"{wording.duration(abs(now - before))} {'more' if now > before else 'less'}"


def pence_change(before: int | None, now: int | None) -> str:
    """Pence: "£0.12 more", or empty."""
    if before is None or now is None or before == now:
        return ""
    return f"{wording.money(abs(now - before))} {'more' if now > before else 'less'}"


def list_row(where: str, before: Iterable[str], now: Iterable[str]) -> Row:
    """Two lists: what is gone and what has come."""
    old, new = tuple(before), tuple(now)
    gone, come = [each for each in old if each not in new], [each for each in new if each not in old]
    said = [f"Gone: {wording.listed(gone)}."] if gone else []
    said += [f"New: {wording.listed(come)}."] if come else []
    state = CHANGED if said else SAME
    return Row(where, ", ".join(old) or "none", ", ".join(new) or "none", " ".join(said), state)
