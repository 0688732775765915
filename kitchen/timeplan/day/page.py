"""What the page of the day shows: for each bench and oven what is now, what is next, how late.

For the lecturer's tablet and the projector. Plain data in, rows in words out; a timer is a
minute of the class that the browser counts to. The projector's rows hold a bench number,
the ordinary recipe's words and minutes: nothing about a person, a diet or a mark.

Worked example: bench 3 began to sweat leeks at 09:40 for 12 minutes; at 09:58 its row is
"3. Sweat the leeks", late, 6 min over, with "Done" and "+5"; next is step 5 at 10:05.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from curriculum.wording import clock_minutes, listed, temperature
from kitchen.timeplan.calls import benches_words
from kitchen.timeplan.day.live import Live
from kitchen.timeplan.plan import BenchPlan, LessonPlan
from kitchen.timeplan.problem import Demonstration, Oven, Task

#: So many minutes behind the plan is called late. Common practice, no source: less is reading the clock.
LATE_FROM = 3
#: One tap makes a step so much longer.
MORE_MINUTES = 5
#: Letters of a step's words in a row; the whole words are on the bench's own page.
SHORT = 56
FINISHED = "Finished."


@dataclass(frozen=True, slots=True)
class Tap:
    """One button: what it sends and what it is called, short and in full."""

    what: str
    words: str
    label: str
    bench: str = ""
    step: int | None = None
    part: int | None = None
    oven: str = ""
    minutes: int = 0

    @property
    def id(self) -> str:
        """The same button has the same name on every rendering, so that focus stays."""
        return f"{self.what}-{self.bench}-{self.step}-{self.part}-{self.oven}".replace(" ", "")


@dataclass(frozen=True, slots=True)
class Row:
    """One line: a bench's work, or food of the same bench in an oven meanwhile (``also``).

    ``ends`` is the minute of the day that the timer counts to (None: no timer); ``counts``
    says what it counts, "left" or "to start".
    """

    name: str
    who: str
    words: str
    state: str
    state_words: str
    ends: int | None = None
    counts: str = "left"
    minutes: int = 0
    next_words: str = ""
    late_by: int = 0
    taps: tuple[Tap, ...] = ()
    also: bool = False

    @property
    def counted(self) -> str:
        """ "left", "to start", or "over" and "late" when the minutes are past."""
        if self.minutes >= 0:
            return self.counts
        return "over" if self.counts == "left" else "late"

    @property
    def shown_minutes(self) -> int:
        """Minutes left or over, never negative."""
        return abs(self.minutes)

    @property
    def needs_a_hand(self) -> bool:
        """Whether the row is marked."""
        return self.state in ("late", "stopped")


@dataclass(frozen=True, slots=True)
class OvenRow:
    """One oven: what is in it, until when, what is next, and the button for its failure."""

    code: str
    name: str
    words: str
    state: str
    state_words: str
    ends: int | None = None
    next_words: str = ""
    taps: tuple[Tap, ...] = ()


def place_of(task: Task) -> tuple[int, int]:
    """Step and part of a task of a lesson; the plate at the pass is step 0."""
    last = task.name.rsplit("/", 1)[-1]
    return (task.step or 0), (int(last) if last.isdigit() else 0)


def short_words(words: str) -> str:
    """The first sentence of a step, cut at a word when it is long."""
    first = words.split(". ")[0].rstrip(".")
    if len(first) <= SHORT:
        return first
    return first[:SHORT].rsplit(" ", 1)[0].rstrip(",;:") + " …"


@dataclass(frozen=True)
class Told:
    """A plan and how its class stands: what all rows are told from."""

    plan: LessonPlan
    state: Live
    ovens: dict[str, str]

    @property
    def now(self) -> int:
        """The minute of the day."""
        return self.plan.cooking_from + self.state.now

    def at(self, minute: int) -> int:
        """A minute of the class as a minute of the day."""
        return self.plan.cooking_from + minute

    def oven_name(self, code: str) -> str:
        """ "Oven 4"."""
        return self.ovens.get(code, code)

    def step_words(self, task: Task) -> str:
        """ "5. Blind bake the shell" for a task."""
        step, _ = place_of(task)
        if not step:
            return "At the pass"
        bench = next(b for b in self.plan.benches if b.name == task.bench)
        line = next((line for line in bench.lines if line.step == step), None)
        return f"{step}. {short_words(line.words)}" if line else f"Step {step}"

    def where(self, task: Task) -> str:
        """Where food is while nobody's hands are on it."""
        if task.bake is not None:
            return self.oven_name(self.state.oven_of(task.name)).lower()
        return listed(name.replace("_", " ") for name, _ in task.uses) or "resting"


def bench_rows(told: Told) -> tuple[Row, ...]:
    """The benches in their order, each with what is now and what is next."""
    return tuple(row for bench in told.plan.benches for row in _rows_of(told, bench.name, bench.learners))


def _rows_of(told: Told, bench: str, learners: tuple[str, ...]) -> Iterator[Row]:
    who = listed(name.split()[0] for name in learners)
    if bench in told.state.gone:
        yield Row(bench, who, "Nobody is at this bench.", "cannot", "Absent")
        return
    tasks = sorted(
        (t for t in told.state.problem.tasks if t.bench == bench),
        key=lambda t: told.state.plan.starts[t.name],
    )
    running = [t for t in tasks if told.state.is_running(t.name)]
    following = next_of(told, tasks)
    hands = [t for t in running if t.hands or t.assessor]
    bakes = [t for t in running if t.bake is not None]
    waits = [t for t in running if t not in hands and t not in bakes]
    due = following is not None and told.state.plan.starts[following.name] <= told.state.now
    main = next(iter(hands), None) or (following if due else None) or next(iter(bakes), None)
    main = main or next(iter(waits), None) or following
    if main is None:
        yield Row(bench, who, FINISHED, "done", "Done")
        return
    nexts = following if following is not main else None
    yield _row(told, bench, who, main, nexts)
    for task in [t for t in [*hands, *bakes] if t is not main]:
        yield replace(_row(told, bench, who, task, None), also=True)


def next_of(told: Told, tasks: list[Task]) -> Task | None:
    """What a bench begins next by a tap: not what follows by itself, nor what waits behind that."""
    for task in tasks:
        if task.name in told.state.begun:
            continue
        follows = [w for w in told.state.problem.windows_before[task.name] if w.longest == 0]
        by_itself = (
            not task.hands and not task.assessor and any(w.before not in told.state.ended for w in follows)
        )
        if not by_itself:
            return task
    return None


def _row(told: Told, bench: str, who: str, task: Task, following: Task | None) -> Row:
    running = told.state.is_running(task.name)
    ends = told.state.begun[task.name] + told.state.lasts(task.name) if running else _planned(told, task)
    late = max(0, _late_by(told, task))
    words = told.step_words(task)
    if not task.hands and not task.assessor:
        words += f", {told.where(task)}"
    kind, state_words = _state(told, task, running, late)
    return Row(
        name=bench,
        who=who,
        words=words,
        state=kind,
        state_words=state_words,
        ends=told.at(ends),
        minutes=ends - told.state.now,
        counts="left" if running else "to start",
        next_words=_next_words(told, following) if following else waits_words(told, task),
        late_by=late,
        taps=tuple(_taps(told, bench, task, running, following)),
    )


def _planned(told: Told, task: Task) -> int:
    """When something that has not begun should begin, with what was added to it."""
    start = told.state.plan.starts[task.name] + told.state.later.get(task.name, 0)
    return max(start, told.state.not_before.get(task.name, start))


def _late_by(told: Told, task: Task) -> int:
    if told.state.is_running(task.name):
        planned = told.state.plan.starts[task.name] + told.state.problem.task[task.name].minutes
        return told.state.expected_end(task.name) - planned
    return told.state.now - told.state.plan.starts[task.name]


def _state(told: Told, task: Task, running: bool, late: int) -> tuple[str, str]:
    if task.name in told.state.rescued:
        return "stopped", "No oven"
    if task.bake is not None and not running and told.state.plan.ovens[task.name] in told.state.failed:
        return "stopped", "No oven"
    if late >= LATE_FROM:
        return "late", f"Late by {late} min"
    if not running:
        return "todo", "To start"
    if task.hands or task.assessor:
        return "doing", "At work"
    return "waiting", "In the oven" if task.bake is not None else "Waiting"


def _next_words(told: Told, task: Task) -> str:
    start = clock_minutes(told.at(_planned(told, task)))
    where = "" if task.hands or task.assessor else f", {told.where(task)}"
    return f"Next at {start}: {told.step_words(task)}{where}. {waits_words(told, task)}".strip()


def waits_words(told: Told, task: Task) -> str:
    """What a task that has not begun still waits for; empty when for nothing."""
    if task.name in told.state.begun:
        return ""
    waits = []
    for window in told.state.problem.windows_before[task.name]:
        end = told.state.expected_end(window.before) + window.least
        if window.before not in told.state.ended or end > told.state.now:
            step = place_of(told.state.problem.task[window.before])[0]
            waits.append(f"step {step} (about {clock_minutes(told.at(end))})")
    if task.shown_by and task.shown_by not in told.state.ended:
        waits.append("the demonstration")
    if task.bake is not None:
        oven = told.state.plan.ovens[task.name]
        inside = [t for t in baking(told) if told.state.oven_of(t.name) == oven and t.bench != task.bench]
        if inside and inside[0].bake and inside[0].bake.begins_at != task.bake.begins_at:
            waits.append(f"the oven, in which bench {inside[0].bench} bakes at another heat")
    return f"Waits for {listed(waits)}." if waits else ""


def _taps(told: Told, bench: str, task: Task, running: bool, following: Task | None) -> Iterator[Tap]:
    step, part = place_of(task)
    oven = told.state.oven_of(task.name) if task.bake is not None else ""
    called = f"Bench {bench}, step {step}" if step else f"Bench {bench}, the pass"
    if running and (task.hands or task.assessor or task.bake is not None):
        yield Tap("done", "Done", f"{called}: done", bench, step, part, _oven_after(told, task) or oven)
    if not running:
        yield Tap("started", "Started", f"{called}: started", bench, step, part, oven)
    yield Tap("later", "+5", f"{called}: five minutes more", bench, step, part, minutes=MORE_MINUTES)
    if running and following is not None and (not waits_words(told, following) or task.hands):
        step, part = place_of(following)
        words = f"Start {step}" if step else "To the pass"
        oven = told.state.plan.ovens.get(following.name, "")
        yield Tap("started", words, f"Bench {bench}: start step {step}", bench, step, part, oven)


def _oven_after(told: Told, task: Task) -> str:
    """The oven into which food goes by itself when this part is done."""
    for window in told.state.problem.windows_after[task.name]:
        if window.longest == 0 and told.state.problem.task[window.after].bake is not None:
            return told.state.plan.ovens[window.after]
    return ""


def baking(told: Told) -> list[Task]:
    """What is in ovens now, the first to come out first."""
    inside = [t for t in told.state.problem.tasks if t.bake is not None and told.state.is_running(t.name)]
    return sorted(inside, key=lambda t: told.state.begun[t.name] + told.state.lasts(t.name))


def oven_rows(told: Told) -> tuple[OvenRow, ...]:
    """The ovens that the plan uses, in their order."""
    used = {told.state.oven_of(t.name) for t in told.state.problem.tasks if t.bake is not None}
    used |= told.state.failed.keys()
    return tuple(_oven_row(told, oven) for oven in told.state.problem.ovens if oven.name in used)


def _oven_row(told: Told, oven: Oven) -> OvenRow:
    name = told.oven_name(oven.name)
    if oven.name in told.state.failed:
        at = clock_minutes(told.at(told.state.failed[oven.name]))
        return OvenRow(oven.name, name, f"Failed at {at}.", "stopped", "Failed")
    inside = [t for t in baking(told) if told.state.oven_of(t.name) == oven.name]
    tap = Tap("failed", "Failed", f"{name} has failed", oven=oven.name)
    coming = _coming_into(told, oven.name)
    if not inside:
        return OvenRow(oven.name, name, "Empty.", "todo", "Empty", None, coming, (tap,))
    heat = inside[0].bake.begins_at if inside[0].bake else None
    words = f"{benches_words(dict.fromkeys(t.bench or '' for t in inside))}, {temperature(heat or 0)}."
    first = told.state.begun[inside[0].name] + told.state.lasts(inside[0].name)
    over = told.state.now - first
    kind, state_words = ("late", f"Over by {over} min") if over >= LATE_FROM else ("doing", "Baking")
    return OvenRow(oven.name, name, words, kind, state_words, told.at(first), coming, (tap,))


def _coming_into(told: Told, oven: str) -> str:
    """What goes in next: "Next at 10:35: bench 4, 180 °C"."""
    coming = [
        t
        for t in told.state.problem.tasks
        if t.bake is not None
        and t.name not in told.state.begun
        and t.bench not in told.state.gone
        and told.state.plan.ovens[t.name] == oven
    ]
    if not coming:
        return "Nothing more today."
    start = min(_planned(told, t) for t in coming)
    first = [t for t in coming if _planned(told, t) == start]
    heat = temperature(first[0].bake.begins_at if first[0].bake else 0)
    who = benches_words(t.bench or "" for t in first)
    return f"Next at {clock_minutes(told.at(start))}: {who[0].lower()}{who[1:]}, {heat}."


@dataclass(frozen=True, slots=True)
class StepRow:
    """One part of a step on the bench's own page: where it stands, and its buttons."""

    words: str
    planned: str
    state: str
    state_words: str
    cue: str
    taps: tuple[Tap, ...]


def bench_steps(told: Told, bench: BenchPlan) -> tuple[StepRow, ...]:
    """Every part of every step of a bench, by the clock of the plan."""
    tasks = [t for t in told.state.problem.tasks if t.bench == bench.name]
    tasks.sort(key=lambda t: told.state.plan.starts[t.name])
    cues = {line.step: line.cue for line in bench.lines}
    return tuple(_step_row(told, task, cues.get(place_of(task)[0], "")) for task in tasks)


def _step_row(told: Told, task: Task, cue: str) -> StepRow:
    step, part = place_of(task)
    bench, oven = task.bench or "", told.state.oven_of(task.name) if task.bake is not None else ""
    called = f"Bench {bench}, step {step}"
    words = told.step_words(task) + ("" if task.hands or task.assessor else f", {told.where(task)}")
    taps = []
    if task.name in told.state.ended:
        kind, state_words = "done", f"Done at {clock_minutes(told.at(told.state.ended[task.name]))}"
    elif task.name in told.state.begun:
        kind, state_words = "doing", f"Since {clock_minutes(told.at(told.state.begun[task.name]))}"
        after = _oven_after(told, task) or oven
        taps.append(Tap("done", "Done", f"{called}: done", bench, step, part, after))
    else:
        kind, state_words = "todo", "To do"
        taps.append(Tap("started", "Started", f"{called}: started", bench, step, part, oven))
    if task.name in told.state.begun and part == 0:
        taps.append(Tap("again", "Again from here", f"{called}: starts again", bench, step, part))
    planned = clock_minutes(told.at(told.state.plan.starts[task.name]))
    return StepRow(words, planned, kind, state_words, cue if task.hands else "", tuple(taps))


def show_row(told: Told) -> Row | None:
    """The demonstration that runs or comes next; None when all are shown."""
    left = [d for d in told.state.problem.demonstrations if d.name not in told.state.ended]
    if not left:
        return None
    show = min(left, key=lambda d: (d.name not in told.state.begun, told.state.plan.starts[d.name]))
    return _show_row(told, show)


def _show_row(told: Told, show: Demonstration) -> Row:
    step = int(show.name.rsplit("/", 1)[-1])
    planned = next((s for s in told.plan.shows if s.step == step), None)
    words = f"Demonstration of step {step}: {short_words(planned.words) if planned else ''}".rstrip(": ")
    running = told.state.is_running(show.name)
    start = told.state.plan.starts[show.name] + (0 if running else told.state.later.get(show.name, 0))
    late = told.state.expected_end(show.name) - start - show.minutes if running else told.state.now - start
    called = f"Demonstration of step {step}"
    first = (
        Tap("done", "Done", f"{called}: done", step=step)
        if running
        else Tap("started", "Started", f"{called}: started", step=step)
    )
    more = Tap("later", "+5", f"{called}: five minutes more", step=step, minutes=MORE_MINUTES)
    kind, state_words = ("doing", "Everybody watches") if running else ("todo", "To start")
    if late >= LATE_FROM:
        kind, state_words = "late", f"Late by {late} min"
    ends = told.state.begun[show.name] + told.state.lasts(show.name) if running else start
    counts = "left" if running else "to start"
    return Row(
        "D", "", words, kind, state_words, told.at(ends), counts, late_by=max(0, late), taps=(first, more)
    )


def board_rows(told: Told) -> tuple[Row, ...]:
    """The same for all to see: bench numbers, the ordinary recipe's words, minutes; no taps."""
    plain = {
        line.step: line.words for bench in told.plan.benches for line in bench.lines if not bench.free_from
    }
    rows = []
    for row in bench_rows(Told(_unnamed(told.plan, plain), told.state, told.ovens)):
        said = row.words if row.state != "cannot" else "Not in use."
        word = "" if row.state == "cannot" else row.state_words
        rows.append(replace(row, who="", words=said, state_words=word, taps=()))
    return tuple(rows)


def _unnamed(plan: LessonPlan, plain: dict[int, str]) -> LessonPlan:
    """The plan without learners, and in the ordinary recipe's words wherever there are some."""
    benches = tuple(
        replace(
            bench,
            learners=(),
            free_from=(),
            lines=tuple(
                replace(line, words=plain.get(line.step, f"Step {line.step}"), points=())
                for line in bench.lines
            ),
        )
        for bench in plan.benches
    )
    return replace(plan, benches=benches)
