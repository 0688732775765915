"""The facts of the time plan's pages: words, figures, picture, calls, ways out.

For ``views.py``: no query, no request. What a template shows is ready here.
"""

from dataclasses import dataclass
from typing import Any

from curriculum.wording import clock_minutes, listed, long_date
from kitchen.timeplan import words
from kitchen.timeplan.beside import WAIT_FOR, beside_words
from kitchen.timeplan.calls import calls_of, line_name
from kitchen.timeplan.class_data import LessonData
from kitchen.timeplan.cleaning import free_times
from kitchen.timeplan.drafts import Draft
from kitchen.timeplan.learned.used import Used, pace_words, used_paces
from kitchen.timeplan.paces import times_words
from kitchen.timeplan.picture import picture
from kitchen.timeplan.plan import ON_THE_DAY, BenchPlan, LessonPlan
from kitchen.timeplan.price import prices_at_once, with_plan
from kitchen.timeplan.price_words import PriceFacts, price_facts
from kitchen.timeplan.wall.load import load_table
from kitchen.timeplan.ways_out import WayOut

#: Changes that nobody can book on this page: somebody has to bring them.
BROUGHT = frozenset(("oven", "helper"))


@dataclass(frozen=True, slots=True)
class StripLine:
    """One line of a learner's strip."""

    at: str
    head: str
    words: str
    minutes: int
    points: tuple[str, ...] = ()
    caution: str = ""


def page_of(lesson: Any, page: Any, draft: Draft) -> dict[str, Any]:
    """Everything that the page of a lesson's plan shows. ``page`` is a ``queries.PlanPage``."""
    shown = page.shown.handed_out() if page.shown else None
    fits = page.row.fits if page.stands else draft.fits
    facts = {
        "page": page,
        "draft": draft,
        "plan": shown,
        "facts": lesson_facts(lesson),
        "fits": fits,
        "heading": words.heading(shown, fits),
        "reasons": () if page.stands and fits else draft.reasons,
        "ways_out": draft.ways if draft.ways is None else tuple(map(way_facts, draft.ways)),
        "ways_words": words.ways_words(draft.ways or ()),
        "progress": words.progress_words(page.running.progress) if page.running else "",
        "void": words.void_words(page.row.number) if page.row else "",
        "by_recipe": lesson.by_recipe_minutes,
        "paces": tuple(map(pace_facts, used_paces(page.data))),
    }
    if shown is None:
        return facts
    return facts | {
        "lead": words.lead_words(shown),
        "lead_by": words.lead_by_words(shown),
        "status_words": words.STATUS_WORDS[shown.status],
        "slip": words.slip(shown, draft.chain_minutes),
        "svg": picture(shown),
        "load": load_table(shown),
        "calls": calls_of(shown),
        "price": price_of(page.data, draft, shown),
        "beside": stood_beside(shown),
    }


def stood_beside(plan: LessonPlan) -> tuple[str, ...]:
    """A sentence for each step with somebody beside: at which benches, and why. For staff only."""
    found = []
    for bench in plan.benches:
        at = {bar.step: bar.where for bar in bench.bars if bar.kind == "hands"}
        found += [(each.step, each.beside, at.get(each.step, ""), bench.name) for each in bench.lines]
    return beside_words((each for each in found if each[1]), plan.supervisors)


def price_of(lesson: LessonData, draft: Draft, shown: LessonPlan) -> PriceFacts | None:
    """What leading costs, as far as it is known; nothing of a plan that was made while the class ran."""
    if shown.status == ON_THE_DAY:
        return None
    return price_facts(with_plan(draft.prices or prices_at_once(lesson), shown), shown)


def lesson_facts(lesson: Any) -> str:
    """ "Tuesday 16 February 2027, 09:00 to 12:00, Juniper Kitchen, PC2-A." for pages and papers."""
    starts = lesson.starts.hour * 60 + lesson.starts.minute
    ends = clock_minutes(starts + lesson.minutes)
    when = f"{long_date(lesson.on)}, {clock_minutes(starts)} to {ends}"
    return f"{when}, {lesson.room.name}, {lesson.group.code}."


def pace_facts(used: Used) -> dict[str, str]:
    """A learned pace for the template."""
    return {"times": times_words(used.pace.per_mille), "name": used.pace.name, "words": pace_words(used)}


def way_facts(way: WayOut) -> dict[str, Any]:
    """A way out for the template: whether the lesson can be changed to it here, and its figures."""
    if "sittings" in way.kinds:
        instead = "Book the second day as a lesson of its own, then change this one."
    elif way.kinds & BROUGHT == {"helper"}:
        instead = "Ask somebody first, then change the lesson: people who may stand beside a step."
    elif way.kinds & BROUGHT:
        instead = "Ask for it first; when the room has it, this plan finds it."
    else:
        instead = ""
    return {"way": way, "can_take": not instead, "instead": instead}


def strip_page(lesson: Any, rules: Any = None, bench: str = "") -> dict[str, Any]:
    """The facts of a learner's own strip; ``rules`` is a ``queries.Ruling``, None for only the lesson's."""
    facts = {"facts": lesson_facts(lesson), "rules": rules, "bench": None, "lines": ()}
    if rules is None:
        return facts
    own = next((each for each in rules.plan.benches if each.name == bench), None)
    if own is None:
        return facts
    return facts | {
        "bench": own,
        "who": listed(own.learners),
        "free_from": words.free_from_words(own.free_from),
        "lines": strip_lines(rules.plan, own),
    }


def strip_lines(plan: LessonPlan, bench: BenchPlan) -> tuple[StripLine, ...]:
    """A bench's order of work with what it watches, by the clock."""
    timed = [
        (
            show.start,
            StripLine(
                at=clock_minutes(show.start),
                head=f"Watch: demonstration of step {show.step}",
                words=show.words,
                minutes=show.minutes,
            ),
        )
        for show in plan.shows
    ]
    if plan.break_minutes:
        rest = "Your hands are free; your food may wait, bake or chill."
        at = clock_minutes(plan.break_at)
        timed.append((plan.break_at, StripLine(at, "Break", rest, plan.break_minutes)))
    for line in bench.lines:
        points = (*line.points, *((f"Look for: {line.cue}",) if line.cue else ()))
        points = (WAIT_FOR, *points) if line.beside else points
        at, head = clock_minutes(line.start), line_name(line)
        timed.append((line.start, StripLine(at, head, line.words, line.hands_minutes, points, line.caution)))
    for free in free_times(plan, bench):
        head = "Contingency" if free.kind == "contingency" else "Clean as you go"
        timed.append((free.start, StripLine(clock_minutes(free.start), head, free.point, free.minutes)))
    clear_at = plan.clear_at
    done = f"Your bench has finished at {clock_minutes(bench.end)}."
    timed.append((clear_at, StripLine(clock_minutes(clear_at), "Clear-down", done, plan.ends - clear_at)))
    return tuple(line for _, line in sorted(timed, key=lambda each: each[0]))
