"""The steps of a recipe as a graph: which step waits for which, and how long it may or must hold.

For the writing page. Plain data in, shapes out; the template writes them as one SVG with
classes only. The same content stands in the list of steps beside it.

A step stands one row below the lowest step it waits for (layers by longest path), so that
branches which do not wait for one another stand side by side. An arrow that passes a row
has a narrow place of its own in it, so that it never runs through a step. Within a row,
places are ordered by the middle of what they come after, then of what comes after them
(the barycentre of layered drawing, common practice), and moved apart.

Worked example: 1; 2 after 1; 3 after 1; 4 after 2 and 1 give rows (1), (2, 3), (4), and the
arrow from 1 to 4 has a place in the second row.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from curriculum.recipes import timing
from curriculum.recipes.data import AfterData, RecipeData, StepData
from curriculum.wording import counted_words, duration, listed

WIDTH, NODE_HEIGHT = 920, 84
WIDEST, NARROWEST, PASSING, APART = 280, 150, 16, 18
#: Between two rows: room for the arrow heads, and for each row of words on arrows.
GAP, WORDS_HEIGHT, HEAD = 40, 22, 9
#: About so wide is a letter of the drawing.
LETTER = 7.9
SWEEPS = 4


@dataclass(frozen=True, slots=True)
class Node:
    """One step: its box, its words in one or two rows, and what it takes."""

    position: int
    x: float
    y: float
    width: float
    rows: tuple[str, ...]
    takes: str
    in_oven: bool = False

    @property
    def middle(self) -> float:
        """Its middle, from the left."""
        return round(self.x + self.width / 2, 1)

    @property
    def text_x(self) -> float:
        """Where its words begin."""
        return self.x + 10

    @property
    def baselines(self) -> tuple[tuple[float, str], ...]:
        """Each row of words with where it stands."""
        return tuple((self.y + 24 + 20 * number, words) for number, words in enumerate(self.rows))

    @property
    def takes_y(self) -> float:
        """Where stands what it takes."""
        return self.y + NODE_HEIGHT - 12


@dataclass(frozen=True, slots=True)
class Arrow:
    """One arrow as points from top to bottom, with the words on it (empty: nothing is held)."""

    needs: int
    position: int
    points: tuple[tuple[float, float], ...]
    words: str = ""
    words_x: float = 0
    words_y: float = 0

    @property
    def segments(self) -> tuple[tuple[float, float, float, float], ...]:
        """The straight pieces: (x1, y1, x2, y2)."""
        return tuple((*start, *end) for start, end in pairwise(self.points))

    @property
    def paper(self) -> tuple[float, float, float]:
        """Left, top and width of the white behind the words, which interrupts the arrow."""
        width = len(self.words) * LETTER + 4
        return round(self.words_x - width / 2, 1), round(self.words_y - 17, 1), round(width, 1)

    @property
    def head(self) -> str:
        """The corners of its head."""
        x, y = self.points[-1]
        return f"{x},{y} {x - HEAD / 1.5},{y - HEAD} {x + HEAD / 1.5},{y - HEAD}"


@dataclass(frozen=True, slots=True)
class Graph:
    """The whole drawing. ``said`` is what it shows in a sentence, ``links`` every arrow in words."""

    width: float
    height: float
    nodes: tuple[Node, ...]
    arrows: tuple[Arrow, ...]
    said: str
    links: tuple[str, ...]


#: A place in a row: a step by its position, or an arrow that passes: (needs, position).
_Place = int | tuple[int, int]
#: Words on the arrows that end in one row: their middle, and which row of words from below.
_Waits = dict[tuple[int, int], tuple[str, float, int]]


def draw(recipe: RecipeData) -> Graph | None:
    """The graph of the steps; None without steps and while steps wait in a ring (``loop_words``)."""
    if not recipe.steps or timing.loop(recipe):
        return None
    rows, chains = _rows(recipe)
    box = max(NARROWEST, min([WIDEST, *map(_fitting, rows)]))
    xs, width = _places(rows, chains, box)
    waits = _words_by_gap(recipe, rows, xs, width)
    tops = _tops(len(rows), waits)
    nodes = tuple(
        _node(recipe.step(p), xs[p], tops[n], box) for n, row in enumerate(rows) for p in _steps(row)
    )
    arrows = tuple(_arrows(chains, rows, xs, tops, waits))
    height = tops[-1] + NODE_HEIGHT + 4
    return Graph(width, height, nodes, arrows, _said(recipe, rows), tuple(_links(recipe)))


def loop_words(recipe: RecipeData) -> str:
    """The ring in which steps wait for one another, named; empty when there is none."""
    loop = timing.loop(recipe)
    return timing.loop_words(loop) if loop else ""


def hold_words(after: AfterData) -> str:
    """What is held: "at least 30 min, within 2 h 05"; empty when nothing is."""
    least = f"at least {duration(after.least_minutes)}" if after.least_minutes else ""
    if after.longest_minutes is None:
        return least
    longest = f"within {duration(after.longest_minutes)}" if after.longest_minutes else "at once"
    return ", ".join(filter(None, (least, longest)))


def layers(recipe: RecipeData) -> dict[int, int]:
    """The row of each step from 0: one below the lowest step it waits for. No ring is allowed."""
    found: dict[int, int] = {}
    known = {step.position for step in recipe.steps}

    def row(position: int) -> int:
        if position not in found:
            needs = [after.needs for after in recipe.step(position).after if after.needs in known]
            found[position] = 1 + max(map(row, needs), default=-1)
        return found[position]

    return {position: row(position) for position in sorted(known)}


def _rows(recipe: RecipeData) -> tuple[list[list[_Place]], dict[tuple[int, int], list[_Place]]]:
    """The places of each row, ordered; and each arrow as its chain of places from top to bottom."""
    row_of = layers(recipe)
    rows: list[list[_Place]] = [[] for _ in range(max(row_of.values()) + 1)]
    for position, row in row_of.items():
        rows[row].append(position)
    chains: dict[tuple[int, int], list[_Place]] = {}
    for step in recipe.steps:
        for after in step.after:
            if after.needs not in row_of:
                continue
            link = (after.needs, step.position)
            between = range(row_of[after.needs] + 1, row_of[step.position])
            for row in between:
                rows[row].append(link)
            chains[link] = [after.needs, *([link] * len(between)), step.position]
    _order(rows, chains)
    return rows, chains


def _neighbours(
    rows: list[list[_Place]], chains: dict[tuple[int, int], list[_Place]], up: bool
) -> list[dict[_Place, list[_Place]]]:
    """For each row, what each place is joined to in the row above (``up``) or below."""
    row_of = {place: n for n, row in enumerate(rows) for place in row if isinstance(place, int)}
    joined: list[dict[_Place, list[_Place]]] = [defaultdict(list) for _ in rows]
    for (needs, _), chain in chains.items():
        for number, (above, below) in enumerate(pairwise(chain), start=row_of[needs]):
            if up:
                joined[number + 1][below].append(above)
            else:
                joined[number][above].append(below)
    return joined


def _order(rows: list[list[_Place]], chains: dict[tuple[int, int], list[_Place]]) -> None:
    above, below = _neighbours(rows, chains, True), _neighbours(rows, chains, False)
    for sweep in range(SWEEPS):
        down = sweep % 2 == 0
        joined = above if down else below
        for number in range(len(rows)) if down else reversed(range(len(rows))):
            other = number - 1 if down else number + 1
            if not 0 <= other < len(rows):
                continue
            at = {place: index for index, place in enumerate(rows[other])}
            here = {place: index for index, place in enumerate(rows[number])}
            rows[number].sort(key=lambda place: _middle(joined[number][place], at, here[place]))


def _middle(joined: list[_Place], at: dict[_Place, float], otherwise: float) -> float:
    return sum(at[place] for place in joined) / len(joined) if joined else otherwise


def _places(
    rows: list[list[_Place]], chains: dict[tuple[int, int], list[_Place]], box: float
) -> tuple[dict[object, float], float]:
    """The middle of each place; a passing arrow has one for each row: (link, row). And the width."""
    above = _neighbours(rows, chains, True)
    width = max([WIDTH, *(_needed(row, box) for row in rows)])
    xs: dict[object, float] = {}
    for number, row in enumerate(rows):
        before = {place: xs[_key(place, number - 1)] for place in rows[number - 1]} if number else {}
        even = width / (len(row) + 1)
        wanted = [_middle(above[number][p], before, even * n) for n, p in enumerate(row, start=1)]
        sizes = [box if isinstance(place, int) else PASSING for place in row]
        for place, x in zip(row, _moved_apart(wanted, sizes, width), strict=True):
            xs[_key(place, number)] = round(x, 1)
    return xs, width


def _fitting(row: list[_Place]) -> float:
    """How wide a box may be so that the row fits the usual width."""
    boxes = len(_steps(row))
    return (WIDTH - APART * (len(row) + 1) - PASSING * (len(row) - boxes)) / max(boxes, 1)


def _needed(row: list[_Place], box: float) -> float:
    return sum((box if isinstance(place, int) else PASSING) + APART for place in row) + APART


def _key(place: _Place, row: int) -> object:
    return place if isinstance(place, int) else (place, row)


def _moved_apart(wanted: list[float], sizes: list[float], width: float) -> list[float]:
    """Middles as near as may be to the wanted ones, in their order, apart, within the width."""
    placed: list[float] = []
    edge = 2.0
    for x, size in zip(wanted, sizes, strict=True):
        placed.append(max(x, edge + size / 2))
        edge = placed[-1] + size / 2 + APART
    edge = width - 2
    for number in reversed(range(len(placed))):
        placed[number] = min(placed[number], edge - sizes[number] / 2)
        edge = placed[number] - sizes[number] / 2 - APART
    return placed


def _words_by_gap(
    recipe: RecipeData, rows: list[list[_Place]], xs: dict[object, float], width: float
) -> list[_Waits]:
    """For the gap above each row: the words of an arrow that ends there, their middle and their row."""
    gaps = []
    for row in rows:
        ends: dict[int, float] = defaultdict(float)
        said = {}
        for position in sorted(_steps(row), key=lambda each: xs[each]):
            step = recipe.step(position)
            for after in step.after:
                words = _words_on(step, after)
                if words:
                    half = len(words) * LETTER / 2
                    x = max(half + 2, min(xs[position], width - half - 2))
                    line = next(n for n in range(len(said) + 1) if ends[n] <= x - half)
                    ends[line] = x + half + APART
                    said[(after.needs, position)] = (words, x, line)
        gaps.append(said)
    return gaps


def _tops(count: int, waits: list[_Waits]) -> list[float]:
    tops, y = [], 4.0
    for number in range(count):
        if number:
            lines = 1 + max((line for _, _, line in waits[number].values()), default=-1)
            y += NODE_HEIGHT + GAP + WORDS_HEIGHT * lines
        tops.append(y)
    return tops


def _steps(row: list[_Place]) -> list[int]:
    return [place for place in row if isinstance(place, int)]


def _words_on(step: StepData, after: AfterData) -> str:
    """What is held; with the step it is after where several arrows end."""
    words = hold_words(after)
    return f"after {after.needs}: {words}" if words and len(step.after) > 1 else words


def _node(step: StepData, x: float, y: float, box: float) -> Node:
    fits = int((box - 20) / LETTER)
    return Node(
        step.position,
        round(x - box / 2, 1),
        y,
        round(box, 1),
        _two_rows(step, fits),
        _short(_takes(step), fits),
        any(stay.appliance_kind == "oven" for stay in step.stays),
    )


def _two_rows(step: StepData, fits: int) -> tuple[str, ...]:
    """The number and the words in at most two rows of so many letters, cut with an ellipsis."""
    words, first = f"{step.position}. {step.words}".split(), ""
    while words and len(f"{first} {words[0]}".strip()) <= fits:
        first = f"{first} {words.pop(0)}".strip()
    rest = " ".join(words)
    return (first or _short(rest, fits),) if not first or not rest else (first, _short(rest, fits))


def _short(words: str, fits: int) -> str:
    return words if len(words) <= fits else f"{words[: fits - 1].rstrip(' ,.;')}…"


def _takes(step: StepData) -> str:
    work = duration(step.active_minutes) if step.ways and step.active_minutes else ""
    kinds = {stay.appliance_kind or "bench" for stay in step.stays}
    place = kinds.pop().replace("_", " ") if len(kinds) == 1 else "waiting"
    waits = f"{'rests' if place == 'bench' else place} {duration(step.waiting_minutes)}" if step.stays else ""
    said = [waits, work] if step.wait_first else [work, waits]
    return ", ".join(filter(None, said)) or "no time"


def _arrows(
    chains: dict[tuple[int, int], list[_Place]],
    rows: list[list[_Place]],
    xs: dict[object, float],
    tops: list[float],
    waits: list[_Waits],
) -> Iterator[Arrow]:
    row_of = {place: n for n, row in enumerate(rows) for place in row if isinstance(place, int)}
    ports = _ports(chains, row_of, xs)
    for link in chains:
        start, end = row_of[link[0]], row_of[link[1]]
        points = [(xs[link[0]], tops[start] + NODE_HEIGHT)]
        for number in range(start + 1, end):
            x = xs[(link, number)]
            points += [(x, tops[number] - HEAD), (x, tops[number] + NODE_HEIGHT)]
        lines = 1 + max((line for _, _, line in waits[end].values()), default=-1)
        points += [(ports[link], tops[end] - WORDS_HEIGHT * lines - 2 * HEAD), (ports[link], tops[end])]
        words, x, line = waits[end].get(link, ("", 0, 0))
        y = tops[end] - 2 * HEAD + 2 - WORDS_HEIGHT * line
        yield Arrow(*link, tuple(points), words, round(x, 1), round(y, 1) if words else 0)


def _ports(
    chains: dict[tuple[int, int], list[_Place]], row_of: dict[_Place, int], xs: dict[object, float]
) -> dict[tuple[int, int], float]:
    """Where each arrow meets its step: side by side, in the order they come from."""
    ports = {}
    for position in row_of:
        ends = [link for link in chains if link[1] == position]
        come_from = {link: xs.get((link, row_of[position] - 1), xs[link[0]]) for link in ends}
        for number, link in enumerate(sorted(ends, key=come_from.__getitem__), start=1):
            ports[link] = round(xs[position] + (number - (len(ends) + 1) / 2) * APART, 1)
    return ports


def _said(recipe: RecipeData, rows: list[list[_Place]]) -> str:
    wide = max(len(_steps(row)) for row in rows)
    steps = counted_words(len(recipe.steps), "step").capitalize()
    side = f", at most {counted_words(wide, 'step')} side by side" if wide > 1 else ", one after the other"
    return f"{steps} in {counted_words(len(rows), 'row')}{side}."


def _links(recipe: RecipeData) -> Iterator[str]:
    for step in recipe.steps:
        said = [
            f"step {each.needs}" + (f" ({hold_words(each)})" if hold_words(each) else "")
            for each in step.after
        ]
        yield (
            f"Step {step.position} waits for {listed(said)}."
            if said
            else f"Step {step.position} waits for nothing."
        )
