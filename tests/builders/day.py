"""Classes in progress: deeds as they are tapped when all goes to plan, and one disturbance from a seed."""

from random import Random

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.day.live import Deed, live
from kitchen.timeplan.day.situation import Situation, situation
from kitchen.timeplan.problem import Problem

KINDS = ("none", "later", "much later", "not started", "oven", "again", "absent", "demonstration")


def as_planned(problem: Problem, plan: Answer, now: int) -> list[Deed]:
    """Everything tapped at its planned minute, up to and with ``now``."""
    taps = []
    things = [(t.name, t.minutes) for t in problem.tasks] + [
        (d.name, d.minutes) for d in problem.demonstrations
    ]
    place = {name: i for i, name in enumerate([d.name for d in problem.demonstrations] + list(problem.order))}
    for name, minutes in things:
        start = plan.starts[name]
        if start < now or (start == now and minutes == 0):
            taps.append((start, 1, place[name], name, "started"))
        if start + minutes <= now and start < now:
            taps.append((start + minutes, 0 if minutes else 2, place[name], name, "done"))
    return [
        Deed(number, what, minute, name, oven=plan.ovens.get(name, ""))
        for number, (minute, _, _, name, what) in enumerate(sorted(taps), 1)
    ]


def disturbed(problem: Problem, plan: Answer, kind: str, seed: int) -> Situation:
    """A class in progress with one disturbance of that kind."""
    dice = Random(seed)
    now = dice.randint(plan.finish(problem) // 4, 3 * plan.finish(problem) // 4)
    deeds = as_planned(problem, plan, now)
    deeds = [*deeds, *_disturbance(problem, plan, deeds, kind, now, dice)]
    if kind == "not started":
        deeds = _without_one(problem, plan, deeds, now, dice)
    found = situation(live(problem, plan, deeds, now))
    assert found is not None
    return found


def _disturbance(
    problem: Problem, plan: Answer, deeds: list[Deed], kind: str, now: int, dice: Random
) -> list[Deed]:
    number = len(deeds) + 1
    state = live(problem, plan, deeds, now)
    running = sorted(t.name for t in problem.tasks if state.is_running(t.name))
    if kind in ("later", "much later") and running:
        return [Deed(number, "later", now, dice.choice(running), minutes=5 if kind == "later" else 12)]
    if kind == "oven":
        used = sorted({plan.ovens[t.name] for t in problem.tasks if t.bake and plan.starts[t.name] >= now})
        return (
            [Deed(number, "failed", now, oven=dice.choice(used))] if used and len(problem.ovens) > 1 else []
        )
    bench = dice.choice(problem.benches).name
    if kind == "again":
        begun = [t.name for t in problem.tasks if t.bench == bench and t.name in state.begun]
        return [Deed(number, "again", now, dice.choice(begun), bench)] if begun else []
    if kind == "absent" and len(problem.benches) > 1:
        return [Deed(number, "absent", now, bench=bench)]
    shows = [d.name for d in problem.demonstrations if d.name not in state.ended]
    if kind == "demonstration" and shows:
        return [Deed(number, "later", now, shows[0], minutes=8)]
    return []


def _without_one(problem: Problem, plan: Answer, deeds: list[Deed], now: int, dice: Random) -> list[Deed]:
    """Nobody tapped one of the steps that began last: it has not begun."""
    started = [d.task for d in deeds if d.what == "started" and d.minute > now - 6 and d.task in problem.task]
    if not started:
        return deeds
    gone = dice.choice(started)
    after = {w.after for w in problem.windows_after[gone]}
    return [d for d in deeds if d.task != gone and d.task not in after]
