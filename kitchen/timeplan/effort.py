"""How hard to look for a plan, and how much of that is left while several searches share it.

For ``solver.py`` and ``proof.py``.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to look: seconds in all, or (for tests) a fixed amount of work that repeats.

    ``work`` is the solver's own deterministic time; with it one worker runs and the same
    question gives the same answer on every machine. ``holding`` also shortens how long
    food stands, at the same finish.
    """

    seconds: float = 4.0
    work: float | None = None
    workers: int = 2
    seed: int = 1
    holding: bool = True


#: The effort of a page that waits for its answer.
USUAL = Effort()


@dataclass
class Clock:
    """What is left of the effort, shared by the searches in turn. ``watch`` is the solver's watch."""

    effort: Effort
    began: float
    watch: Callable[[], float]

    def limit(self, solver: Any, share: float) -> None:
        """Give one search its share of what is left."""
        parameters = solver.parameters
        parameters.random_seed = self.effort.seed
        if self.effort.work is not None:
            parameters.num_workers = 1
            parameters.max_deterministic_time = self.effort.work * share
            return
        spent = self.watch() - self.began
        parameters.max_time_in_seconds = max(0.05, (self.effort.seconds - spent) * share)


def search_share(effort: Effort) -> float:
    """The share of the time for a shorter finish; what is left makes the plan easier to lead."""
    return 0.7 if effort.holding else 0.95
