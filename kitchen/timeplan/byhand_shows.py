"""Where the rule by hand puts the demonstrations before it lays the benches out round them.

For ``byhand.py`` only. One behind another, on the clock, none before its wished minute; what
a person fixed is kept clear of, and what must be shown before it is shown in time.

Worked example: a demonstration of 8 minutes is wished for at 20, and a fixed step that waits
for it begins at 25: it is shown at 17, or at 15 on the fives.
"""

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.bounds import latest_starts, tails
from kitchen.timeplan.problem import Demonstration, Problem


class NoPlanByHand(Exception):
    """The rule found no order that keeps every hold; a longer search may still find one."""


def shows_first(problem: Problem) -> dict[str, int]:
    """All demonstrations first, in the order in which most work waits for them."""
    return settle(problem, {name: i for i, name in enumerate(_shows_in_order(problem))})


def nudged(problem: Problem, answer: Answer, step: int) -> dict[str, int]:
    """Move one demonstration earlier or later, each in turn, by wider and wider steps."""
    shows = {d.name: answer.starts[d.name] for d in problem.demonstrations}
    names = sorted(shows)
    name, turn = names[step % len(names)], step // len(names)
    width = max(problem.clock_minutes, 3) * (1 + turn // 2)
    shows[name] = max(0, shows[name] + (width if turn % 2 else -width))
    return settle(problem, shows)


def settle(problem: Problem, wished: dict[str, int]) -> dict[str, int]:
    """Demonstrations one behind another, none before its wished minute, on the clock.

    Something fixed may want one earlier than wished. NoPlanByHand when they cannot stand so.
    """
    show = {d.name: d for d in problem.demonstrations}
    order = _show_order(problem, wished)
    latest = _latest_shows(problem, order)
    busy = [
        (t.earliest, t.earliest + t.minutes)
        for t in problem.tasks
        if t.earliest == t.latest and (t.hands or t.lecturer)
    ]
    busy += [(each.start, each.end) for each in problem.breaks]
    out, free = {}, 0
    for name in order:
        last = latest.get(name)
        wish = wished[name] if last is None else min(wished[name], last)
        start = _free_start(problem, show[name], max(free, show[name].earliest, wish), busy)
        if last is not None and start > last:
            start = _free_start(problem, show[name], max(free, show[name].earliest), busy)
        if last is not None and start > last:
            raise NoPlanByHand("what is fixed by hand leaves no room for a demonstration")
        out[name], free = start, start + show[name].minutes
    return out


def _shows_in_order(problem: Problem) -> list[str]:
    tail = tails(problem)
    need: dict[str, int] = {d.name: 0 for d in problem.demonstrations}
    for task in problem.tasks:
        if task.shown_by:
            need[task.shown_by] = max(need[task.shown_by], task.minutes + tail[task.name])
    return sorted(need, key=lambda name: (-need[name], name))


def _show_order(problem: Problem, wished: dict[str, int]) -> list[str]:
    """As they stand where that is asked for; else by the minute wished for."""
    if problem.shows_in_order:
        return [show.name for show in problem.demonstrations]
    return sorted(wished, key=lambda name: (wished[name], name))


def _free_start(problem: Problem, show: Demonstration, start: int, busy: list[tuple[int, int]]) -> int:
    """The first minute from ``start`` at which nothing fixed is in the way, on the clock."""
    step = problem.clock_minutes if show.name in problem.on_the_clock else 1
    start = -(-start // step) * step
    while any(begins < start + show.minutes and start < ends for begins, ends in busy):
        start += step
    return start


def _latest_shows(problem: Problem, order: list[str]) -> dict[str, int]:
    """The latest start of each demonstration that something fixed, or the next one, limits."""
    due = latest_starts(problem)
    show = {d.name: d for d in problem.demonstrations}
    latest: dict[str, int] = {}
    following: int | None = None
    for name in reversed(order):
        needed = [due[t.name] for t in problem.tasks if t.shown_by == name and t.name in due]
        ends = [minute - show[name].minutes for minute in needed]
        ends += [] if following is None else [following - show[name].minutes]
        ends += [] if show[name].latest is None else [show[name].latest]
        if ends:
            following = latest[name] = min(ends)
    return latest
