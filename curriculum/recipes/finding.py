"""One thing that is found when a version is looked over, and what it may be judged with.

For the check list (``checks`` and its parts). A finding either *stops* (a lesson could not
be planned from this version) or is only *to look at*.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from curriculum.techniques.entries import TechniqueEntry


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing found. ``component`` or ``step`` say where; ``stops`` whether it must be mended."""

    code: str
    words: str
    stops: bool = True
    component: str = ""
    step: int | None = None


@dataclass(frozen=True, slots=True)
class Teaching:
    """What is known besides the recipe: techniques by code, with those that they need first.

    ``cooking_minutes`` are those of a usual lesson, between its start and its clear-down; None
    where nobody has said.
    """

    techniques: Mapping[str, TechniqueEntry] = field(default_factory=dict)
    cooking_minutes: int | None = None
