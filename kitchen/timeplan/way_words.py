"""Why a bench does a step another way than usual, in words: for the page of the plan and the strip.

Worked example: two mixers, both with other benches from minute 20 to 34. A bench that begins
at minute 20 by hand reads "By hand, 18 min, since the mixers are taken."
"""

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.problem import Problem


def way_words(problem: Problem, answer: Answer, name: str, way: str, place: str) -> str:
    """ "By hand, 18 min, since the mixers are taken." ``place`` is where the usual way would be done."""
    task = problem.task[name]
    how = {"hand": "By hand", "machine": "By machine"}.get(way, way.capitalize())
    supply = next((each for each in problem.supplies if each.name == place), None)
    if supply is None or not _is_taken(problem, answer, name, place, supply.units):
        return f"{how}, {task.minutes} min."
    words = supply.words or supply.name.replace("_", " ")
    return f"{how}, {task.minutes} min, since the {words} are taken."


def _is_taken(problem: Problem, answer: Answer, name: str, place: str, units: int) -> bool:
    """Whether other work has all of it at some minute while this is done."""
    start = answer.starts[name]
    minutes = range(start, start + problem.task[name].minutes)
    using = [
        (answer.starts[t.name], t.minutes, dict(t.uses)[place])
        for t in problem.tasks
        if place in dict(t.uses)
    ]
    return any(sum(n for at, lasts, n in using if at <= m < at + lasts) >= units for m in minutes)
