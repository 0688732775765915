"""Where everything of the picture for the wall stands, on as many pages as its letters need.

For ``svg.py`` (projector) and ``paper.py`` (A3 and A4). One unit is the height of a letter, so
a picture of thirty benches is made of the same marks as one of seven, on more or smaller
units. Only bench numbers stand on it: no name, no diet.

A letter is read from three metres when it is some 20 mm high in the picture on the wall, and
from one to two metres at 18 points and more: common practice, no source.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from curriculum.wording import clock_minutes, temperature
from kitchen.timeplan.picture import in_lanes, works_twice
from kitchen.timeplan.plan import Bar, BenchPlan, Heat, LessonPlan, OvenPlan
from kitchen.timeplan.wall.load import Run, bakes_by_minute, hands_by_minute, lecturer_by_minute

#: In letters: the column of names, the hours over the rows, one lane of hands, food under it. Our own
#: choice, no source.
NAMES, HEAD, LANE, FOOD = 5.4, 2.5, 1.0, 0.3
OVEN, LOAD, LECTURER, GAP = 1.35, 2.0, 1.35, 0.5
#: A letter's width in letters, for whether words fit (measured on the text face, rounded up).
LETTER_WIDE = 0.56


#: Draws a row from its upper edge.
Draws = Callable[[float], Iterator["Mark"]]


@dataclass(frozen=True, slots=True)
class Mark:
    """One mark: its kind, its place in letters from the upper left corner, its words."""

    kind: str
    x: float
    y: float
    wide: float = 0.0
    high: float = 0.0
    words: str = ""
    align: str = "left"


@dataclass(frozen=True, slots=True)
class _Clock:
    """Where a minute stands."""

    start: int
    end: int
    wide: float

    def x(self, minute: float) -> float:
        return round(NAMES + (minute - self.start) * self.each, 3)

    @property
    def each(self) -> float:
        """Letters of one minute."""
        return (self.wide - NAMES - 0.4) / (self.end - self.start)

    def span(self, start: int, end: int) -> tuple[float, float]:
        """Left edge and width of a stretch."""
        return self.x(start), round((end - start) * self.each, 3)


@dataclass(frozen=True, slots=True)
class _Row:
    """One row: its height, what it draws at a given upper edge, whether it is a bench's."""

    high: float
    draw: Draws
    bench: bool = False


def height_of(plan: LessonPlan) -> float:
    """Letters that the whole picture is high on one page."""
    return HEAD + sum(row.high for row in _rows(plan, _Clock(0, 1, 99)))


def pages(plan: LessonPlan, wide: float, high: float | None = None) -> list[list[Mark]]:
    """The marks of each page of ``wide`` by ``high`` letters; without ``high`` all on one page."""
    clock = _Clock(plan.starts, max(plan.ends, plan.finish_at), wide)
    out: list[list[Mark]] = []
    here: list[_Row] = []
    used = HEAD
    for row in _rows(plan, clock):
        if high is not None and here and used + row.high > high:
            out.append(_page(plan, clock, here))
            here, used = [], HEAD
        here.append(row)
        used += row.high
    out.append(_page(plan, clock, here))
    return out


def _rows(plan: LessonPlan, clock: _Clock) -> Iterator[_Row]:
    for bench in plan.benches:
        lanes = 2 if works_twice(bench) else 1
        draw = _bench(plan, clock, bench, lanes)
        yield _Row(lanes * LANE + FOOD, draw, bench=True)
    for oven in plan.ovens:
        yield _Row(OVEN, _oven(clock, oven))
    yield _Row(LOAD + GAP, _load(clock, "Hands", hands_by_minute(plan)))
    yield _Row(LOAD, _load(clock, "Ovens", bakes_by_minute(plan)))
    yield _Row(LECTURER, _lecturer(plan, clock))


def _page(plan: LessonPlan, clock: _Clock, rows: list[_Row]) -> list[Mark]:
    marks: list[Mark] = []
    foot = HEAD + sum(row.high for row in rows)
    bench_foot = HEAD + sum(row.high for row in rows if row.bench)
    marks += _hours(clock, foot)
    if bench_foot > HEAD:
        marks += _columns(plan, clock, bench_foot)
    y = HEAD
    for row in rows:
        marks += row.draw(y)
        y += row.high
        marks.append(Mark("rule", 0, y, clock.wide))
    return marks


def _hours(clock: _Clock, foot: float) -> Iterator[Mark]:
    every = 60 if clock.each * 30 < 5 * LETTER_WIDE + 1 else 30
    for minute in range(-(-clock.start // every) * every, clock.end + 1, every):
        x = clock.x(minute)
        yield Mark("upright", x, 1.15, high=foot - 1.15)
        align = "right" if minute > clock.end - every / 2 else ("left" if minute == clock.start else "middle")
        yield Mark("hour", x, 0, words=clock_minutes(minute), align=align)


def _columns(plan: LessonPlan, clock: _Clock, foot: float) -> Iterator[Mark]:
    """Demonstrations and the break, through all benches, each with its words over it."""
    for show in plan.shows:
        x, wide = clock.span(show.start, show.start + show.minutes)
        yield Mark("show", x, HEAD, wide, foot - HEAD)
    said = [(show.start + show.minutes / 2, f"D{show.step}") for show in plan.shows]
    if plan.break_minutes:
        x, wide = clock.span(plan.break_at, plan.break_end)
        yield Mark("break", x, HEAD, wide, foot - HEAD)
        said.append((plan.break_at + plan.break_minutes / 2, "break"))
    yield from _over(clock, sorted(said))


def _over(clock: _Clock, said: list[tuple[float, str]]) -> Iterator[Mark]:
    """Words over their columns; those that would touch stand together between theirs."""
    groups: list[list[tuple[float, str]]] = []
    for minute, words in said:
        before = groups[-1][-1] if groups else None
        room = LETTER_WIDE * (len(words) + len(before[1])) / 2 + 0.4 if before else 0
        if before and clock.x(minute) - clock.x(before[0]) < room:
            groups[-1].append((minute, words))
        else:
            groups.append([(minute, words)])
    for group in groups:
        middle = sum(clock.x(minute) for minute, _ in group) / len(group)
        yield Mark("over", middle, HEAD - 1.2, words=" ".join(words for _, words in group), align="middle")


def _bench(plan: LessonPlan, clock: _Clock, bench: BenchPlan, lanes: int) -> Draws:
    def draw(y: float) -> Iterator[Mark]:
        yield Mark("name", 0, y, words=f"Bench {bench.name}")
        beside = {line.step for line in bench.lines if line.beside}
        for bar, lane in in_lanes(bench):
            x, wide = clock.span(bar.start, bar.end)
            top, high = (y, lanes * LANE) if lane is None else (y + lane * LANE, LANE)
            fits = wide > LETTER_WIDE * len(str(bar.step)) + 0.2
            yield Mark("hands", x, top + 0.06, wide, high - 0.1, str(bar.step) if fits else "")
            if bar.step in beside:
                yield Mark("beside", x, top + high / 2)
        clear_at = max(plan.clear_at, bench.end)
        for start, end, words in (
            (plan.starts, plan.cooking_from, "start-up"),
            (clear_at, plan.ends, "clear down"),
        ):
            if end > start:
                x, wide = clock.span(start, end)
                said = words if wide > LETTER_WIDE * len(words) else ""
                yield Mark("rest", x, y + 0.06, wide, lanes * LANE - 0.1, said)
        yield from (_food(clock, bar, y + lanes * LANE) for bar in bench.bars if bar.kind != "hands")

    return draw


def _food(clock: _Clock, bar: Bar, y: float) -> Mark:
    x, wide = clock.span(bar.start, bar.end)
    if bar.kind == "wait":
        return Mark("wait", x + 0.1, y + FOOD / 2, wide - 0.2)
    return Mark("baking", x, y + 0.02, wide, FOOD - 0.08)


def _oven(clock: _Clock, oven: OvenPlan) -> Draws:
    def draw(y: float) -> Iterator[Mark]:
        yield Mark("name", 0, y + 0.1, words=oven_words(oven.name))
        x, wide = clock.span(oven.light_at, oven.heats[0].start)
        if wide > 0:
            yield Mark("ramp", x, y + 0.1, wide, OVEN - 0.2)
        for number, heat in enumerate(oven.heats):
            before = oven.heats[number - 1].end if number else oven.light_at
            after = oven.heats[number + 1].start if number + 1 < len(oven.heats) else clock.end
            yield from _heat(clock, heat, y, before, after)

    return draw


def _heat(clock: _Clock, heat: Heat, y: float, before: int, after: int) -> Iterator[Mark]:
    """One heat with its figure inside, else behind it, else before it."""
    words = "off" if heat.decicelsius is None else temperature(heat.decicelsius)
    x, wide = clock.span(heat.start, heat.end)
    yield Mark("heat", x, y + 0.1, wide, OVEN - 0.2)
    need, top = LETTER_WIDE * len(words) + 0.3, y + 0.1
    if wide > need:
        yield Mark("figure", x + wide / 2, top, words=words, align="middle")
    elif clock.span(heat.end, after)[1] > need:
        yield Mark("figure", x + wide + 0.2, top, words=words)
    elif clock.span(before, heat.start)[1] > need:
        yield Mark("figure", x - 0.2, top, words=words, align="right")
    else:
        yield Mark("figure", x + wide / 2, top, words=words.removesuffix("\xa0°C"), align="middle")


def _load(clock: _Clock, name: str, runs: tuple[Run, ...]) -> Draws:
    most = max((run.count for run in runs), default=0) or 1

    def draw(y: float) -> Iterator[Mark]:
        yield Mark("name", 0, y + LOAD - 1.35, words=f"{name}: {most}")
        for run in runs:
            x, wide = clock.span(run.start, run.end)
            high = (LOAD - 0.2) * run.count / most
            if run.count:
                yield Mark("load", x, y + LOAD - high, wide, high)
            if run.count and high > 0.85 and wide > LETTER_WIDE * len(str(run.count)):
                yield Mark("figure", x + wide / 2, y + LOAD - 1.15, words=str(run.count), align="middle")

    return draw


def _lecturer(plan: LessonPlan, clock: _Clock) -> Draws:
    def draw(y: float) -> Iterator[Mark]:
        yield Mark("name", 0, y + 0.1, words="Lecturer")
        for held in lecturer_by_minute(plan):
            x, wide = clock.span(held.start, held.end)
            yield Mark("show" if held.shows else "rest", x, y + 0.1, wide, LECTURER - 0.2)
            if not held.shows:
                yield Mark("beside", x, y + LECTURER / 2)
            elif wide > LETTER_WIDE * len(held.words):
                yield Mark("figure", x + wide / 2, y + 0.1, words=held.words, align="middle")

    return draw


def oven_words(name: str) -> str:
    """ "Oven 13"; of an oven with decks the deck, so that two rows never read the same: "1 upper"."""
    body, _, deck = name.partition(", ")
    return short(f"{body.rpartition(' ')[2]} {deck.removesuffix(' deck')}" if deck else name, 9)


def short(words: str, most: int) -> str:
    """Words that fit the column; cut with a sign that something is missing."""
    return words if len(words) <= most else f"{words[: most - 1].rstrip()}…"
