"""Phases of an oven: what bakes at one heat, one load after another in order of time.

For ``model.py``, which chooses them, and for whoever reads an answer oven by oven: the plan
on the page, the changes of heat, the hints. A phase has one key: a plain temperature, or the
whole setting of a bake that must be alone (door shut, more than one stay).

Worked example: two trays at 180 °C from minutes 20 and 30 for 20 each are one phase from 20
to 50; a third at 150 °C from minute 60 is the next.
"""

from dataclasses import dataclass, replace
from typing import Any

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.bounds import heads, tails
from kitchen.timeplan.problem import Bake, Oven, Problem, Task

Key = tuple[Any, ...]


def key_of(bake: Bake) -> Key:
    """What two bakes must have in common to share a phase."""
    if bake.alone:
        return ("alone", bake.heat, *((stay.minutes, stay.decicelsius) for stay in bake.stays))
    return ("heat", bake.heat, bake.begins_at)


def shut_key_of(bake: Bake) -> Key:
    """The key of bakes with its very stays that must be alone: it may go in and come out with them."""
    return key_of(replace(bake, door_shut=True))


@dataclass(frozen=True, slots=True)
class Phase:
    """One phase of an oven in an answer: its key, its time, the bakes inside."""

    key: Key
    start: int
    end: int
    bakes: tuple[str, ...]


def phases_of(problem: Problem, answer: Answer) -> dict[str, list[Phase]]:
    """Phases of every oven of an answer, in order of time; neighbours of one heat are joined."""
    inside: dict[str, list[Task]] = {oven.name: [] for oven in problem.ovens}
    for task in problem.tasks:
        if task.bake is not None:
            inside[answer.ovens[task.name]].append(task)
    out = {}
    for oven, tasks in inside.items():
        phases: list[Phase] = []
        for task in sorted(tasks, key=lambda t: (answer.starts[t.name], not t.bake.alone, t.name)):
            _add_to_phases(phases, task, answer.starts[task.name])
        out[oven] = phases
    return out


def _add_to_phases(phases: list[Phase], task: Task, start: int) -> None:
    assert task.bake is not None
    key, end = key_of(task.bake), start + task.minutes
    last = phases[-1] if phases else None
    if last and last.start == start and last.key == shut_key_of(task.bake):
        phases[-1] = replace(last, bakes=(*last.bakes, task.name))
    elif last and last.key == key and not task.bake.alone:
        phases[-1] = Phase(key, last.start, max(last.end, end), (*last.bakes, task.name))
    else:
        phases.append(Phase(key, start, end, (task.name,)))


@dataclass(frozen=True, slots=True)
class _Room:
    """Of the bakes of one key: minutes of the shortest, when the first may go in and the last is out."""

    sample: Bake
    minutes: int
    first: int
    last_out: int


def most_phases(problem: Problem, horizon: int, enough: int) -> int:
    """More phases than this has no oven in any plan within ``horizon`` minutes; ``enough`` ends the count.

    The quickest row of so many phases, whichever their keys, is put into the time there is. A model
    that gives every oven so many phases loses no plan: what it proves is proved of the real question.

    Worked example: a tart is baked blind at 180 °C from minute 60 at the earliest, and with its
    filling at 150 °C, out by minute 140. An oven goes from the one heat to the other once: two phases.
    """
    head, tail = heads(problem), tails(problem)
    return max(
        (_most_of_one(problem, oven, head, tail, horizon, enough) for oven in problem.ovens), default=0
    )


def _most_of_one(
    problem: Problem, oven: Oven, head: dict[str, int], tail: dict[str, int], horizon: int, enough: int
) -> int:
    rooms: dict[Key, _Room] = {}
    bakes = [(t, t.bake) for t in problem.tasks if t.bake is not None and t.may_go_in(oven)]
    for task, bake in bakes:
        first, last_out = max(head[task.name], oven.heat_up_minutes(bake)), horizon - tail[task.name]
        known = rooms.setdefault(key_of(bake), _Room(bake, task.minutes, first, last_out))
        rooms[key_of(bake)] = _Room(
            bake,
            min(known.minutes, task.minutes),
            min(known.first, first),
            max(known.last_out, last_out),
        )
    ends = {key: room.first + room.minutes for key, room in rooms.items()}
    count = 0
    while count < min(enough, len(bakes)):
        ends = {key: end for key, end in ends.items() if end <= rooms[key].last_out}
        if not ends:
            break
        count += 1
        ends = _after(oven, rooms, ends)
    return count


def _after(oven: Oven, rooms: dict[Key, _Room], ends: dict[Key, int]) -> dict[Key, int]:
    """When one more phase of each key ends at the earliest, after a row that ends as told."""
    more: dict[Key, int] = {}
    for key, room in rooms.items():
        free = [
            end + oven.between_minutes(rooms[before].sample, room.sample)
            for before, end in ends.items()
            if before != key or room.sample.alone
        ]
        if free:
            more[key] = max(room.first, min(free)) + room.minutes
    return more
