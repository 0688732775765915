"""A learner's order of work, judged by the rules of the time plan itself.

For ``queries.py``. The lesson's question is restricted to one bench; what the learner wrote
becomes an ``Answer``; ``answer.check`` says what breaks. Nothing is judged here that the
check judges.

Rules, in prose:
- A step begins at the time written for it; its hands and its stays follow without a pause.
- What has no time that can be read, or one outside the minutes for cooking, is left out of
  the question with every wait for it, and named.
- What a person fixed by hand in the class's plan is not asked of a learner.
- Where the class has an accepted plan, its demonstrations stand where it puts them, bakes go
  into the ovens it gives the bench, and the lecturer is where it says. Without one, nothing is
  shown, and a bake goes into whatever oven it breaks least in.
- Cleaning with a time and minutes takes a pair of hands like any step.

Worked example: lining written for 09:15 takes 10 minutes and may stand for at most 30; the
bake written for 10:00 follows after 35, and the check says so.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from curriculum.wording import clock_minutes
from kitchen.timeplan.answer import Answer, check, minutes_over, two_bakes
from kitchen.timeplan.beside import BESIDE
from kitchen.timeplan.choices import settled
from kitchen.timeplan.class_data import LessonData
from kitchen.timeplan.lesson_problem import RoomLacks, problem_of
from kitchen.timeplan.own_order.told import Clock, Told, told
from kitchen.timeplan.own_order.written import (
    Trouble,
    WrittenOrder,
    minutes_from,
    read_or_none,
    unreadable,
)
from kitchen.timeplan.plan import LessonPlan
from kitchen.timeplan.plan_answer import answer_of
from kitchen.timeplan.problem import Problem, Task

#: A wait shorter than this needs no other work in it, in minutes. Common practice, no source.
LONG_WAIT_MINUTES = 10
PLATE = 0
NOT_PLANNED = (
    "No time plan of the lesson as it is now is accepted: demonstrations, and where the lecturer is,"
    " are not looked at."
)


@dataclass(frozen=True)
class Around:
    """What stands round one bench: the lesson, and where the accepted plan puts what is not its own.

    ``lecturer`` holds what the lecturer does beside benches (task and start); ``planned`` is False
    where no plan of the lesson as it is was accepted. ``ways`` are those in which it has steps
    done that may be done in several.
    """

    lesson: LessonData
    planned: bool
    starts: Mapping[str, int]
    ovens: Mapping[str, str]
    lecturer: tuple[tuple[Task, int], ...] = ()
    ways: Mapping[str, int] = field(default_factory=dict)

    @property
    def clock(self) -> Clock:
        """When cooking begins, and what ovens are called."""
        names = {each.code: each.name for each in self.lesson.appliances}
        return Clock(self.lesson.cooking_from, names)


@dataclass(frozen=True, slots=True)
class Judged:
    """What was found in an order: what breaks, what cannot be read, what has no time, remarks.

    ``looked_at`` is False where the rules could not be asked at all, so that nothing found says nothing;
    ``any_timed`` is False where no step has a time that can be used.
    """

    breaks: tuple[Told, ...] = ()
    troubles: tuple[Trouble, ...] = ()
    missing: tuple[int, ...] = ()
    remarks: tuple[str, ...] = ()
    unlooked: str = ""
    looked_at: bool = True
    any_timed: bool = True


def around(lesson: LessonData, plan: LessonPlan | None) -> Around:
    """The class round a bench. ``plan`` is the accepted one of the lesson as it is, or None.

    RoomLacks as ``problem_of`` raises it.
    """
    if plan is None:
        return Around(lesson, planned=False, starts={}, ovens={})
    answer = answer_of(plan)
    whole = settled(problem_of(replace(lesson, pins=())), answer.ways)
    beside = [task for task in whole.tasks if task.lecturer or _beside(task)]
    busy = tuple((task, answer.starts[task.name]) for task in beside if task.name in answer.starts)
    return Around(lesson, True, answer.starts, answer.ovens, busy, answer.ways)


def _beside(task: Task) -> tuple[tuple[str, int], ...]:
    """What it takes of the people who may stand beside, where there are several."""
    return tuple((name, units) for name, units in task.uses if name == BESIDE)


def judged(class_: Around, bench: str, order: WrittenOrder) -> Judged:
    """Everything that can be said about what was written for that bench."""
    try:
        problem = bench_problem(class_, bench)
    except RoomLacks:
        return Judged(
            troubles=tuple(unreadable(order)),
            unlooked="The room lacks something that a step needs. Your lecturer has to settle that first.",
            looked_at=False,
        )
    troubles = (*unreadable(order), *_outside(class_, order))
    starts = _starts(class_, problem, order, {trouble.field for trouble in troubles})
    asked = _asked(class_, bench, problem, order, starts)
    return Judged(
        breaks=tuple(_breaks(class_, *asked)) if asked else (),
        troubles=troubles,
        missing=tuple(step for step in _steps(problem) if not order.line(step).at.strip()),
        remarks=tuple(_remarks(order, asked)),
        unlooked="" if class_.planned else NOT_PLANNED,
        any_timed=asked is not None,
    )


def bench_problem(class_: Around, bench: str) -> Problem:
    """The lesson's question of that bench alone, led by nobody; steps are called "step 3"."""
    lesson = class_.lesson
    own = tuple(each for each in lesson.benches if each.name == bench)
    shown = lesson.shown if class_.planned else ()
    asked = problem_of(replace(lesson, benches=own, shown=shown, pins=())).free()
    problem = settled(asked, class_.ways)
    tasks = tuple(replace(task, words=_called(task)) for task in problem.tasks)
    return replace(problem, tasks=tasks)


def _called(task: Task) -> str:
    return f"step {task.step}" if task.step is not None else "the plate at the pass"


def _step_of(task: Task) -> int:
    return PLATE if task.step is None else task.step


def _steps(problem: Problem) -> tuple[int, ...]:
    """Steps of the question in the order of the recipe, the plate at the pass last."""
    steps = dict.fromkeys(_step_of(task) for task in problem.tasks)
    return tuple(sorted(steps, key=lambda step: (step == PLATE, step)))


def _outside(class_: Around, order: WrittenOrder) -> Iterator[Trouble]:
    """Times that can be read and lie outside the minutes for cooking."""
    first = class_.lesson.cooking_from
    last = first + class_.lesson.usable_minutes
    fields = [(f"at_{line.step}", line.at) for line in order.steps]
    fields += [(f"clean_at_{number}", clean.at) for number, clean in enumerate(order.cleaning, 1)]
    for name, words in fields:
        minute = read_or_none(words)
        if minute is not None and not first <= minute < last:
            between = f"Cooking is from {clock_minutes(first)} to {clock_minutes(last)}."
            yield Trouble(name, f"You wrote “{words}”. {between}")


def _starts(class_: Around, problem: Problem, order: WrittenOrder, refused: set[str]) -> dict[str, int]:
    """Start of each task whose step has a time that can be used: its parts one after another."""
    starts: dict[str, int] = {}
    follows: dict[int, int] = {}
    for task in problem.tasks:
        step = _step_of(task)
        minute = None if f"at_{step}" in refused else read_or_none(order.line(step).at)
        if minute is not None:
            starts[task.name] = follows.get(step, minute - class_.lesson.cooking_from)
            follows[step] = starts[task.name] + task.minutes
    return starts


def _asked(
    class_: Around, bench: str, problem: Problem, order: WrittenOrder, starts: dict[str, int]
) -> tuple[Problem, Answer] | None:
    """The question of what has a time, with cleaning and the lecturer's other benches, and its answer."""
    shows = tuple(show for show in problem.demonstrations if show.name in class_.starts)
    shown = {show.name for show in shows}
    tasks = [
        replace(task, shown_by=task.shown_by if task.shown_by in shown else None)
        for task in problem.tasks
        if task.name in starts
    ]
    if not tasks:
        return None
    put = dict(starts)
    people = {supply.name for supply in problem.supplies} & {BESIDE}
    for task, start in (*_cleaning(class_, bench, order), *_elsewhere(class_, bench, people)):
        tasks.append(task)
        put[task.name] = start
    asked = replace(
        problem,
        tasks=tuple(tasks),
        windows=tuple(w for w in problem.windows if {w.before, w.after} <= starts.keys()),
        demonstrations=shows,
    )
    answer = Answer(put | {name: class_.starts[name] for name in shown}, {})
    return asked, replace(answer, ovens=_ovens(class_, asked, answer))


def _cleaning(class_: Around, bench: str, order: WrittenOrder) -> Iterator[tuple[Task, int]]:
    last = class_.lesson.usable_minutes
    for number, clean in enumerate(order.cleaning, 1):
        minute, minutes = read_or_none(clean.at), read_or_none(clean.minutes, minutes_from)
        if minute is None or minutes is None:
            continue
        start = minute - class_.lesson.cooking_from
        if 0 <= start < last:
            words = f"the cleaning of {clock_minutes(minute)}"
            yield Task(f"{bench}/cleaning/{number}", minutes, bench, hands=True, words=words), start


def _elsewhere(class_: Around, bench: str, people: set[str]) -> Iterator[tuple[Task, int]]:
    """Who stands beside other benches, where the accepted plan puts them."""
    for task, start in class_.lecturer:
        if task.bench != bench:
            uses = _beside(task) if people else ()
            busy = Task(f"elsewhere/{task.name}", task.minutes, lecturer=task.lecturer, uses=uses)
            yield replace(busy, words=f"bench {task.bench}"), start


def _ovens(class_: Around, problem: Problem, answer: Answer) -> dict[str, str]:
    """The oven of each bake: the plan's where there is one, else the one in which least breaks."""
    ovens: dict[str, str] = {}
    inside: dict[str, list[Task]] = {oven.name: [] for oven in problem.ovens}
    bakes = [task for task in problem.tasks if task.bake is not None]
    for task in sorted(bakes, key=lambda task: (answer.starts[task.name], task.name)):
        name = class_.ovens.get(task.name) or _least_broken(problem, answer, task, inside)
        ovens[task.name] = name
        inside[name].append(task)
    return ovens


def _least_broken(problem: Problem, answer: Answer, task: Task, inside: dict[str, list[Task]]) -> str:
    def broken(name: str) -> int:
        oven = next(each for each in problem.ovens if each.name == name)
        cold = answer.starts[task.name] < oven.heat_up_minutes(task.bake)
        over = sum(len(list(two_bakes(oven, other, task, answer))) for other in inside[name])
        trays = task.bake.trays + sum(other.bake.trays for other in inside[name])
        return 2 * over + cold + (trays > oven.trays)

    able = [oven.name for oven in problem.ovens if oven.takes(task.bake)]
    return min(able, key=broken)


def _breaks(class_: Around, problem: Problem, answer: Answer) -> Iterator[Told]:
    clock = class_.clock
    for found in check(problem, answer):
        yield told(problem, answer, found, clock)
    own = tuple(replace(task, shown_by=None) for task in problem.tasks if task.bench is not None)
    over = minutes_over(replace(problem, tasks=own, demonstrations=(), windows=()), answer)
    if over:
        last = max(own, key=lambda task: answer.starts[task.name] + task.minutes)
        ends = clock.at(answer.starts[last.name] + last.minutes)
        words = f"{last.called} ends at {ends}, {over} min after cooking has to end."
        yield Told("over", words[:1].upper() + words[1:], (last.step,) if last.step else ())


def _remarks(order: WrittenOrder, asked: tuple[Problem, Answer] | None) -> Iterator[str]:
    """What a good order of work has and this one has not: no rule is broken by it."""
    timed = [
        each
        for each in order.cleaning
        if read_or_none(each.at) is not None and read_or_none(each.minutes, minutes_from) is not None
    ]
    if not timed:
        yield "No cleaning has a time and its minutes yet."
    if not order.contingency.strip():
        yield "Nothing is written for when something goes wrong."
    if asked is not None:
        yield from _idle(order, *asked)


def _idle(order: WrittenOrder, problem: Problem, answer: Answer) -> Iterator[str]:
    """Long waits in which no hands are at work and nothing is written."""
    at_work = [(answer.starts[t.name], answer.starts[t.name] + t.minutes) for t in problem.tasks if t.hands]
    for task in problem.tasks:
        if task.hands or task.bench is None or task.minutes < LONG_WAIT_MINUTES or task.assessor:
            continue
        start = answer.starts[task.name]
        filled = any(begins < start + task.minutes and ends > start for begins, ends in at_work)
        if not filled and not order.line(_step_of(task)).meanwhile.strip():
            yield f"Nothing is written for the {task.minutes} min in which the food of {task.called} stays."
