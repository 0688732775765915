"""A running class: what has begun, what has ended, what was lost, from a plan and its events.

For the page of the day, the re-plan and the comparison afterwards. Minutes count, as in
the plan's question, from the minute at which the class may begin to cook; a deed before it
has a negative minute. Nothing here reads a clock: ``now`` is given.

Rules, in prose:
- Deeds count in the order of their number; a deed that was undone counts as if never tapped.
- Whoever starts a step has done what comes before it, tapped or not; a cook who works alone
  has put down what was in hand. Times that nobody tapped are *assumed*.
- A part that follows another without a pause begins when that one is done.
- Resting and chilling end by the clock; hands, ovens and demonstrations end with a tap.
- What was in an oven that failed has the rest of its minutes before it, elsewhere.
- A bench that starts again does that step, and all that follows from it, once more.

Worked example: hands of 10 minutes, then 15 in the chiller. "Started" at 3 and "Done" at 14
mean hands from 3 to 14, and a chiller until 29 without another tap.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.problem import Problem, Task


@dataclass(frozen=True, slots=True)
class Deed:
    """One thing that happened. ``task`` names a task or a demonstration; ``undoes`` a number."""

    number: int
    what: str
    minute: int
    task: str = ""
    bench: str = ""
    oven: str = ""
    minutes: int = 0
    undoes: int | None = None


@dataclass
class Live:
    """How the class stands at ``now``; every mapping is by the name of a task or demonstration."""

    problem: Problem
    plan: Answer
    now: int
    begun: dict[str, int] = field(default_factory=dict)
    ended: dict[str, int] = field(default_factory=dict)
    assumed: set[str] = field(default_factory=set)
    minutes: dict[str, int] = field(default_factory=dict)
    later: dict[str, int] = field(default_factory=dict)
    not_before: dict[str, int] = field(default_factory=dict)
    baked_in: dict[str, str] = field(default_factory=dict)
    failed: dict[str, int] = field(default_factory=dict)
    away: dict[str, int] = field(default_factory=dict)
    rescued: set[str] = field(default_factory=set)

    @property
    def gone(self) -> frozenset[str]:
        """Benches at which nobody is left."""
        return frozenset(b.name for b in self.problem.benches if self.away.get(b.name, 0) >= b.cooks)

    def is_running(self, name: str) -> bool:
        """Whether it has begun and not ended."""
        return name in self.begun and name not in self.ended

    def lasts(self, name: str) -> int:
        """Its minutes as they now stand: the plan's (or what is left of them) and what was added."""
        return self.minutes[name] + self.later.get(name, 0)

    def expected_end(self, name: str) -> int:
        """When it ended, or will end as it stands; never before now while it runs."""
        if name in self.ended:
            return self.ended[name]
        if name in self.begun:
            return max(self.begun[name] + self.lasts(name), self.now)
        return max(self.plan.starts[name], self.not_before.get(name, 0), self.now) + self.lasts(name)

    def oven_of(self, name: str) -> str:
        """The oven in which it is, was, or is planned to be."""
        return self.baked_in.get(name) or self.plan.ovens[name]


def standing(deeds: Iterable[Deed]) -> list[Deed]:
    """The deeds that count, in order: neither undone nor an undo. Undoing an undo restores."""
    in_order = sorted(deeds, key=lambda deed: deed.number)
    undone: set[int] = set()
    for deed in reversed(in_order):
        if deed.what == "undo" and deed.number not in undone and deed.undoes is not None:
            undone.add(deed.undoes)
    return [deed for deed in in_order if deed.number not in undone and deed.what != "undo"]


def live(problem: Problem, plan: Answer, deeds: Iterable[Deed], now: int) -> Live:
    """How a class stands at a minute. Deeds of tasks that the plan does not know are left out."""
    minutes = {t.name: t.minutes for t in problem.tasks} | {d.name: d.minutes for d in problem.demonstrations}
    state = Live(problem, plan, now, minutes=minutes)
    for deed in standing(deeds):
        if deed.task and deed.task not in minutes:
            continue
        DOES.get(deed.what, _nothing)(state, deed)
    _ended_by_the_clock(state, now)
    return state


def _nothing(state: Live, deed: Deed) -> None:
    """A deed that moves no step: the class began."""


def _started(state: Live, deed: Deed) -> None:
    if deed.minute < state.ended.get(deed.task, deed.minute):
        state.begun[deed.task] = deed.minute  # told late, of what has ended: only its beginning is news
        return
    _close_before(state, deed.task, deed.minute)
    task = state.problem.task.get(deed.task)
    if task is not None and task.hands and state.problem.bench[task.bench or ""].cooks == 1:
        _put_down(state, task, deed.minute)
    state.ended.pop(deed.task, None)
    state.assumed.discard(deed.task)
    state.rescued.discard(deed.task)
    _begin(state, deed.task, deed.minute, deed.oven)


def _begin(state: Live, name: str, minute: int, oven: str) -> None:
    state.begun[name] = minute
    task = state.problem.task.get(name)
    if task is not None and task.bake is not None:
        state.baked_in[name] = oven or state.plan.ovens[name]


def _close_before(state: Live, name: str, minute: int) -> None:
    """End everything that must have ended before it; what nobody tapped is assumed."""
    task = state.problem.task.get(name)
    if task is None:
        return
    if task.shown_by is not None and task.shown_by not in state.ended:
        _assume_ended(state, task.shown_by, minute)
    for window in state.problem.windows_before[name]:
        if window.before not in state.ended:
            _assume_ended(state, window.before, minute)
            _close_before(state, window.before, state.begun[window.before])


def _put_down(state: Live, task: Task, minute: int) -> None:
    """A cook who works alone has put down what was in hand."""
    for other in state.problem.tasks:
        in_hand = other.hands and other.bench == task.bench and state.is_running(other.name)
        if in_hand and other.name != task.name:
            _assume_ended(state, other.name, minute)


def _assume_ended(state: Live, name: str, minute: int) -> None:
    natural = state.begun.get(name, minute - state.lasts(name)) + state.lasts(name)
    ends = min(minute, natural) if _ends_by_the_clock(state, name) else minute
    state.begun.setdefault(name, min(ends, minute - state.lasts(name)))
    state.ended[name] = max(ends, state.begun[name])
    if not _ends_by_the_clock(state, name):
        state.assumed.add(name)


def _done(state: Live, deed: Deed) -> None:
    if deed.task not in state.begun:
        _close_before(state, deed.task, deed.minute)
        state.begun[deed.task] = deed.minute - state.lasts(deed.task)
        state.assumed.add(deed.task)
    state.begun[deed.task] = min(state.begun[deed.task], deed.minute)
    state.ended[deed.task] = deed.minute
    _begin_what_follows(state, deed.task, deed.minute, deed.oven)


def _begin_what_follows(state: Live, name: str, minute: int, oven: str = "") -> None:
    """Parts that follow without a pause and need no hands begin at once."""
    if name not in state.problem.task:
        return
    for window in state.problem.windows_after[name]:
        follows = state.problem.task[window.after]
        if window.longest == 0 and not follows.hands and follows.name not in state.begun:
            bakes = follows.bake is not None
            if bakes and (oven or state.plan.ovens[follows.name]) in state.failed:
                continue
            _begin(state, follows.name, minute, oven if bakes else "")


def _later(state: Live, deed: Deed) -> None:
    """What runs takes longer; what has not begun begins later."""
    if deed.task in state.begun:
        state.later[deed.task] = state.later.get(deed.task, 0) + deed.minutes
        return
    planned = max(state.plan.starts[deed.task], state.not_before.get(deed.task, 0))
    state.not_before[deed.task] = planned + deed.minutes


def _failed(state: Live, deed: Deed) -> None:
    """The oven is out; what is in it has the rest of its minutes before it."""
    state.failed[deed.oven] = deed.minute
    for name, oven in list(state.baked_in.items()):
        if oven == deed.oven and state.is_running(name):
            done = max(0, deed.minute - state.begun.pop(name))
            state.minutes[name] = max(1, state.minutes[name] - done)
            state.not_before[name] = deed.minute
            state.rescued.add(name)
            del state.baked_in[name]


def _again(state: Live, deed: Deed) -> None:
    """The bench begins at that step again, with all that follows from it."""
    first = [deed.task] if deed.task else [t.name for t in state.problem.tasks if t.bench == deed.bench]
    for name in _follows(state.problem, first):
        state.begun.pop(name, None)
        state.ended.pop(name, None)
        state.later.pop(name, None)
        state.baked_in.pop(name, None)
        state.assumed.discard(name)
        state.rescued.discard(name)
        state.minutes[name] = state.problem.task[name].minutes
        state.not_before[name] = deed.minute


def _follows(problem: Problem, first: list[str]) -> list[str]:
    found, todo = set(first), list(first)
    while todo:
        for window in problem.windows_after[todo.pop()]:
            if window.after not in found:
                found.add(window.after)
                todo.append(window.after)
    return [name for name in problem.order if name in found]


def _absent(state: Live, deed: Deed) -> None:
    state.away[deed.bench] = state.away.get(deed.bench, 0) + 1


def _ends_by_the_clock(state: Live, name: str) -> bool:
    task = state.problem.task.get(name)
    return task is not None and not task.hands and task.bake is None


def _ended_by_the_clock(state: Live, now: int) -> None:
    """Resting and chilling end when their minutes are over, and what follows them begins."""
    for name in state.problem.order:
        if state.is_running(name) and _ends_by_the_clock(state, name):
            end = state.begun[name] + state.lasts(name)
            if end <= now:
                state.ended[name] = end
                _begin_stays(state, name, end)


def _begin_stays(state: Live, name: str, minute: int) -> None:
    for window in state.problem.windows_after[name]:
        follows = state.problem.task[window.after]
        if window.longest == 0 and _ends_by_the_clock(state, follows.name):
            state.begun.setdefault(follows.name, minute)


DOES = {
    "started": _started,
    "done": _done,
    "later": _later,
    "failed": _failed,
    "again": _again,
    "absent": _absent,
}
