"""What is said of a course and its scheme of work before they are rows."""

from dataclasses import dataclass, field
from datetime import date


@dataclass(frozen=True, slots=True)
class OutcomeEntry:
    """One learning outcome with the codes of the techniques that show it."""

    code: str
    name: str
    techniques: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class UnitEntry:
    """One unit with its outcomes."""

    code: str
    name: str
    outcomes: tuple[OutcomeEntry, ...]


@dataclass(frozen=True, slots=True)
class PlannedEntry:
    """One lesson of a scheme of work; ``dish`` is the code of a recipe or None.

    ``inputs`` keeps what the plan was made from: arrangement, steps, steps made ahead,
    techniques taught outside dishes.
    """

    week: int
    on: date
    kind: str
    dish: str | None = None
    note: str = ""
    inputs: dict = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class CourseEntry:
    """One course of one group with its units and its planned lessons. ValueError for a week below 1."""

    code: str
    name: str
    group: str
    units: tuple[UnitEntry, ...]
    planned: tuple[PlannedEntry, ...]

    def __post_init__(self) -> None:
        if any(lesson.week < 1 for lesson in self.planned):
            raise ValueError(f"A lesson of {self.code} is planned before the first week.")
