"""A lesson as the time plan reads it: its slot, its benches, its room, what is shown.

For ``queries.py``, which makes it from rows, and for every calculation of the time plan.
"""

from dataclasses import dataclass

from curriculum.recipes.data import RecipeData, StepData
from curriculum.recipes.portion_minutes import steps_for
from kitchen.timeplan.paces import LearnedPace
from kitchen.timeplan.pins.data import PinData


@dataclass(frozen=True, slots=True)
class ApplianceData:
    """One appliance of the room: ``units`` shelves, rings or bowls that can be used at once.

    ``heats`` are the kinds of heat an oven has (empty: not said, any).
    """

    code: str
    name: str
    kind: str
    units: int = 1
    heat_seconds_per_10: int = 60
    cool_seconds_per_10: int = 120
    least_decicelsius: int | None = None
    most_decicelsius: int | None = None
    heats: tuple[str, ...] = ()
    may_stand_off: bool = True


@dataclass(frozen=True, slots=True)
class BenchData:
    """One bench: what it cooks and who cooks (names as shown on the lecturer's page).

    A bench with another dish than the lesson's says itself (``other_ahead``) which of its
    steps are done before; the lesson's steps ahead, taught and shown are not of its recipe.
    ``under_18``: one of its learners is under 18 on the day; their age is not known here.
    ``portions`` are those the bench makes, None the recipe's own: some minutes grow with them.
    """

    name: str
    recipe: RecipeData
    learners: tuple[str, ...] = ()
    cooks: int = 1
    pace_per_mille: int = 1000
    other_ahead: tuple[int, ...] | None = None
    under_18: bool = False
    portions: int | None = None

    @property
    def steps(self) -> tuple[StepData, ...]:
        """The recipe's steps, with the minutes of as many portions as the bench makes."""
        return steps_for(self.recipe, self.portions)

    @property
    def family(self) -> str:
        """The ordinary recipe whose steps this bench follows."""
        return self.recipe.variant_of or self.recipe.code


@dataclass(frozen=True, slots=True)
class ShownData:
    """One step shown to everybody before they begin it: minutes, live or from a stage tray."""

    step: int
    minutes: int
    way: str = "live"


@dataclass(frozen=True, slots=True)
class LessonData:
    """A lesson as the time plan needs it. ``starts`` is a minute of the day (09:00 is 540).

    ``ahead`` holds positions of steps done before; ``taught`` is empty when all are taught.
    ``waves_most`` start times at most; the clock steps by ``clock_minutes``. Where
    ``minutes_a_plate`` is not 0 somebody tastes and marks each bench's plate for so long, one
    after another, within ``taste_within`` minutes of the last step (common practice, no source:
    a hot plate is judged hot). ``supervisors`` may stand beside a step, the lecturer among them:
    each beside one bench at a time. ``paces`` are those that hands are planned by, ``pins`` what a
    person fixed by hand.
    ``listed`` are the machines and places that a learner under 18 uses only with somebody beside.
    ``plates`` of each bench's portions are for tasting, photograph and second marker.
    A break of ``break_minutes`` (0: none) begins ``break_after`` minutes after the lesson does.
    """

    code: str
    title: str
    starts: int
    minutes: int
    benches: tuple[BenchData, ...]
    appliances: tuple[ApplianceData, ...]
    room: str = ""
    room_benches: int = 99
    room_degrees: int = 200
    start_minutes: int = 15
    clear_minutes: int = 30
    ahead: tuple[int, ...] = ()
    taught: tuple[int, ...] = ()
    shown: tuple[ShownData, ...] = ()
    waves_most: int = 3
    clock_minutes: int = 5
    minutes_a_plate: int = 0
    taste_within: int = 10
    supervisors: int = 1
    paces: tuple[LearnedPace, ...] = ()
    pins: tuple[PinData, ...] = ()
    listed: frozenset[str] = frozenset()
    contingency_minutes: int = 0
    break_after: int = 0
    break_minutes: int = 0
    plates: int = 0

    @property
    def usable_minutes(self) -> int:
        """Minutes between start-up and what is kept free before clear-down."""
        return self.minutes - self.start_minutes - self.contingency_minutes - self.clear_minutes

    @property
    def break_from(self) -> int:
        """Minute after the class may begin to cook at which its break begins."""
        return max(0, self.break_after - self.start_minutes)

    @property
    def break_counted(self) -> int:
        """Minutes of the break after the class may begin to cook; what lies before takes nothing from it."""
        before = max(0, self.start_minutes - self.break_after)
        return max(0, self.break_minutes - before)

    @property
    def cooking_from(self) -> int:
        """Minute of the day at which cooking may begin."""
        return self.starts + self.start_minutes

    def steps_of(self, bench: BenchData) -> tuple[StepData, ...]:
        """Steps that this bench does in the lesson, in the recipe's order."""
        if bench.other_ahead is not None:
            return tuple(s for s in bench.steps if s.position not in bench.other_ahead)
        taught = self.taught or tuple(s.position for s in bench.recipe.steps)
        return tuple(s for s in bench.steps if s.position in taught and s.position not in self.ahead)
