"""A plan and how its class stands, with the words and minutes that all lines are told in.

For ``page.py``, ``ovens.py``, ``moves.py`` and ``after.py``.
"""

from dataclasses import dataclass

from curriculum.wording import listed
from kitchen.timeplan.day.live import Live
from kitchen.timeplan.plan import LessonPlan
from kitchen.timeplan.problem import Task

#: So many minutes behind the plan is called late. Common practice, no source: less is reading the clock.
LATE_FROM = 3
#: One tap makes a step so much longer.
MORE_MINUTES = 5
#: Letters of a step's words in a row; the whole words are on the bench's own page.
SHORT = 56
#: A first clause shorter than this says too little ("Meanwhile, …").
CLAUSE = 10


def place_of(task: Task) -> tuple[int, int]:
    """Step and part of a task of a lesson; the plate at the pass is step 0."""
    last = task.name.rsplit("/", 1)[-1]
    return (task.step or 0), (int(last) if last.isdigit() else 0)


def short_words(words: str) -> str:
    """The first sentence of a step, cut at a word when it is long."""
    first = words.split(". ")[0].rstrip(".")
    if len(first) <= SHORT:
        return first
    return first[:SHORT].rsplit(" ", 1)[0].rstrip(",;:") + " …"


def clause(words: str) -> str:
    """The first clause of a step, for a row that is read from a distance."""
    first = short_words(words)
    for mark in (";", ":", ", "):
        head = first.split(mark)[0]
        if len(head) >= CLAUSE:
            first = head
    return first


def after_a_wait(words: str) -> str:
    """What is done once a wait is over: "then trim" of "Cool level, then trim."; empty if not said."""
    _, then, rest = words.partition(", then ")
    return f"then {clause(rest)}" if then else ""


@dataclass(frozen=True)
class Told:
    """A plan and how its class stands: what all rows are told from."""

    plan: LessonPlan
    state: Live
    ovens: dict[str, str]

    @property
    def now(self) -> int:
        """The minute of the day."""
        return self.plan.cooking_from + self.state.now

    def at(self, minute: int) -> int:
        """A minute of the class as a minute of the day."""
        return self.plan.cooking_from + minute

    def oven_name(self, code: str) -> str:
        """ "Oven 4"."""
        return self.ovens.get(code, code)

    def step_words(self, task: Task) -> str:
        """ "5. Blind bake the shell" for a task."""
        step, _ = place_of(task)
        if not step:
            return "At the pass"
        words = self._whole_words(task)
        return f"{step}. {clause(words)}" if words else f"Step {step}"

    def _whole_words(self, task: Task) -> str:
        bench = next(b for b in self.plan.benches if b.name == task.bench)
        return next((line.words for line in bench.lines if line.step == task.step), "")

    def where(self, task: Task) -> str:
        """Where food is while nobody's hands are on it; empty when it only stands."""
        if task.bake is not None:
            return self.oven_name(self.state.oven_of(task.name)).lower()
        return listed(name.replace("_", " ") for name, _ in task.uses)

    def said(self, task: Task) -> str:
        """Its step in words; where its food is when no hands are on it; after a wait, what is done then."""
        words, part = self.step_words(task), self.part_words(task)
        then = after_a_wait(self._whole_words(task)) if task.hands and part else ""
        return f"{place_of(task)[0]}. {then}" if then else ", ".join(filter(None, (words, part)))

    def part_words(self, task: Task) -> str:
        """Which part of its step it is: "oven 4", "on the bench", "at work"; empty where hands begin."""
        if task.hands or task.assessor:
            return "at work" if place_of(task)[1] else ""
        return self.where(task) or "on the bench"


def baking(told: Told) -> list[Task]:
    """What is in ovens now, the first to come out first."""
    inside = [t for t in told.state.problem.tasks if t.bake is not None and told.state.is_running(t.name)]
    return sorted(inside, key=lambda t: told.state.begun[t.name] + told.state.lasts(t.name))


def planned(told: Told, task: Task) -> int:
    """When something that has not begun should begin, put off as somebody tapped."""
    start = told.state.plan.starts[task.name]
    return max(start, told.state.not_before.get(task.name, start))
