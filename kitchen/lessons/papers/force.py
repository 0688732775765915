"""Which prints of a lesson are in force: what each part says now beside what it said when printed.

For the page of a lesson's papers, the page behind the code on a paper, and what is printed again.
Plain data in, plain data out; no paper is kept, only hashes of what stood on its parts.

A print is void part by part: the label of bench 3 is void when bench 3 is given something else,
and the label of bench 4 of the same print stays in force, whatever number is on it. What says
its number in words ("a sheet of any other plan is void") carries it as a facet, and is void whole.

Worked example: labels of set 2 were printed for benches 1 to 3. Set 3 gives bench 3 another
weight and has a bench 4: of the print bench 3 is void, and benches 3 and 4 must be printed.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

#: What stood on a part, facet by facet, as hashes.
Facets = Mapping[str, str]
#: A sheet without parts has one, of this name.
WHOLE = ""
#: Twelve hexadecimal digits, 48 bits: a change goes unseen once in 2.8 x 10^14 of them.
DIGITS = 12


@dataclass(frozen=True, slots=True)
class Issue:
    """A paper as it would be printed now: of which set or plan, and what stands on its parts."""

    paper: str
    number: int
    at: datetime | None
    parts: Mapping[str, Facets]

    def only(self, parts: Iterable[str]) -> "Issue":
        """The same paper with some of its parts."""
        kept = set(parts)
        there = {part: facets for part, facets in self.parts.items() if part in kept}
        return Issue(self.paper, self.number, self.at, there)


@dataclass(frozen=True, slots=True)
class Printed:
    """A print that was made: ``key`` is whatever the caller knows it by; earlier ones come first."""

    key: int
    paper: str
    number: int
    at: datetime
    parts: Mapping[str, Facets]


@dataclass(frozen=True, slots=True)
class Void:
    """A part of a print that is void: the facets that changed; none when the part is gone."""

    part: str
    facets: tuple[str, ...]

    @property
    def gone(self) -> bool:
        """Whether nothing takes its place."""
        return not self.facets


def facets_of(said: Mapping[str, Any]) -> dict[str, str]:
    """The hash of each facet of a part; what is said is plain JSON."""
    return {name: _hash(value) for name, value in said.items()}


def voids(printed: Printed, now: Issue | None) -> tuple[Void, ...]:
    """The parts of a print that are void; all of them where the paper is no more."""
    parts = now.parts if now is not None else {}
    found = (_void(part, facets, parts.get(part)) for part, facets in printed.parts.items())
    return tuple(each for each in found if each is not None)


def again(prints: Iterable[Printed], now: Issue) -> tuple[str, ...]:
    """The parts of a paper that must be printed again; nothing of a paper that nobody has printed.

    A part counts as printed by the last print that has it. One that is new is printed too where
    the paper was printed as a set, that is with more than one part.
    """
    last: dict[str, Facets] = {}
    as_a_set = False
    for each in prints:
        last |= each.parts
        as_a_set = as_a_set or len(each.parts) > 1
    new = {part for part in now.parts if part not in last} if as_a_set else set()
    changed = {part for part in last if part in now.parts and last[part] != now.parts[part]}
    return tuple(part for part in now.parts if part in changed | new)


def to_throw_away(
    prints: Iterable[Printed], now: Issue | None
) -> tuple[tuple[Printed, tuple[Void, ...]], ...]:
    """Prints with parts that are void and that no later print has replaced, with those parts."""
    rows = list(prints)
    last = {part: each.key for each in rows for part in each.parts}
    found = []
    for each in rows:
        mine = tuple(void for void in voids(each, now) if last[void.part] == each.key)
        if mine:
            found.append((each, mine))
    return tuple(found)


def _void(part: str, then: Facets, now: Facets | None) -> Void | None:
    if now is None:
        return Void(part, ())
    changed = tuple(name for name in {**then, **now} if then.get(name) != now.get(name))
    return Void(part, changed) if changed else None


def _hash(value: Any) -> str:
    text = json.dumps(value, sort_keys=True, ensure_ascii=False, default=str)
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:DIGITS]
