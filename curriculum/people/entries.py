"""What is said of a person before there is an account."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class AdjustmentEntry:
    """A reasonable adjustment; ``percent`` for extra time only."""

    kind: str
    percent: int | None = None
    words: str = ""


@dataclass(frozen=True, slots=True)
class StaffEntry:
    """A member of staff and the roles held; ValueError without a name."""

    username: str
    name: str
    roles: tuple[str, ...]

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise ValueError(f"The account {self.username} has no name.")


@dataclass(frozen=True, slots=True)
class LearnerEntry:
    """A learner of one group (by its code) with what was agreed; ValueError without a name."""

    username: str
    name: str
    college_number: str
    group: str
    born_on: date | None = None
    left_handed: bool = False
    photograph_allowed: bool = False
    guardian_consent: bool | None = None
    emergency_note: str = ""
    tasting_note: str = ""
    adjustments: tuple[AdjustmentEntry, ...] = ()

    def __post_init__(self) -> None:
        if not self.name.strip():
            raise ValueError(f"The account {self.username} has no name.")
