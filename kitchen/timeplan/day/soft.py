"""The re-plan as a constraint model: the past is fixed, holds are soft, moves have a price.

For ``solver.py`` in this folder only, which gives the solver's module. Minutes of the model
count from now. Ovens are rows of phases as in ``kitchen.timeplan.model``; what is running
holds its trays, and what it needs of hands and room, until it is expected to end.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from types import ModuleType
from typing import Any

from kitchen.timeplan.answer import Answer, ready_at
from kitchen.timeplan.day.situation import HOLD_BROKEN, MOVED, PAST_FINISH, Situation
from kitchen.timeplan.model import Built, Busy, add_oven, hint_ovens, key_of, phases_of
from kitchen.timeplan.problem import Oven, Task


@dataclass
class Soft:
    """The model with what its answer is read from."""

    at: Situation
    built: Built
    objective: list[Any] = field(default_factory=list)

    def priced(self, weight: int, most: int) -> Any:
        """A variable with a price."""
        variable = self.built.model.new_int_var(0, most, "")
        self.objective.append(weight * variable)
        return variable

    def answer(self, solver: Any) -> Answer:
        """The answer of a solver that found one, with the past in it."""
        found = self.built.answer(solver)
        starts = {name: start + self.at.now for name, start in found.starts.items()}
        fixed = {name: self.at.old.starts[name] for name in self.at.past.fixed}
        return Answer(starts | fixed, {**self.at.old.ovens, **found.ovens})


def soft_model(cp: ModuleType, at: Situation, first: Answer) -> Soft:
    """The model of all that is to come, which must be something; hinted with ``first``."""
    horizon = first.finish(at.problem) - at.now + 60
    coming = replace(
        at.problem,
        tasks=tuple(replace(t, shown_by=None) for t in at.coming),
        windows=(),
        demonstrations=tuple(d for d in at.problem.demonstrations if d.name not in at.past.fixed),
    )
    soft = Soft(at, Built(cp, cp.CpModel(), coming, max(horizon, 1)))
    _times(soft)
    _holds(soft)
    _people(soft)
    _breaks(soft)
    _supplies(soft)
    _ovens(soft, first)
    soft.built.model.minimize(sum(soft.objective))
    hint_with(soft, first)
    return soft


def _times(soft: Soft) -> None:
    """A start for everything to come, with the price of moving it and of ending late."""
    at, built = soft.at, soft.built
    late = soft.priced(PAST_FINISH, built.horizon)
    minutes = {t.name: t.minutes for t in built.problem.tasks}
    minutes |= {d.name: d.minutes for d in built.problem.demonstrations}
    for name, lasts in minutes.items():
        start = built.model.new_int_var(0, built.horizon, name)
        built.start[name] = start
        built.interval[name] = built.model.new_fixed_size_interval_var(start, lasts, f"{name} on")
        built.model.add(start + lasts <= at.planned_finish - at.now + late)
        _move(soft, start, at.wished[name])


def _move(soft: Soft, start: Any, wished: int) -> None:
    moved = soft.priced(MOVED, soft.built.horizon)
    soft.built.model.add(moved >= start - (wished - soft.at.now))
    soft.built.model.add(moved >= (wished - soft.at.now) - start)


def _holds(soft: Soft) -> None:
    """Least waits are kept; longest ones have a price. Ends of the past are numbers."""
    at, model, start = soft.at, soft.built.model, soft.built.start
    for window in at.problem.windows:
        if window.after in at.past.fixed:
            continue
        if window.before in at.past.fixed:
            end: Any = at.end_of(window.before) - at.now
        else:
            end = start[window.before] + at.problem.task[window.before].minutes
        model.add(start[window.after] >= end + window.least)
        if window.longest is not None:
            over = soft.priced(HOLD_BROKEN, soft.built.horizon + 600)
            model.add(start[window.after] <= end + window.longest + over)
    for task in at.coming:
        if task.shown_by is None:
            continue
        lasts = next(d.minutes for d in at.problem.demonstrations if d.name == task.shown_by)
        if task.shown_by in at.past.fixed:
            model.add(start[task.name] >= at.end_of(task.shown_by) - at.now)
        else:
            model.add(start[task.name] >= start[task.shown_by] + lasts)


def _running(at: Situation, wanted: Callable[[Task], bool]) -> list[tuple[Task, int]]:
    """Tasks that run, with the minutes left, the longest first."""
    found = [
        (task, at.end_of(task.name) - at.now)
        for task in at.problem.tasks
        if task.name in at.past.fixed and wanted(task)
    ]
    return sorted([(t, left) for t, left in found if left > 0], key=lambda pair: (-pair[1], pair[0].name))


def _showing(at: Situation) -> int:
    """Minutes left of a demonstration that runs."""
    left = [at.end_of(d.name) - at.now for d in at.problem.demonstrations if d.name in at.past.fixed]
    return max(0, *left, 0)


def _people(soft: Soft) -> None:
    """Cooks with every demonstration; the lecturer; the assessor."""
    at, built = soft.at, soft.built
    shows = [built.interval[d.name] for d in built.problem.demonstrations]
    busy_showing = _showing(at)
    for bench in at.problem.benches:
        work = [built.interval[t.name] for t in at.coming if t.hands and t.bench == bench.name and t.minutes]
        left = [m for _, m in _running(at, lambda t, b=bench.name: t.hands and t.bench == b)]
        left = sorted(left + [busy_showing] * bench.cooks, reverse=True)[: bench.cooks]
        held = [_fixed(built, minutes) for minutes in left if minutes > 0]
        if bench.cooks == 1:
            built.model.add_no_overlap(work + shows + held)
        elif work or shows:
            demands = [1] * len(work) + [bench.cooks] * len(shows) + [1] * len(held)
            built.model.add_cumulative(work + shows + held, demands, bench.cooks)
    lecturer = [m for _, m in _running(at, lambda t: t.lecturer)] + [busy_showing]
    assessor = [m for _, m in _running(at, lambda t: t.assessor)]
    _one(built, [built.interval[t.name] for t in at.coming if t.lecturer and t.minutes] + shows, lecturer)
    _one(built, [built.interval[t.name] for t in at.coming if t.assessor and t.minutes], assessor)


def _breaks(soft: Soft) -> None:
    """Nothing that may move is done by people in a break; what runs into one ends as it must."""
    at, built = soft.at, soft.built
    for each in at.problem.breaks:
        if each.end <= at.now:
            continue
        held = built.model.new_fixed_size_interval_var(each.start - at.now, each.minutes, "break")
        work = [t.name for t in at.coming if t.by_people and t.minutes]
        for name in (*work, *(d.name for d in built.problem.demonstrations)):
            built.model.add_no_overlap([built.interval[name], held])


def _fixed(built: Built, minutes: int) -> Any:
    return built.model.new_fixed_size_interval_var(0, minutes, "")


def _one(built: Built, intervals: list[Any], left: list[int]) -> None:
    longest = max(left, default=0)
    built.model.add_no_overlap(intervals + ([_fixed(built, longest)] if longest > 0 else []))


def _supplies(soft: Soft) -> None:
    at, built = soft.at, soft.built
    for supply in at.problem.supplies:
        using = [(t, dict(t.uses)[supply.name]) for t in at.coming if supply.name in dict(t.uses)]
        using = [(t, units) for t, units in using if t.minutes]
        held, level = [], 0
        for task, left in _running(at, lambda t, s=supply.name: s in dict(t.uses)):
            units = dict(task.uses)[supply.name]
            if level + units <= supply.units:
                held.append((left, units))
                level += units
        if not using or sum(units for _, units in using) + level <= supply.units:
            continue
        intervals = [built.interval[t.name] for t, _ in using] + [_fixed(built, left) for left, _ in held]
        demands = [units for _, units in using] + [units for _, units in held]
        built.model.add_cumulative(intervals, demands, supply.units)


def _ovens(soft: Soft, first: Answer) -> None:
    at, built = soft.at, soft.built
    used = phases_of(built.problem, first)
    for oven in at.problem.ovens:
        if not at.works(oven):
            continue
        may = {t.name for t in at.coming if t.bake is not None and t.may_go_in(oven)}
        if may:
            add_oven(built, oven, len(used.get(oven.name, ())) + 1, may, _busy(at, oven))
            _not_before_it_is_hot(soft, oven)
    for task in at.coming:
        if task.bake is not None:
            built.model.add_exactly_one(x for _, _, x in built.chosen[task.name])


def _busy(at: Situation, oven: Oven) -> tuple[Busy, ...]:
    """What is in the oven now, and what it was last set to."""
    inside = [t for t in at.problem.tasks if t.bake is not None and t.name in at.past.fixed]
    inside = [t for t in inside if at.old.ovens[t.name] == oven.name and t.bake is not None]
    return tuple(Busy(t.bake, at.old.starts[t.name] - at.now, at.end_of(t.name) - at.now) for t in inside)


def _not_before_it_is_hot(soft: Soft, oven: Oven) -> None:
    phase = soft.built.phase[oven.name, 0]
    samples = {key_of(t.bake): t.bake for t in soft.at.coming if t.bake is not None}
    for key, variable in phase.keys.items():
        ready = ready_at(soft.at.past, oven, samples[key]) - soft.at.now
        if ready > 0:
            soft.built.model.add(phase.start >= ready).only_enforce_if(variable, phase.used)


def hint_with(soft: Soft, first: Answer) -> None:
    """The answer to begin with, its prices left to the solver; hints given before are taken back."""
    built, at = soft.built, soft.at
    built.model.clear_hints()
    shifted = Answer({name: first.starts[name] - at.now for name in built.start}, first.ovens)
    for name, variable in built.start.items():
        built.model.add_hint(variable, shifted.starts[name])
    hint_ovens(built, shifted)
