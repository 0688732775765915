"""The page of a lesson in words: the clock of its slot, what the plan and the kits say."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.urls import reverse

from curriculum.wording import amount
from kitchen.lessons.models import Lesson
from kitchen.stores.models import Kit, KitSet
from kitchen.timeplan.models import TimePlan
from kitchen.website import queries
from kitchen.website.stations import Progress, lecturer_tasks, stations_of, stores_tasks


@dataclass(frozen=True, slots=True)
class NextTask:
    """The one filled button of the page."""

    what: str
    url: str


def times_of(lesson: Lesson) -> dict[str, str]:
    """When the slot starts and ends, when cooking starts and when food must be ready."""
    start = datetime.combine(lesson.on, lesson.starts)
    marks = {
        "starts": start,
        "cooking": start + timedelta(minutes=lesson.start_minutes),
        "break_from": start + timedelta(minutes=lesson.break_after),
        "break_until": start + timedelta(minutes=lesson.break_after + lesson.break_minutes),
        "ready": start + timedelta(minutes=lesson.minutes - lesson.clear_minutes),
        "ends": start + timedelta(minutes=lesson.minutes),
    }
    return {name: f"{at:%H:%M}" for name, at in marks.items()}


def plan_words(lesson: Lesson, plan: TimePlan | None) -> str:
    """What the accepted plan says, in one or two sentences."""
    if plan is None:
        return ""
    start = datetime.combine(lesson.on, lesson.starts) + timedelta(minutes=lesson.start_minutes)
    last = start + timedelta(minutes=plan.finish_minutes)
    spare = lesson.usable_minutes - plan.finish_minutes
    first = f"The last bench is done at {last:%H:%M}, after {plan.finish_minutes} minutes of cooking."
    bound = f"No plan can end before minute {plan.bound_minutes}."
    if spare < 0:
        return f"{first} That is {-spare} minutes too long. {bound}"
    return f"{first} {spare} minutes are in hand. {bound}"


def kit_words(kits: KitSet | None) -> str:
    """How many kits of which kind."""
    if kits is None:
        return ""
    kinds = [kit.kind for kit in kits.kits.all()]
    named = [f"{kinds.count(kind)} {label.lower()}" for kind, label in Kit.Kind.choices if kinds.count(kind)]
    issued = f" Issued {kits.issued_at.day} {kits.issued_at:%b}." if kits.issued_at else " Not issued yet."
    return f"{len(kinds)} kits: {', '.join(named)}.{issued}"


def next_task(
    lesson: Lesson, progress: Progress, today: date, teaching: bool, supplying: bool
) -> NextTask | None:
    """The first thing that this person should do for this lesson."""
    tasks = lecturer_tasks(progress, lesson.on < today) if teaching else []
    if supplying and not tasks:
        tasks = stores_tasks(progress)
    if not tasks:
        return None
    return NextTask(tasks[0].what, reverse(tasks[0].url_name, kwargs={"lesson": lesson.code}))


def shortage_words(kits: KitSet | None) -> list[str]:
    """What is short for the lesson, food and equipment, a sentence each."""
    if kits is None:
        return []
    return [
        f"{amount(short['short_milligrams'])} of {short['name']}."
        if short["what"] == "food"
        else f"{short['short']} of {short['needed']} {short['name']}."
        for short in kits.shortages
    ]


def hub_of(lesson: Lesson, today: date, *, teaching: bool, supplying: bool) -> dict:
    """Everything the page of a lesson shows, for somebody who teaches it, supplies it or looks on."""
    progress = queries.progress_of([lesson])[lesson.pk]
    plan, kits = queries.accepted_plan(lesson), queries.accepted_kits(lesson)
    return {
        "times": times_of(lesson),
        "next_task": next_task(lesson, progress, today, teaching, supplying),
        "teaching": teaching,
        "supplying": supplying,
        "stations": stations_of(progress, lesson.booked_at.date()),
        "dishes": queries.dishes_in(lesson),
        "places": queries.places_in(lesson),
        "plan": plan,
        "plan_words": plan_words(lesson, plan),
        "kits": kits,
        "kit_words": kit_words(kits),
        "kit_shortages": shortage_words(kits),
    }
