"""Ways to do a step as part of the constraint model: one is chosen, and only its part is there.

For ``model.py`` only. A task with several ways has one start; its length is that of the way
chosen. What of the room a way uses, and the lecturer, are held by a part that is there only
when that way is chosen. Tasks that choose together share the choice.
"""

from typing import Any

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.choices import choosing, chosen_together, ways_of_task


def choose(built: Any) -> None:
    """One boolean for each way, exactly one true; the length of each task follows."""
    model, task = built.model, built.problem.task
    for names in chosen_together(built.problem):
        count = 1 + len(task[names[0]].ways)
        taken = [model.new_bool_var(f"{names[0]} way {number}") for number in range(count)]
        model.add_exactly_one(taken)
        for name in names:
            built.way[name] = taken
            minutes = [way.minutes for way in ways_of_task(task[name])]
            length = model.new_int_var(min(minutes), max(minutes), f"{name} lasts")
            model.add(length == sum(m * x for m, x in zip(minutes, taken, strict=True)))
            built.length[name] = length


def optional_parts(built: Any) -> None:
    """For each way what it holds, there only when it is chosen."""
    for task in choosing(built.problem):
        for way, x in zip(ways_of_task(task), built.way[task.name], strict=True):
            part = built.model.new_optional_fixed_size_interval_var(
                built.start[task.name], way.minutes, x, f"{task.name} by {way.name}"
            )
            built.parts.append((part, way))


def ways_of_answer(built: Any, solver: Any) -> dict[str, int]:
    """The number of the way of each task that the solver does not do the usual way."""
    numbers = {n: next(i for i, x in enumerate(t) if solver.boolean_value(x)) for n, t in built.way.items()}
    return {name: number for name, number in numbers.items() if number}


def hint_ways(built: Any, answer: Answer) -> None:
    """The choices of a hint, each boolean once."""
    told: set[int] = set()
    for name, taken in built.way.items():
        number = answer.ways.get(name, 0)
        built.model.add_hint(built.length[name], ways_of_task(built.problem.task[name])[number].minutes)
        for way, x in enumerate(taken):
            if x.index not in told:
                told.add(x.index)
                built.model.add_hint(x, way == number)
