"""What can be fixed in a lesson: its waves and benches, the parts of its steps, its ovens.

For the forms and the page. Nothing here asks the database.
"""

from dataclasses import dataclass, replace

from kitchen.timeplan.class_data import LessonData
from kitchen.timeplan.lesson_problem import problem_of, wave_of
from kitchen.timeplan.pins.data import PinData
from kitchen.timeplan.pins.pinned import part_of, why_not
from kitchen.timeplan.problem import Problem, Task

#: Value of the choice for the whole class; a wave is "wave-2", a bench its number.
ALL = "all"
#: Letters of a step's words in a choice. Our own choice, no source.
LONGEST = 56


@dataclass(frozen=True)
class Choices:
    """The lesson with its question, led in so many waves, with what is fixed in force."""

    lesson: LessonData
    waves: int
    problem: Problem

    @property
    def places(self) -> list[tuple[str, str]]:
        """(value, label) of the whole class, each wave and each bench."""
        waves = range(1, self.waves + 1) if self.waves > 1 else ()
        return [
            (ALL, "the whole class"),
            *((f"wave-{wave}", f"wave {wave}") for wave in waves),
            *self.benches,
        ]

    @property
    def benches(self) -> list[tuple[str, str]]:
        """(value, label) of each bench."""
        return [(bench.name, f"bench {bench.name}") for bench in self.lesson.benches]

    def benches_at(self, place: str) -> tuple[str, ...]:
        """The benches that a choice of place means."""
        wave = wave_of(self.lesson, self.waves)
        if place == ALL:
            return tuple(wave)
        if place.startswith("wave-"):
            return tuple(name for name, number in wave.items() if f"wave-{number}" == place)
        return (place,)

    @property
    def parts(self) -> list[tuple[str, str]]:
        """(value, label) of each part of each step: "6-1", "6. Bake blind: in the oven"."""
        return [(value, label) for value, label, _ in self._parts()]

    @property
    def starts(self) -> list[tuple[str, str]]:
        """The parts, and the demonstrations."""
        shows = [(f"show-{each.step}", f"Demonstration of step {each.step}") for each in self.lesson.shown]
        return [*self.parts, *shows]

    @property
    def bakes(self) -> list[tuple[str, str]]:
        """The parts that are in an oven."""
        return [(value, label) for value, label, task in self._parts() if task.bake is not None]

    @property
    def ovens(self) -> list[tuple[str, str]]:
        """(code, name) of each oven of the room."""
        return [(a.code, a.name) for a in self.lesson.appliances if a.kind == "oven"]

    def _parts(self) -> list[tuple[str, str, Task]]:
        words = {s.position: s.words for bench in self.lesson.benches for s in self.lesson.steps_of(bench)}
        found: dict[tuple[int, int], Task] = {}
        for task in self.problem.tasks:
            if task.step:
                found.setdefault((task.step, int(task.name.rsplit("/", 1)[1])), task)
        return [
            (f"{step}-{part}", f"{step}. {_short(words[step])}: {_kind(task)}", task)
            for (step, part), task in sorted(found.items())
        ]

    def pins(self, kind: str, place: str, part: str, **more: object) -> tuple[PinData, ...]:
        """One fixed thing for each bench of a place, or for a demonstration."""
        step, _, number = part.rpartition("-")
        if step == "show":
            return (replace(PinData(0, kind, "", int(number)), **more),)
        benches = self.benches_at(place)
        return tuple(replace(PinData(0, kind, bench, int(step), int(number)), **more) for bench in benches)

    def refusal(self, pin: PinData) -> str:
        """Why it cannot be fixed, as a sentence that names the bench; empty when it can."""
        why = why_not(self.problem, pin, self.lesson.start_minutes)
        if why and part_of(pin) not in self.problem.task and pin.bench:
            return f"Bench {pin.bench} does not do this part in this lesson."
        return why


def choices_of(lesson: LessonData, waves: int) -> Choices:
    """What can be fixed in the lesson as it is led now."""
    return Choices(lesson, waves, problem_of(lesson, waves))


def _short(words: str) -> str:
    if len(words) <= LONGEST:
        return words.rstrip(".")
    return words[:LONGEST].rsplit(" ", 1)[0].rstrip(",;.") + " …"


def _kind(task: Task) -> str:
    if task.bake is not None:
        return f"in the oven, {task.minutes} min"
    return f"{'hands' if task.hands else 'waits'}, {task.minutes} min"
