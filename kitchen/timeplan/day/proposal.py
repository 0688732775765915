"""A re-plan between the page that shows it and the tap that accepts it, and as a plan for people.

The page carries the proposal sealed, so that what is accepted is what was seen; it names the
plan and the last event it was made from. ``plan_on_the_day`` puts the answer's minutes into
the plan that stood: its words stay, its bars, demonstrations and ovens move.
"""

import hashlib
import json
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from curriculum.wording import clock_minutes
from kitchen.timeplan.answer import Answer
from kitchen.timeplan.day.live import Deed, Live, live
from kitchen.timeplan.day.solver import Replan
from kitchen.timeplan.lesson_problem import part_name, show_name, taste_name
from kitchen.timeplan.model import phases_of
from kitchen.timeplan.plan import ON_THE_DAY, Bar, BenchPlan, LessonPlan, OvenPlan, PlanLine, heats_of
from kitchen.timeplan.problem import Problem

SHAPE = 1


@dataclass(frozen=True)
class Proposal:
    """The answer of a re-plan with what it was made from: plan, last event, minute."""

    plan_number: int
    last_number: int
    now: int
    starts: dict[str, int]
    ovens: dict[str, str]

    @property
    def mark(self) -> str:
        """A hash of all of it: the same proposal accepted twice is one plan."""
        return hashlib.sha256(json.dumps(kept_proposal(self), sort_keys=True).encode()).hexdigest()

    def state_of(self, problem: Problem, plan: Answer, deeds: Iterable[Deed]) -> Live:
        """How the class stood at the minute of the proposal."""
        return live(problem, plan, deeds, self.now)


def proposal_of(found: Replan, plan_number: int, last_number: int) -> Proposal:
    """The proposal of a re-plan that has an answer."""
    assert found.answer is not None
    return Proposal(
        plan_number, last_number, found.at.now, dict(found.answer.starts), dict(found.answer.ovens)
    )


def kept_proposal(proposal: Proposal) -> dict[str, Any]:
    """As JSON."""
    return {
        "shape": SHAPE,
        "plan": proposal.plan_number,
        "last": proposal.last_number,
        "now": proposal.now,
        "starts": proposal.starts,
        "ovens": proposal.ovens,
    }


def read_proposal(kept: dict[str, Any]) -> Proposal:
    """Back from its JSON. ValueError for a shape that nobody wrote."""
    if kept.get("shape") != SHAPE:
        raise ValueError(f"a proposal of shape {kept.get('shape')} is not known")
    return Proposal(kept["plan"], kept["last"], kept["now"], kept["starts"], kept["ovens"])


def plan_on_the_day(
    plan: LessonPlan, state: Live, answer: Answer, bound: int, names: dict[str, str]
) -> LessonPlan:
    """The plan with the answer's minutes; benches at which nobody is left keep theirs.

    ``names`` are the ovens' for people, by code.
    """
    whole = Answer({**state.plan.starts, **answer.starts}, {**state.plan.ovens, **answer.ovens})
    finish = max(
        whole.starts[t.name] + _lasts(state, t.name) for t in state.problem.tasks if t.bench not in state.gone
    )
    return replace(
        plan,
        benches=tuple(_bench(plan, state, whole, bench, names) for bench in plan.benches),
        ovens=tuple(_ovens(plan, state, whole, names)),
        shows=tuple(
            replace(show, start=plan.cooking_from + whole.starts[show_name(show.step)]) for show in plan.shows
        ),
        finish_minutes=finish,
        bound_minutes=min(bound, finish),
        status=ON_THE_DAY,
        gone=tuple(bench.name for bench in plan.benches if bench.name in state.gone),
    )


def _lasts(state: Live, name: str) -> int:
    if name in state.begun:
        return state.expected_end(name) - state.begun[name]
    return state.lasts(name)


def _bench(
    plan: LessonPlan, state: Live, whole: Answer, bench: BenchPlan, names: dict[str, str]
) -> BenchPlan:
    parts: Counter[int] = Counter()
    bars: list[Bar] = []
    for bar in bench.bars:
        name = part_name(bench.name, bar.step, parts[bar.step]) if bar.step else taste_name(bench.name)
        parts[bar.step] += 1
        where = names.get(whole.ovens[name], whole.ovens[name]) if bar.kind == "oven" else bar.where
        start = plan.cooking_from + whole.starts[name]
        bars.append(replace(bar, start=start, minutes=_lasts(state, name), where=where))
    lines = [_line(line, bench.bars, bars) for line in bench.lines]
    return replace(
        bench, bars=tuple(bars), lines=tuple(sorted(lines, key=lambda line: (line.start, line.step)))
    )


def _line(line: PlanLine, old: tuple[Bar, ...], new: list[Bar]) -> PlanLine:
    """The line at its new minutes; clock times and ovens in its points follow."""
    pairs = [(before, after) for before, after in zip(old, new, strict=True) if before.step == line.step]
    hands = [after for _, after in pairs if after.kind == "hands"]
    return replace(
        line,
        start=(hands or [after for _, after in pairs])[0].start,
        end=max(after.end for _, after in pairs),
        points=tuple(_moved_points(line.points, pairs)),
    )


def _moved_points(points: tuple[str, ...], pairs: list[tuple[Bar, Bar]]) -> Iterator[str]:
    """Each point about a stay with its new clock time, place and minutes; any other as it is."""
    stays = [(before, after) for before, after in pairs if before.kind != "hands"]
    for point in points:
        pair = next((each for each in stays if point.startswith(_heads(each[0]))), None)
        if pair is None:
            yield point
            continue
        stays.remove(pair)
        yield _moved_point(point, *pair)


def _heads(bar: Bar) -> tuple[str, str]:
    """What the point of a stay begins with: "From 09:50 ", "Until 10:15 "."""
    return f"From {clock_minutes(bar.start)} ", f"Until {clock_minutes(bar.end)} "


def _moved_point(point: str, before: Bar, after: Bar) -> str:
    old, new = next(
        pair for pair in zip(_heads(before), _heads(after), strict=True) if point.startswith(pair[0])
    )
    rest = point.removeprefix(old)
    if before.kind == "oven":
        rest = rest.replace(f"in {before.where}:", f"in {after.where}:", 1)
    elif rest.endswith(f": {before.minutes} min."):
        rest = rest.removesuffix(f"{before.minutes} min.") + f"{after.minutes} min."
    return new + rest


def _ovens(plan: LessonPlan, state: Live, whole: Answer, names: dict[str, str]) -> Iterator[OvenPlan]:
    """Ovens and their heats; one that has been lit was lit when the plan said so."""
    lit = {oven.code: oven.light_at for oven in plan.ovens}
    tasks = tuple(task for task in state.problem.tasks if task.bench not in state.gone)
    left = {task.name for task in tasks}
    windows = tuple(w for w in state.problem.windows if {w.before, w.after} <= left)
    here = replace(state.problem.free(), tasks=tasks, windows=windows)
    ovens = {oven.name: oven for oven in here.ovens}
    for code, phases in phases_of(here, whole).items():
        heats = tuple(heat for each in phases for heat in heats_of(plan.cooking_from, here, each))
        if not heats:
            continue
        light_at = lit.get(code)
        if light_at is None or light_at > plan.cooking_from + state.now:
            light_at = heats[0].start - ovens[code].heat_up_minutes(here.task[phases[0].bakes[0]].bake)
        yield OvenPlan(code, names.get(code, code), light_at, heats)
