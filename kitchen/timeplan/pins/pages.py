"""The facts of the page "Fix by hand": what is fixed, what it costs, what breaks.

For ``views.py``: no query, no request. What a template shows is ready here.
"""

from dataclasses import dataclass, replace
from typing import Any

from curriculum.wording import clock_minutes, counted_words
from kitchen.timeplan import words
from kitchen.timeplan.calls import calls_of
from kitchen.timeplan.class_data import LessonData
from kitchen.timeplan.drafts import NOT_ROUND, Draft, breaks_of, draft_of
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.picture import picture
from kitchen.timeplan.pins.words import grouped, left_out

#: Above what breaks, where nothing could be planned: it is proved, or our own rule found none.
NO_PLAN = "No plan keeps all that is fixed"
NONE_FOUND = "No plan is found that keeps all that is fixed"


@dataclass(frozen=True, slots=True)
class Line:
    """One line of what is fixed; ``numbers`` are what its button sends, ``hand`` asks for a look."""

    words: str
    numbers: str
    hand: bool = False


def fix_page(lesson: LessonData, draft: Draft) -> dict[str, Any]:
    """Everything that the page shows of the lesson as it is fixed now."""
    waves = draft.plan.waves if draft.plan else 1
    problem = problem_of(replace(lesson, pins=()), waves)
    away = left_out(lesson, problem)
    gone = {number for _, number in away}
    pins = tuple(pin for pin in lesson.pins if pin.number not in gone)
    lines = [Line(words, ",".join(map(str, numbers))) for words, numbers in grouped(lesson, pins)]
    breaks = breaks_of(lesson, draft)
    none = NONE_FOUND if breaks == (NOT_ROUND,) else NO_PLAN
    facts = {
        "lines": lines + [Line(words, str(number), hand=True) for words, number in away],
        "breaks": breaks,
        "heading": words.heading(draft.plan, draft.fits) if draft.plan else none,
        "plan": draft.plan,
        "fits": draft.fits,
        "reasons": draft.reasons,
    }
    if draft.plan is None:
        return facts
    return facts | {
        "lead": words.lead_words(draft.plan),
        "status_words": words.STATUS_WORDS[draft.plan.status],
        "cost": cost_words(lesson, draft) if pins else "",
        "svg": picture(draft.plan),
        "calls": calls_of(draft.plan),
    }


def cost_words(lesson: LessonData, draft: Draft) -> str:
    """What is fixed costs so many minutes against the plan that our own rule makes without it."""
    bare = draft_of(replace(lesson, pins=()))
    if draft.plan is None or bare.plan is None:
        return ""
    ends = clock_minutes(lesson.cooking_from + bare.plan.finish_minutes)
    costs = draft.plan.finish_minutes - bare.plan.finish_minutes
    if costs <= 0:
        return f"What is fixed costs no time: the plan that our own rule makes without it ends at {ends}."
    minutes = counted_words(costs, "minute")
    return f"What is fixed costs {minutes}: the plan that our own rule makes without it ends at {ends}."
