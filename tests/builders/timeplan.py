"""Questions for the time plan's tests: class files, PSPLIB text, tiny classes from a seed."""

from dataclasses import replace
from itertools import product
from random import Random

from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.choices import choosing, settled
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


def problem_of_class(content: dict) -> Problem:
    """The question of one frozen class file (benches of one cook)."""
    tasks, windows, benches = [], [], []
    for number, bench in enumerate(content["benches"], 1):
        name = str(number)
        benches.append(Bench(name))
        tasks += [_task_of_class(name, step) for step in bench["steps"]]
        windows += [
            Window(f"{name}/{w['before']}", f"{name}/{w['after']}", w["least"], w["longest"])
            for w in bench["windows"]
        ]
    return Problem(
        tasks=tuple(tasks),
        windows=tuple(windows),
        benches=tuple(benches),
        ovens=tuple(_oven_of_class(content, n) for n in range(1, content["ovens"] + 1)),
        supplies=tuple(Supply(name, units) for name, units in content["supply"].items()),
        demonstrations=tuple(Demonstration(n, m) for n, m in content["demonstrations"].items()),
    )


def _oven_of_class(content: dict, number: int) -> Oven:
    return Oven(
        name=f"oven {number}",
        trays=content["trays_per_oven"],
        heat_seconds=60 * content["heating_minutes_per_10_celsius"],
        cool_seconds=60 * content["cooling_minutes_per_10_celsius"],
        cold_decicelsius=10 * content["cold_celsius"],
    )


def _task_of_class(bench: str, step: dict) -> Task:
    bake = None
    if step["oven_celsius"] is not None:
        bake = Bake((Stay(step["minutes"], 10 * step["oven_celsius"]),), door_shut=step["door_shut"])
    return Task(
        name=f"{bench}/{step['name']}",
        minutes=step["minutes"],
        bench=bench,
        hands=step["cook"],
        lecturer=step["lecturer"],
        assessor=step["assessor"],
        bake=bake,
        uses=tuple(step["uses"].items()),
        shown_by=step["after_demonstration"],
    )


def problem_of_psplib(text: str) -> Problem:
    """The question of one PSPLIB single-mode file: jobs, successors, demands, capacities."""
    lines = [line.split() for line in text.splitlines()]
    heads = {line[0]: i for i, line in enumerate(lines) if line}
    successors, first = {}, heads["PRECEDENCE"] + 2
    while lines[first] and lines[first][0].isdigit():
        job, _, count, *after = lines[first]
        successors[job] = after[: int(count)]
        first += 1
    rows, first = {}, heads["REQUESTS/DURATIONS:"] + 3
    while lines[first] and lines[first][0].isdigit():
        job, _, *figures = map(int, lines[first])
        rows[str(job)] = figures
        first += 1
    capacities = [int(x) for x in lines[heads["RESOURCEAVAILABILITIES:"] + 2]]
    return project(rows, successors, capacities)


def project(rows: dict[str, list[int]], successors: dict[str, list[str]], capacities: list[int]) -> Problem:
    """A textbook project: (duration, demand of each resource) by job."""
    tasks = tuple(
        Task(job, minutes, uses=tuple((f"R{i}", units) for i, units in enumerate(demand, 1) if units))
        for job, (minutes, *demand) in rows.items()
    )
    windows = tuple(Window(job, other) for job, after in successors.items() for other in after)
    supplies = tuple(Supply(f"R{i}", units) for i, units in enumerate(capacities, 1))
    return Problem(tasks=tasks, windows=windows, supplies=supplies)


def tiny_class(seed: int) -> Problem:
    """One or two benches, at most six short tasks, one oven: small enough to try all."""
    dice = Random(seed)
    benches = tuple(Bench(str(n)) for n in range(1, dice.choice((1, 2, 2)) + 1))
    show = Demonstration("show", dice.randint(1, 2)) if dice.random() < 0.5 else None
    tasks, windows = [], []
    for bench in benches:
        names = []
        for position in range(1, dice.randint(2, 3) + 1):
            names.append(f"{bench.name}/{position}")
            tasks.append(_tiny_task(dice, bench.name, names[-1], show))
        for before, after in zip(names, names[1:], strict=False):
            if dice.random() < 0.8:
                least = dice.choice((0, 0, 1))
                windows.append(Window(before, after, least, dice.choice((None, least, least + 1, least + 2))))
    oven = Oven("oven", dice.choice((1, 2)), heat_seconds=6, cool_seconds=6, cold_decicelsius=1700)
    return Problem(
        tasks=tuple(tasks),
        windows=tuple(windows),
        benches=benches,
        ovens=(oven,),
        supplies=(Supply("mixer", 1),),
        demonstrations=(show,) if show else (),
    )


def tiny_class_with_a_break(seed: int) -> Problem:
    """A tiny class with a break of one to three minutes that begins within the first four."""
    dice = Random(f"break {seed}")
    return replace(tiny_class(seed), breaks=(Pause(dice.randint(0, 4), dice.randint(1, 3)),))


def tiny_class_with_ways(seed: int) -> Problem:
    """A tiny class in which more than half of the work of hands may be done another way."""
    dice = Random(f"ways {seed}")
    problem = tiny_class(seed)
    tasks = []
    for task in problem.tasks:
        if task.hands and dice.random() < 0.6:
            uses = (("mixer", 1),) if not task.uses and dice.random() < 0.5 else ()
            task = replace(task, ways=(Way(dice.randint(1, 4), uses, dice.random() < 0.2, "hand"),))
        tasks.append(task)
    return replace(problem, tasks=tuple(tasks))


def tiny_class_with_both(seed: int) -> Problem:
    """A tiny class with other ways and a break."""
    return replace(tiny_class_with_ways(seed), breaks=tiny_class_with_a_break(seed).breaks)


def _tiny_task(dice: Random, bench: str, name: str, show: Demonstration | None) -> Task:
    minutes, kind = dice.randint(1, 3), dice.choice(("hands", "hands", "bake", "mixer", "check", "wait"))
    bake = None
    if kind == "bake":
        bake = Bake((Stay(minutes, dice.choice((1700, 1800))),), door_shut=dice.random() < 0.3)
    return Task(
        name=name,
        minutes=minutes,
        bench=bench,
        hands=kind in ("hands", "mixer", "check"),
        lecturer=kind == "check",
        bake=bake,
        uses=(("mixer", 1),) if kind == "mixer" else (),
        shown_by=show.name if show and kind == "hands" and dice.random() < 0.5 else None,
    )


def two_benches() -> Problem:
    """Two benches, each: 10 min of hands, 5 of rest, 20 in the oven at 180 °C, 5 of hands."""
    tasks, windows = [], []
    for bench in ("1", "2"):
        tasks += [
            Task(f"{bench}/mix", 10, bench, hands=True, uses=(("mixer", 1),), words=f"mix, bench {bench}"),
            Task(f"{bench}/rest", 5, bench),
            Task(f"{bench}/bake", 20, bench, bake=Bake((Stay(20, 1800),)), words=f"bake, bench {bench}"),
            Task(f"{bench}/plate", 5, bench, hands=True, lecturer=True, assessor=True, shown_by="plating"),
        ]
        windows += [
            Window(f"{bench}/mix", f"{bench}/rest", 0, 0),
            Window(f"{bench}/rest", f"{bench}/bake", 2, 10),
            Window(f"{bench}/bake", f"{bench}/plate", 0, 60),
        ]
    return Problem(
        tasks=tuple(tasks),
        windows=tuple(windows),
        benches=(Bench("1"), Bench("2")),
        ovens=(Oven("left", 1), Oven("right", 1)),
        supplies=(Supply("mixer", 1, "mixers"),),
        demonstrations=(Demonstration("plating", 4),),
        usable_minutes=60,
    )


def shortest_by_trying(problem: Problem, most: int) -> int:
    """The shortest finish of a tiny class, by trying every way and every start up to ``most``."""
    numbers = [range(len(task.ways) + 1) for task in choosing(problem)]
    names = [task.name for task in choosing(problem)]
    ways = [dict(zip(names, taken, strict=True)) for taken in product(*numbers)]
    questions = [settled(problem, each) for each in ways]
    return next(f for f in range(most + 1) if any(_exists(question, f) for question in questions))


def _exists(problem: Problem, finish: int) -> bool:
    things = [(d.name, d.minutes) for d in problem.demonstrations]
    things += [(name, problem.task[name].minutes) for name in problem.order]
    ovens = {t.name: problem.ovens[0].name for t in problem.tasks if t.bake}

    def search(placed: dict[str, int]) -> bool:
        if len(placed) == len(things):
            return not check(problem, Answer(placed, ovens))
        name, minutes = things[len(placed)]
        return any(
            _may_stand(problem, placed, name, start) and search(placed | {name: start})
            for start in range(finish - minutes + 1)
        )

    return search({})


def _may_stand(problem: Problem, placed: dict[str, int], name: str, start: int) -> bool:
    task = problem.task.get(name)
    thing = task or next(d for d in problem.demonstrations if d.name == name)
    if start < thing.earliest or (thing.latest is not None and start > thing.latest):
        return False
    if (task is None or task.by_people) and problem.after_breaks(start, thing.minutes) != start:
        return False
    if task is None:
        return True
    for window in problem.windows_before[name]:
        if window.before in placed:
            gap = start - placed[window.before] - problem.task[window.before].minutes
            if gap < window.least or (window.longest is not None and gap > window.longest):
                return False
    for show in problem.demonstrations:
        end = placed[show.name] + show.minutes
        if (task.shown_by and start < end) or (
            task.hands and start < end and placed[show.name] < start + task.minutes
        ):
            return False
    for other, at in placed.items():
        rival = problem.task.get(other)
        same_hands = rival and task.hands and rival.hands and rival.bench == task.bench
        if same_hands and start < at + rival.minutes and at < start + task.minutes:
            return False
    return True
