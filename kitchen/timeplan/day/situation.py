"""What a re-plan is asked: what is fixed, what is still to come, and where it stood.

For ``repair.py``, ``soft.py`` and ``solver.py``. A ``Situation`` is the plan's question with
the minutes that count now, the old answer with what really happened in it, and the past.

The price of an answer (weights as measured for this work; they are ours): 1,000 for each
minute by which food is held over its longest, 100 for each minute past the old finish, 1 for
each minute by which something still to come moves.

Worked example: one bake moves from minute 80 to 95, nothing else changes: price 15. If its
paste may be held ten minutes and is now held twelve, 2,000 more.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from kitchen.timeplan.answer import Answer, Past
from kitchen.timeplan.day.live import Live
from kitchen.timeplan.problem import Bake, Bench, Oven, Problem, Stay, Task, Window

HOLD_BROKEN, PAST_FINISH, MOVED = 1000, 100, 1


@dataclass(frozen=True)
class Situation:
    """The question at ``now``. ``old`` holds real starts of what is fixed, planned ones of the rest.

    ``wished`` is where everything still to come would begin if nothing stood in its way;
    ``planned_finish`` is the finish of the plan that stands, ``touched`` the benches at which
    something is not as planned.
    """

    problem: Problem
    old: Answer
    past: Past
    wished: dict[str, int]
    planned_finish: int
    touched: frozenset[str] = frozenset()

    @property
    def now(self) -> int:
        """The minute from which things can be moved."""
        return self.past.now

    @property
    def coming(self) -> tuple[Task, ...]:
        """Tasks that have not begun."""
        return tuple(t for t in self.problem.tasks if t.name not in self.past.fixed)

    def end_of(self, name: str) -> int:
        """When something fixed has ended, or is expected to."""
        return self.old.starts[name] + minutes_of(self.problem, name)

    def works(self, oven: Oven) -> bool:
        """Whether the oven has not failed."""
        return oven.name not in self.past.out


def minutes_of(problem: Problem, name: str) -> int:
    """Minutes of a task or of a demonstration."""
    task = problem.task.get(name)
    return task.minutes if task else next(d.minutes for d in problem.demonstrations if d.name == name)


def situation(state: Live, planned_finish: int | None = None) -> Situation | None:
    """The question at the live state's minute; None when no bench is left at all.

    During start-up the question is of the minute at which cooking may begin.
    ``planned_finish`` is that of the plan that stands, where its steps are longer than the question's.
    """
    tasks = tuple(_task_now(state, task) for task in state.problem.tasks if task.bench not in state.gone)
    if not tasks:
        return None
    names = {task.name for task in tasks}
    problem = replace(
        state.problem.free(),
        tasks=tasks,
        windows=tuple(_window_now(state, w) for w in state.problem.windows if {w.before, w.after} <= names),
        benches=tuple(_bench_now(state, b) for b in state.problem.benches if b.name not in state.gone),
        demonstrations=tuple(
            replace(d, minutes=max(1, _lasts(state, d.name))) for d in state.problem.demonstrations
        ),
    )
    things = [*names, *(d.name for d in problem.demonstrations)]
    fixed = frozenset(name for name in things if name in state.begun)
    starts = {name: state.begun.get(name, state.plan.starts[name]) for name in things}
    wished = {name: _wished(state, name) for name in things if name not in fixed}
    ovens = {t.name: state.oven_of(t.name) for t in tasks if t.bake is not None}
    old = Answer(starts, ovens)
    now = max(0, state.now)
    past = Past(now, fixed, old, dict(state.failed), heats_at(problem, old, fixed, now))
    finish = state.plan.finish(state.problem) if planned_finish is None else planned_finish
    return Situation(problem, old, past, wished, finish, frozenset(_touched(state, problem)))


def _touched(state: Live, problem: Problem) -> Iterator[str]:
    """Benches with something late or longer, put off, or planned for an oven that failed."""
    shows = state.problem.demonstrations
    late_shows = {show.name for show in shows if _is_touched(state, show.name, show.minutes)}
    planned = state.problem.task
    for task in problem.tasks:
        to_bake = task.bake is not None and task.name not in state.begun
        out = to_bake and state.oven_of(task.name) in state.failed
        if out or task.shown_by in late_shows or _is_touched(state, task.name, planned[task.name].minutes):
            yield task.bench or ""


def _is_touched(state: Live, name: str, minutes: int) -> bool:
    start = state.plan.starts[name]
    if name in state.begun:
        return name not in state.ended and state.expected_end(name) > start + minutes
    return _wished(state, name) != start or state.lasts(name) != minutes


def _window_now(state: Live, window: Window) -> Window:
    """What was in an oven that failed is held from the moment at which that happened."""
    if window.after not in state.rescued or window.longest is None or window.before not in state.ended:
        return window
    since = state.not_before[window.after] - state.ended[window.before]
    return replace(window, longest=max(window.longest, window.least, since))


def _wished(state: Live, name: str) -> int:
    start = max(state.plan.starts[name], state.not_before.get(name, 0))
    return max(0, state.now, start)


def _lasts(state: Live, name: str) -> int:
    """Real minutes of what has ended, expected ones of what runs, the plan's of the rest."""
    if name in state.begun:
        return state.expected_end(name) - state.begun[name]
    return state.lasts(name)


def _task_now(state: Live, task: Task) -> Task:
    minutes = _lasts(state, task.name)
    if task.bake is None:
        return replace(task, minutes=minutes)
    minutes = max(1, minutes)
    return replace(task, minutes=minutes, bake=lasting(task.bake, minutes))


def _bench_now(state: Live, bench: Bench) -> Bench:
    away = state.away.get(bench.name, 0)
    return replace(bench, cooks=max(1, bench.cooks - away))


def lasting(bake: Bake, minutes: int) -> Bake:
    """The bake with so many minutes in all: the last stay is longer, or the first are done with."""
    longer = minutes - bake.minutes
    if longer >= 0:
        stays = (*bake.stays[:-1], replace(bake.stays[-1], minutes=bake.stays[-1].minutes + longer))
        return replace(bake, stays=stays)
    left: list[Stay] = []
    for stay in reversed(bake.stays):
        if minutes <= 0:
            break
        left.insert(0, replace(stay, minutes=min(stay.minutes, minutes)))
        minutes -= left[0].minutes
    if left[0].decicelsius is None:
        left = [Stay(bake.minutes + longer, bake.stays[0].decicelsius)]
    return replace(bake, stays=tuple(left))


def last_heat(bake: Bake) -> int:
    """The heat at which an oven stands when a bake has ended, or from which it cools."""
    return [stay.decicelsius for stay in bake.stays if stay.decicelsius is not None][-1]


def heats_at(
    problem: Problem, old: Answer, fixed: frozenset[str], now: int
) -> dict[str, tuple[int | None, int]]:
    """By oven: the heat to which it is set as the plan stands (None: cold) and when it is reached."""
    out: dict[str, tuple[int | None, int]] = {}
    for oven in problem.ovens:
        inside = [t for t in problem.tasks if t.bake is not None and old.ovens[t.name] == oven.name]
        before = max((t for t in inside if t.name in fixed), key=lambda t: old.starts[t.name], default=None)
        after = min(
            (t for t in inside if t.name not in fixed), key=lambda t: old.starts[t.name], default=None
        )
        out[oven.name] = _heat_of(oven, before, after, old, now)
    return out


def _heat_of(
    oven: Oven, before: Task | None, after: Task | None, old: Answer, now: int
) -> tuple[int | None, int]:
    if before is not None and before.bake is not None:
        ends = old.starts[before.name] + before.minutes
        if ends > now or after is None or after.bake is None:
            return last_heat(before.bake), now
        return after.bake.begins_at, ends + oven.between_minutes(before.bake, after.bake)
    if after is not None and after.bake is not None:
        lit = old.starts[after.name] - oven.heat_up_minutes(after.bake)
        if lit <= now:
            return after.bake.begins_at, old.starts[after.name]
    return None, now


@dataclass(frozen=True, slots=True)
class Price:
    """What an answer costs, in its three parts and as one figure."""

    held_over: int
    past_finish: int
    moved: int

    @property
    def figure(self) -> int:
        """The price as one figure, with the weights above."""
        return HOLD_BROKEN * self.held_over + PAST_FINISH * self.past_finish + MOVED * self.moved


def price(at: Situation, answer: Answer) -> Price:
    """What an answer costs."""
    held = sum(over for _, over in holds_broken(at, answer))
    late = max(0, answer.finish(at.problem) - at.planned_finish)
    return Price(held, late, sum(abs(answer.starts[name] - wish) for name, wish in at.wished.items()))


def holds_broken(at: Situation, answer: Answer) -> list[tuple[Window, int]]:
    """Windows to something still to come that are longer than allowed, with the minutes too many."""
    out = []
    for window in at.problem.windows:
        if window.longest is None or window.after in at.past.fixed:
            continue
        end = answer.starts[window.before] + at.problem.task[window.before].minutes
        over = answer.starts[window.after] - end - window.longest
        if over > 0:
            out.append((window, over))
    return out
