"""One cook on the clock, drawn: hands above, food below, waiting filled with other work.

For the recipe page. Plain data in, shapes out; the template writes them as one SVG with
classes only, so that print and the dim room follow. The same content stands as a list
beside it. The view box is 920 wide, the names take 132 of it.
"""

from dataclasses import dataclass

from curriculum.recipes.data import RecipeData
from curriculum.recipes.timing import OneCook, StepTime
from curriculum.wording import counted_words, duration, since_start

LEFT, RIGHT, WIDTH = 132, 908, 920
HANDS_Y, FOOD_Y, HEIGHT = 66, 96, 132
#: A number needs so much room inside a block.
LEAST_FOR_NUMBER = 13


@dataclass(frozen=True, slots=True)
class Mark:
    """A line of the clock; ``words`` is empty between the half hours."""

    x: float
    words: str = ""
    place: str = "mid"


@dataclass(frozen=True, slots=True)
class Block:
    """One block: ``kind`` is "work", "oven" or "wait"; ``words`` stand in its middle."""

    kind: str
    x: float
    width: float
    middle: float
    words: str = ""

    @property
    def end(self) -> float:
        """Where it ends, from the left."""
        return round(self.x + self.width, 1)


@dataclass(frozen=True, slots=True)
class Picture:
    """The whole drawing. ``said`` is what it shows, in a sentence."""

    marks: tuple[Mark, ...]
    blocks: tuple[Block, ...]
    minutes: str
    said: str


def draw(recipe: RecipeData, cook: OneCook) -> Picture | None:
    """The picture of one cook's plan; None when there is nothing to draw."""
    if cook.minutes == 0:
        return None
    span = max(30, -(-cook.minutes // 30) * 30)
    per_minute = (RIGHT - LEFT) / span
    blocks = tuple(block for time in cook.steps for block in _blocks(recipe, time, per_minute))
    steps = counted_words(len(cook.steps), "step")
    said = f"{steps.capitalize()} of one cook in {duration(cook.minutes)}, waiting filled with other work."
    return Picture(_marks(span, per_minute), blocks, duration(cook.minutes), said)


def _marks(span: int, per_minute: float) -> tuple[Mark, ...]:
    # A label needs about 70 units, so a long cook is labelled by the hour.
    every = 30 if span * per_minute / (span / 30) >= 70 else 60
    made = []
    for minute in range(0, span + 1, 10):
        words = "" if minute % every else ("start" if minute == 0 else since_start(minute))
        place = "" if minute == 0 else "end" if minute == span else "mid"
        made.append(Mark(round(LEFT + minute * per_minute, 1), words, place))
    return tuple(made)


def _blocks(recipe: RecipeData, time: StepTime, per_minute: float) -> list[Block]:
    made = []
    if time.hands_end > time.hands_start:
        block = _block("work", time.hands_start, time.hands_end, per_minute, str(time.position))
        made.append(block if block.width >= LEAST_FOR_NUMBER else _without_words(block))
    begin = time.starts if time.hands_start > time.starts else time.hands_end
    for stay in recipe.step(time.position).stays:
        end = begin + stay.minutes
        kind = "oven" if stay.appliance_kind == "oven" else "wait"
        made.append(_block(kind, begin, end, per_minute, "oven" if kind == "oven" else ""))
        begin = end
    return [block if block.width >= 40 or block.kind != "oven" else _without_words(block) for block in made]


def _block(kind: str, begin: int, end: int, per_minute: float, words: str) -> Block:
    # Dots have round ends that stand out by four units, so they are kept in.
    inset = 4 if kind == "wait" else 0
    x = round(LEFT + begin * per_minute + inset, 1)
    width = round(max((end - begin) * per_minute - 2 * inset, 1), 1)
    return Block(kind, x, width, round(x + width / 2, 1), words)


def _without_words(block: Block) -> Block:
    return Block(block.kind, block.x, block.width, block.middle)
