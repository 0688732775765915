"""What is said of a technique when it is written into the list, before it is a row."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FaultEntry:
    """A fault that is seen, why it happens, and the one remedy."""

    code: str
    seen: str
    cause: str
    remedy: str


@dataclass(frozen=True, slots=True)
class TechniqueEntry:
    """One technique with the codes it needs first and the faults by which it fails.

    ``outside_dishes`` says that no dish of the book trains it. ValueError without a cue.
    """

    code: str
    name: str
    level: str
    cue: str
    needs: tuple[str, ...] = ()
    faults: tuple[FaultEntry, ...] = ()
    source: str = ""
    supervised: bool = False
    outside_dishes: bool = False

    def __post_init__(self) -> None:
        if not self.cue:
            raise ValueError(f"The technique {self.code} has no cue by which success is seen.")
