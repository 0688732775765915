"""What a searcher and a prover tell each other while both look at one question.

For ``solver.py``. One looks for shorter plans, the other proves how short none can be, each
on a core of its own. They have met when a plan is as short as what is proved; then both
end, and the plan is the best there is.

Worked example: the searcher has found 133 and goes on; the prover reaches 133; nobody can
find less, so both stop long before their time is up.
"""

from dataclasses import dataclass, field
from threading import Lock
from typing import Any


@dataclass
class Race:
    """The shortest plan found and the best bound proved so far, in minutes, and who is still looking."""

    best: int
    bound: int
    looking: list[Any] = field(default_factory=list)
    lock: Lock = field(default_factory=Lock)

    def join(self, solver: Any) -> None:
        """A solver begins to look."""
        with self.lock:
            self.looking.append(solver)

    def found(self, minutes: int) -> None:
        """A plan of so many minutes was found."""
        with self.lock:
            self.best = min(self.best, minutes)
            self._end_if_met()

    def proved(self, minutes: int) -> None:
        """No plan is shorter than so many minutes."""
        with self.lock:
            self.bound = max(self.bound, minutes)
            self._end_if_met()

    def _end_if_met(self) -> None:
        if self.best <= self.bound:
            for solver in self.looking:
                solver.stop_search()
