"""Does the lesson fit its slot, and if not, what is in the way.

For the lecturer's page and the demo command. ``judge`` plans the lesson and says in words
what is in the way; what would make it fit is found by ``ways_out``.

Worked example: fourteen single benches from the start in a room of twelve, 135 minutes of
cooking. Two benches are missing and the longest chain of 161 minutes is 26 too long.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from curriculum.wording import counted_words, listed, number
from kitchen.timeplan.beside import BESIDE
from kitchen.timeplan.bounds import Bound, all_bounds
from kitchen.timeplan.byhand import NoPlanByHand, plan_by_hand
from kitchen.timeplan.choices import every_way
from kitchen.timeplan.class_data import LessonData
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.lead import Planned, chain_of, plan_lesson
from kitchen.timeplan.lesson_problem import RoomLacks, problem_of
from kitchen.timeplan.problem import Problem
from kitchen.timeplan.solver import NoPlan
from kitchen.timeplan.tasting import plates_wait_too_long

#: Where our own rule finds no plan and something is fixed; which of it cannot hold is proved on its own page.
ROUND_FIXED = (
    "Our own rule finds no plan round what is fixed by hand. The page on which it is fixed says what breaks."
)


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing in the way: a code for tests, a sentence, the minutes missing (0: not minutes)."""

    code: str
    words: str
    missing_minutes: int = 0


@dataclass(frozen=True, slots=True)
class Verdict:
    """What came of planning a lesson. ``planned`` is None when no plan could be made."""

    fits: bool
    usable_minutes: int
    chain_minutes: int
    chain_steps: tuple[int, ...]
    benches: int
    room_benches: int
    planned: Planned | None
    reasons: tuple[Reason, ...]


def judge(lesson: LessonData, effort: Effort | None = Effort()) -> Verdict:  # noqa: B008
    """Plan the lesson and say whether it fits; effort None asks only our own rule."""
    try:
        chain = chain_of(lesson)
    except RoomLacks as lacking:
        return _without_plan(lesson, 0, (), [_lacks_words(lesson, lacking)])
    steps = _chain_steps(lesson, chain)
    reasons = [*_too_many_benches(lesson), *_chain_too_long(lesson, chain, steps)]
    if lesson.usable_minutes <= 0:
        reasons.append(Reason("no_time", "Start-up and clear-down leave no time for cooking."))
    try:
        planned = plan_lesson(lesson, None if reasons else effort)
    except NoPlan as none:
        words = _plates_wait(lesson) or (ROUND_FIXED if lesson.pins else str(none))
        return _without_plan(lesson, chain.minutes, steps, [*reasons, Reason("no_order", words)])
    if not planned.plan.fits and not any(r.missing_minutes for r in reasons):
        reasons += _what_is_in_the_way(lesson, planned)
    return Verdict(
        fits=not reasons,
        usable_minutes=lesson.usable_minutes,
        chain_minutes=chain.minutes,
        chain_steps=steps,
        benches=len(lesson.benches),
        room_benches=lesson.room_benches,
        planned=planned,
        reasons=tuple(reasons),
    )


def _plates_wait(lesson: LessonData) -> str:
    """Where one who tastes cannot follow in any number of waves; empty where that is not in the way."""
    if not lesson.minutes_a_plate:
        return ""
    waves = range(1, max(1, lesson.waves_most) + 1)
    if not all(plates_wait_too_long(problem_of(lesson, count)) for count in waves):
        return ""
    return (
        f"The plates of {counted_words(len(lesson.benches), 'bench', 'benches')} in at most"
        f" {counted_words(max(waves), 'wave')} are ready too close together: one after another they take"
        f" {lesson.minutes_a_plate} min each and have to be tasted within {lesson.taste_within} min. Fewer"
        " minutes a plate, fewer benches or a second sitting would help."
    )


def _without_plan(lesson: LessonData, chain: int, steps: tuple[int, ...], reasons: list[Reason]) -> Verdict:
    benches, room = len(lesson.benches), lesson.room_benches
    return Verdict(False, lesson.usable_minutes, chain, steps, benches, room, None, tuple(reasons))


def _chain_steps(lesson: LessonData, chain: Bound) -> tuple[int, ...]:
    problem = problem_of(lesson)
    return tuple(dict.fromkeys(problem.task[name].step or 0 for name in chain.tasks))


def _lacks_words(lesson: LessonData, lacking: RoomLacks) -> Reason:
    things = listed(f"{kind.replace('_', ' ')} (step {step})" for step, kind in lacking.lacks)
    return Reason("room_lacks", f"{lesson.room or 'The room'} lacks what these steps need: {things}.")


def _too_many_benches(lesson: LessonData) -> Iterator[Reason]:
    wanted, there = len(lesson.benches), lesson.room_benches
    if wanted > there:
        room = lesson.room or "The room"
        yield Reason("benches", f"{room} has {number(there)} benches; {number(wanted)} are wanted.")


def _chain_too_long(lesson: LessonData, chain: Bound, steps: tuple[int, ...]) -> Iterator[Reason]:
    short_by = chain.minutes - lesson.usable_minutes
    if short_by > 0:
        yield Reason(
            "chain",
            f"{step_words(steps)} follow one another and take {chain.minutes} minutes. The slot leaves"
            f" {lesson.usable_minutes} minutes for cooking: that alone is {short_by} minutes too long.",
            short_by,
        )


def step_words(steps: tuple[int, ...]) -> str:
    """ "Step 4", "Steps 1, 2 and 4"."""
    return f"Step{'s' if len(steps) > 1 else ''} {listed(str(step) for step in steps)}"


def _what_is_in_the_way(lesson: LessonData, planned: Planned) -> Iterator[Reason]:
    """Loads that are proved too much; else the plan's own length, and what would shorten it."""
    problem, usable = planned.question, lesson.usable_minutes
    proved = [b for b in all_bounds(problem) if b.minutes > usable]
    for bound in sorted(proved, key=lambda b: -b.minutes)[:2]:
        yield Reason(bound.kind, _load_words(problem, bound, usable), bound.minutes - usable)
    if proved:
        return
    plan = planned.plan
    words = (
        f"The best plan takes {plan.finish_minutes} minutes; the slot leaves {usable}, so"
        f" {plan.minutes_over} minutes are missing. No plan takes less than {plan.bound_minutes}."
    )
    yield Reason("too_long", words, plan.minutes_over)
    yield from what_would_help(problem)


def _load_words(problem: Problem, bound: Bound, usable: int) -> str:
    trays = sum(oven.trays for oven in problem.ovens)
    who = {
        "hands": f"The work of bench {bound.about}'s hands".replace("'", "’"),
        "lecturer": "What the lecturer must stand beside",
        "assessor": "The tasting by the assessor",
        "ovens": f"The baking, on {counted_words(trays, 'shelf', 'shelves')} of the ovens,",
        "start": "The longest chain, with its demonstrations and the heating of the ovens,",
        "chain": "The longest chain",
    }
    for supply in problem.supplies:
        if bound.kind == "supply" and supply.name == bound.about:
            there = f"of which there {'is' if supply.units == 1 else 'are'} {number(supply.units)}"
            who["supply"] = f"The work at the {supply.words or supply.name}, {there},"
            if supply.name == BESIDE:
                who["supply"] = f"What somebody must stand beside, with {number(supply.units)} who may,"
    return (
        f"{who[bound.kind]} ends at minute {bound.minutes} at the earliest; the slot leaves {usable} minutes."
    )


def what_would_help(problem: Problem) -> Iterator[Reason]:
    """What, if there were twice as much of it, would shorten the rule's plan most."""
    free = problem.free()
    base = _rule_finish(free)
    best_name, best_finish = "", base
    for name, more in _doubled(free):
        changed = _rule_finish(more)
        if changed < best_finish:
            best_name, best_finish = name, changed
    if best_name and base - best_finish >= 1:
        words = f"What the benches wait for most is {best_name}: with more of it about {base - best_finish}"
        yield Reason("queue", f"{words} minutes would be saved.")


def _doubled(problem: Problem) -> Iterator[tuple[str, Problem]]:
    if problem.ovens:
        ovens = tuple(replace(o, name=f"{o.name} again") for o in problem.ovens)
        yield "the ovens", replace(problem, ovens=problem.ovens + ovens)
    for supply in problem.supplies:
        others = tuple(replace(s, units=2 * s.units) if s is supply else s for s in problem.supplies)
        yield f"the {supply.words or supply.name}", replace(problem, supplies=others)
    tasks = tuple(every_way(t, lambda way: replace(way, lecturer=False)) for t in problem.tasks)
    yield "the lecturer", replace(problem, tasks=tasks)


def _rule_finish(problem: Problem) -> int:
    try:
        return plan_by_hand(problem, nudges=6).finish(problem)
    except NoPlanByHand:
        return 10**6
