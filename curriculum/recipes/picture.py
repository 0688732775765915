"""One cook on the clock, drawn: hands above, food below, waiting filled with other work.

For the recipe page. Plain data in, shapes out; the template writes them as one SVG with
classes only, so that print and the dim room follow. Food that stays somewhere has a lane of
its own until it is taken up again, so that two things that wait together are both seen; the
step's number and the place stand at each. ``lines`` say the same in order of time. The view
box is 920 wide, the names take 132 of it.
"""

from dataclasses import dataclass, replace

from curriculum.recipes.data import RecipeData, StayData
from curriculum.recipes.step_words import PLACES
from curriculum.recipes.timing import OneCook, StepTime
from curriculum.wording import counted_words, duration, since_start

LEFT, RIGHT, WIDTH = 132, 908, 920
HANDS_Y, FOOD_Y, LANE = 62, 104, 34
#: A number needs so much room inside a block, and a letter of a label so much.
LEAST_FOR_NUMBER, A_LETTER = 13, 8.6


@dataclass(frozen=True, slots=True)
class Mark:
    """A line of the clock; ``words`` is empty between the half hours."""

    x: float
    words: str = ""
    place: str = "mid"


@dataclass(frozen=True, slots=True)
class Block:
    """One block: ``kind`` is "work", "oven" or "wait"; ``words`` stand in its middle, or above a narrow one.

    ``y`` is its upper edge; ``text_y`` the foot of its words and ``line_y`` the line of a wait.
    """

    kind: str
    x: float
    width: float
    middle: float
    y: float
    words: str = ""

    @property
    def end(self) -> float:
        """Where it ends, from the left."""
        return round(self.x + self.width, 1)

    @property
    def text_y(self) -> float:
        """The foot of its words."""
        if self.is_narrow:
            return self.y - 4
        return self.y + (15 if self.kind == "wait" else 20 if self.kind == "work" else 17)

    @property
    def is_narrow(self) -> bool:
        """Work whose number has no room in it and stands above."""
        return self.kind == "work" and self.width < LEAST_FOR_NUMBER

    @property
    def line_y(self) -> float:
        """Where the dots of a wait run: under its words."""
        return self.y + 21


@dataclass(frozen=True, slots=True)
class TimeLine:
    """One step in order of time: when the hands begin, which step, and what follows."""

    at: str
    position: int
    words: str
    lasts: str


@dataclass(frozen=True, slots=True)
class Picture:
    """The whole drawing. ``said`` is what it shows, in a sentence; ``foot`` its lower rule."""

    marks: tuple[Mark, ...]
    blocks: tuple[Block, ...]
    minutes: str
    said: str
    height: int
    lines: tuple[TimeLine, ...] = ()

    @property
    def foot(self) -> int:
        """The rule under the last lane."""
        return self.height - 8


def draw(recipe: RecipeData, cook: OneCook) -> Picture | None:
    """The picture of one cook's plan; None when there is nothing to draw."""
    if cook.minutes == 0:
        return None
    span = max(30, -(-cook.minutes // 30) * 30)
    per_minute = (RIGHT - LEFT) / span
    times = sorted(cook.steps, key=lambda time: (_waits_from(time), time.position))
    blocks: list[Block] = []
    lanes: list[int] = []
    for time in times:
        blocks += _work(time, per_minute) + _stays(recipe, time, per_minute, lanes)
    steps = counted_words(len(cook.steps), "step")
    said = f"{steps.capitalize()} of one cook in {duration(cook.minutes)}, waiting filled with other work."
    return Picture(
        _marks(span, per_minute),
        tuple(_apart(blocks)),
        duration(cook.minutes),
        said,
        FOOD_Y + LANE * max(1, len(lanes)) + 8,
        tuple(_line(recipe, time) for time in sorted(cook.steps, key=lambda time: (time.starts, time.ends))),
    )


def _marks(span: int, per_minute: float) -> tuple[Mark, ...]:
    # A label needs about 70 units, so a long cook is labelled by the hour.
    every = 30 if span * per_minute / (span / 30) >= 70 else 60
    made = []
    for minute in range(0, span + 1, 10):
        words = "" if minute % every else ("start" if minute == 0 else since_start(minute))
        place = "" if minute == 0 else "end" if minute == span else "mid"
        made.append(Mark(round(LEFT + minute * per_minute, 1), words, place))
    return tuple(made)


def _waits_from(time: StepTime) -> int:
    """The minute at which the food of a step begins to stay; before the hands when it waits first."""
    return time.starts if time.hands_start > time.starts else time.hands_end


def _work(time: StepTime, per_minute: float) -> list[Block]:
    if time.hands_end == time.hands_start:
        return []
    x, width = _along(time.hands_start, time.hands_end, per_minute)
    return [Block("work", x, width, round(x + width / 2, 1), HANDS_Y, str(time.position))]


def _apart(blocks: list[Block]) -> list[Block]:
    """The blocks with the numbers above left out that would run into the one before."""
    made, free = [], 0.0
    for block in sorted(blocks, key=lambda block: (block.y, block.x)):
        half = len(block.words) * A_LETTER / 2
        if block.is_narrow and block.middle - half < free:
            made.append(replace(block, words=""))
            continue
        free = block.middle + half if block.is_narrow else free
        made.append(block)
    return made


def _stays(recipe: RecipeData, time: StepTime, per_minute: float, lanes: list[int]) -> list[Block]:
    """The stays of a step on the first lane that is free; ``lanes`` holds when each is free again."""
    stays = recipe.step(time.position).stays
    if not stays:
        return []
    begin = _waits_from(time)
    lane = next((number for number, free in enumerate(lanes) if free <= begin), len(lanes))
    lanes[lane : lane + 1] = [begin + sum(stay.minutes for stay in stays)]
    made = []
    for stay in stays:
        kind = "oven" if stay.appliance_kind == "oven" else "wait"
        # Dots have round ends that stand out by four units, so they are kept in.
        x, width = _along(begin, begin + stay.minutes, per_minute, 4 if kind == "wait" else 0)
        words = _label(time.position, stay, width)
        made.append(Block(kind, x, width, round(x + width / 2, 1), FOOD_Y + LANE * lane, words))
        begin += stay.minutes
    return made


def _along(begin: int, end: int, per_minute: float, inset: int = 0) -> tuple[float, float]:
    """(x, width) of a time."""
    x = round(LEFT + begin * per_minute + inset, 1)
    return x, round(max((end - begin) * per_minute - 2 * inset, 1), 1)


def _label(position: int, stay: StayData, width: float) -> str:
    """The step's number and the place, only the number, or nothing, as there is room."""
    number = str(position)
    whole = f"{number} {PLACES.get(stay.appliance_kind or 'bench', stay.appliance_kind or '')}"
    fitting = (words for words in (whole, number) if width >= max(LEAST_FOR_NUMBER, len(words) * A_LETTER))
    return next(fitting, "")


def _line(recipe: RecipeData, time: StepTime) -> TimeLine:
    step = recipe.step(time.position)
    work = f"{duration(step.active_minutes)} at work" if step.active_minutes else ""
    waits = ", then ".join(
        f"{PLACES.get(stay.appliance_kind or 'bench', stay.appliance_kind or '')} {duration(stay.minutes)}"
        for stay in step.stays
    )
    parts = [waits, work] if step.wait_first else [work, waits]
    lasts = ", then ".join(part for part in parts if part)
    return TimeLine(since_start(time.starts), time.position, step.words, lasts)
