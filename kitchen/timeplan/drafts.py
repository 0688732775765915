"""A plan before anybody accepts it: what was found, whether it fits, what would help, what leading costs.

For the page, for the long work outside the request, and for acceptance. A draft remembers
the *basis* it was made from, so that a plan of yesterday's lesson is not taken for today's.
"""

import hashlib
from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace
from typing import Any

from kitchen.timeplan.class_data import LessonData
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.fits import Verdict, judge
from kitchen.timeplan.kept import SHAPE, kept_plan, kept_question, question_hash, read_plan
from kitchen.timeplan.lesson_problem import RoomLacks, problem_of
from kitchen.timeplan.pins.breaks import what_breaks
from kitchen.timeplan.pins.pinned import fixed_by
from kitchen.timeplan.pins.words import break_words
from kitchen.timeplan.plan import LessonPlan
from kitchen.timeplan.price import Led, better_prices
from kitchen.timeplan.ways_out import WayOut, ways_out
from kitchen.timeplan.why_not import why_not
from kitchen.timeplan.why_words import why_words

#: Seconds of the searches outside the request, one after another while a gap is left.
LONG_SEARCHES = (3.0, 12.0)

#: What is said where our own rule finds nothing and nothing is proved against it.
NOT_ROUND = (
    "Our own rule finds no plan round what is fixed by hand, and it is not proved that there is none."
    " A longer search may find one."
)


@dataclass(frozen=True, slots=True)
class Draft:
    """What came of planning. ``plan`` is None when none could be made.

    ``ways`` and ``prices`` (of leading) are None where nobody looked for them.
    """

    basis: str
    fits: bool
    chain_minutes: int
    usable_minutes: int
    reasons: tuple[str, ...]
    plan: LessonPlan | None
    question: dict[str, Any]
    ways: tuple[WayOut, ...] | None = None
    prices: tuple[Led, ...] | None = None

    @property
    def mark(self) -> str:
        """What a page sends back to say which draft it showed."""
        return f"{self.basis}-{self.plan.finish_minutes if self.plan else 0}"

    @property
    def gap_minutes(self) -> int:
        """Minutes between the plan and what nothing can beat; 0 without a plan."""
        return self.plan.gap_minutes if self.plan else 0


def basis_of(lesson: LessonData) -> str:
    """A hash of everything that the plan is computed from, and of the clock it stands on."""
    try:
        text = question_hash(problem_of(lesson))
    except RoomLacks as lacking:
        text = f"{lacking} {len(lesson.benches)}"
    facts = f"{text} {lesson.starts} {lesson.minutes} {lesson.start_minutes} {lesson.room_benches}"
    facts += f" {lesson.waves_most}"
    return hashlib.sha256(facts.encode()).hexdigest()


def draft_of(lesson: LessonData, effort: Effort | None = None) -> Draft:
    """The lesson planned once; effort None asks only our own rule."""
    return _draft(lesson, judge(lesson, effort))


def with_ways(lesson: LessonData, draft: Draft, effort: Effort | None = None) -> Draft:
    """The draft with ways out, each planned; none are looked for when it fits."""
    return replace(draft, ways=() if draft.fits else ways_out(lesson, effort))


def better_drafts(lesson: LessonData) -> Iterator[Draft]:
    """Drafts that only get better: our own rule, longer searches, ways out, then what leading costs."""
    best = draft_of(lesson)
    yield best
    for seconds in LONG_SEARCHES:
        if _is_settled(lesson, best):
            break
        found = draft_of(lesson, Effort(seconds=seconds))
        if _is_better(found, best):
            best = found
        yield best
    if not best.fits:
        best = with_reasons(lesson, replace(best, reasons=(*best.reasons, *breaks_of(lesson, best))))
        yield best
        best = with_ways(lesson, best, Effort(seconds=2.0))
        yield best
    if best.plan is not None and best.chain_minutes <= best.usable_minutes:
        for prices in better_prices(lesson, best.plan):
            yield replace(best, prices=prices)


def with_reasons(lesson: LessonData, draft: Draft, effort: Effort = Effort(seconds=1.5)) -> Draft:  # noqa: B008
    """The draft with what is proved to stand in the way behind its own reasons."""
    if draft.plan is None:
        return draft
    problem = problem_of(lesson, draft.plan.waves, frozenset(draft.plan.by_the_minute))
    proved = tuple(why_words(problem, reason) for reason in why_not(problem, effort))
    return replace(draft, reasons=(*draft.reasons, *proved))


def _is_settled(lesson: LessonData, best: Draft) -> bool:
    """Whether a search would find nothing more; round what is fixed by hand it may find a first plan."""
    if best.plan is None:
        return not lesson.pins
    return best.gap_minutes == 0 or best.chain_minutes > best.usable_minutes


def breaks_of(lesson: LessonData, draft: Draft) -> tuple[str, ...]:
    """What is fixed by hand and cannot all hold, in sentences; empty when that is not in the way."""
    bare = replace(lesson, pins=())
    if not lesson.pins or draft.fits:
        return ()
    without = draft_of(bare)
    if without.plan is None or (draft.plan is not None and not without.fits):
        return ()
    plan = draft.plan or without.plan
    problem = problem_of(bare, plan.waves, frozenset(plan.by_the_minute))
    gone = {pin for pin, _ in fixed_by(problem, lesson.pins, lesson.start_minutes).left_out}
    pins = tuple(pin for pin in lesson.pins if pin not in gone)
    found = what_breaks(problem, pins, lesson.start_minutes, without.fits)
    if found is not None:
        return break_words(lesson, problem, found)
    return () if draft.plan else (NOT_ROUND,)


def _is_better(found: Draft, best: Draft) -> bool:
    if found.plan is None or best.plan is None:
        return best.plan is None
    return (found.plan.finish_minutes, found.gap_minutes) <= (best.plan.finish_minutes, best.gap_minutes)


def _draft(lesson: LessonData, verdict: Verdict) -> Draft:
    planned = verdict.planned
    return Draft(
        basis=basis_of(lesson),
        fits=verdict.fits,
        chain_minutes=verdict.chain_minutes,
        usable_minutes=verdict.usable_minutes,
        reasons=tuple(reason.words for reason in verdict.reasons),
        plan=planned.plan if planned else None,
        question=kept_question(planned.problem) if planned else {},
    )


def kept_draft(draft: Draft) -> dict[str, Any]:
    """The draft as JSON."""
    return {
        "shape": SHAPE,
        "basis": draft.basis,
        "fits": draft.fits,
        "chain_minutes": draft.chain_minutes,
        "usable_minutes": draft.usable_minutes,
        "reasons": list(draft.reasons),
        "plan": kept_plan(draft.plan) if draft.plan else None,
        "question": draft.question,
        "ways": None if draft.ways is None else [asdict(way) for way in draft.ways],
        "prices": None if draft.prices is None else [asdict(led) for led in draft.prices],
    }


def read_draft(kept: dict[str, Any]) -> Draft:
    """The draft from its JSON. ValueError for a shape that nobody wrote."""
    if kept.get("shape") != SHAPE:
        raise ValueError(f"a draft of shape {kept.get('shape')} is not known")
    values = {key: value for key, value in kept.items() if key != "shape"}
    values["reasons"] = tuple(values["reasons"])
    values["plan"] = read_plan(values["plan"]) if values["plan"] else None
    if values["ways"] is not None:
        values["ways"] = tuple(WayOut(**{**way, "ahead": tuple(way["ahead"])}) for way in values["ways"])
    if values.get("prices") is not None:
        values["prices"] = tuple(
            Led(**{**led, "by_the_minute": tuple(led["by_the_minute"])}) for led in values["prices"]
        )
    return Draft(**values)
