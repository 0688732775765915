"""What was given at the bench, as the arithmetic of a scheme reads it.

A card holds one candidate's marks in natural units: steps of a ladder, grams, degrees
Celsius, pieces, and for the clock minutes from the candidate's own start.
"""

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Subject:
    """What a criterion is marked by: one technique of the brief, with its name."""

    code: str
    name: str


@dataclass(frozen=True, slots=True)
class Mark:
    """One value. ``subject`` is the technique (or the critical line), ``judge`` counts from 1."""

    criterion: str
    value: Fraction
    subject: str = ""
    judge: int = 1


@dataclass(frozen=True, slots=True)
class Targets:
    """What measured criteria aim at, copied from the dish; None where the dish says nothing."""

    portion_milligrams: int | None = None
    portions: int | None = None
    serve_low_decicelsius: int | None = None
    serve_high_decicelsius: int | None = None
    core_decicelsius: int | None = None
    core_seconds: int | None = None


@dataclass(frozen=True, slots=True)
class Card:
    """One candidate's marks so far, the techniques marked, the dish's targets, the time allowed."""

    marks: tuple[Mark, ...]
    subjects: tuple[Subject, ...] = ()
    targets: Targets = Targets()
    allowed_minutes: Fraction = Fraction(0)

    def values(self, criterion: str, subject: str = "") -> tuple[Fraction, ...]:
        """The values given for a criterion, in the judges' order; empty when none was given."""
        given = [mark for mark in self.marks if (mark.criterion, mark.subject) == (criterion, subject)]
        return tuple(mark.value for mark in sorted(given, key=lambda mark: mark.judge))

    def value(self, criterion: str, subject: str = "") -> Fraction | None:
        """The first judge's value, or None when it has not been given."""
        values = self.values(criterion, subject)
        return values[0] if values else None
