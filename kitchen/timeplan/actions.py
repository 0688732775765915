"""Accepting a time plan, asking for a longer search, taking a way out."""

from dataclasses import asdict, replace
from datetime import date, timedelta
from uuid import UUID

from django.db import transaction
from django.db.models import Max

from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.records.models import Job
from curriculum.records.tasks import ask_for
from kitchen.lessons.actions import change_lesson, clear_places
from kitchen.lessons.models import Dish, Lesson
from kitchen.lessons.queries import holiday_on, order_of
from kitchen.timeplan.drafts import Draft, basis_of
from kitchen.timeplan.kept import kept_plan, kept_question
from kitchen.timeplan.lead import Planned
from kitchen.timeplan.learned.used import kept_pacing
from kitchen.timeplan.models import DayEvent, PlanState, TimePlan, What
from kitchen.timeplan.plan import LessonPlan
from kitchen.timeplan.queries import KIND, Ruling, lesson_data
from kitchen.timeplan.ways_out import WayOut


def accept_plan(*, lesson: Lesson, planned: Planned, by: User) -> TimePlan:
    """Keep a plan of the lesson as it is now; the plan that stood is superseded.

    Accepting the plan that stands once more changes nothing. RuleBroken for a cancelled lesson.
    """
    question = kept_question(planned.problem)
    return keep_plan(lesson=lesson, plan=planned.plan, question=question, by=by)


@transaction.atomic
def accept_draft(*, lesson: Lesson, draft: Draft, by: User) -> TimePlan:
    """Keep the plan of a draft. RuleBroken when it has none, or the lesson has changed since."""
    if draft.plan is None:
        raise RuleBroken("no_plan", "There is no plan to accept. Look at what is in the way first.")
    current = Lesson.objects.select_for_update().get(pk=lesson.pk)
    if draft.basis != basis_of(lesson_data(current)):
        raise RuleBroken(
            "lesson_changed",
            "The lesson has changed since this plan was made. Open the time plan and look at the new one.",
        )
    return keep_plan(lesson=lesson, plan=draft.plan, question=draft.question, by=by)


@transaction.atomic
def keep_plan(*, lesson: Lesson, plan: LessonPlan, question: dict, by: User) -> TimePlan:
    """Write the accepted plan down with what it was computed from."""
    current = Lesson.objects.select_for_update().get(pk=lesson.pk)
    if current.state == Lesson.State.CANCELLED:
        raise RuleBroken("cancelled", "This lesson is cancelled; it takes no time plan any more.")
    data, answer = lesson_data(current), kept_plan(plan)
    basis = basis_of(data)
    standing = TimePlan.objects.filter(lesson=current, state=PlanState.ACCEPTED).first()
    if standing and standing.inputs.get("basis") == basis and standing.answer == _as_stored(answer):
        return standing
    if standing and DayEvent.objects.filter(lesson=current, what=What.BEGAN, undone_by=None).exists():
        raise RuleBroken(
            "class_runs",
            "The class has begun. Change its plan on the page of the day, where nothing is lost.",
        )
    if standing:
        standing.state = PlanState.SUPERSEDED
        standing.save(update_fields=["state"])
    last = TimePlan.objects.filter(lesson=current).aggregate(Max("number"))["number__max"] or 0
    return TimePlan.objects.create(
        lesson=current,
        number=last + 1,
        inputs={
            "shape": 1,
            "basis": basis,
            "question": question,
            "fixed": [asdict(pin) for pin in data.pins],
            **kept_pacing(data, question),
        },
        inputs_hash=basis,
        answer=answer,
        status=plan.status,
        fits=plan.fits,
        finish_minutes=plan.finish_minutes,
        bound_minutes=plan.bound_minutes,
        by=by,
    )


def _as_stored(answer: dict) -> dict:
    """What the database gives back: JSON knows lists, not tuples."""

    def plain(value: object) -> object:
        if isinstance(value, dict):
            return {key: plain(each) for key, each in value.items()}
        return [plain(each) for each in value] if isinstance(value, list | tuple) else value

    return plain(answer)


@transaction.atomic
def plan_longer(*, lesson: Lesson, by: User, key: UUID | None = None) -> Job:
    """Ask for a longer search outside the request; one at a time for a lesson."""
    lesson_data(Lesson.objects.select_for_update(of=("self",)).get(pk=lesson.pk))
    open_states = (Job.State.WAITING, Job.State.RUNNING)
    running = Job.objects.filter(kind=KIND, inputs__lesson=lesson.pk, state__in=open_states).first()
    return running or ask_for(kind=KIND, inputs={"lesson": lesson.pk}, by=by, key=key)


def take_way_out(*, lesson: Lesson, way: WayOut, by: User, key: UUID | None = None) -> Lesson:
    """Change the lesson to what was found to fit: pairs, fewer portions, steps ahead, a longer slot.

    Pairs take everybody off the benches, to be placed again. RuleBroken for two sittings,
    which are two bookings, and for whatever refuses the change of the lesson.
    """
    if way.kinds & {"oven", "helper"}:
        raise RuleBroken("to_be_brought", "What the room lacks has to be there first. Then plan again.")
    if way.sittings > 1:
        raise RuleBroken("two_sittings", "Two sittings are two lessons: book the second day beside this one.")
    order = order_of(lesson)
    if way.pairs:
        order = replace(order, working=Dish.Working.PAIR.value)
    if way.portions is not None:
        order = replace(order, portions_a_bench=way.portions)
    if way.ahead != order.ahead_steps:
        ahead_on = order.ahead_on or day_before(lesson.on)
        order = replace(order, ahead_steps=way.ahead, ahead_on=ahead_on)
    longer = way.usable_minutes - lesson.usable_minutes
    if "no_break" in way.kinds:
        order = replace(order, break_after=0, break_minutes=0)
    if "no_contingency" in way.kinds:
        order, longer = replace(order, contingency_minutes=0), longer - order.contingency_minutes
    with transaction.atomic():
        if way.pairs and lesson.dishes.first().working != Dish.Working.PAIR:
            clear_places(lesson=lesson, by=by)
        order = replace(order, minutes=order.minutes + max(0, longer))
        return change_lesson(lesson=lesson, order=order, by=by, key=key)


def day_before(day: date) -> date:
    """The last day before it on which the college is open: no weekend, no day of closing."""
    before = day - timedelta(days=1)
    while before.weekday() > 4 or holiday_on(before) is not None:
        before -= timedelta(days=1)
    return before


def demand_plan(*, plan: Ruling | None) -> Ruling:
    """The plan, or RuleBroken when there is none to print."""
    if plan is None:
        raise RuleBroken("no_plan", "There is no time plan to print yet. Open the time plan and accept one.")
    return plan


def demand_seen(*, draft: Draft, mark: str) -> None:
    """RuleBroken when the page that was sent showed another draft than the one that stands now."""
    if draft.mark != mark:
        raise RuleBroken(
            "lesson_changed",
            "The lesson, or the best plan of it, has changed since this page was made."
            " Look at the new plan, then accept it.",
        )


def way_named(*, draft: Draft, kind: str) -> WayOut:
    """The way out of that kind, or RuleBroken when the lesson no longer needs or has it."""
    for way in draft.ways or ():
        if way.kind == kind:
            return way
    raise RuleBroken("no_such_way", "This way out is no longer offered: the lesson has changed since.")
