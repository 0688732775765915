"""The time plan drawn: benches and ovens as rows, the clock along the top.

For the page and the papers that show it. Plain data in, one SVG text out; colours only by
class, so that the style sheet rules print, dim room and high contrast. A bench has two
lanes: hands above, food below. An oven's height is its heat.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from html import escape

from curriculum.wording import clock_minutes, temperature
from kitchen.timeplan.plan import Bar, BenchPlan, LessonPlan, OvenPlan

WIDTH, LEFT, RIGHT, TOP = 920, 132, 12, 62
BENCH_HEIGHT, OVEN_HEIGHT, LOAD_HEIGHT, FOOT = 58, 60, 88, 34
#: The heat that fills an oven's row, in tenths of a degree.
FULL_HEAT = 2500
#: Minutes of one step of the load under the picture.
LOAD_STEP = 5


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
        return TOP + BENCH_HEIGHT * self.benches

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
    frame = _Frame(plan.starts, max(plan.ends, plan.finish_at), len(plan.benches), len(plan.ovens))
    parts = [
        f'<svg viewBox="0 0 {WIDTH} {frame.load_foot + FOOT}" role="img"'
        f' aria-labelledby="{ident}-t {ident}-d">',
        f'<title id="{ident}-t">Time plan, {escape(plan.title)}</title>',
        f'<desc id="{ident}-d">{escape(described(plan))}</desc>',
        *_hours(frame),
        *_shows(frame, plan),
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
    return (
        f"{len(plan.benches)} benches{ovens} from {clock_minutes(plan.starts)} to {clock_minutes(plan.ends)}."
        f" The last bench has finished at {clock_minutes(plan.finish_at)}."
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


def _bench(frame: _Frame, plan: LessonPlan, row: int, bench: BenchPlan) -> Iterator[str]:
    y = TOP + row * BENCH_HEIGHT
    foot = y + BENCH_HEIGHT
    yield f'<line class="rule" x1="0" x2="{WIDTH}" y1="{foot}" y2="{foot}"/>'
    yield _text("lab", 0, y + 25, f"Bench {bench.name}")
    yield _text("sub", 0, y + 46, _short(", ".join(_first_words(bench.learners)), 15))
    yield _block(frame, plan.starts, plan.cooking_from - plan.starts, y + 4, 26, "set")
    clear_at = max(plan.cooking_from + plan.usable_minutes, bench.end)
    yield _block(frame, clear_at, plan.ends - clear_at, y + 4, 26, "clear")
    hands = [bar for bar in bench.bars if bar.kind == "hands"]
    for bar in hands:
        beside = [other for other in hands if other.start < bar.end and bar.start < other.end]
        place = sorted(beside, key=lambda b: (b.start, b.step)).index(bar)
        high = 26 if len(beside) == 1 else 12
        low = y + 4 if len(beside) == 1 or place % 2 == 0 else y + 18
        yield _block(frame, bar.start, bar.minutes, low, high, str(bar.step))
    yield from (_food(frame, y, bar) for bar in bench.bars if bar.kind != "hands")


def _block(frame: _Frame, start: int, minutes: int, y: int, high: int, label: str) -> str:
    if minutes <= 0:
        return ""
    x, wide = frame.x(start), frame.wide(minutes)
    drawn = f'<rect class="work" x="{x}" y="{y}" width="{wide}" height="{high}" rx="4"/>'
    if wide > 9 * len(label) + 4 and high > 20:
        drawn += _text("onwork", round(x + wide / 2, 1), y + 19, label)
    return drawn


def _food(frame: _Frame, y: int, bar: Bar) -> str:
    x, wide = frame.x(bar.start), frame.wide(bar.minutes)
    if bar.kind == "wait":
        return f'<line class="wait" x1="{x + 4}" x2="{round(x + wide - 4, 1)}" y1="{y + 44}" y2="{y + 44}"/>'
    drawn = f'<rect class="inoven" x="{x}" y="{y + 34}" width="{wide}" height="20" rx="4"/>'
    if wide > 8.5 * len(bar.where) + 6:
        drawn += _text("mid", round(x + wide / 2, 1), y + 50, bar.where)
    return drawn


def _oven(frame: _Frame, row: int, oven: OvenPlan) -> Iterator[str]:
    y = frame.oven_top + row * OVEN_HEIGHT
    base = y + OVEN_HEIGHT - 6
    yield _text("lab", 0, y + 28, _short(oven.name, 13))
    benches = dict.fromkeys(name for heat in oven.heats for name in heat.benches)
    words = f"bench{'es' if len(benches) > 1 else ''} {', '.join(benches)}"
    yield _text("sub", 0, y + 48, _short(words, 15))
    yield f'<line class="rule" x1="0" x2="{WIDTH}" y1="{base}" y2="{base}"/>'
    before, since = 0, oven.light_at
    for heat in oven.heats:
        now = heat.decicelsius if heat.decicelsius is not None else 0
        if heat.decicelsius is not None and heat.start > since:
            rise = f"M{frame.x(since)} {base - _high(before)}L{frame.x(heat.start)} {base - _high(now)}"
            yield f'<path class="ramp" d="{rise}"/>'
        yield _held(frame, base, heat.start, heat.end, heat.decicelsius)
        before, since = now, heat.end


def _high(decicelsius: int) -> float:
    return round(min(decicelsius, FULL_HEAT) / FULL_HEAT * (OVEN_HEIGHT - 14), 1)


def _held(frame: _Frame, base: int, start: int, end: int, decicelsius: int | None) -> str:
    x, wide = frame.x(start), frame.wide(end - start)
    words = "off and shut" if decicelsius is None else temperature(decicelsius)
    drawn = ""
    if decicelsius is not None:
        high = _high(decicelsius)
        drawn = f'<rect class="heat" x="{x}" y="{base - high}" width="{wide}" height="{high}"/>'
    if wide > 66:
        return drawn + _text("lab mid", round(x + wide / 2, 1), base - 11, words)
    return drawn + _text("lab halo", round(x + wide + 7, 1), base - 11, words)


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
