"""The time plan drawn: benches and ovens as rows, the clock along the top.

For the page and the papers that show it. Plain data in, one SVG text out; colours only by
class, so that the style sheet rules print, dim room and high contrast. A bench has two
lanes: hands above, food below. An oven's height is its heat.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from html import escape

from curriculum.wording import clock_minutes, temperature
from kitchen.timeplan.calls import spans
from kitchen.timeplan.plan import Bar, BenchPlan, Heat, LessonPlan, OvenPlan

WIDTH, LEFT, RIGHT, TOP = 920, 132, 12, 62
OVEN_HEIGHT, LOAD_HEIGHT, FOOT = 60, 88, 34
#: Height of the lane of hands: for one pair of hands, and where two work beside each other.
ONE_LANE, TWO_LANES = 26, 44
#: The heat that fills an oven's row, in tenths of a degree.
FULL_HEAT = 2500
#: Width of a heat's figure.
LABEL_WIDE = 66
#: Minutes of one step of the load under the picture.
LOAD_STEP = 5
#: Letters that fit under the name of an oven, in the column beside the picture.
SUB_LETTERS = 17


class Drawn(str):
    """A picture as text that a template shows as it is: every word in it is escaped here."""

    __slots__ = ()

    def __html__(self) -> str:
        return str(self)


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where a minute and a row stand on the paper."""

    start: int
    end: int
    benches: int
    ovens: int
    hands_high: int = ONE_LANE

    @property
    def bench_high(self) -> int:
        """Height of one bench: hands above, food below."""
        return self.hands_high + 32

    @property
    def pixels(self) -> float:
        """Units of the picture for one minute."""
        return (WIDTH - LEFT - RIGHT) / (self.end - self.start)

    def x(self, minute: int) -> float:
        """Left edge of a minute of the day."""
        return round(LEFT + (minute - self.start) * self.pixels, 1)

    def wide(self, minutes: int) -> float:
        """Width of so many minutes."""
        return round(minutes * self.pixels, 1)

    @property
    def bench_foot(self) -> int:
        """Under the last bench."""
        return TOP + self.bench_high * self.benches

    @property
    def oven_top(self) -> int:
        """Over the first oven."""
        return self.bench_foot + 12

    @property
    def oven_foot(self) -> int:
        """Under the last oven."""
        return self.oven_top + OVEN_HEIGHT * self.ovens

    @property
    def load_foot(self) -> int:
        """Under the load."""
        return self.oven_foot + 14 + LOAD_HEIGHT


def picture(plan: LessonPlan, ident: str = "plan") -> Drawn:
    """The whole picture as one SVG element, with a title and a description."""
    high = TWO_LANES if any(works_twice(bench) for bench in plan.benches) else ONE_LANE
    end = max(plan.ends, plan.finish_at)
    frame = _Frame(plan.starts, end, len(plan.benches), len(plan.ovens), high)
    parts = [
        f'<svg viewBox="0 0 {WIDTH} {frame.load_foot + FOOT}" role="img"'
        f' aria-labelledby="{ident}-t {ident}-d">',
        f'<title id="{ident}-t">Time plan, {escape(plan.title)}</title>',
        f'<desc id="{ident}-d">{escape(described(plan))}</desc>',
        *_hours(frame),
        *_shows(frame, plan),
        *_break(frame, plan),
        *(part for row, bench in enumerate(plan.benches) for part in _bench(frame, plan, row, bench)),
        f'<line class="strong" x1="0" x2="{WIDTH}" y1="{frame.bench_foot}" y2="{frame.bench_foot}"/>',
        *(part for row, oven in enumerate(plan.ovens) for part in _oven(frame, row, oven)),
        *_load(frame, plan),
        "</svg>",
    ]
    return Drawn("\n".join(parts))


def described(plan: LessonPlan) -> str:
    """One sentence for those who hear the picture."""
    ovens = f" and {len(plan.ovens)} ovens" if plan.ovens else ""
    between = f"{clock_minutes(plan.break_at)} to {clock_minutes(plan.break_end)}"
    rest = f" Everybody has a break from {between}." if plan.break_minutes else ""
    return (
        f"{len(plan.benches)} benches{ovens} from {clock_minutes(plan.starts)} to {clock_minutes(plan.ends)}."
        f" The last bench has finished at {clock_minutes(plan.finish_at)}.{rest}"
        " The same plan in words follows the picture."
    )


def load_of(plan: LessonPlan) -> list[tuple[int, int]]:
    """Hands at work in each five minutes: (minute of the day, hands)."""
    out = []
    for minute in range(plan.starts, max(plan.ends, plan.finish_at), LOAD_STEP):
        end = minute + LOAD_STEP
        bars = [bar for bench in plan.benches for bar in bench.bars if bar.kind == "hands"]
        out.append((minute, sum(bar.start < end and bar.end > minute for bar in bars)))
    return out


def _text(kind: str, x: float, y: float, words: str) -> str:
    return f'<text class="{kind}" x="{x}" y="{y}">{escape(words)}</text>'


def _hours(frame: _Frame) -> Iterator[str]:
    every = 60 if frame.end - frame.start > 300 else 30
    for minute in range(-(-frame.start // 10) * 10, frame.end + 1, 10):
        x = frame.x(minute)
        if minute % every:
            yield f'<line class="rule5" x1="{x}" x2="{x}" y1="{TOP}" y2="{frame.oven_foot}"/>'
            continue
        yield f'<line class="rule" x1="{x}" x2="{x}" y1="{TOP - 8}" y2="{frame.load_foot}"/>'
        side = " end" if minute > frame.end - 15 else (" mid" if minute > frame.start else "")
        for y in (20, frame.load_foot + 25):
            yield _text(f"hour{side}", x, y, clock_minutes(minute))


def _shows(frame: _Frame, plan: LessonPlan) -> Iterator[str]:
    for show in plan.shows:
        x, wide = frame.x(show.start), frame.wide(show.minutes)
        height = frame.bench_foot - TOP + 6
        yield f'<rect class="demo" x="{x}" y="{TOP - 6}" width="{wide}" height="{height}"/>'
        yield _text("lab mid", round(x + wide / 2, 1), TOP - 13, str(show.step))


def _break(frame: _Frame, plan: LessonPlan) -> Iterator[str]:
    if not plan.break_minutes:
        return
    x, wide, high = frame.x(plan.break_at), frame.wide(plan.break_minutes), frame.bench_foot - TOP + 6
    yield f'<rect class="pause" x="{x}" y="{TOP - 6}" width="{wide}" height="{high}"/>'
    yield _text("sub mid", round(x + wide / 2, 1), TOP - 13, "break")


def _bench(frame: _Frame, plan: LessonPlan, row: int, bench: BenchPlan) -> Iterator[str]:
    y = TOP + row * frame.bench_high
    foot = y + frame.bench_high
    yield f'<line class="rule" x1="0" x2="{WIDTH}" y1="{foot}" y2="{foot}"/>'
    yield _text("lab", 0, y + 25, f"Bench {bench.name}")
    yield _text("sub", 0, y + 46, _short(", ".join(_first_words(bench.learners)), 15))
    high = frame.hands_high
    yield _block(frame, plan.starts, plan.cooking_from - plan.starts, y + 4, high, "set")
    clear_at = max(plan.clear_at, bench.end)
    yield _block(frame, clear_at, plan.ends - clear_at, y + 4, high, "clear")
    for bar, lane in in_lanes(bench):
        if lane is None:
            yield _block(frame, bar.start, bar.minutes, y + 4, high, str(bar.step))
        else:
            half = high // 2 - 1
            yield _block(frame, bar.start, bar.minutes, y + 4 + lane * (half + 2), half, str(bar.step))
    yield from (_food(frame, y + high + 4, bar) for bar in bench.bars if bar.kind != "hands")
    for bar in bench.bars:
        if bar.fixed:
            yield _fixed_mark(frame, y + 4 if bar.kind == "hands" else y + high + 8, bar)


def _fixed_mark(frame: _Frame, y: int, bar: Bar) -> str:
    """A point that stands on the beginning of what a person fixed."""
    x = frame.x(bar.start)
    return f'<path class="linkhead" d="M{round(x - 6, 1)} {y - 8}h12l-6 12z"/>'


def in_lanes(bench: BenchPlan) -> list[tuple[Bar, int | None]]:
    """Bars of hands, each with lane 0 or 1 where two overlap, None where one has all hands."""
    hands = sorted((b for b in bench.bars if b.kind == "hands"), key=lambda b: (b.start, b.step))
    free_from = [0, 0]
    out: list[tuple[Bar, int | None]] = []
    for bar in hands:
        alone = all(b is bar or b.end <= bar.start or bar.end <= b.start for b in hands)
        lane = 0 if free_from[0] <= bar.start else 1
        free_from[lane] = bar.end
        out.append((bar, None if alone else lane))
    return out


def works_twice(bench: BenchPlan) -> bool:
    """Whether two pieces of work of a bench are ever under way at once."""
    return any(lane is not None for _, lane in in_lanes(bench))


def _block(frame: _Frame, start: int, minutes: int, y: int, high: int, label: str) -> str:
    if minutes <= 0:
        return ""
    x, wide = frame.x(start), frame.wide(minutes)
    drawn = f'<rect class="work" x="{x}" y="{y}" width="{wide}" height="{high}" rx="4"/>'
    if wide > 9 * len(label) + 4:
        drawn += _text("onwork", round(x + wide / 2, 1), y + high // 2 + 6, label)
    return drawn


def _food(frame: _Frame, y: int, bar: Bar) -> str:
    x, wide = frame.x(bar.start), frame.wide(bar.minutes)
    if bar.kind == "wait":
        return f'<line class="wait" x1="{x + 4}" x2="{round(x + wide - 4, 1)}" y1="{y + 14}" y2="{y + 14}"/>'
    drawn = f'<rect class="inoven" x="{x}" y="{y + 4}" width="{wide}" height="20" rx="4"/>'
    if wide > 8.5 * len(bar.where) + 6:
        drawn += _text("mid", round(x + wide / 2, 1), y + 20, bar.where)
    return drawn


def _oven(frame: _Frame, row: int, oven: OvenPlan) -> Iterator[str]:
    y = frame.oven_top + row * OVEN_HEIGHT
    base = y + OVEN_HEIGHT - 6
    body, _, deck = oven.name.partition(", ")
    yield _text("lab", 0, y + 28, _short(body, 13))
    benches = dict.fromkeys(name for heat in oven.heats for name in heat.benches)
    which = f"{deck.removesuffix(' deck')}, " if deck else ""
    words = f"{which}bench{'es' if len(benches) > 1 else ''} {spans(benches)}"
    words = words if len(words) <= SUB_LETTERS else f"{which}{spans(benches)}"
    yield _text("sub", 0, y + 48, _short(words, SUB_LETTERS))
    yield f'<line class="rule" x1="0" x2="{WIDTH}" y1="{base}" y2="{base}"/>'
    before, since = 0, oven.light_at
    for heat in oven.heats:
        now = heat.decicelsius if heat.decicelsius is not None else 0
        if heat.decicelsius is not None and heat.start > since:
            rise = f"M{frame.x(since)} {base - _high(before)}L{frame.x(heat.start)} {base - _high(now)}"
            yield f'<path class="ramp" d="{rise}"/>'
        after = next((other.start for other in oven.heats if other.start >= heat.end), frame.end)
        yield _held(frame, base, heat, frame.wide(after - heat.end))
        before, since = now, heat.end


def _high(decicelsius: int) -> float:
    return round(min(decicelsius, FULL_HEAT) / FULL_HEAT * (OVEN_HEIGHT - 14), 1)


def _held(frame: _Frame, base: int, heat: Heat, space_after: float) -> str:
    """One heat with its figure inside, or behind it where there is space."""
    x, wide = frame.x(heat.start), frame.wide(heat.end - heat.start)
    words = "off and shut" if heat.decicelsius is None else temperature(heat.decicelsius)
    drawn = ""
    if heat.decicelsius is not None:
        high = _high(heat.decicelsius)
        drawn = f'<rect class="heat" x="{x}" y="{base - high}" width="{wide}" height="{high}"/>'
    if wide > LABEL_WIDE:
        return drawn + _text("lab mid", round(x + wide / 2, 1), base - 11, words)
    if space_after > LABEL_WIDE:
        return drawn + _text("lab halo", round(x + wide + 7, 1), base - 11, words)
    return drawn


def _load(frame: _Frame, plan: LessonPlan) -> Iterator[str]:
    load = load_of(plan)
    cooks = max(1, sum(max(1, len(bench.learners)) for bench in plan.benches))
    top = frame.oven_foot + 14

    def y(hands: int) -> float:
        return round(frame.load_foot - min(hands, cooks) / cooks * (LOAD_HEIGHT - 20), 1)

    path = "".join(f"V{y(n)}H{frame.x(min(m + LOAD_STEP, frame.end))}" for m, n in load)
    yield _text("lab", 0, top + 34, "Hands busy")
    yield _text("sub", 0, top + 54, f"of {cooks} cooks")
    yield f'<path class="load" d="M{frame.x(frame.start)} {frame.load_foot}{path}V{frame.load_foot}z"/>'
    yield f'<line class="roof" x1="{LEFT}" x2="{WIDTH - RIGHT}" y1="{y(cooks)}" y2="{y(cooks)}"/>'


def _first_words(names: tuple[str, ...]) -> list[str]:
    """The first word of each name: enough to find the bench, the whole names follow in words."""
    return [name.split()[0] for name in names if name.split()]


def _short(words: str, most: int) -> str:
    """Words that fit the column; cut with a sign that something is missing."""
    return words if len(words) <= most else f"{words[: most - 1].rstrip()}…"
