"""What a person fixed, put into the question.

For ``lesson_problem.py`` and for whatever asks what the fixed things cost or break. In prose:

- A fixed start is the earliest and the latest minute of its part. The step leaves its wave and
  the clock on the fives: what a person says goes before how the class is led.
- A fixed oven is the only one that the bake may go into.
- An order is a window of at least no minute between the two parts.
- What means nothing in the lesson as it is now (a step done ahead, an oven that is away, a
  minute before cooking begins, an order against the recipe's own) is left out and said.

Worked example: cooking may begin 15 minutes after the lesson; a start fixed 65 minutes after
the lesson's is minute 50 of the question.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from kitchen.timeplan.names import part_name, show_name
from kitchen.timeplan.pins.data import ORDER, OVEN, START, PinData
from kitchen.timeplan.problem import Demonstration, Problem, Task, Window


@dataclass(frozen=True, slots=True)
class Fixed:
    """The question with what could be fixed, and (pin, why not) for what means nothing now."""

    problem: Problem
    left_out: tuple[tuple[PinData, str], ...] = ()


def part_of(pin: PinData) -> str:
    """Name in the question of what the pin is about."""
    return part_name(pin.bench, pin.step, pin.part) if pin.bench else show_name(pin.step)


def other_part_of(pin: PinData) -> str:
    """Name in the question of what comes after, in an order."""
    return part_name(pin.other_bench, pin.other_step, pin.other_part)


def fixed_by(problem: Problem, pins: Iterable[PinData], start_minutes: int) -> Fixed:
    """The question with everything fixed that means something in it."""
    left_out = []
    for pin in pins:
        why = why_not(problem, pin, start_minutes)
        if why:
            left_out.append((pin, why))
        else:
            problem = _PUT[pin.kind](problem, pin, start_minutes)
    return Fixed(problem, tuple(left_out))


def why_not(problem: Problem, pin: PinData, start_minutes: int) -> str:
    """Why a pin means nothing in this question, as a sentence; empty when it does."""
    names = {part_of(pin)} | ({other_part_of(pin)} if pin.kind == ORDER else set())
    shown = {show.name for show in problem.demonstrations}
    known = set(problem.task) | (shown if pin.kind == START else set())
    if not names <= known:
        return "The lesson has no such step at that bench now."
    if pin.kind == START and pin.minute < start_minutes:
        return "That is before cooking may begin."
    if pin.kind == OVEN and not _takes(problem, pin):
        return "No such oven is in the room now that takes this bake."
    if pin.kind == ORDER and part_of(pin) == other_part_of(pin):
        return "That is one and the same part: it cannot end before it begins."
    if pin.kind == ORDER and not _may_follow(problem, pin):
        return "The recipe, or another order that is fixed, has it the other way round."
    return ""


def _takes(problem: Problem, pin: PinData) -> bool:
    task = replace(problem.task[part_of(pin)], only_ovens=())
    return any(oven.name == pin.oven and task.may_go_in(oven) for oven in problem.ovens)


def _may_follow(problem: Problem, pin: PinData) -> bool:
    try:
        _with_order(problem, pin, 0)
    except ValueError:
        return False
    return True


def _with_order(problem: Problem, pin: PinData, _: int) -> Problem:
    return replace(problem, windows=(*problem.windows, Window(part_of(pin), other_part_of(pin))))


def _with_oven(problem: Problem, pin: PinData, _: int) -> Problem:
    def change(task: Task) -> Task:
        return replace(task, only_ovens=(pin.oven,)) if task.name == part_of(pin) else task

    return replace(problem, tasks=tuple(map(change, problem.tasks)))


def _with_start(problem: Problem, pin: PinData, start_minutes: int) -> Problem:
    name, minute = part_of(pin), pin.minute - start_minutes

    def at(thing: Task | Demonstration) -> Any:
        return replace(thing, earliest=minute, latest=minute) if thing.name == name else thing

    own = {name} | {t.name for t in problem.tasks if pin.bench and (t.bench, t.step) == (pin.bench, pin.step)}
    groups = (tuple(each for each in group if each not in own) for group in problem.together)
    return replace(
        problem,
        tasks=tuple(map(at, problem.tasks)),
        demonstrations=tuple(map(at, problem.demonstrations)),
        together=tuple(group for group in groups if len(group) > 1),
        on_the_clock=problem.on_the_clock - own,
    )


_PUT = {START: _with_start, OVEN: _with_oven, ORDER: _with_order}
