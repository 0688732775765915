"""From a lesson to the time plan's question.

For ``fits.py``, the pages and the demo command: plain data about a lesson (its slot, its
benches with the recipe each cooks, the room's appliances, what is done ahead, what is
shown) becomes a ``Problem``. Minutes of a ``Problem`` count from the minute at which the
class may begin to cook, after hands, register and brief.

Rules, in prose:
- A step is its hands and its stays without a pause between them. Stays in one oven are one bake.
- A step done ahead, or not taught in this lesson, is left out, and with it every wait for it.
- A wave is some benches that begin each step at the same minute. A step for which the room
  has too few places for the whole wave, or which the lecturer must stand beside, is done by
  turns; so is a step whose hold is too short to wait for those turns.
- The lecturer calls a step on the fives, unless it must follow another within less than
  that, or is done by turns.
- Where plates are marked, each goes to the pass within minutes of the bench's last step, and
  the one who tastes takes one after another.
- A step is done in any of its ways whose place the room has; benches that begin it together
  do it one way. The usual way is the first.
- Hands take the recipe's minutes at the pace that was learned (``paces.py``).

Worked example: 10 min of lining, then 15 in the chiller, is two tasks, at 0 and at 10; the
blind bake that follows is called at 25.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from curriculum.recipes.data import StayData, StepData, WayData
from kitchen.timeplan.beside import BESIDE, any_beside, why_beside
from kitchen.timeplan.class_data import ApplianceData, BenchData, LessonData
from kitchen.timeplan.names import part_name, show_name, taste_name
from kitchen.timeplan.paces import hands_minutes, pace_of
from kitchen.timeplan.pins.pinned import fixed_by
from kitchen.timeplan.problem import (
    Bake,
    Bench,
    Demonstration,
    Oven,
    Pause,
    Problem,
    Stay,
    Supply,
    Task,
    Window,
)
from kitchen.timeplan.ways import Way

#: Places that are never short, so nobody queues for them.
ALWAYS_FREE = frozenset({"bench", "pass", ""})
#: What hands or food may occupy, by the kind of appliance that offers it.
OFFERED_BY = {"hob": "ring"}
#: Names of supplies for people.
WORDS_FOR = {
    "ring": "rings",
    "mixer": "mixers",
    "food_processor": "food processors",
    "chiller": "chiller shelves",
    "blast_chiller": "blast-chiller shelves",
    "prover": "prover shelves",
    "cool_cabinet": "cool-cabinet shelves",
    "torch_station": "places at the torch station",
    "fryer": "fryers",
    BESIDE: "people who may stand beside",
}


class RoomLacks(Exception):
    """The room has nothing of a kind that a step needs; ``lacks`` is (step, kind) by step."""

    def __init__(self, lacks: tuple[tuple[int, str], ...]) -> None:
        super().__init__(f"the room lacks {lacks}")
        self.lacks = lacks


def problem_of(lesson: LessonData, waves: int = 1, by_the_minute: frozenset[int] = frozenset()) -> Problem:
    """The question of a lesson led in so many waves; steps of ``by_the_minute`` leave the clock.

    RoomLacks when the room has nothing of a kind that a step needs.
    """
    _refuse_what_the_room_lacks(lesson)
    room = _Room(lesson)
    tasks = [task for bench in lesson.benches for task in _tasks(lesson, room, bench)]
    tasks += [_taste(lesson, bench) for bench in lesson.benches if lesson.minutes_a_plate]
    plain = Problem(
        tasks=tuple(tasks),
        windows=tuple(w for bench in lesson.benches for w in _windows(lesson, bench)),
        benches=tuple(Bench(b.name, b.cooks, b.pace_per_mille) for b in lesson.benches),
        ovens=room.ovens,
        supplies=room.supplies,
        demonstrations=tuple(_demonstrations(lesson)),
        usable_minutes=lesson.usable_minutes,
        breaks=(Pause(lesson.break_from, lesson.break_counted),) if lesson.break_counted else (),
    )
    led = _led(lesson, plain, waves, by_the_minute)
    return fixed_by(led, lesson.pins, lesson.start_minutes).problem


def wave_of(lesson: LessonData, waves: int) -> dict[str, int]:
    """Wave (from 1) of each bench: neighbours together, sizes as equal as can be."""
    count = len(lesson.benches)
    waves = max(1, min(waves, count))
    return {bench.name: i * waves // count + 1 for i, bench in enumerate(lesson.benches)}


def parts(step: StepData, way: WayData) -> list[tuple[WayData | None, tuple[StayData, ...]]]:
    """What happens in a step, in order: (way, ()) is hands, (None, stays) is food alone.

    Oven stays that follow one another are one part; any other stay is a part of its own.
    """
    alone: list[tuple[WayData | None, tuple[StayData, ...]]] = []
    for stay in step.stays:
        in_oven = stay.appliance_kind == "oven"
        last = alone[-1][1] if alone else ()
        if in_oven and last and last[-1].appliance_kind == "oven":
            alone[-1] = (None, (*last, stay))
        else:
            alone.append((None, (stay,)))
    hands: list[tuple[WayData | None, tuple[StayData, ...]]] = [(way, ())] if way.active_minutes else []
    found = alone + hands if step.wait_first else hands + alone
    return found or [(way, ())]


def ways_of(step: StepData, kinds: Iterable[str]) -> tuple[WayData, ...]:
    """The ways whose place the room has, the usual one first; a step without hands has one."""
    there = ALWAYS_FREE | set(kinds)
    found = tuple(way for way in step.ways if way.at in there) or step.ways[:1]
    return found if all(way.active_minutes for way in found) else found[:1]


def way_of(step: StepData, kinds: Iterable[str]) -> WayData:
    """The usual way, or the first one whose place the room has."""
    return ways_of(step, kinds)[0]


class _Room:
    """Ovens and supplies of the room, and what the lesson may use."""

    def __init__(self, lesson: LessonData) -> None:
        self.ovens = tuple(_oven(a, lesson.room_degrees) for a in lesson.appliances if a.kind == "oven")
        units: dict[str, int] = {}
        for appliance in lesson.appliances:
            kind = OFFERED_BY.get(appliance.kind, appliance.kind)
            if kind != "oven":
                units[kind] = units.get(kind, 0) + appliance.units
        self.supplies = tuple(Supply(kind, n, WORDS_FOR.get(kind, kind)) for kind, n in units.items())
        if lesson.supervisors > 1 and any_beside(lesson):
            self.supplies += (Supply(BESIDE, lesson.supervisors, WORDS_FOR[BESIDE]),)
        self.kinds = frozenset(units) | ({"oven"} if self.ovens else set())
        self._units = units

    def too_few(self, stay: StayData) -> str:
        """What is too few for one stay of the food, in words; empty when it has room, or none at all."""
        units = self._units.get(stay.appliance_kind or "")
        if units is None or units >= stay.shelves:
            return ""
        return f"{stay.shelves} places at once in the {stay.appliance_kind}, which has {units}"


def _oven(appliance: ApplianceData, cold: int) -> Oven:
    return Oven(
        name=appliance.code,
        trays=appliance.units,
        heat_seconds=appliance.heat_seconds_per_10,
        cool_seconds=appliance.cool_seconds_per_10,
        cold_decicelsius=cold,
        least_decicelsius=appliance.least_decicelsius or 0,
        most_decicelsius=appliance.most_decicelsius or 5000,
        heats=appliance.heats,
        may_stand_off=appliance.may_stand_off,
    )


def _refuse_what_the_room_lacks(lesson: LessonData) -> None:
    room = _Room(lesson)
    there = ALWAYS_FREE | room.kinds
    lacks = set()
    for bench in lesson.benches:
        for step in lesson.steps_of(bench):
            way = way_of(step, room.kinds)
            kinds = {way.at, *(stay.appliance_kind or "" for stay in step.stays)}
            lacks |= {(step.position, kind) for kind in kinds - there}
            alone = [stays[0] for _, stays in parts(step, way) if stays]
            lacks |= {(step.position, room.too_few(stay)) for stay in alone if room.too_few(stay)}
            bakes = [
                _bake(stays) for _, stays in parts(step, way) if stays and stays[0].appliance_kind == "oven"
            ]
            lacks |= {(step.position, "oven") for b in bakes if not any(o.takes(b) for o in room.ovens)}
    if lacks:
        raise RoomLacks(tuple(sorted(lacks)))


def _tasks(lesson: LessonData, room: _Room, bench: BenchData) -> Iterator[Task]:
    shown = {each.step for each in lesson.shown if bench.other_ahead is None}
    for step in lesson.steps_of(bench):
        way = way_of(step, room.kinds)
        found = parts(step, way)
        waits_for_show = next((i for i, (hands, _) in enumerate(found) if hands), 0)
        for number, (hands, stays) in enumerate(found):
            is_shown = number == waits_for_show and step.position in shown
            task = Task(
                name=part_name(bench.name, step.position, number),
                minutes=sum(stay.minutes for stay in stays),
                bench=bench.name,
                hands=hands is not None,
                shown_by=show_name(step.position) if is_shown else None,
                step=step.position,
                words=f"step {step.position} of bench {bench.name}",
            )
            if hands is None:
                yield replace(task, **_occupied(stays))
            else:
                usual, *others = (_way(lesson, bench, step, each) for each in ways_of(step, room.kinds))
                one = {"minutes": usual.minutes, "uses": usual.uses, "lecturer": usual.lecturer}
                yield replace(task, **one, ways=tuple(others))


def _way(lesson: LessonData, bench: BenchData, step: StepData, way: WayData) -> Way:
    """One way of a step at a bench: its minutes, its place, and who stands beside."""
    beside = bool(why_beside(lesson, bench, step, way))
    uses = () if way.at in ALWAYS_FREE else ((way.at, 1),)
    by_one = ((BESIDE, 1),) if beside and lesson.supervisors > 1 else ()
    minutes = _hands(lesson, bench, step, way)
    return Way(minutes, (*uses, *by_one), beside and lesson.supervisors < 2, way.name)


def _hands(lesson: LessonData, bench: BenchData, step: StepData, way: WayData) -> int:
    pace = pace_of(lesson.paces, bench.recipe, step)
    return hands_minutes(way.active_minutes, pace, bench.pace_per_mille)


def _occupied(stays: tuple[StayData, ...]) -> dict:
    """What of the room food alone occupies: an oven, or one supply."""
    kind = stays[0].appliance_kind
    if kind == "oven":
        return {"bake": _bake(stays)}
    return {"uses": ((kind, stays[0].shelves),)} if kind else {}


def _bake(stays: tuple[StayData, ...]) -> Bake:
    return Bake(
        stays=tuple(Stay(s.minutes, None if s.door == "off_and_shut" else s.decicelsius) for s in stays),
        door_shut=any(s.door != "may_open" for s in stays),
        trays=max(s.shelves for s in stays),
        heat=stays[0].heat,
    )


def _windows(lesson: LessonData, bench: BenchData) -> Iterator[Window]:
    kinds = _Room(lesson).kinds
    steps = {step.position: step for step in lesson.steps_of(bench)}
    last = {position: len(parts(step, way_of(step, kinds))) - 1 for position, step in steps.items()}
    for step in steps.values():
        for part in range(last[step.position]):
            here = part_name(bench.name, step.position, part)
            yield Window(here, part_name(bench.name, step.position, part + 1), 0, 0)
        for after in step.after:
            if after.needs in steps:
                before = part_name(bench.name, after.needs, last[after.needs])
                first = part_name(bench.name, step.position, 0)
                yield Window(before, first, after.least_minutes, after.longest_minutes)
    if lesson.minutes_a_plate:
        yield from _to_the_pass(lesson, bench, last)


def _taste(lesson: LessonData, bench: BenchData) -> Task:
    words = f"tasting of bench {bench.name}"
    return Task(taste_name(bench.name), lesson.minutes_a_plate, bench.name, assessor=True, words=words)


def _to_the_pass(lesson: LessonData, bench: BenchData, last: dict[int, int]) -> Iterator[Window]:
    """The plate follows every step that nothing waits for, and the last of them within minutes."""
    steps = lesson.steps_of(bench)
    waited_for = {after.needs for step in steps for after in step.after}
    ends = [step.position for step in steps if step.position not in waited_for]
    for position in ends:
        longest = lesson.taste_within if position == ends[-1] else None
        yield Window(part_name(bench.name, position, last[position]), taste_name(bench.name), 0, longest)


def _demonstrations(lesson: LessonData) -> Iterator[Demonstration]:
    for shown in lesson.shown:
        yield Demonstration(show_name(shown.step), shown.minutes, f"demonstration of step {shown.step}")


def _led(lesson: LessonData, plain: Problem, waves: int, by_the_minute: frozenset[int]) -> Problem:
    """The question with waves and the clock."""
    together = []
    turns: set[tuple[str, int]] = set()
    for benches in _benches_by_wave(lesson, waves):
        by_turns = steps_by_turns(plain, benches)
        turns |= {(bench, step) for bench in benches for step in by_turns}
        first: dict[int, list[str]] = {}
        for task in plain.tasks:
            if task.bench in benches and task.name.endswith("/0") and task.step not in by_turns:
                first.setdefault(task.step or 0, []).append(task.name)
        together += [tuple(names) for names in first.values() if len(names) > 1]
    called = {
        t.name
        for t in plain.tasks
        if t.hands
        and t.step not in by_the_minute
        and (t.bench, t.step) not in turns
        and _may_wait_for_the_clock(plain, t, lesson.clock_minutes)
    }
    called |= {show.name for show in plain.demonstrations}
    clock = lesson.clock_minutes
    return replace(
        plain,
        together=tuple(together),
        on_the_clock=frozenset(called),
        clock_minutes=clock,
        shows_in_order=True,
    )


def _benches_by_wave(lesson: LessonData, waves: int) -> list[list[str]]:
    """Benches that are led together: of one wave, and of one recipe with its variants."""
    wave = wave_of(lesson, waves)
    groups: dict[tuple[int, str], list[str]] = {}
    for bench in lesson.benches:
        groups.setdefault((wave[bench.name], bench.family), []).append(bench.name)
    return [groups[key] for key in sorted(groups)]


def _may_wait_for_the_clock(problem: Problem, task: Task, clock_minutes: int) -> bool:
    """Whether nothing forces the step to follow another within less than the clock's step."""
    first = f"{task.bench}/{task.step}/0"
    holds = [w.longest for w in problem.windows_before[first] if w.longest is not None]
    return all(hold >= clock_minutes - 1 for hold in holds)


def steps_by_turns(problem: Problem, benches: list[str]) -> frozenset[int]:
    """Steps that the benches of one wave cannot begin together."""
    queue = {step: q for step in _steps(problem, benches) if (q := _queue_minutes(problem, benches, step))}
    moved = True
    while moved:
        moved = False
        for window in problem.windows:
            before, after = problem.task[window.before], problem.task[window.after]
            if before.bench not in benches or before.step == after.step or window.longest is None:
                continue
            for one, other in ((before.step, after.step), (after.step, before.step)):
                if one in queue and other not in queue and window.longest < queue[one]:
                    queue[other] = queue[one]
                    moved = True
    return frozenset(queue)


def _steps(problem: Problem, benches: list[str]) -> list[int]:
    return sorted({t.step for t in problem.tasks if t.bench in benches and t.step is not None})


def _queue_minutes(problem: Problem, benches: list[str], step: int) -> int:
    """Minutes between the first and the last bench of a step; 0 when all can do it at once."""
    tasks = [t for t in problem.tasks if t.bench in benches and t.step == step]
    longest = 0
    needs: dict[str, tuple[int, int, int]] = {}
    for task in tasks:
        for name, units, most in _scarce(problem, task):
            wanted, _, minutes = needs.get(name, (0, most, 0))
            needs[name] = (wanted + units, most, minutes + units * task.minutes)
    for wanted, most, minutes in needs.values():
        if wanted > most:
            longest = max(longest, -(-minutes // most))
    return longest


def _scarce(problem: Problem, task: Task) -> Iterator[tuple[str, int, int]]:
    units = {supply.name: supply.units for supply in problem.supplies}
    for name, wanted in task.uses:
        yield name, wanted, units[name]
    if task.lecturer:
        yield "lecturer", 1, 1
    if task.bake is not None:
        trays = sum(o.trays // task.bake.trays * task.bake.trays for o in problem.ovens if o.takes(task.bake))
        yield "oven trays", task.bake.trays, trays
