"""How many minutes the hands of a bench take: the recipe's, at the pace that was learned.

For ``lesson_problem.py``, which plans by it, for the chances and for the pages. A day that
was run teaches how many minutes a technique really took over those of the recipe, at the
level of the dish; it counts from when a person accepted it. The rule, in prose:

1. A step goes at the accepted pace of its technique at the level of the bench's recipe.
2. Of several techniques with an accepted pace the slowest counts: a plan that is a little
   long leaves minutes in hand, one that is short breaks its holds.
3. Without an accepted pace the recipe's minutes stand.
4. Extra time in an assessed lesson is a factor of its own, on top.
5. Minutes are rounded once, last, up to whole minutes. What is shown, and food alone in an
   oven or a chiller, take what is written.

Worked example: lining a tin is 10 min in the recipe, the level took 1.3 times that: 13 min.
At a bench with a quarter more time 10 x 1.3 x 1.25 = 16.25, so 17 min. A step of rubbing in
(1.1) and lining (1.3) goes at 1.3.
"""

from collections.abc import Iterable
from dataclasses import asdict, dataclass
from datetime import date
from math import log, sqrt
from typing import Any

from curriculum.recipes.data import RecipeData, StepData

#: So many timings give a spread of their own; of ten it is known to about a quarter, as 1 / sqrt(2 x 9)
#: is 0.24 (from memory, for a normal spread). Fewer give only their middle.
ENOUGH_FOR_SPREAD = 10
#: Fewer timed steps than this are thin evidence (common practice, no source).
ENOUGH_TIMINGS = 5
#: A timing further from the middle than this is taken for a tap at the wrong time (from memory, no source).
LEAST_SHARE, MOST_SHARE = 0.4, 4.0
#: The recipe's own minutes.
AS_WRITTEN = 1000


@dataclass(frozen=True, slots=True)
class LearnedPace:
    """An accepted pace of one technique at one level, and what it rests on.

    ``per_mille`` of the recipe's minutes is the middle of ``timings`` (each per mille, too);
    ``count`` of them in ``lessons`` lessons; ``by`` accepted it on ``on``.
    """

    technique: str
    name: str
    level: str
    per_mille: int
    count: int
    lessons: int
    by: str
    on: date
    timings: tuple[int, ...] = ()

    @property
    def spread_per_mille(self) -> int | None:
        """How wide the timings lie about their middle; None when they are too few to say."""
        return spread_of(self.timings)


def pace_of(paces: Iterable[LearnedPace], recipe: RecipeData, step: StepData) -> LearnedPace | None:
    """The pace at which a step of a recipe is worked; None: as the recipe writes."""
    own = [p for p in paces if p.level == recipe.level and p.technique in step.techniques]
    return max(own, key=lambda pace: (pace.per_mille, pace.technique), default=None)


def hands_minutes(minutes: int, pace: LearnedPace | None, bench_per_mille: int = AS_WRITTEN) -> int:
    """Minutes of hands at a learned pace and with a bench's extra time, rounded up to whole minutes."""
    per_mille = pace.per_mille if pace else AS_WRITTEN
    return -(-minutes * per_mille * bench_per_mille // (AS_WRITTEN * AS_WRITTEN))


def spread_of(timings: Iterable[int]) -> int | None:
    """Standard deviation of the logarithms of the timings, per mille; None of too few.

    Worked example: five timings of 800 and five of 1,250 lie at -0.223 and 0.223 about their
    middle: sqrt(10 x 0.223² / 9) = 0.235, so 235.
    """
    shares = [timing for timing in timings if timing > 0]
    if len(shares) < ENOUGH_FOR_SPREAD:
        return None
    middle = sorted(shares)[(len(shares) - 1) // 2]
    logs = [log(min(max(share / middle, LEAST_SHARE), MOST_SHARE)) for share in shares]
    mean = sum(logs) / len(logs)
    return round(1000 * sqrt(sum((each - mean) ** 2 for each in logs) / (len(logs) - 1)))


def times_words(per_mille: int) -> str:
    """ "1.3 ×" of 1,300 and of 1,304; hundredths at most."""
    whole, hundredths = divmod((per_mille + 5) // 10, 100)
    return f"{whole}.{hundredths:02}".rstrip("0").rstrip(".") + " ×"


def kept_paces(paces: Iterable[LearnedPace]) -> list[dict[str, Any]]:
    """As JSON: what a kept plan was computed from."""
    return [{**asdict(pace), "on": pace.on.isoformat(), "timings": list(pace.timings)} for pace in paces]


def read_paces(kept: Iterable[dict[str, Any]]) -> tuple[LearnedPace, ...]:
    """Back from their JSON."""
    return tuple(
        LearnedPace(**{**each, "on": date.fromisoformat(each["on"]), "timings": tuple(each["timings"])})
        for each in kept
    )
