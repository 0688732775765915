"""Does the lesson fit its slot; if not, what is in the way, and ways out that were solved.

For the lecturer's page and the demo command. ``judge`` plans the lesson and says in words
what is in the way. ``ways_out`` looks for the smallest changes that make it fit: steps
prepared ahead, pairs in place of singles, two sittings on two days, a longer slot. No way
out is offered that was not planned and checked.

Worked example: fourteen single benches from the start in a room of twelve, 135 minutes of
cooking. Two benches are missing and the longest chain of 161 minutes is 26 too long. With
the paste made and rested ahead (steps 1 and 2) and in pairs, seven benches fit.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations

from curriculum.recipes.data import RecipeData
from curriculum.wording import counted_words, listed, number
from kitchen.timeplan.bounds import Bound, all_bounds
from kitchen.timeplan.byhand import NoPlanByHand, plan_by_hand
from kitchen.timeplan.class_data import BenchData, LessonData
from kitchen.timeplan.lead import Planned, chain_of, plan_lesson
from kitchen.timeplan.lesson_problem import RoomLacks, problem_of
from kitchen.timeplan.problem import Problem
from kitchen.timeplan.solver import Effort, NoPlan

#: A step counts as possible the day before when its result keeps so long (common practice, no source).
KEEPS_OVERNIGHT_MINUTES = 720
#: A longer slot is asked for in steps of so many minutes.
SLOT_STEP_MINUTES = 15
#: More steps ahead than this are another lesson.
MOST_STEPS_AHEAD = 6


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


@dataclass(frozen=True, slots=True)
class WayOut:
    """A change that makes the lesson fit, solved: what to change, and the figures it gives.

    ``kind`` is ahead, pairs, sittings or longer, joined with "+". ``ahead`` is the whole list
    of steps to do before; ``sittings`` 2 means the class comes in two halves on two days;
    ``usable_minutes`` is what each sitting needs for cooking.
    """

    kind: str
    words: str
    ahead: tuple[int, ...]
    pairs: bool
    sittings: int
    benches: int
    chain_minutes: int
    usable_minutes: int
    finish_minutes: int
    bound_minutes: int
    status: str


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
        return _without_plan(lesson, chain.minutes, steps, [*reasons, Reason("no_order", str(none))])
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
    problem, usable = planned.problem, lesson.usable_minutes
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
    tasks = tuple(replace(t, lecturer=False) for t in problem.tasks)
    yield "the lecturer", replace(problem, tasks=tasks)


def _rule_finish(problem: Problem) -> int:
    try:
        return plan_by_hand(problem, nudges=6).finish(problem)
    except NoPlanByHand:
        return 10**6


def ways_out(lesson: LessonData, effort: Effort | None = Effort(seconds=2.0)) -> tuple[WayOut, ...]:  # noqa: B008
    """Changes that make the lesson fit, each planned; empty when it fits, or when none was found.

    What the room lacks altogether no change of benches, steps or minutes brings.
    """
    first = judge(lesson, None)
    if first.fits or any(reason.code == "room_lacks" for reason in first.reasons):
        return ()
    found = []
    for kind, changed, sittings in _arrangements(lesson):
        if len(changed.benches) > changed.room_benches:
            continue
        found.append(_smallest_ahead(lesson, kind, changed, sittings, effort))
        found.append(_longer_slot(lesson, kind, changed, sittings, effort))
    return tuple(_fewest([way for way in found if way is not None]))


def _fewest(ways: list[WayOut]) -> Iterator[WayOut]:
    """Ways that change no more than is needed: none whose changes hold those of another way."""
    kinds = [set(way.kind.split("+")) for way in ways]
    for way, own in zip(ways, kinds, strict=True):
        if not any(other < own for other in kinds):
            yield way


def _arrangements(lesson: LessonData) -> Iterator[tuple[str, LessonData, int]]:
    """The class as it is, in pairs, and in two halves on two days."""
    yield "", lesson, 1
    paired = in_pairs(lesson)
    if paired is not None:
        yield "pairs", paired, 1
    if len(lesson.benches) > 1:
        half = -(-len(lesson.benches) // 2)
        yield "sittings", replace(lesson, benches=lesson.benches[:half]), 2


def in_pairs(lesson: LessonData) -> LessonData | None:
    """Single benches joined two by two; who shares a bench with a variant works the variant."""
    if any(bench.cooks > 1 for bench in lesson.benches) or len(lesson.benches) < 2:
        return None
    benches = []
    for place, pair in enumerate(_pairs(list(lesson.benches)), 1):
        learners = tuple(name for bench in pair for name in bench.learners)
        pace = max(bench.pace_per_mille for bench in pair)
        benches.append(BenchData(str(place), pair[-1].recipe, learners, len(pair), pace))
    return replace(lesson, benches=tuple(benches))


def _pairs(benches: list[BenchData]) -> list[list[BenchData]]:
    """Pairs of one recipe; one who is left over with a variant is joined by an ordinary one, put first."""
    alike: dict[str, list[BenchData]] = {}
    for bench in benches:
        alike.setdefault(bench.recipe.code, []).append(bench)
    ordinary = [b for group in alike.values() for b in group if b.recipe.variant_of is None]
    variants = [group for group in alike.values() if group[0].recipe.variant_of is not None]
    pairs = []
    for group in variants:
        pairs += [group[i : i + 2] for i in range(0, len(group) - 1, 2)]
        if len(group) % 2:
            pairs.append([ordinary.pop(), group[-1]] if ordinary else [group[-1]])
    return [ordinary[i : i + 2] for i in range(0, len(ordinary), 2)] + pairs


def _smallest_ahead(
    lesson: LessonData, kind: str, changed: LessonData, sittings: int, effort: Effort | None
) -> WayOut | None:
    """The fewest further steps ahead that make this arrangement fit; none at all when it fits so."""
    for ahead in _ahead_sets(changed):
        tried = replace(changed, ahead=tuple(sorted({*changed.ahead, *ahead})))
        if chain_of(tried).minutes > tried.usable_minutes:
            continue
        verdict = _judged_twice(tried, effort)
        if verdict.fits:
            kinds = "+".join(k for k in (kind, "ahead" if ahead else "") if k)
            return _way(lesson, kinds, tried, sittings, verdict) if kinds else None
    return None


def _judged_twice(lesson: LessonData, effort: Effort | None) -> Verdict:
    """By our own rule; by the solver only where the rule does not fit and no bound forbids it."""
    verdict = judge(lesson, None)
    planned = verdict.planned
    hopeless = planned is None or planned.plan.bound_minutes > lesson.usable_minutes
    return verdict if verdict.fits or hopeless or effort is None else judge(lesson, effort)


def _ahead_sets(lesson: LessonData) -> Iterator[tuple[int, ...]]:
    """Sets of steps that may be done ahead, fewest first, then least work; the empty set first."""
    recipe = lesson.benches[0].recipe
    steps = {s.position: s for s in lesson.steps_of(lesson.benches[0])}
    possible = [p for p, s in steps.items() if s.ahead_possible]
    for size in range(min(len(possible), MOST_STEPS_AHEAD) + 1):
        sets = [c for c in combinations(possible, size) if _can_be_ahead(recipe, lesson, set(c))]
        yield from sorted(sets, key=lambda c: (sum(steps[p].active_minutes for p in c), c))


def _can_be_ahead(recipe: RecipeData, lesson: LessonData, chosen: set[int]) -> bool:
    """Whether all that comes before is ahead too, and what is made keeps until the lesson."""
    ahead = chosen | set(lesson.ahead)
    here = {s.position for s in lesson.steps_of(lesson.benches[0])} - chosen
    for step in recipe.steps:
        for after in step.after:
            if step.position in chosen and after.needs in here:
                return False
            keeps = after.longest_minutes is None or after.longest_minutes >= KEEPS_OVERNIGHT_MINUTES
            if after.needs in ahead and step.position in here and not keeps:
                return False
    return bool(here)


def _longer_slot(
    lesson: LessonData, kind: str, changed: LessonData, sittings: int, effort: Effort | None
) -> WayOut | None:
    """The same steps in a longer slot, in quarters of an hour; None when the slot is long enough."""
    wanted = -(-chain_of(changed).minutes // SLOT_STEP_MINUTES) * SLOT_STEP_MINUTES
    if wanted <= changed.usable_minutes:
        return None
    for usable in (wanted, wanted + SLOT_STEP_MINUTES):
        longer = replace(changed, minutes=changed.minutes + usable - changed.usable_minutes)
        verdict = _judged_twice(longer, effort)
        if verdict.fits:
            kinds = "+".join(k for k in (kind, "longer") if k)
            return _way(lesson, kinds, longer, sittings, verdict)
    return None


def _way(lesson: LessonData, kind: str, tried: LessonData, sittings: int, verdict: Verdict) -> WayOut:
    assert verdict.planned is not None
    plan, kinds = verdict.planned.plan, kind.split("+")
    return WayOut(
        kind=kind,
        words=_way_words(lesson, kinds, tried, sittings, plan.finish_minutes),
        ahead=tried.ahead,
        pairs="pairs" in kinds,
        sittings=sittings,
        benches=len(tried.benches),
        chain_minutes=verdict.chain_minutes,
        usable_minutes=tried.usable_minutes,
        finish_minutes=plan.finish_minutes,
        bound_minutes=plan.bound_minutes,
        status=plan.status,
    )


def _way_words(lesson: LessonData, kinds: list[str], tried: LessonData, sittings: int, finish: int) -> str:
    """ "Do steps 1 and 2 ahead and work in pairs on seven benches: 131 of 135 minutes"."""
    deeds = []
    new = tuple(step for step in tried.ahead if step not in lesson.ahead)
    if new:
        deeds.append(f"do {step_words(new).lower()} ahead")
    if "pairs" in kinds:
        deeds.append(f"work in pairs on {counted_words(len(tried.benches), 'bench', 'benches')}")
    if sittings == 2:
        benches = counted_words(len(tried.benches), "bench", "benches")
        deeds.append(f"split the class over two days, {benches} at most each day")
    if "longer" in kinds:
        deeds.append(f"book {tried.minutes} minutes, of which {tried.usable_minutes} are for cooking")
    words = listed(deeds)
    return f"{words[:1].upper()}{words[1:]}. Planned: {finish} of {tried.usable_minutes} minutes."
