"""What a lesson counted out and in: what is still out, in words, knives first.

For the page of the lesson, the paper and the list of what is not back. Plain data in, plain
data out. Out less in less written off is open, and never below none.

Worked example: 14 chef knives out, 13 in: "Knives and peelers: 14 out, 13 in." and "1 chef
knife is not back. Bench 3 had 2: A. Wharf and B. Tolworth."
"""

from collections.abc import Iterable
from dataclasses import dataclass

from curriculum import wording
from kitchen.stores.tools.kinds import GROUPS, KNIVES, counted, group_of, name_of, order_of


@dataclass(frozen=True, slots=True)
class Handed:
    """One thing of one place, with whom: ``bench`` and ``names`` are empty for the class as a whole.

    ``place`` is the key of the bench's place, 0 for the class; ``thing`` that of the thing.
    """

    thing: int
    item: str
    origin: str
    out: int
    back: int = 0
    lost: int = 0
    place: int = 0
    bench: str = ""
    names: tuple[str, ...] = ()

    @property
    def open(self) -> int:
        """How many are neither back nor written off."""
        return self.out - self.back - self.lost

    @property
    def name(self) -> str:
        """The thing in words."""
        return name_of(self.item)

    @property
    def with_whom(self) -> str:
        """ "Bench 3", or "The class"."""
        return f"Bench {self.bench}" if self.bench else "The class"

    @property
    def order(self) -> tuple:
        """Where the line stands: knives first, then by place and bench."""
        number, _, shift = self.bench.partition(".")
        return (*order_of(self.item), self.origin, int(number or 0), int(shift or 0))

    @property
    def open_words(self) -> str:
        """What is not back, and who had it; empty when all of it is."""
        if not self.open:
            return ""
        verb = "is" if self.open == 1 else "are"
        who = wording.listed(self.names) or "nobody is placed there"
        had = f" Bench {self.bench} had {self.out}: {who}." if self.bench else ""
        return f"{counted(self.open, self.item)} of {self.origin} {verb} not back.{had}"


@dataclass(frozen=True, slots=True)
class Counts:
    """The lines of a lesson, sorted, with what they come to."""

    lines: tuple[Handed, ...]

    @property
    def begun(self) -> bool:
        """Whether anything was counted out."""
        return bool(self.lines)

    @property
    def open(self) -> tuple[Handed, ...]:
        """The lines of which something is still out."""
        return tuple(line for line in self.lines if line.open)

    @property
    def knives(self) -> str:
        """ "Knives and peelers: 14 out, 13 in."; empty when none are out."""
        return _group_words(KNIVES.title, [line for line in self.lines if group_of(line.item) == KNIVES])

    @property
    def groups(self) -> tuple[tuple[str, str, tuple[Handed, ...]], ...]:
        """Title, sums in words and lines of each group, knives first."""
        found = []
        for group in GROUPS:
            lines = tuple(line for line in self.lines if group_of(line.item) == group)
            if lines:
                found.append((group.title, _group_words(group.title, lines), lines))
        return tuple(found)


def counts_of(lines: Iterable[Handed]) -> Counts:
    """The lines in the order in which they are counted."""
    return Counts(tuple(sorted(lines, key=lambda line: line.order)))


def _group_words(title: str, lines: Iterable[Handed]) -> str:
    lines = list(lines)
    if not lines:
        return ""
    lost = sum(line.lost for line in lines)
    off = f", {lost} written off" if lost else ""
    return f"{title}: {sum(line.out for line in lines)} out, {sum(line.back for line in lines)} in{off}."


def given_to_benches(count: int, benches: Iterable[tuple[int, int]]) -> dict[int, int]:
    """A count given out bench by bench: each place (key, what its recipe lists) in turn, the rest to 0.

    Where the count does not reach, the last benches get what is left, or nothing.
    """
    given: dict[int, int] = {}
    for place, wanted in benches:
        mine = min(wanted, count)
        if mine:
            given[place] = mine
        count -= mine
    if count:
        given[0] = count
    return given
