"""What the lecturer calls, in order of the clock: the plan in words.

For the page (one docket line a call), the lecturer's paper, and everybody who cannot see
the picture. Benches that do the same at the same minute are one call.

Worked example: seven benches line their tins at 09:20; that is one call, "Benches 1 to 7:
step 4", with what to watch for and until when it is in the chiller.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from curriculum.wording import clock_minutes, listed, temperature
from kitchen.timeplan.plan import BenchPlan, LessonPlan, OvenPlan, PlanLine, ShowPlan


@dataclass(frozen=True, slots=True)
class Call:
    """One line: kind is start, oven, show, step, pass, break or clear; minutes of the day."""

    start: int
    minutes: int
    kind: str
    head: str
    words: str
    points: tuple[str, ...] = ()
    step: int = 0

    @property
    def at(self) -> str:
        """The clock: "09:20"."""
        return clock_minutes(self.start)


ORDER_AT_A_MINUTE = {"start": 0, "oven": 1, "show": 2, "break": 2, "step": 3, "pass": 4, "clear": 5}


def calls_of(plan: LessonPlan) -> tuple[Call, ...]:
    """All calls of a lesson, in order of the clock."""
    calls = [_start(plan), *_lights(plan.ovens), *map(_show, plan.shows), *_steps(plan.benches), _clear(plan)]
    calls += [_break(plan)] if plan.break_minutes else []
    return tuple(sorted(calls, key=lambda call: (call.start, ORDER_AT_A_MINUTE[call.kind], call.step)))


def spans(names: Iterable[str]) -> str:
    """Bench numbers in a sentence: "1 to 7", "1, 3 and 5 to 7"; other names are listed."""
    wanted = list(names)
    if not all(name.isdigit() for name in wanted):
        return listed(wanted)
    runs: list[list[int]] = []
    for number in sorted(map(int, wanted)):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    words = []
    for run in runs:
        words += [f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(number) for number in run]
    return listed(words)


def benches_words(names: Iterable[str], all_of: int = 0) -> str:
    """ "Bench 4", "Benches 1 to 7", "All benches" when it is everybody of ``all_of``."""
    wanted = list(names)
    if all_of and len(wanted) == all_of and all_of > 1:
        return "All benches"
    return f"Bench{'es' if len(wanted) > 1 else ''} {spans(wanted)}"


def ovens_words(names: Iterable[str]) -> str:
    """ "Ovens 1 to 7", "Oven 1, both decks, and Oven 2, upper deck"; else their names in a list."""
    wanted = list(names)
    numbers = [name.removeprefix("Oven ") for name in wanted]
    if len(wanted) > 1 and all(number.isdigit() for number in numbers):
        return f"Ovens {spans(numbers)}"
    decks: dict[str, list[str]] = {}
    for name in wanted:
        oven, _, deck = name.partition(", ")
        decks.setdefault(oven, []).append(deck)
    found = [_decks_words(oven, which) for oven, which in decks.items()]
    return "; ".join(found) if len(found) > 1 and any("," in each for each in found) else listed(found)


def _decks_words(oven: str, decks: list[str]) -> str:
    if sorted(decks) == ["lower deck", "upper deck"]:
        return f"{oven}, both decks"
    return ", ".join(filter(None, (oven, *decks)))


def _start(plan: LessonPlan) -> Call:
    minutes = plan.cooking_from - plan.starts
    return Call(plan.starts, minutes, "start", "Start-up", "Hands, register, brief, kits checked.")


def _clear(plan: LessonPlan) -> Call:
    at = plan.clear_at
    spare = f" {plan.spare_minutes} min in hand before it." if plan.spare_minutes else ""
    late = f" {plan.minutes_over} min too late." if plan.minutes_over else ""
    kept = f" {plan.contingency_minutes} min are kept free." if plan.contingency_minutes else ""
    words = f"The last bench has finished at {clock_minutes(plan.finish_at)}.{spare}{late}{kept}"
    return Call(at, plan.ends - at, "clear", "Clear-down", words)


def _break(plan: LessonPlan) -> Call:
    """The break, and which food whoever minds the ovens takes out meanwhile."""
    out: dict[int, list[str]] = {}
    for bench in plan.benches:
        for bar in bench.bars:
            if bar.kind == "oven" and plan.break_at < bar.end < plan.break_end:
                out.setdefault(bar.end, []).append(bench.name)
    points = [
        f"Out of the oven at {clock_minutes(at)}: {benches_words(who).lower()}." for at, who in out.items()
    ]
    words = "Nobody works and nothing is supervised; food may wait, bake or chill."
    return Call(plan.break_at, plan.break_minutes, "break", "Break", words, tuple(sorted(points)))


def _lights(ovens: tuple[OvenPlan, ...]) -> list[Call]:
    """Ovens that are lit at the same minute for the same heat are one call."""
    together: dict[tuple[int, int], list[OvenPlan]] = {}
    for oven in ovens:
        together.setdefault((oven.light_at, oven.heats[0].decicelsius or 0), []).append(oven)
    return [
        Call(
            at,
            0,
            "oven",
            f"Set to {temperature(heat)}",
            f"{ovens_words(oven.name for oven in group)}: hot by {clock_minutes(group[0].heats[0].start)}.",
        )
        for (at, heat), group in together.items()
    ]


def _show(show: ShowPlan) -> Call:
    how = "from a stage tray" if show.way == "stage_tray" else "live"
    head = f"Demonstration of step {show.step}, {how}"
    return Call(show.start, show.minutes, "show", head, show.words, ("Everybody watches.",), show.step)


def _steps(benches: tuple[BenchPlan, ...]) -> list[Call]:
    """Steps that benches begin at the same minute in the same words are one call."""
    together: dict[tuple[int, int, str], list[tuple[BenchPlan, PlanLine]]] = {}
    for bench in benches:
        for line in bench.lines:
            together.setdefault((line.start, line.step, line.words), []).append((bench, line))
    return [_step(group, len(benches)) for group in together.values()]


def _each_in_another_oven(group: list[tuple[BenchPlan, PlanLine]]) -> bool:
    """Whether the benches bake alike and no two of them in one oven: their strips name the ovens."""
    ovens = [
        bar.where
        for bench, line in group
        for bar in bench.bars
        if bar.kind == "oven" and bar.step == line.step and len(line.points) == 1
    ]
    alike = {(line.points[0].split(" in ")[0], line.points[0].split(": ", 1)[-1]) for _, line in group}
    return len(alike) == 1 and len(ovens) == len(set(ovens)) == len(group)


def line_name(line: PlanLine) -> str:
    """ "Step 4", or "The pass" for the plate that is tasted."""
    return f"Step {line.step}" if line.step else "The pass"


def _step(group: list[tuple[BenchPlan, PlanLine]], count: int) -> Call:
    line = group[0][1]
    points = [f"Look for: {line.cue}"] if line.cue else []
    points += ["Somebody stands beside each bench in turn."] if any(each.beside for _, each in group) else []
    minutes, others = _minutes(group)
    return Call(
        start=line.start,
        minutes=minutes,
        kind="step" if line.step else "pass",
        head=f"{benches_words((bench.name for bench, _ in group), count)}: {line_name(line).lower()}",
        words=line.words,
        points=(*others, *_shared_points(group), *points),
        step=line.step,
    )


def _minutes(group: list[tuple[BenchPlan, PlanLine]]) -> tuple[int, tuple[str, ...]]:
    """Minutes at work of most benches, and a point for each other number of minutes."""
    taken: dict[int, list[str]] = {}
    for bench, line in group:
        taken.setdefault(line.hands_minutes, []).append(bench.name)
    most = max(taken, key=lambda minutes: len(taken[minutes]))
    others = sorted(minutes for minutes in taken if minutes != most)
    return most, tuple(f"{benches_words(taken[minutes])}: {minutes} min at work." for minutes in others)


def _shared_points(group: list[tuple[BenchPlan, PlanLine]]) -> tuple[str, ...]:
    """The points that all share; where they differ, each with the benches that share it."""
    first = group[0][1].points
    if all(line.points == first for _, line in group):
        return first
    if _each_in_another_oven(group):
        return (f"{first[0].split(' in ')[0]}, each in an oven of its own: {first[0].split(': ', 1)[1]}",)
    alike: dict[tuple[str, ...], list[str]] = {}
    for bench, line in group:
        alike.setdefault(line.points, []).append(bench.name)
    return tuple(f"{benches_words(names)}: {point}" for points, names in alike.items() for point in points)
