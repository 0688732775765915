"""The time plan's question as a constraint model, given the solver's module by ``solver.py``.

For ``solver.py`` only. Nothing is imported here from the solver: the module and the model
are arguments, so that this file reads, and its phases can be tested, without it.

An oven is a row of *phases* in order of time. A phase has one key: a plain temperature,
or the whole setting of a bake that must be alone (door shut, more than one stay). A bake
picks one oven and phase of its key and lies inside it (an ordinary one may also go in and
come out with bakes of its stays that must be alone); between two phases the oven has time
to change. A phase for bakes that must be alone begins and ends with them.

``pooled`` leaves the ovens out: all trays are one pool, no temperature, no door. Its
optimum is a bound of the real question.
"""

from collections import defaultdict
from dataclasses import dataclass, field
from itertools import pairwise
from types import ModuleType
from typing import Any

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.bounds import heads, tails
from kitchen.timeplan.choices import least
from kitchen.timeplan.model_choices import choose, hint_ways, optional_parts, ways_of_answer
from kitchen.timeplan.phases import Key, Phase, key_of, phases_of, shut_key_of
from kitchen.timeplan.problem import Bake, Demonstration, Oven, Problem, Task
from kitchen.timeplan.twins import ordering, sorted_by_twins, twin_benches
from kitchen.timeplan.ways import Way


@dataclass
class Built:
    """A model with the variables an answer is read from."""

    cp: ModuleType
    model: Any
    problem: Problem
    horizon: int
    start: dict[str, Any] = field(default_factory=dict)
    interval: dict[str, Any] = field(default_factory=dict)
    chosen: dict[str, list[tuple[str, int, Any]]] = field(default_factory=lambda: defaultdict(list))
    phase: dict[tuple[str, int], "PhaseVariables"] = field(default_factory=dict)
    finish: Any = None
    way: dict[str, list[Any]] = field(default_factory=dict)
    length: dict[str, Any] = field(default_factory=dict)
    parts: list[tuple[Any, Way]] = field(default_factory=list)

    def answer(self, solver: Any) -> Answer:
        """The answer of a solver that has found one."""
        starts = {name: solver.value(variable) for name, variable in self.start.items()}
        ovens = {
            n: oven for n, picks in self.chosen.items() for oven, _, x in picks if solver.boolean_value(x)
        }
        return Answer(starts, ovens, ways_of_answer(self, solver))


@dataclass(frozen=True, slots=True)
class Busy:
    """A bake that an oven holds, or held, when the model's time begins: minutes of the model."""

    bake: Bake
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class PhaseVariables:
    """Start, end, whether it is used, and one boolean for each key it may have."""

    start: Any
    end: Any
    used: Any
    keys: dict[Key, Any]


def build(cp: ModuleType, problem: Problem, horizon: int, *, pooled: bool, phases: int = 2) -> Built:
    """The model that minimises the finish within ``horizon`` minutes."""
    built = Built(cp, cp.CpModel(), problem, horizon)
    _times(built)
    _order(built)
    _people(built)
    _supplies(built)
    _tray_pool(built)
    if not pooled:
        for oven in problem.ovens:
            add_oven(built, oven, phases)
            _heat_up(built, oven)
        for name, picks in built.chosen.items():
            built.model.add_exactly_one(x for _, _, x in picks)
            assert name in built.start
    _benches_in_order(built)
    built.model.minimize(built.finish)
    return built


def _times(built: Built) -> None:
    """One start for each task (one for a whole wave), its interval, and the finish."""
    problem, model, horizon = built.problem, built.model, built.horizon
    head, tail, quickest = heads(problem), tails(problem), least(problem).task
    choose(built)
    group_of = {name: group for group in problem.together for name in group}
    built.finish = model.new_int_var(0, horizon, "finish")
    for task in problem.tasks:
        group = group_of.get(task.name, (task.name,))
        if task.name not in built.start:
            low = max(head[n] for n in group)
            high = min(horizon - tail[n] - quickest[n].minutes for n in group)
            on_clock = not problem.on_the_clock.isdisjoint(group)
            variable = _start(built, low, high, task.name, on_clock)
            built.start.update(dict.fromkeys(group, variable))
        _not_after(built, task)
        _interval(built, task.name, task.minutes, tail[task.name])
    optional_parts(built)
    for show in problem.demonstrations:
        on_clock = show.name in problem.on_the_clock
        built.start[show.name] = _start(built, show.earliest, horizon - show.minutes, show.name, on_clock)
        _not_after(built, show)
        _interval(built, show.name, show.minutes, 0)


def _start(built: Built, low: int, high: int, name: str, on_clock: bool) -> Any:
    step = built.problem.clock_minutes if on_clock else 1
    first = -(-low // step) * step
    minutes = range(first, max(first, high) + 1, step)
    return built.model.new_int_var_from_domain(built.cp.Domain.from_values(minutes), name)


def _not_after(built: Built, thing: Task | Demonstration) -> None:
    if thing.latest is not None:
        built.model.add(built.start[thing.name] <= thing.latest)


def _interval(built: Built, name: str, minutes: int, tail: int) -> None:
    start, length = built.start[name], built.length.get(name)
    if length is None:
        built.interval[name] = built.model.new_fixed_size_interval_var(start, minutes, f"{name} on")
    else:
        minutes = length
        end = built.model.new_int_var(0, built.horizon, f"{name} end")
        built.interval[name] = built.model.new_interval_var(start, length, end, f"{name} on")
    built.model.add(start + minutes + tail <= built.finish)


def _order(built: Built) -> None:
    """Windows, and demonstrations before what they show."""
    problem, model, start = built.problem, built.model, built.start
    for window in problem.windows:
        minutes = built.length.get(window.before, problem.task[window.before].minutes)
        end = start[window.before] + minutes
        model.add(start[window.after] >= end + window.least)
        if window.longest is not None:
            model.add(start[window.after] <= end + window.longest)
    shown = {show.name: show.minutes for show in problem.demonstrations}
    if problem.shows_in_order:
        for first, second in pairwise(problem.demonstrations):
            model.add(start[second.name] >= start[first.name] + first.minutes)
    for task in problem.tasks:
        if task.shown_by is not None:
            model.add(start[task.name] >= start[task.shown_by] + shown[task.shown_by])


def _people(built: Built) -> None:
    """Cooks of each bench with every demonstration; the lecturer; the assessor."""
    problem, model, on = built.problem, built.model, built.interval
    shows = [on[show.name] for show in problem.demonstrations]
    shows += [model.new_fixed_size_interval_var(each.start, each.minutes, "break") for each in problem.breaks]
    for bench in problem.benches:
        work = [on[t.name] for t in problem.tasks if t.hands and t.bench == bench.name and t.minutes]
        if bench.cooks == 1:
            model.add_no_overlap(work + shows)
        elif work:
            model.add_cumulative(work + shows, [1] * len(work) + [bench.cooks] * len(shows), bench.cooks)
    beside = [on[t.name] for t in problem.tasks if t.lecturer and t.minutes and not t.ways]
    model.add_no_overlap(beside + [part for part, way in built.parts if way.lecturer] + shows)
    breaks = shows[len(problem.demonstrations) :]
    model.add_no_overlap([on[t.name] for t in problem.tasks if t.assessor and t.minutes] + breaks)


def _supplies(built: Built) -> None:
    for supply in built.problem.supplies:
        using = [(t, dict(t.uses)[supply.name]) for t in built.problem.tasks if supply.name in dict(t.uses)]
        takes = [(built.interval[t.name], units) for t, units in using if t.minutes and not t.ways]
        takes += [(p, dict(w.uses)[supply.name]) for p, w in built.parts if supply.name in dict(w.uses)]
        if sum(units for _, units in takes) > supply.units:
            built.model.add_cumulative([part for part, _ in takes], [n for _, n in takes], supply.units)


def _tray_pool(built: Built) -> None:
    """All ovens as one pool of trays: the whole model of the relaxation, a help to the full one."""
    bakes = [t for t in built.problem.tasks if t.bake is not None]
    trays = sum(oven.trays for oven in built.problem.ovens)
    if sum(t.bake.trays for t in bakes if t.bake) > trays:
        intervals = [built.interval[t.name] for t in bakes]
        built.model.add_cumulative(intervals, [t.bake.trays for t in bakes if t.bake], trays)


def add_oven(
    built: Built, oven: Oven, count: int, may: set[str] | None = None, busy: tuple[Busy, ...] = ()
) -> None:
    """Phases of one oven, and the bakes that may pick them (``may``: only those of these names)."""
    bakes = [t for t in built.problem.tasks if t.may_go_in(oven) and (may is None or t.name in may)]
    samples = {key_of(t.bake): t.bake for t in bakes if t.bake}
    if not samples:
        return
    phases = [_phase(built, oven, number, samples) for number in range(count)]
    inside: dict[str, list[Any]] = defaultdict(list)
    for number, phase in enumerate(phases):
        picks = [_pick(built, oven, number, phase, task) for task in bakes]
        for task, x in zip(bakes, picks, strict=True):
            inside[task.name].append(x)
        built.model.add_bool_or(picks).only_enforce_if(phase.used)
    _changes(built, oven, phases, samples)
    _after_what_is_inside(built, oven, phases, samples, busy)
    _trays(built, oven, bakes, inside, [b for b in busy if b.end > 0])


def _phase(built: Built, oven: Oven, number: int, samples: dict[Key, Bake]) -> PhaseVariables:
    model, name = built.model, f"{oven.name} phase {number}"
    phase = PhaseVariables(
        start=model.new_int_var(0, built.horizon, f"{name} start"),
        end=model.new_int_var(0, built.horizon, f"{name} end"),
        used=model.new_bool_var(f"{name} used"),
        keys={key: model.new_bool_var(f"{name} is {key}") for key in samples},
    )
    model.add_exactly_one(phase.keys.values())
    model.add(phase.end >= phase.start)
    built.phase[oven.name, number] = phase
    return phase


def _heat_up(built: Built, oven: Oven) -> None:
    """The first phase waits until a cold oven is hot."""
    first = built.phase.get((oven.name, 0))
    bakes = [t.bake for t in built.problem.tasks if t.bake is not None and t.may_go_in(oven)]
    for key, sample in {key_of(bake): bake for bake in bakes}.items() if first else ():
        heat = oven.heat_up_minutes(sample)
        built.model.add(first.start >= heat).only_enforce_if(first.keys[key], first.used)


def _pick(built: Built, oven: Oven, number: int, phase: PhaseVariables, task: Task) -> Any:
    model, start = built.model, built.start[task.name]
    assert task.bake is not None
    x = model.new_bool_var(f"{task.name} in {oven.name} phase {number}")
    model.add_implication(x, phase.used)
    model.add(start >= phase.start).only_enforce_if(x)
    model.add(start + task.minutes <= phase.end).only_enforce_if(x)
    shut = phase.keys.get(shut_key_of(task.bake))
    if shut is not None:
        model.add(start == phase.start).only_enforce_if(x, shut)
        model.add(start + task.minutes == phase.end).only_enforce_if(x, shut)
    own = phase.keys[key_of(task.bake)]
    model.add_bool_or([own] if shut is None else [own, shut]).only_enforce_if(x)
    built.chosen[task.name].append((oven.name, number, x))
    return x


def _changes(built: Built, oven: Oven, phases: list[PhaseVariables], samples: dict[Key, Bake]) -> None:
    """A later phase is used only after an earlier one, and when the oven has changed over."""
    for first, second in zip(phases, phases[1:], strict=False):
        built.model.add_implication(second.used, first.used)
        for key, sample in samples.items():
            for other, other_sample in samples.items():
                gap = oven.between_minutes(sample, other_sample)
                built.model.add(second.start >= first.end + gap).only_enforce_if(
                    first.keys[key], second.keys[other], second.used
                )


def _after_what_is_inside(
    built: Built,
    oven: Oven,
    phases: list[PhaseVariables],
    samples: dict[Key, Bake],
    busy: tuple[Busy, ...],
) -> None:
    """A phase joins what bakes at its heat, or waits for it to end and for the oven to change."""
    for inside in busy:
        for key, sample in samples.items():
            if key == key_of(inside.bake) and not sample.alone:
                continue
            free = inside.end + oven.between_minutes(inside.bake, sample)
            if free <= 0:
                continue
            for phase in phases:
                built.model.add(phase.start >= free).only_enforce_if(phase.keys[key], phase.used)


def _trays(
    built: Built, oven: Oven, bakes: list[Task], inside: dict[str, list[Any]], held: list[Busy]
) -> None:
    taken = sum(each.bake.trays for each in held)
    if taken + sum(t.bake.trays for t in bakes if t.bake) <= oven.trays:
        return
    intervals = [built.model.new_fixed_size_interval_var(0, each.end, "held") for each in held]
    demands = [each.bake.trays for each in held]
    for task in bakes:
        here = built.model.new_bool_var(f"{task.name} in {oven.name}")
        built.model.add(sum(inside[task.name]) == here)
        intervals.append(
            built.model.new_optional_fixed_size_interval_var(
                built.start[task.name], task.minutes, here, f"{task.name} on {oven.name}"
            )
        )
    demands += [t.bake.trays for t in bakes if t.bake]
    built.model.add_cumulative(intervals, demands, oven.trays)


def _benches_in_order(built: Built) -> None:
    """Benches that are the same in everything end in the order of their numbers (no plan is lost)."""
    for twins in twin_benches(built.problem):
        last = [ordering(built.problem, names) for names in twins]
        for first, second in zip(last, last[1:], strict=False):
            built.model.add(built.start[first] <= built.start[second])


def hint(built: Built, answer: Answer) -> None:
    """Give the model a whole answer to begin with: times, phases, keys, ovens."""
    model, problem = built.model, built.problem
    model.clear_hints()
    answer = sorted_by_twins(problem, answer)
    told: set[int] = set()
    for name, variable in built.start.items():
        if variable.index not in told:
            told.add(variable.index)
            model.add_hint(variable, answer.starts[name])
    model.add_hint(built.finish, answer.finish(problem))
    hint_ways(built, answer)
    hint_ovens(built, answer)


def hint_ovens(built: Built, answer: Answer) -> None:
    """The ovens' part of a hint: phases, keys, and which bake is in which."""
    model, problem = built.model, built.problem
    phase_of: dict[str, tuple[str, int]] = {}
    phases = phases_of(problem, answer)
    for (oven, number), variables in built.phase.items():
        phase = phases[oven][number] if number < len(phases[oven]) else None
        _hint_phase(built, variables, phase)
        phase_of.update({name: (oven, number) for name in (phase.bakes if phase else ())})
    for name, picks in built.chosen.items():
        for oven, number, x in picks:
            model.add_hint(x, phase_of.get(name) == (oven, number))


def _hint_phase(built: Built, variables: PhaseVariables, phase: Phase | None) -> None:
    built.model.add_hint(variables.used, phase is not None)
    built.model.add_hint(variables.start, phase.start if phase else built.horizon)
    built.model.add_hint(variables.end, phase.end if phase else built.horizon)
    first = next(iter(variables.keys))
    for key, boolean in variables.keys.items():
        built.model.add_hint(boolean, key == (phase.key if phase else first))
