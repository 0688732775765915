"""Ways out when a lesson does not fit: the cheapest sets of changes, each planned and checked.

For the lecturer's page and the demo command. Changes that are looked at: steps prepared
ahead, pairs in place of singles, fewer portions a bench, two sittings on two days, a longer
slot, one more oven, somebody beside the lecturer, no break, nothing kept free before
clear-down. Every set of them has a cost from one table; sets are tried from the cheapest on, and
what a proof forbids is not tried. No way out is offered that was not planned, and none that
changes more than another one that fits. More start times are no change of the lesson: the plan
takes as many as the college allows by itself.

Worked example: fourteen single benches in a room of twelve, 135 minutes of cooking and a
chain of 161. Pairs (5) with the paste made and rested ahead (two steps, 4, and 2 for their
work) cost 11; pairs in a slot half an hour longer (8) cost 13; two days and a longer slot 28.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import combinations

from curriculum.recipes.data import RecipeData
from curriculum.wording import counted_words, duration, listed
from kitchen.timeplan.beside import any_beside
from kitchen.timeplan.bounds import best_bound
from kitchen.timeplan.byhand import NoPlanByHand, plan_by_hand
from kitchen.timeplan.class_data import BenchData, LessonData
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.fits import Verdict, judge, step_words
from kitchen.timeplan.lead import chain_of
from kitchen.timeplan.lesson_problem import RoomLacks, problem_of

#: What a change costs the college (common practice, no source: how people weigh it).
COST = {
    "ahead": 2,
    "ten_minutes_ahead": 1,
    "pairs": 5,
    "quarter_of_the_portions": 3,
    "longer": 4,
    "helper": 6,
    "no_break": 3,
    "no_contingency": 3,
    "oven": 7,
    "sittings": 16,
}
#: Portions a bench are cut by quarters, at most so many: fewer are hardly practice (our own choice,
#: no source).
MOST_QUARTERS_FEWER = 2
#: A step counts as possible the day before when its result keeps so long (common practice, no source).
KEEPS_OVERNIGHT_MINUTES = 720
#: A longer slot is asked for in steps of so many minutes, at most so many of them.
SLOT_STEP_MINUTES, MOST_SLOT_STEPS = 15, 5
#: More steps ahead than this are another lesson.
MOST_STEPS_AHEAD = 6
#: So many ways are enough; so many sets are planned at most, so many of them by the solver.
MOST_WAYS, MOST_TRIES, MOST_SEARCHES = 4, 20, 6
#: A rule's plan of the class that nobody leads may be so much longer than the slot and still be planned.
WITHIN_REACH = Fraction(107, 100)


@dataclass(frozen=True, slots=True)
class WayOut:
    """Changes that make the lesson fit, solved: what to change, and the figures it gives.

    ``kind`` is pairs, sittings, fewer, no_break, no_contingency, oven, helper, ahead or longer, joined with
    "+". ``portions`` a bench are said where they are fewer.
    ``ahead`` is the whole list of steps to do before; ``sittings`` 2 means the class comes in two halves
    on two days; ``usable_minutes`` is what each sitting needs for cooking.
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
    portions: int | None = None

    @property
    def kinds(self) -> frozenset[str]:
        """The changes it is made of."""
        return frozenset(self.kind.split("+"))


@dataclass(frozen=True, slots=True)
class _Set:
    """One set of changes: what the lesson would be, which steps more are ahead, what it costs."""

    kinds: tuple[str, ...]
    ahead: frozenset[int]
    lesson: LessonData
    cost: float

    def holds(self, other: "_Set") -> bool:
        """Whether it changes all that the other changes: then it is needless beside it."""
        return set(other.kinds) <= set(self.kinds) and other.ahead <= self.ahead


def ways_out(lesson: LessonData, effort: Effort | None = Effort(seconds=2.0)) -> tuple[WayOut, ...]:  # noqa: B008
    """Cheapest sets of changes that make the lesson fit; empty when it fits, or when none was found.

    What the room lacks altogether no change of benches, steps or minutes brings.
    """
    first = judge(lesson, None)
    if first.fits or any(reason.code == "room_lacks" for reason in first.reasons):
        return ()
    found: list[tuple[_Set, WayOut]] = []
    tries = searches = 0
    for each in sorted(_sets(lesson), key=lambda s: (s.cost, s.kinds, sorted(s.ahead))):
        if len(found) == MOST_WAYS or tries == MOST_TRIES:
            break
        if any(each.holds(known) for known, _ in found) or _is_out_of_reach(each.lesson):
            continue
        tries += 1
        hard = effort if searches < MOST_SEARCHES else None
        verdict, searched = _judged_twice(each.lesson, hard)
        searches += searched
        if verdict.fits and "sittings" in each.kinds:
            verdict = _of_both_days(lesson, each, verdict, hard)
        if verdict.fits:
            found.append((each, _way(lesson, each, verdict)))
    return tuple(way for _, way in found)


def _sets(lesson: LessonData) -> Iterator[_Set]:
    """Every set of changes but the empty one, with the lesson as it would be."""
    arranged = (fewer for each in _arrangements(lesson) for fewer in _with_fewer(*each))
    for kinds, changed in (eased for each in arranged for eased in _eased(*each)):
        for with_help, helped in _helped(kinds, changed):
            for ahead in _ahead_sets(helped):
                done = replace(helped, ahead=tuple(sorted({*helped.ahead, *ahead})))
                done_kinds = (*with_help, "ahead") if ahead else with_help
                yield from _longer(lesson, done_kinds, frozenset(ahead), done)


def _arrangements(lesson: LessonData) -> Iterator[tuple[tuple[str, ...], LessonData]]:
    """The class as it is, in pairs where no plate is marked, and in two halves on two days."""
    yield (), lesson
    paired = in_pairs(lesson)
    if paired is not None and not lesson.minutes_a_plate:
        yield ("pairs",), paired
    if len(lesson.benches) > 1:
        half = -(-len(lesson.benches) // 2)
        yield ("sittings",), replace(lesson, benches=lesson.benches[:half])


def _with_fewer(kinds: tuple[str, ...], lesson: LessonData) -> Iterator[tuple[tuple[str, ...], LessonData]]:
    """With as many portions a bench, and with quarters of them less where some minutes grow with them."""
    yield kinds, lesson
    portions = _portions(lesson)
    grows = {way.portion_seconds for step in lesson.steps_of(lesson.benches[0]) for way in step.ways}
    if not any(grows):
        return
    counts = {-(-portions * (4 - quarters) // 4) for quarters in range(1, MOST_QUARTERS_FEWER + 1)}
    for count in sorted(counts - {portions}, reverse=True):
        if count > lesson.plates:
            yield (*kinds, "fewer"), making(lesson, count)


def making(lesson: LessonData, portions: int) -> LessonData:
    """The lesson with so many portions at each bench that cooks its dish."""
    benches = (
        each if each.other_ahead is not None else replace(each, portions=portions) for each in lesson.benches
    )
    return replace(lesson, benches=tuple(benches))


def _portions(lesson: LessonData) -> int:
    bench = lesson.benches[0]
    return bench.portions or bench.recipe.portions_stated


def _eased(kinds: tuple[str, ...], lesson: LessonData) -> Iterator[tuple[tuple[str, ...], LessonData]]:
    """As it is, without its break, with nothing kept free before clear-down, and without both."""
    yield kinds, lesson
    if lesson.break_counted:
        yield (*kinds, "no_break"), replace(lesson, break_after=0, break_minutes=0)
    if lesson.contingency_minutes:
        full = replace(lesson, contingency_minutes=0)
        yield (*kinds, "no_contingency"), full
        if lesson.break_counted:
            yield (*kinds, "no_break", "no_contingency"), replace(full, break_after=0, break_minutes=0)


def _helped(kinds: tuple[str, ...], lesson: LessonData) -> Iterator[tuple[tuple[str, ...], LessonData]]:
    """As it is, with one more oven like the largest there is, with somebody beside the lecturer."""
    yield kinds, lesson
    ovens = [each for each in lesson.appliances if each.kind == "oven"]
    if ovens:
        largest = max(ovens, key=lambda oven: oven.units)
        more = replace(largest, code="one-more-oven", name="one more oven")
        yield (*kinds, "oven"), replace(lesson, appliances=(*lesson.appliances, more))
    if any_beside(lesson):
        yield (*kinds, "helper"), replace(lesson, supervisors=lesson.supervisors + 1)


def _longer(
    lesson: LessonData, kinds: tuple[str, ...], ahead: frozenset[int], done: LessonData
) -> Iterator[_Set]:
    """The slot as it is, and in quarters of an hour more, from where the longest chain fits."""
    minutes = sum(step.active_minutes for step in lesson.benches[0].steps if step.position in ahead)
    cost = sum(COST[kind] for kind in kinds if kind not in ("ahead", "fewer")) + COST["ahead"] * len(ahead)
    less = _portions(lesson) - _portions(done)
    cost += COST["quarter_of_the_portions"] * -(-4 * less // _portions(lesson))
    cost += COST["ten_minutes_ahead"] * minutes / 10
    for quarters in range(MOST_SLOT_STEPS + 1):
        changed = replace(done, minutes=done.minutes + SLOT_STEP_MINUTES * quarters)
        if not kinds and not quarters:
            continue
        longer = (*kinds, "longer") if quarters else kinds
        yield _Set(longer, ahead, changed, cost + COST["longer"] * quarters)


def _is_out_of_reach(lesson: LessonData) -> bool:
    """Whether benches or a bound on paper forbid it, or the rule is far too long even with nobody leading."""
    usable = lesson.usable_minutes
    if len(lesson.benches) > lesson.room_benches or usable <= 0:
        return True
    try:
        if chain_of(lesson).minutes > usable:
            return True
        free = problem_of(lesson).free()
        if best_bound(free).minutes > usable:
            return True
        return plan_by_hand(free, nudges=2, enough=usable).finish(free) > usable * WITHIN_REACH
    except (RoomLacks, NoPlanByHand):
        return True


def in_pairs(lesson: LessonData) -> LessonData | None:
    """Single benches joined two by two; who shares a bench with a variant works the variant."""
    if any(bench.cooks > 1 for bench in lesson.benches) or len(lesson.benches) < 2:
        return None
    benches = []
    for place, pair in enumerate(_pairs(list(lesson.benches)), 1):
        learners = tuple(name for bench in pair for name in bench.learners)
        pace = max(bench.pace_per_mille for bench in pair)
        young = any(bench.under_18 for bench in pair)
        joined = {"learners": learners, "cooks": len(pair), "pace_per_mille": pace, "under_18": young}
        benches.append(replace(pair[-1], name=str(place), **joined))
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


def _judged_twice(lesson: LessonData, effort: Effort | None) -> tuple[Verdict, bool]:
    """By our own rule; by the solver (True) only where the rule does not fit and no bound forbids it."""
    verdict = judge(lesson, None)
    planned = verdict.planned
    hopeless = planned is None or planned.plan.bound_minutes > lesson.usable_minutes
    if verdict.fits or hopeless or effort is None:
        return verdict, False
    return judge(lesson, effort), True


def _of_both_days(lesson: LessonData, changes: _Set, first: Verdict, effort: Effort | None) -> Verdict:
    """The longer of the two days, or the one that does not fit: the variants may all be on the second."""
    others = lesson.benches[len(changes.lesson.benches) :]
    if not _work(others) - _work(changes.lesson.benches):
        return first
    second, _ = _judged_twice(replace(changes.lesson, benches=others), effort)
    return second if not second.fits or _finish(second) > _finish(first) else first


def _work(benches: tuple[BenchData, ...]) -> Counter[tuple[str, int, int]]:
    """How many benches cook the same, by as many cooks at the same pace."""
    return Counter((bench.recipe.code, bench.cooks, bench.pace_per_mille) for bench in benches)


def _finish(verdict: Verdict) -> int:
    return verdict.planned.plan.finish_minutes if verdict.planned else 0


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


def _way(lesson: LessonData, changes: _Set, verdict: Verdict) -> WayOut:
    assert verdict.planned is not None
    plan, tried = verdict.planned.plan, changes.lesson
    return WayOut(
        kind="+".join(changes.kinds),
        words=_way_words(lesson, changes, plan.finish_minutes),
        ahead=tried.ahead,
        pairs="pairs" in changes.kinds,
        sittings=2 if "sittings" in changes.kinds else 1,
        benches=len(tried.benches),
        chain_minutes=verdict.chain_minutes,
        usable_minutes=tried.usable_minutes,
        finish_minutes=plan.finish_minutes,
        bound_minutes=plan.bound_minutes,
        status=plan.status,
        portions=_portions(tried) if "fewer" in changes.kinds else None,
    )


def _way_words(lesson: LessonData, changes: _Set, finish: int) -> str:
    """ "Do steps 1 and 2 ahead and work in pairs on seven benches: 131 of 135 minutes"."""
    tried, kinds, deeds = changes.lesson, changes.kinds, []
    new = tuple(step for step in tried.ahead if step not in lesson.ahead)
    benches = counted_words(len(tried.benches), "bench", "benches")
    if new:
        deeds.append(f"do {step_words(new).lower()} ahead")
    if "pairs" in kinds:
        deeds.append(f"work in pairs on {benches}")
    if "fewer" in kinds:
        deeds.append(f"make {_portions(tried)} portions a bench in place of {_portions(lesson)}")
    if "sittings" in kinds:
        deeds.append(f"split the class over two days, {benches} at most each day")
    if "no_break" in kinds:
        deeds.append("work without the break")
    if "no_contingency" in kinds:
        deeds.append(f"keep none of the {lesson.contingency_minutes} minutes free before clear-down")
    if "oven" in kinds:
        deeds.append("have one more oven")
    if "helper" in kinds:
        deeds.append("have somebody beside the lecturer for the steps that need one")
    if "longer" in kinds:
        booked = f"book {duration(tried.minutes)} in place of {duration(lesson.minutes)}"
        deeds.append(f"{booked}, of which {tried.usable_minutes} minutes are for cooking")
    words = listed(deeds)
    return f"{words[:1].upper()}{words[1:]}. Planned: {finish} of {tried.usable_minutes} minutes."
