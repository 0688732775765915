"""What the page of the day shows: for each bench and oven what is now, what is next, how late.

For the lecturer's tablet and the projector. Plain data in, rows in words out; a timer is a
minute of the class that the browser counts to. The projector's rows hold a bench number,
the ordinary recipe's words and minutes: nothing about a person, a diet or a mark.

Worked example: bench 3 began to sweat leeks at 09:40 for 12 minutes; at 09:58 its row is
"3. Sweat the leeks", late, 6 min over, with "Done" and "+5"; next is step 5 at 10:05.
"""

from collections.abc import Iterator
from dataclasses import replace

from curriculum.wording import clock_minutes, listed
from kitchen.timeplan.day.rows import Row, StepRow, Tap
from kitchen.timeplan.day.told import LATE_FROM, MORE_MINUTES, Told, baking, place_of, planned
from kitchen.timeplan.plan import BenchPlan, LessonPlan
from kitchen.timeplan.problem import Task

FINISHED = "Finished."
#: States that the class is told from the board; the others are in the words and the minutes.
SAID_ON_THE_BOARD = frozenset(("late", "stopped", "done"))


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
    due = following is not None and planned(told, following) <= told.state.now
    due = due and not (running and waits_words(told, following))
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
    ends = told.state.begun[task.name] + told.state.lasts(task.name) if running else planned(told, task)
    late = max(0, _late_by(told, task))
    kind, state_words = _state(told, task, running, late)
    return Row(
        name=bench,
        who=who,
        words=told.said(task),
        state=kind,
        state_words=state_words,
        ends=told.at(ends),
        minutes=ends - told.state.now,
        counts="left" if running else "to start",
        next_words=_next_words(told, following, task) if following else waits_words(told, task),
        late_by=late,
        taps=tuple(_taps(told, bench, task, running, following)),
    )


def _late_by(told: Told, task: Task) -> int:
    if told.state.is_running(task.name):
        to_end = told.state.plan.starts[task.name] + told.state.problem.task[task.name].minutes
        return told.state.expected_end(task.name) - to_end
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


def _next_words(told: Told, task: Task, now: Task) -> str:
    """What comes next, and what it waits for beside what the row already shows."""
    start = clock_minutes(told.at(planned(told, task)))
    return f"Next at {start}: {told.said(task)}. {waits_words(told, task, now)}".strip()


def waits_words(told: Told, task: Task, but: Task | None = None) -> str:
    """What a task that has not begun still waits for; empty when for nothing."""
    if task.name in told.state.begun:
        return ""
    waits = []
    for window in told.state.problem.windows_before[task.name]:
        end = told.state.expected_end(window.before) + window.least
        if but is not None and window.before == but.name:
            continue
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
    called = _called(told, bench, task)
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


def _called(told: Told, bench: str, task: Task) -> str:
    """What a button is about, for who cannot see where it stands; parts of one step differ."""
    step = place_of(task)[0]
    what = ", ".join(filter(None, (f"step {step}", told.part_words(task)))) if step else "the pass"
    return f"Bench {bench}, {what}"


def _oven_after(told: Told, task: Task) -> str:
    """The oven into which food goes by itself when this part is done."""
    for window in told.state.problem.windows_after[task.name]:
        if window.longest == 0 and told.state.problem.task[window.after].bake is not None:
            return told.state.plan.ovens[window.after]
    return ""


def bench_steps(told: Told, bench: BenchPlan) -> tuple[StepRow, ...]:
    """Every part of every step of a bench, by the clock of the plan."""
    tasks = [t for t in told.state.problem.tasks if t.bench == bench.name]
    tasks.sort(key=lambda t: told.state.plan.starts[t.name])
    cues = {line.step: line.cue for line in bench.lines}
    return tuple(_step_row(told, task, cues.get(place_of(task)[0], "")) for task in tasks)


def _step_row(told: Told, task: Task, cue: str) -> StepRow:
    step, part = place_of(task)
    bench, oven = task.bench or "", told.state.oven_of(task.name) if task.bake is not None else ""
    called = _called(told, bench, task)
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
    to_start = clock_minutes(told.at(told.state.plan.starts[task.name]))
    return StepRow(told.said(task), to_start, kind, state_words, cue if task.hands else "", tuple(taps))


def board_rows(told: Told) -> tuple[Row, ...]:
    """The same for all to see: bench numbers, the ordinary recipe's words, minutes; no taps."""
    rows = []
    for row in bench_rows(Told(for_all_to_see(told.plan), told.state, told.ovens)):
        said = row.words if row.state != "cannot" else "Not in use."
        word = row.state_words if row.state in SAID_ON_THE_BOARD else ""
        rows.append(replace(row, who="", words=said, state_words=word, taps=()))
    return tuple(rows)


def for_all_to_see(plan: LessonPlan) -> LessonPlan:
    """The plan without learners, and in the ordinary recipe's words wherever there are some."""
    plain = {line.step: line.words for bench in plan.benches for line in bench.lines if not bench.free_from}
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
