"""What the ledger says of one food in one lesson, and a proposal made of several lessons.

Plain data in, plain data out; whole milligrams, shares per mille. What the ledger cannot say is
not guessed: a movement names a kit line and a reason, never the step at which something went
wrong. The spare kit stands apart: where it came back nothing happened, where it did not it was
given to somebody whose food was lost.

A lesson teaches when it was held, its kits have left, somebody wrote down what came back or was
given later, and no lot of it is held: after a recall food comes back for another reason than that
there was too much of it.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date

from curriculum import wording
from kitchen.stores.learning.robust import ENOUGH_LESSONS, ENOUGH_TESTS, far_off, middle

OVER_ISSUE, WASTAGE, USABLE = "over_issue", "wastage", "usable"

#: Reasons (codes of ``moves.reasons``) for which food was given once more because it was lost.
LOST_AND_GIVEN = ("dropped", "mis_weighed", "over_baked")
#: Reasons for which more was given because the kit held too little.
TOO_LITTLE = ("not_enough", "short", "other")
#: Reasons for which food was thrown away that had been worked, or was to be.
LOST = ("dropped", "burnt", "contaminated", "spoiled")
#: Reasons for which food was thrown away that nobody needed.
NOT_NEEDED = ("opened", "over_made")


@dataclass(frozen=True, slots=True)
class LessonFood:
    """One food in one lesson: planned, issued, given later, back, thrown away; the spare kit apart.

    ``batches`` are the kits with it that are no spare and not prepared ahead. ``more`` and
    ``thrown`` are milligrams by the code of the reason. ``given`` is what each kit held as
    over-issue. ``out_why`` says why the lesson teaches nothing; empty when it does.
    """

    lesson: str
    title: str
    on: date
    group: str
    recipe: str
    food: str
    benches: int
    batches: int
    planned: int
    issued: int
    sealed: int = 0
    reworked: int = 0
    spare_used: int = 0
    more: Mapping[str, int] = field(default_factory=dict)
    thrown: Mapping[str, int] = field(default_factory=dict)
    given: int = 0
    out_why: str = ""

    def given_for(self, reasons: Iterable[str]) -> int:
        """What was given later for these reasons."""
        return sum(self.more.get(code, 0) for code in reasons)

    def thrown_for(self, reasons: Iterable[str]) -> int:
        """What was thrown away for these reasons."""
        return sum(self.thrown.get(code, 0) for code in reasons)


@dataclass(frozen=True, slots=True)
class Row:
    """One lesson as evidence: what it was, its figures by what they are, and the value it gives."""

    lesson: str
    title: str
    on: date
    group: str
    benches: int
    figures: tuple[tuple[str, int], ...]
    value: int
    far: bool = False


@dataclass(frozen=True, slots=True)
class Proposal:
    """A figure that lessons (or tests) propose, beside the one in use.

    ``of`` is the code of the recipe or of the technique, empty for a usable share; ``others``
    are techniques that the same lessons cannot tell from it. ``amount`` is milligrams a bench
    for over-issue and per mille otherwise. ``left_out`` are lessons that teach nothing, and why.
    """

    kind: str
    food: str
    of: str
    amount: int
    in_use: int
    rows: tuple[Row, ...]
    left_out: tuple[tuple[str, str], ...] = ()
    others: tuple[str, ...] = ()
    same_food_in: tuple[str, ...] = ()

    @property
    def values(self) -> tuple[int, ...]:
        """What each lesson says."""
        return tuple(row.value for row in self.rows)

    @property
    def middle(self) -> int:
        """The middle of the lessons, before it is rounded to what is proposed."""
        return middle(self.values)

    @property
    def benches(self) -> int:
        """Benches of all these lessons."""
        return sum(row.benches for row in self.rows)

    @property
    def enough(self) -> bool:
        """Whether so many lessons or tests say so that it may be proposed."""
        return len(self.rows) >= (ENOUGH_TESTS if self.kind == USABLE else ENOUGH_LESSONS)

    @property
    def changes_something(self) -> bool:
        """Whether it differs from the figure in use."""
        return self.amount != self.in_use

    @property
    def mark(self) -> str:
        """Short hash of what it rests on: another lesson, another mark."""
        said = [self.kind, self.food, self.of, self.amount, self.in_use]
        said += [[row.lesson, row.value] for row in self.rows]
        return hashlib.sha256(json.dumps(said).encode()).hexdigest()[:16]


def rows_of(
    lessons: Iterable[tuple[LessonFood, tuple[tuple[str, int], ...], int]], least: int
) -> tuple[Row, ...]:
    """Lessons with their figures and values as rows, the latest first, those far off marked."""
    said = sorted(lessons, key=lambda each: (each[0].on, each[0].lesson), reverse=True)
    marks = far_off([value for _, _, value in said], least)
    return tuple(
        Row(one.lesson, one.title, one.on, one.group, one.benches, figures, value, far)
        for (one, figures, value), far in zip(said, marks, strict=True)
    )


def taught(lessons: Iterable[LessonFood]) -> tuple[list[LessonFood], tuple[tuple[str, str], ...]]:
    """Lessons that teach, and those that do not with the reason, by their titles and days."""
    found, out = [], {}
    for each in lessons:
        if each.out_why:
            words = f"{each.title}, {each.group}, {wording.short_date(each.on)}"
            out[each.on, each.lesson] = (words, each.out_why)
        else:
            found.append(each)
    return found, tuple(out[key] for key in sorted(out, reverse=True))
