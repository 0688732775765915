"""When what is cold is needed on the bench, and from when it may be weighed.

For the weigh-out and the kit labels. Plain data in, plain data out; minutes of the day.

The rule, in this order
-----------------------
1. A food of a bench's tray is needed when the first step that uses its component begins at
   that bench, by the accepted time plan; what no step names (dusting, greasing) when the
   bench's first step begins. In a second shift everything is as much later as that shift is.
2. The demonstration's tray and its stage trays are needed when the first thing is shown.
3. Without an accepted plan everything is needed at the lesson's start, and the words say so.
4. What is prepared ahead is needed when it is made; a spare tray stays in the cold until
   somebody begins again. Neither has a clock time here.
5. *Not before*: the first need, less the minutes that the college lets cold food stand, less
   a minute for each weight, down to the last five minutes of the clock.

Worked example: a stop of seven weights of butter, needed at 09:22 at the first bench: 09:22
less 30 min less 7 min is 08:45.

Sources: that chilled food is weighed as late as can be, and 90 min of a warm bench as the
practical limit, is common practice (no source; local codes decide). A minute a weight is
our own choice: 60 to 120 min are counted for eight benches of fourteen lines (an estimate).
"""

from collections.abc import Iterable
from dataclasses import dataclass

from curriculum.recipes.data import RecipeData
from curriculum.wording import clock_minutes
from kitchen.timeplan.plan import BenchPlan, LessonPlan

#: Our own choice, no source (above).
MINUTES_A_WEIGHT = 1
COLD = ("chilled", "frozen")


@dataclass(frozen=True, slots=True)
class Moment:
    """When a food is needed: a minute of the day, or None with the words for when instead."""

    minute: int | None
    by_plan: bool = True
    words: str = ""

    @property
    def said(self) -> str:
        """What one weight says of it: "Needed 09:12.", or when instead."""
        return self.words if self.minute is None else f"Needed {clock_minutes(self.minute)}."


@dataclass(frozen=True, slots=True)
class Clock:
    """What the times of a lesson are read from: its start, its accepted plan, when things are made ahead.

    ``later`` is by how many minutes each bench's shift begins after the first, by plate.
    """

    starts: int
    plan: LessonPlan | None = None
    ahead_words: str = ""
    later: tuple[tuple[str, int], ...] = ()


def moment_of(clock: Clock, kind: str, label: str, step: int | None) -> Moment:
    """When a food of a tray is needed; ``step`` is the first that uses its component, None for none."""
    if kind == "ahead":
        return Moment(None, words=clock.ahead_words)
    if kind == "spare":
        return Moment(None, words="The spare tray stays in the cold until somebody begins again.")
    later = dict(clock.later).get(label, 0)
    found = _by_plan(clock.plan, kind, label, step) if clock.plan else None
    if found is None:
        return Moment(clock.starts + later, by_plan=False)
    return Moment(found + later)


def first_step(recipe: RecipeData, component: str, ahead: Iterable[int] = ()) -> int | None:
    """The first step at the bench that uses a component, by the component's name as a tray prints it."""
    codes = {each.code for each in recipe.components if each.name == component}
    done = set(ahead)
    used = [step.position for step in recipe.steps if codes & set(step.components)]
    return min((position for position in used if position not in done), default=None)


def _by_plan(plan: LessonPlan, kind: str, label: str, step: int | None) -> int | None:
    if kind in ("demonstration", "stage_tray"):
        return min((show.start for show in plan.shows), default=None)
    bench = next((each for each in plan.benches if each.name == label.split(".")[0]), None)
    return _at_the_bench(bench, step) if bench else None


def _at_the_bench(bench: BenchPlan, step: int | None) -> int | None:
    starts = [line.start for line in bench.lines if step is None or line.step == step]
    return min(starts, default=None)


def not_before(moments: Iterable[Moment], weights: int, cold_minutes: int) -> int | None:
    """From which minute of the day a stop of so many weights may be weighed; None where nothing says."""
    first = first_need(moments)
    if first is None:
        return None
    return max(0, (first - cold_minutes - weights * MINUTES_A_WEIGHT) // 5 * 5)


def first_need(moments: Iterable[Moment]) -> int | None:
    """The earliest of some moments; None where none has a clock time."""
    return min((each.minute for each in moments if each.minute is not None), default=None)


def when_words(moments: Iterable[Moment], weights: int, cold_minutes: int) -> str:
    """What a stop says of its times: "Not before 08:40, needed on the bench 09:12."."""
    said = list(moments)
    first, begin = first_need(said), not_before(said, weights, cold_minutes)
    if first is None or begin is None:
        return " ".join(dict.fromkeys(each.words for each in said if each.words))
    planned = all(each.by_plan for each in said if each.minute is not None)
    source = "" if planned else " By the lesson’s start: no time plan is accepted."
    return f"Not before {clock_minutes(begin)}, needed on the bench {clock_minutes(first)}.{source}"


def storage_words(storages: Iterable[str]) -> str:
    """How a tray is kept until it is used, by its coldest food."""
    held = set(storages)
    if "frozen" in held:
        return "In the fridge, frozen food in the freezer"
    return "In the fridge" if "chilled" in held else "In the dry store"


def cold_until(moments: Iterable[Moment]) -> str:
    """What a kit's label says: until when it stays in the cold; empty where nothing says when."""
    said = list(moments)
    first = first_need(said)
    if first is None:
        return ""
    planned = all(each.by_plan for each in said if each.minute is not None)
    return f"{clock_minutes(first // 5 * 5)}{'' if planned else ' (start of the lesson, no plan)'}"
