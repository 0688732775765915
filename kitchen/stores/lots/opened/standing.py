"""What still stands of what was said about a lot: opened, thawed, and what was taken back again.

Plain data in, plain data out, for the page of a lot and for the action that takes the last word back.

Worked example: opened on the 15th, thawed on the 16th, the thawing taken back: opened stands, and the
next to be taken back is the opening.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Said:
    """One row: its number, "opened" or "thawed", the day, whether it takes the last one back.

    ``moves`` is how many movements the lot had then, ``by`` who said it.
    """

    number: int
    kind: str
    on: date
    undone: bool
    moves: int
    by: str = ""


def standing(rows: Iterable[Said]) -> tuple[Said, ...]:
    """The rows that still stand, in their order; each that is undone takes the last standing one away."""
    kept: list[Said] = []
    for each in sorted(rows, key=lambda row: row.number):
        if each.undone:
            kept = kept[:-1]
        else:
            kept.append(each)
    return tuple(kept)
