"""What an order of work breaks, in words for the one who wrote it.

For ``judging.py``. The rules are those of ``answer.py`` and nothing is judged here: what it
found is said on the clock, by step, with the figure and the limit, and never with the minute
that would have been right.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from curriculum.wording import clock_minutes, listed, temperature
from kitchen.timeplan.answer import Answer, Break
from kitchen.timeplan.beside import BESIDE
from kitchen.timeplan.problem import Problem, Task

MINUTE = re.compile(r"\bminute (\d+)")
STEP = re.compile(r"\bstep (\d+)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Told:
    """One thing that breaks: the code of the rule, a sentence, and the steps that it is about."""

    code: str
    words: str
    steps: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Clock:
    """What words need besides the question: when cooking begins, and the names of ovens by code."""

    cooking_from: int
    ovens: Mapping[str, str]

    def at(self, minute: int) -> str:
        """A minute of the question as a time of day."""
        return clock_minutes(self.cooking_from + minute)


def told(problem: Problem, answer: Answer, found: Break, clock: Clock) -> Told:
    """A break of the check as it is said to the learner."""
    minute = MINUTE.search(found.words)
    at = int(minute[1]) if minute else None
    words = _own_words(problem, answer, found, clock, at) or _on_the_clock(found.words, clock)
    steps = {int(number) for number in STEP.findall(words)}
    return Told(found.code, words[:1].upper() + words[1:], tuple(sorted(steps)))


def _own_words(problem: Problem, answer: Answer, found: Break, clock: Clock, at: int | None) -> str:
    """A sentence of our own where the check speaks of the whole class, or of a minute to come."""
    if found.code == "cold_oven":
        return _cold(problem, answer, found, clock)
    if found.code == "not_shown":
        return _not_shown(problem, answer, found, clock)
    if at is None:
        return ""
    if found.code == "hands":
        return _hands(problem, answer, clock, at)
    if found.code == "lecturer":
        return _lecturer(problem, answer, clock, at)
    if found.code == "supply" and "stand beside" in found.words:
        own = [t.called for t in _running(problem, answer, at) if t.bench and BESIDE in dict(t.uses)]
        return f"At {clock.at(at)} {listed(own)} must have somebody beside it; all who may are elsewhere."
    return ""


def _on_the_clock(words: str, clock: Clock) -> str:
    """The sentence of the check with times of day and the names of ovens."""
    words = MINUTE.sub(lambda match: clock.at(int(match[1])), words)
    for code, name in clock.ovens.items():
        words = words.replace(f"Oven {code} ", f"{name} ").replace(f"oven {code} ", f"{name} ")
        words = words.replace(f"oven {code},", f"{name},")
    return re.sub(r"\bAt ([0-9:]{5}) the class needs", r"At \1 you need", words)


def _named(problem: Problem, words: str) -> Task | None:
    """The bake that a sentence begins with."""
    tasks = [task for task in problem.tasks if task.bake and words.lower().startswith(f"{task.called} ")]
    return tasks[0] if tasks else None


def _cold(problem: Problem, answer: Answer, found: Break, clock: Clock) -> str:
    task = _named(problem, found.words)
    if task is None or task.bake is None:
        return "A bake goes in before its oven is hot from cold."
    oven = next(each for each in problem.ovens if each.name == answer.ovens[task.name])
    name, start = clock.ovens.get(oven.name, oven.name), answer.starts[task.name]
    heat = temperature(task.bake.begins_at)
    need = oven.heat_up_minutes(task.bake)
    return (
        f"{task.called} goes in at {clock.at(start)}: {name} needs {need} min from cold to {heat}"
        f" and gets {start} min."
    )


def _not_shown(problem: Problem, answer: Answer, found: Break, clock: Clock) -> str:
    step = STEP.search(found.words)
    tasks = [task for task in problem.tasks if step and task.step == int(step[1]) and task.shown_by]
    if not tasks:
        return "A step begins before its demonstration has ended."
    at = clock.at(answer.starts[tasks[0].name])
    return f"{tasks[0].called} begins at {at}, before its demonstration has ended."


def _running(problem: Problem, answer: Answer, at: int) -> list[Task]:
    return [t for t in problem.tasks if answer.starts[t.name] <= at < answer.starts[t.name] + t.minutes]


def _watched(problem: Problem, answer: Answer, at: int) -> list[str]:
    shows = problem.demonstrations
    return [d.words for d in shows if answer.starts[d.name] <= at < answer.starts[d.name] + d.minutes]


def _hands(problem: Problem, answer: Answer, clock: Clock, at: int) -> str:
    at_work = [task.called for task in _running(problem, answer, at) if task.hands]
    watched = _watched(problem, answer, at)
    needed = listed([*dict.fromkeys(at_work), *(f"the {words}" for words in watched)])
    cooks = problem.benches[0].cooks
    pairs = "two pairs of hands" if cooks == 2 else "one pair of hands"
    return f"At {clock.at(at)} more hands are needed than you have ({pairs}): {needed} at once."


def _lecturer(problem: Problem, answer: Answer, clock: Clock, at: int) -> str:
    own = [t.called for t in _running(problem, answer, at) if t.lecturer and t.bench is not None]
    where = "shows something to the class" if _watched(problem, answer, at) else "is beside another bench"
    return f"At {clock.at(at)} {listed(own)} must have the lecturer beside it, who {where}."
