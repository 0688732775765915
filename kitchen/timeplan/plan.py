"""A lesson's time plan as people read it: benches, ovens and demonstrations on the clock.

For the page, the picture, the papers and the kept JSON: everything is already in words
and minutes of the day. ``lesson_plan`` makes it from the question's answer.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from curriculum.recipes.data import StayData, StepData, WayData
from curriculum.wording import clock_minutes, temperature
from kitchen.timeplan.beside import why_beside
from kitchen.timeplan.class_data import BenchData, LessonData
from kitchen.timeplan.lesson_problem import (
    ALWAYS_FREE,
    part_name,
    parts,
    show_name,
    taste_name,
    wave_of,
    way_of,
    ways_of,
)
from kitchen.timeplan.model import Phase, phases_of
from kitchen.timeplan.problem import Problem
from kitchen.timeplan.solver import Solved
from kitchen.timeplan.way_words import way_words

#: Status of a plan that was made while the class ran.
ON_THE_DAY = "on the day"
#: What the strip and the plan in words say of a step that a person fixed.
FIXED = "Fixed by the lecturer."


@dataclass(frozen=True, slots=True)
class Bar:
    """One stretch of a bench: kind is hands, wait, oven or pass; minutes of the day."""

    start: int
    minutes: int
    kind: str
    step: int
    where: str = ""
    fixed: bool = False

    @property
    def end(self) -> int:
        """Minute of the day at which it ends."""
        return self.start + self.minutes


@dataclass(frozen=True, slots=True)
class PlanLine:
    """One line of a bench's order of work: time, task, special points. Step 0 is the plate at the pass.

    ``beside`` says why somebody stands beside the hands, as in ``beside.py``; empty: nobody does.
    ``way`` is the number of the way it is done, of those that the room has; 0 is the usual one.
    """

    start: int
    end: int
    step: int
    words: str
    hands_minutes: int
    points: tuple[str, ...] = ()
    cue: str = ""
    caution: str = ""
    called: bool = True
    beside: str = ""
    way: int = 0


@dataclass(frozen=True, slots=True)
class BenchPlan:
    """One bench: its wave, its bars for the picture, its lines for the strip."""

    name: str
    learners: tuple[str, ...]
    dish: str
    wave: int
    bars: tuple[Bar, ...]
    lines: tuple[PlanLine, ...]
    free_from: tuple[str, ...] = ()

    @property
    def end(self) -> int:
        """Minute of the day at which the bench has finished."""
        return max(bar.end for bar in self.bars)


@dataclass(frozen=True, slots=True)
class ShowPlan:
    """One demonstration on the clock."""

    start: int
    minutes: int
    step: int
    way: str
    words: str


@dataclass(frozen=True, slots=True)
class Heat:
    """An oven at one temperature (None: off and shut), with the benches inside."""

    start: int
    end: int
    decicelsius: int | None
    benches: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OvenPlan:
    """One oven that is used: when to light it, and its heats in order of time."""

    code: str
    name: str
    light_at: int
    heats: tuple[Heat, ...]


@dataclass(frozen=True, slots=True)
class LessonPlan:
    """The whole plan. Minutes of the day; ``finish_minutes`` counts from ``cooking_from``.

    ``by_the_minute`` holds the steps that are called between the fives so that all fits; ``gone``
    the benches at which nobody was left when the plan was made while the class ran.
    """

    title: str
    room: str
    starts: int
    ends: int
    cooking_from: int
    usable_minutes: int
    finish_minutes: int
    bound_minutes: int
    status: str
    waves: int
    clock_minutes: int
    benches: tuple[BenchPlan, ...]
    ovens: tuple[OvenPlan, ...]
    shows: tuple[ShowPlan, ...]
    ahead: tuple[int, ...] = ()
    supervisors: int = 1
    contingency_minutes: int = 0
    break_at: int = 0
    break_minutes: int = 0
    by_the_minute: tuple[int, ...] = ()
    gone: tuple[str, ...] = ()

    def handed_out(self) -> "LessonPlan":
        """The plan as papers and pages show it: without benches at which nobody is left."""
        return replace(self, benches=tuple(bench for bench in self.benches if bench.name not in self.gone))

    @property
    def fits(self) -> bool:
        """Whether it ends before clear-down."""
        return self.finish_minutes <= self.usable_minutes

    @property
    def any_fixed(self) -> bool:
        """Whether anything of a bench was fixed by hand."""
        return any(bar.fixed for bench in self.benches for bar in bench.bars)

    @property
    def minutes_over(self) -> int:
        """Minutes by which it is too long."""
        return max(0, self.finish_minutes - self.usable_minutes)

    @property
    def spare_minutes(self) -> int:
        """Minutes left before clear-down."""
        return max(0, self.usable_minutes - self.finish_minutes)

    @property
    def clear_at(self) -> int:
        """Minute of the day at which clear-down begins."""
        return self.cooking_from + self.usable_minutes + self.contingency_minutes

    @property
    def break_end(self) -> int:
        """Minute of the day at which work goes on after the break."""
        return self.break_at + self.break_minutes

    @property
    def gap_minutes(self) -> int:
        """Minutes between this plan and what no plan can beat."""
        return self.finish_minutes - self.bound_minutes

    @property
    def finish_at(self) -> int:
        """Minute of the day at which the last bench has finished."""
        return self.cooking_from + self.finish_minutes


def lesson_plan(
    lesson: LessonData,
    problem: Problem,
    solved: Solved,
    waves: int,
    by_the_minute: frozenset[int] = frozenset(),
) -> LessonPlan:
    """The plan of a lesson from the answer to its question."""
    wave = wave_of(lesson, waves)
    return LessonPlan(
        title=lesson.title,
        room=lesson.room,
        starts=lesson.starts,
        ends=lesson.starts + lesson.minutes,
        cooking_from=lesson.cooking_from,
        usable_minutes=lesson.usable_minutes,
        finish_minutes=solved.finish_minutes,
        bound_minutes=solved.bound_minutes,
        status=solved.status,
        waves=waves,
        clock_minutes=lesson.clock_minutes,
        benches=tuple(_bench_plan(lesson, problem, solved, b, wave[b.name]) for b in lesson.benches),
        ovens=tuple(_oven_plans(lesson, problem, solved)),
        shows=tuple(_show_plans(lesson, solved)),
        ahead=lesson.ahead,
        by_the_minute=tuple(sorted(by_the_minute)),
        supervisors=lesson.supervisors,
        contingency_minutes=lesson.contingency_minutes,
        break_at=lesson.cooking_from + lesson.break_from if lesson.break_counted else 0,
        break_minutes=lesson.break_counted,
    )


@dataclass(frozen=True, slots=True)
class _Part:
    """One part of a step on the clock, with the stays it is made of (none: hands)."""

    bar: Bar
    stays: tuple[StayData, ...]


def _bench_plan(
    lesson: LessonData, problem: Problem, solved: Solved, bench: BenchData, wave: int
) -> BenchPlan:
    kinds = {supply.name for supply in problem.supplies} | {"oven"}
    bars: list[Bar] = []
    lines: list[PlanLine] = []
    for step in lesson.steps_of(bench):
        way, number = _way_taken(solved, bench, step, ways_of(step, kinds))
        found = _parts(lesson, problem, solved, bench, step, way)
        names = [part_name(bench.name, step.position, i) for i in range(len(found))]
        bars += [part.bar for part in found]
        line = _line(step, way, found, not problem.on_the_clock.isdisjoint(names))
        by_hands = any(part.bar.kind == "hands" for part in found)
        if number:
            hands = next(name for name in names if problem.task[name].hands)
            said = way_words(problem, solved.answer, hands, way.name, way_of(step, kinds).at)
            line = replace(line, way=number, points=(said, *line.points))
        lines.append(replace(line, beside=why_beside(lesson, bench, step, way) if by_hands else ""))
    if lesson.minutes_a_plate:
        bars.append(_at_the_pass(lesson, solved, bench))
        lines.append(_pass_line(bars[-1]))
    lines.sort(key=lambda line: (line.start, line.step == 0, line.step))
    return BenchPlan(
        name=bench.name,
        learners=bench.learners,
        dish=bench.recipe.title,
        wave=wave,
        bars=tuple(bars),
        lines=tuple(lines),
        free_from=bench.recipe.free_from,
    )


def _way_taken(
    solved: Solved, bench: BenchData, step: StepData, ways: tuple[WayData, ...]
) -> tuple[WayData, int]:
    """The way in which a bench does a step, and its number."""
    chosen = solved.answer.ways
    names = (part_name(bench.name, step.position, part) for part in range(len(step.stays) + 1))
    number = max((chosen.get(name, 0) for name in names), default=0)
    return ways[number], number


def _at_the_pass(lesson: LessonData, solved: Solved, bench: BenchData) -> Bar:
    start = lesson.cooking_from + solved.answer.starts[taste_name(bench.name)]
    return Bar(start, lesson.minutes_a_plate, "pass", 0, "pass")


def _pass_line(bar: Bar) -> PlanLine:
    words = f"Plate to the pass: tasted and marked, {bar.minutes} min."
    return PlanLine(bar.start, bar.end, 0, words, 0, called=False)


def _parts(
    lesson: LessonData, problem: Problem, solved: Solved, bench: BenchData, step: StepData, way: WayData
) -> list[_Part]:
    oven_names = {appliance.code: appliance.name for appliance in lesson.appliances}
    out = []
    for number, (hands, stays) in enumerate(parts(step, way)):
        name = part_name(bench.name, step.position, number)
        task, start = problem.task[name], lesson.cooking_from + solved.answer.starts[name]
        if task.bake is not None:
            kind, where = "oven", oven_names[solved.answer.ovens[name]]
        else:
            kind = "hands" if hands else "wait"
            where = _place_words(way.at if hands else stays[0].appliance_kind)
        out.append(_Part(Bar(start, task.minutes, kind, step.position, where, task.is_fixed), stays))
    return out


def _place_words(kind: str | None) -> str:
    return "" if kind is None or kind in ALWAYS_FREE else kind.replace("_", " ")


def _line(step: StepData, way: WayData, found: list[_Part], called: bool) -> PlanLine:
    hands = [part.bar for part in found if part.bar.kind == "hands"]
    start = hands[0].start if hands else found[0].bar.start
    stays = [part for part in found if part.stays]
    return PlanLine(
        start=start,
        end=max(part.bar.end for part in found),
        step=step.position,
        words=step.words if way is step.ways[0] or not way.words else way.words,
        hands_minutes=sum(bar.minutes for bar in hands),
        points=(
            *((FIXED,) if any(part.bar.fixed for part in found) else ()),
            *(_stay_words(part, part.bar.start < start) for part in stays),
        ),
        cue=step.cue,
        caution=step.caution,
        called=called,
    )


def _stay_words(part: _Part, before: bool) -> str:
    """Food that stays while the hands are free: "Until 09:50 in oven 3, 180 °C fan for 14 min"."""
    bar = part.bar
    when = f"From {clock_minutes(bar.start)}" if before else f"Until {clock_minutes(bar.end)}"
    if bar.kind == "oven":
        heats = ", then ".join(_heat_words(stay) for stay in part.stays)
        shut = ", door shut" if any(stay.door != "may_open" for stay in part.stays) else ""
        return f"{when} in {bar.where}: {heats}{shut}."
    where = {"": "on the bench", "ring": "on the ring"}.get(bar.where, f"in the {bar.where}")
    return f"{when} {where}: {bar.minutes} min."


def _heat_words(stay: StayData) -> str:
    if stay.door == "off_and_shut" or stay.decicelsius is None:
        return f"off for {stay.minutes} min"
    return f"{' '.join(filter(None, (temperature(stay.decicelsius), stay.heat)))} for {stay.minutes} min"


def _oven_plans(lesson: LessonData, problem: Problem, solved: Solved) -> Iterator[OvenPlan]:
    names = {appliance.code: appliance.name for appliance in lesson.appliances}
    phases_in = phases_of(problem, solved.answer)
    for oven in problem.ovens:
        phases = phases_in[oven.name]
        if not phases:
            continue
        heats = [heat for phase in phases for heat in heats_of(lesson.cooking_from, problem, phase)]
        first = problem.task[phases[0].bakes[0]].bake
        minutes = oven.heat_up_minutes(first) if first else 0
        yield OvenPlan(oven.name, names[oven.name], heats[0].start - minutes, tuple(heats))


def heats_of(cooking_from: int, problem: Problem, phase: Phase) -> Iterator[Heat]:
    """What an oven is set to through a phase, in minutes of the day: each heat of a bake that is alone."""
    tasks = [problem.task[name] for name in phase.bakes]
    benches = tuple(dict.fromkeys(task.bench or "" for task in tasks))
    start, bake = cooking_from + phase.start, tasks[0].bake
    if bake is None or not bake.alone:
        yield Heat(start, cooking_from + phase.end, bake.begins_at if bake else None, benches)
        return
    for stay in bake.stays:
        yield Heat(start, start + stay.minutes, stay.decicelsius, benches)
        start += stay.minutes


def shown_words(lesson: LessonData) -> dict[int, str]:
    """Words of the steps of the lesson's dish: the ordinary recipe's where a bench works it."""
    own = [bench.recipe for bench in lesson.benches if bench.other_ahead is None]
    ordinary_last = sorted(own, key=lambda recipe: recipe.variant_of is None)
    return {step.position: step.words for recipe in ordinary_last for step in recipe.steps}


def _show_plans(lesson: LessonData, solved: Solved) -> list[ShowPlan]:
    words = shown_words(lesson)
    shows = [
        ShowPlan(
            lesson.cooking_from + solved.answer.starts[show_name(shown.step)],
            shown.minutes,
            shown.step,
            shown.way,
            words.get(shown.step, ""),
        )
        for shown in lesson.shown
    ]
    return sorted(shows, key=lambda show: show.start)
