"""An answer to the time plan's question, and the check of any answer, whoever made it.

For the pages (what breaks, in words), for tests and benchmarks (legality). It knows
neither the solver nor the rule by hand, and looks at every minute itself.

Worked example: two trays at 180 °C and 150 °C in one oven that cools two minutes for ten
degrees. The first comes out at minute 40. The second may go in at minute 46; at minute 44
the check says that the oven needs six minutes and gets four.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations, pairwise

from kitchen.timeplan.choices import chosen_together, settled
from kitchen.timeplan.problem import Bake, Oven, Problem, Task, Window


@dataclass(frozen=True)
class Answer:
    """Start minute of every task and demonstration, and the oven of every bake, by name.

    ``ways`` holds the number of the way of each task that is not done the usual way.
    """

    starts: Mapping[str, int]
    ovens: Mapping[str, str]
    ways: Mapping[str, int] = field(default_factory=dict)

    def finish(self, problem: Problem) -> int:
        """Last end of anything."""
        ends = [self.starts[t.name] + t.minutes for t in settled(problem, self.ways).tasks]
        return max(ends + [self.starts[d.name] + d.minutes for d in problem.demonstrations])


@dataclass(frozen=True)
class Past:
    """What is fixed at minute ``now`` of a running class.

    ``fixed`` names what has begun, ``was`` holds where; ``out`` the ovens that failed, with the
    minute; ``heats`` by oven the heat it is set to (None: cold) and the minute it is reached.
    """

    now: int
    fixed: frozenset[str]
    was: Answer
    out: Mapping[str, int]
    heats: Mapping[str, tuple[int | None, int]]


def ready_at(past: Past, oven: Oven, bake: Bake) -> int:
    """The first minute at which the oven has the heat of a bake, as it is set now."""
    heat, reached = past.heats[oven.name]
    if heat is None:
        return past.now + oven.heat_up_minutes(bake)
    if heat == bake.begins_at:
        return reached
    return past.now + oven.change_minutes(heat, bake.begins_at)


@dataclass(frozen=True, slots=True)
class Break:
    """One rule that an answer breaks: a short code for tests, a sentence for people."""

    code: str
    words: str


def check(problem: Problem, answer: Answer) -> list[Break]:
    """Every rule that the answer breaks; an empty list means that it can be cooked so."""
    missing = list(_missing(problem, answer)) or list(_ways(problem, answer))
    if missing:
        return missing
    problem = settled(problem, answer.ways)
    rules = (_windows, _shown, _hands, _one_person, _supplies, _oven_rules)
    rules += (_breaks, _waves, _clock, _show_order, _fixed_starts, _fixed_ovens)
    return [found for rule in rules for found in rule(problem, answer)]


def minutes_over(problem: Problem, answer: Answer) -> int:
    """Minutes by which the answer is longer than the slot leaves for cooking; 0 when it fits."""
    if problem.usable_minutes is None:
        return 0
    return max(0, answer.finish(problem) - problem.usable_minutes)


def holding_minutes(problem: Problem, answer: Answer) -> int:
    """Minutes of waiting over the least, summed over all holds: food that stands about."""
    problem = settled(problem, answer.ways)
    return sum(_gap(problem, answer, w) - w.least for w in problem.holds)


def _gap(problem: Problem, answer: Answer, window: Window) -> int:
    before = problem.task[window.before]
    return answer.starts[window.after] - answer.starts[window.before] - before.minutes


def _missing(problem: Problem, answer: Answer) -> Iterator[Break]:
    for name in [t.name for t in problem.tasks] + [d.name for d in problem.demonstrations]:
        if name not in answer.starts:
            yield Break("no_start", f"{name} has no start.")
        elif answer.starts[name] < 0:
            yield Break("before_start", f"{name} begins before the class does.")
    known = {oven.name for oven in problem.ovens}
    for task in problem.tasks:
        if task.bake is not None and answer.ovens.get(task.name) not in known:
            yield Break("no_oven", f"{task.called} has no oven.")


def _ways(problem: Problem, answer: Answer) -> Iterator[Break]:
    for name, number in answer.ways.items():
        task = problem.task.get(name)
        if task is None or not 0 <= number <= len(task.ways):
            yield Break("no_such_way", f"{task.called if task else name} is not done in such a way.")
    for names in chosen_together(problem):
        if len({answer.ways.get(name, 0) for name in names}) > 1:
            yield Break("wave_ways", f"{problem.task[names[0]].called} is not done in one way in its wave.")


def _windows(problem: Problem, answer: Answer) -> Iterator[Break]:
    for window in problem.windows:
        gap = _gap(problem, answer, window)
        before, after = problem.task[window.before].called, problem.task[window.after].called
        if gap < 0:
            yield Break("too_early", f"{after} begins {-gap} min before the end of {before}.")
        elif gap < window.least:
            yield Break("too_soon", f"{after} follows {before} after {gap} min; at least {window.least} min.")
        elif window.longest is not None and gap > window.longest:
            yield Break(
                "too_late", f"{after} follows {before} after {gap} min; at most {window.longest} min."
            )


def _shown(problem: Problem, answer: Answer) -> Iterator[Break]:
    ends = {d.name: answer.starts[d.name] + d.minutes for d in problem.demonstrations}
    for task in problem.tasks:
        if task.shown_by is not None and answer.starts[task.name] < ends[task.shown_by]:
            yield Break(
                "not_shown", f"{task.called} begins before the demonstration {task.shown_by} has ended."
            )


def _most_at_once(spans: list[tuple[int, int, int]]) -> tuple[int, int]:
    """Largest sum of units at any minute and that minute, of (start, end, units)."""
    changes = sorted([(s, u) for s, e, u in spans if e > s] + [(e, -u) for s, e, u in spans if e > s])
    level = most = at = 0
    for minute, units in changes:
        level += units
        if level > most:
            most, at = level, minute
    return most, at


def _stretches_over(spans: list[tuple[int, int, int]], limit: int) -> Iterator[int]:
    """Of each stretch in which more than ``limit`` units are at once, the minute at which most are."""
    changes = sorted([(s, u) for s, e, u in spans if e > s] + [(e, -u) for s, e, u in spans if e > s])
    level, most, at = 0, limit, 0
    for minute, units in changes:
        level += units
        if level > most:
            most, at = level, minute
        elif level <= limit < most:
            yield at
            most = limit


def _span(answer: Answer, task: Task, units: int = 1) -> tuple[int, int, int]:
    start = answer.starts[task.name]
    return start, start + task.minutes, units


def _hands(problem: Problem, answer: Answer) -> Iterator[Break]:
    shows = [(answer.starts[d.name], answer.starts[d.name] + d.minutes) for d in problem.demonstrations]
    for bench in problem.benches:
        spans = [_span(answer, t) for t in problem.tasks if t.hands and t.bench == bench.name]
        for at in _stretches_over(spans + [(s, e, bench.cooks) for s, e in shows], bench.cooks):
            yield Break("hands", f"Bench {bench.name} needs more hands than it has at minute {at}.")


def _one_person(problem: Problem, answer: Answer) -> Iterator[Break]:
    shows = [(answer.starts[d.name], answer.starts[d.name] + d.minutes, 1) for d in problem.demonstrations]
    lecturer = [_span(answer, t) for t in problem.tasks if t.lecturer]
    assessor = [_span(answer, t) for t in problem.tasks if t.assessor]
    for who, spans in (("lecturer", lecturer + shows), ("assessor", assessor)):
        most, at = _most_at_once(spans)
        if most > 1:
            yield Break(who, f"The {who} is needed in {most} places at minute {at}.")


def _supplies(problem: Problem, answer: Answer) -> Iterator[Break]:
    for supply in problem.supplies:
        spans = [
            _span(answer, t, units) for t in problem.tasks for name, units in t.uses if name == supply.name
        ]
        most, at = _most_at_once(spans)
        if most > supply.units:
            words = supply.words or supply.name
            yield Break(
                "supply", f"At minute {at} the class needs {most} of {words}; there are {supply.units}."
            )


def _oven_rules(problem: Problem, answer: Answer) -> Iterator[Break]:
    for oven in problem.ovens:
        inside = [t for t in problem.tasks if t.bake is not None and answer.ovens[t.name] == oven.name]
        for task in inside:
            yield from _one_bake(oven, task, answer.starts[task.name])
        most, at = _most_at_once([_span(answer, t, t.bake.trays) for t in inside if t.bake])
        if most > oven.trays:
            yield Break("trays", f"Oven {oven.name} holds {oven.trays} trays; {most} at minute {at}.")
        for first, second in combinations(inside, 2):
            yield from two_bakes(oven, first, second, answer)


def _one_bake(oven: Oven, task: Task, start: int) -> Iterator[Break]:
    if task.bake is None or not oven.takes(task.bake):
        yield Break("oven_range", f"Oven {oven.name} does not take {task.called}.")
    elif start < oven.heat_up_minutes(task.bake):
        need = oven.heat_up_minutes(task.bake)
        yield Break(
            "cold_oven", f"{task.called} goes in at minute {start}; oven {oven.name} is hot at {need}."
        )


def two_bakes(oven: Oven, a: Task, b: Task, answer: Answer) -> Iterator[Break]:
    """What two bakes of one oven break between them: the change of heat, a shared heat, a shut door."""
    first, second = sorted((a, b), key=lambda t: (answer.starts[t.name], answer.starts[t.name] + t.minutes))
    if first.bake is None or second.bake is None:
        return
    start, later = answer.starts[first.name], answer.starts[second.name]
    if later >= start + first.minutes:
        need, gap = oven.between_minutes(first.bake, second.bake), later - start - first.minutes
        if gap < need:
            yield Break(
                "change", f"Oven {oven.name} needs {need} min before {second.called} and gets {gap} min."
            )
    elif first.bake.stays[0].decicelsius != second.bake.stays[0].decicelsius:
        yield Break(
            "two_temperatures", f"{first.called} and {second.called} share oven {oven.name}, not its heat."
        )
    elif first.bake.heat != second.bake.heat:
        yield Break(
            "two_heats", f"{first.called} and {second.called} share oven {oven.name}, not its kind of heat."
        )
    elif (first.bake.alone or second.bake.alone) and not (
        start == later and first.bake.stays == second.bake.stays
    ):
        yield Break(
            "door", f"Oven {oven.name} is opened for {second.called} while {first.called} needs it shut."
        )


def _breaks(problem: Problem, answer: Answer) -> Iterator[Break]:
    for thing in (*(t for t in problem.tasks if t.by_people), *problem.demonstrations):
        start = answer.starts[thing.name]
        if problem.after_breaks(start, thing.minutes) != start:
            yield Break(
                "break",
                f"{thing.words or thing.name} falls into the break: it begins at minute {start}"
                f" and takes {thing.minutes} min.",
            )


def _waves(problem: Problem, answer: Answer) -> Iterator[Break]:
    for group in problem.together:
        if len({answer.starts[name] for name in group}) > 1:
            yield Break("wave", f"{problem.task[group[0]].called} does not begin together in its wave.")


def _clock(problem: Problem, answer: Answer) -> Iterator[Break]:
    for name in sorted(problem.on_the_clock):
        if answer.starts[name] % problem.clock_minutes:
            words = f"{name} begins at minute {answer.starts[name]}, not on a multiple of"
            yield Break("clock", f"{words} {problem.clock_minutes}.")


def _show_order(problem: Problem, answer: Answer) -> Iterator[Break]:
    if not problem.shows_in_order:
        return
    for first, second in pairwise(problem.demonstrations):
        if answer.starts[second.name] < answer.starts[first.name] + first.minutes:
            yield Break("show_order", f"{second.name} is shown before {first.name} has ended.")


def _fixed_starts(problem: Problem, answer: Answer) -> Iterator[Break]:
    for thing in (*problem.tasks, *problem.demonstrations):
        start, latest = answer.starts[thing.name], thing.latest
        if thing.earliest <= start and (latest is None or start <= latest):
            continue
        called = thing.words or thing.name
        if thing.earliest == latest:
            fixed = f"is fixed at minute {latest}"
        else:
            fixed = f"may begin at minute {thing.earliest} at the earliest"
            fixed += f" and {latest} at the latest" if latest is not None else ""
        yield Break("pinned_start", f"{called} {fixed} and begins at {start}.")


def _fixed_ovens(problem: Problem, answer: Answer) -> Iterator[Break]:
    for task in problem.tasks:
        oven = answer.ovens.get(task.name)
        if task.only_ovens and oven not in task.only_ovens:
            only = " or ".join(task.only_ovens)
            yield Break("pinned_oven", f"{task.called} is fixed to oven {only} and is in oven {oven}.")
