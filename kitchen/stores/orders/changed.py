"""What a plan of a week was computed from, kept with it, and what has changed since, line by line.

For the page of a week and for the action that accepts one.
"""

import hashlib
import json
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from kitchen.stores.orders.week import Served

SHAPE = 1
#: A line of a week: the lesson's code, the day, the food's code.
Line = tuple[str, date, str]


@dataclass(frozen=True, slots=True)
class Changed:
    """A line whose amount is another one now; nothing before or now means that it was not there."""

    line: Line
    before_milligrams: int
    now_milligrams: int


def inputs_of(served: Iterable[Served]) -> dict:
    """The needs of a week and what is missing, as plain JSON; ``shape`` says how to read it."""
    rows = [
        [
            each.need.lesson,
            each.need.on.isoformat(),
            each.need.food,
            each.need.milligrams,
            each.missing_milligrams,
        ]
        for each in served
    ]
    return {"shape": SHAPE, "lines": rows}


def hash_of(inputs: dict) -> str:
    """One word for the inputs, so that a page knows whether they are still what it showed."""
    return hashlib.sha256(json.dumps(inputs, sort_keys=True).encode()).hexdigest()


def needs_in(inputs: dict) -> dict[Line, int]:
    """The needs of kept inputs. ValueError for a shape that nobody knows."""
    if inputs.get("shape") != SHAPE:
        raise ValueError(f"Nobody knows inputs of shape {inputs.get('shape')}.")
    return {
        (lesson, date.fromisoformat(on), food): milligrams
        for lesson, on, food, milligrams, _ in inputs["lines"]
    }


def changes(before: dict, now: dict) -> tuple[Changed, ...]:
    """Each line that is more, less, new or gone since, in the order of days."""
    old, new = needs_in(before), needs_in(now)
    return tuple(
        Changed(line, old.get(line, 0), new.get(line, 0))
        for line in sorted(old.keys() | new.keys(), key=lambda line: (line[1], line[0], line[2]))
        if old.get(line, 0) != new.get(line, 0)
    )


def as_it_stands(packs: Iterable[tuple[int, int]]) -> str:
    """A mark of the lines of an order, pairs of pack (key) and count: the same only while they are."""
    return hashlib.sha256(repr(sorted(packs)).encode()).hexdigest()
