"""What the actions beside the kits are given: plain data that refuses nonsense."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class FoundEntry:
    """Food that lies in the stores and that the book lacks: its code, how much, the words why, their code.

    ``date_kind`` is "use_by", "best_before" or "none", with ``dated_on`` exactly where there is
    one. ValueError for nonsense.
    """

    food: str
    milligrams: int
    reason: str
    date_kind: str = "none"
    dated_on: date | None = None
    reason_code: str | None = None

    def __post_init__(self) -> None:
        if self.milligrams <= 0 or not self.reason:
            raise ValueError("What is counted in is something, with a reason.")
        if (self.date_kind == "none") != (self.dated_on is None):
            raise ValueError("A lot has a date exactly where its kind of date says so.")
