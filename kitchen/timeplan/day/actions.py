"""What is tapped on the day, kept once and in order; a re-plan that a person accepts.

Events are only added. The same tap by two devices is one event: a step that has begun is
not begun again, and a key sent twice gets the first answer.
"""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from uuid import UUID, uuid4

from django.db import transaction
from django.db.models import Max
from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.records.actions import once
from curriculum.techniques.models import Technique
from kitchen.lessons.models import Lesson, Place
from kitchen.rooms.models import Appliance
from kitchen.timeplan.answer import Answer
from kitchen.timeplan.bounds import best_bound
from kitchen.timeplan.day.after import Pace
from kitchen.timeplan.day.check import check_from, hard
from kitchen.timeplan.day.live import standing
from kitchen.timeplan.day.proposal import Proposal, plan_on_the_day
from kitchen.timeplan.day.queries import InProgress, in_progress, task_named
from kitchen.timeplan.day.situation import situation
from kitchen.timeplan.kept import kept_plan
from kitchen.timeplan.models import DayEvent, LearnedMinutes, PlanState, TimePlan, What

#: A tap is kept on a device for so long at most; an older moment is not believed.
LONGEST_OFFLINE = timedelta(hours=12)
#: A re-plan is accepted while what it moves begins so many minutes ago at most: somebody reads it first
#: (our own choice, no source).
MAY_BE_PAST = 5


@dataclass(frozen=True, slots=True)
class Said:
    """What one tap says. ``undoes`` is the number of an event of the same lesson.

    ``seen`` is the number of the last event that the page showed; None: not said.
    """

    what: str
    bench: str = ""
    step: int | None = None
    part: int | None = None
    oven: str = ""
    minutes: int | None = None
    undoes: int | None = None
    seen: int | None = None
    device_at: datetime | None = None


def tap(*, lesson: Lesson, said: Said, by: User, key: UUID | None = None) -> DayEvent:
    """Keep what was tapped, with the next number of the lesson.

    A second tap on what has already happened gives back the event that says so. RuleBroken
    before the class began, for a lesson without an accepted plan, and for what is not in it.
    """

    def do() -> dict:
        current = _running(lesson)
        progress = in_progress(current, timezone.now())
        same = _said_before(progress, said)
        return {"event": (same or _add(progress, said, by, key)).pk}

    told = {name: getattr(said, name) for name in Said.__dataclass_fields__ if name != "device_at"}
    answer = once(key=key, action="day_tap", by=by, said={"lesson": lesson.pk, **told}, do=do)
    return DayEvent.objects.get(pk=answer["event"])


def _running(lesson: Lesson) -> Lesson:
    """The lesson, locked; RuleBroken when it is cancelled."""
    current = Lesson.objects.select_for_update(of=("self",)).get(pk=lesson.pk)
    if current.state == Lesson.State.CANCELLED:
        raise RuleBroken("cancelled", "This lesson is cancelled; its day is not run.")
    return current


def _add(progress: InProgress, said: Said, by: User, key: UUID | None) -> DayEvent:
    _demand_possible(progress, said)
    last = DayEvent.objects.filter(lesson=progress.lesson).aggregate(Max("number"))["number__max"] or 0
    row = DayEvent(
        lesson=progress.lesson,
        number=last + 1,
        key=key or uuid4(),
        plan=progress.row,
        place=_place(progress.lesson, said.bench),
        appliance=_appliance(progress.lesson, said.oven),
        step=said.step,
        part=said.part,
        what=said.what,
        minutes=said.minutes,
        undoes=_undone(progress, said),
        device_at=_believed(progress, said.device_at),
        by=by,
    )
    row.full_clean()
    row.save()
    return row


def _said_before(progress: InProgress, said: Said) -> DayEvent | None:
    """The event that already says so: the same step begun, ended, the same oven out, the same undo."""
    if said.what == What.UNDO:
        return next((e for e in progress.events if e.undoes and e.undoes.number == said.undoes), None)
    counting = {deed.number for deed in standing(progress.deeds)}
    if said.what in (What.AGAIN, What.ABSENT):
        return _said_elsewhere(progress, said, counting)
    if said.what == What.LATER:
        return None
    for event in reversed(progress.events):
        if event.number not in counting:
            continue
        if (
            event.what == What.AGAIN
            and said.bench
            and event.place
            and str(event.place.bench.number) == said.bench
        ):
            return None
        if event.what == said.what and _is_of(event, said):
            still = said.what != What.STARTED or _still_begun(progress, event)
            return event if still else None
    return None


def _said_elsewhere(progress: InProgress, said: Said, counting: set[int]) -> DayEvent | None:
    """The same of the same bench on another tablet, after what this one saw: one absence is told once."""
    if said.seen is None:
        return None
    since = (e for e in progress.events if e.number > said.seen and e.number in counting)
    return next((e for e in since if e.what == said.what and _is_of(e, said)), None)


def _still_begun(progress: InProgress, event: DayEvent) -> bool:
    """Whether what was begun is not to be begun anew: its oven has not failed since."""
    from_number = {deed.number: deed.task for deed in progress.deeds}
    return from_number[event.number] in progress.state.begun


def _is_of(event: DayEvent, said: Said) -> bool:
    if said.what == What.BEGAN:
        return True
    if said.what == What.FAILED:
        return event.appliance is not None and event.appliance.code == said.oven
    return (_bench_of(event), event.step, event.part or 0) == (said.bench, said.step, said.part or 0)


def _bench_of(event: DayEvent) -> str:
    return str(event.place.bench.number) if event.place else ""


def _is_planned(progress: InProgress, said: Said) -> bool:
    """Whether the step, or the demonstration of it, is one of the plan."""
    if said.step is None:
        return False
    name = task_named(said.bench, said.step, said.part)
    return name in progress.problem.task or name in {show.name for show in progress.problem.demonstrations}


def _demand_possible(progress: InProgress, said: Said) -> None:
    """RuleBroken for what cannot be: before the class began, or of a step that is not in the plan."""
    if progress.zero is None and said.what not in (What.BEGAN, What.UNDO):
        raise RuleBroken("not_begun", "The class has not begun yet. Tap “The class begins” first.")
    if said.what == What.UNDO:
        return
    if said.bench and said.bench not in progress.problem.bench:
        raise RuleBroken("no_such_bench", f"Bench {said.bench} is not in the plan of this lesson.")
    known = said.what not in (What.STARTED, What.DONE, What.LATER) or _is_planned(progress, said)
    if not known or (said.what == What.LATER and not said.minutes):
        raise RuleBroken("no_step", "That tap says no step of this plan. Open the page of the day again.")
    if said.what == What.FAILED and not said.oven:
        raise RuleBroken("no_oven", "That tap says no oven. Open the page of the day again.")
    if said.what in (What.AGAIN, What.ABSENT) and not said.bench:
        raise RuleBroken("no_bench", "That tap says no bench. Open the page of the day again.")


def _place(lesson: Lesson, bench: str) -> Place | None:
    if not bench:
        return None
    place = Place.objects.filter(shift__lesson=lesson, shift__number=1, bench__number=bench).first()
    if place is None:
        raise RuleBroken(
            "not_placed",
            f"Nobody is placed at bench {bench} yet. Keep the benches on the page of the places.",
        )
    return place


def _appliance(lesson: Lesson, oven: str) -> Appliance | None:
    if not oven:
        return None
    found = Appliance.objects.filter(room=lesson.room_id, code=oven).first()
    if found is None:
        raise RuleBroken("no_such_oven", f"Oven {oven} is not in this room.")
    return found


def _undone(progress: InProgress, said: Said) -> DayEvent | None:
    """The event to be undone. The beginning is undone last, since every minute counts from it."""
    if said.what != What.UNDO:
        return None
    event = next((e for e in progress.events if e.number == said.undoes), None)
    if event is None:
        raise RuleBroken("nothing_to_undo", "There is nothing of that number to undo.")
    counting = standing(progress.deeds)
    if event.number not in {deed.number for deed in counting}:
        raise RuleBroken("nothing_to_undo", "That tap counts no more. What is missing is tapped anew.")
    others = [d for d in counting if d.number != event.number]
    if event.what == What.BEGAN and others:
        raise RuleBroken(
            "undo_order",
            "The beginning is undone last: every minute counts from it. Undo the later taps first.",
        )
    return event


def _believed(progress: InProgress, device_at: datetime | None) -> datetime | None:
    """The device's moment when it can be: not in the future, and not long ago."""
    if device_at is None:
        return None
    moment = device_at if device_at.tzinfo else device_at.replace(tzinfo=UTC)
    if not progress.at - LONGEST_OFFLINE <= moment <= progress.at:
        return None
    return moment


@transaction.atomic
def accept_replan(*, lesson: Lesson, proposal: Proposal, by: User) -> TimePlan:
    """Keep a re-plan: the plan that stood is superseded. Nothing that has begun is moved.

    Accepting the same proposal twice changes nothing. RuleBroken when something was tapped
    since the page was made, another plan stands, or the lesson is cancelled.
    """
    progress = in_progress(_running(lesson), timezone.now())
    if progress.row.inputs.get("replan") == proposal.mark:
        return progress.row
    if (progress.row.number, progress.last_number) != (proposal.plan_number, proposal.last_number):
        raise RuleBroken(
            "class_moved_on", "Something was tapped since this plan was made. Look at what would move now."
        )
    answer = Answer(proposal.starts, proposal.ovens)
    _demand_can_be_cooked(progress, proposal, answer)
    return _keep(progress, proposal, answer, by)


def _demand_can_be_cooked(progress: InProgress, proposal: Proposal, answer: Answer) -> None:
    at = situation(proposal.state_of(progress.problem, progress.answer, progress.deeds), None)
    if at is not None and any(answer.starts[n] < progress.now - MAY_BE_PAST for n in at.wished):
        raise RuleBroken(
            "class_moved_on", "Time went on since this plan was made. Look at what would move now."
        )
    if at is None or hard(check_from(at.problem, answer, at.past)):
        raise RuleBroken(
            "cannot_be_cooked", "This plan can no longer be cooked. Look at what would move now."
        )


def _keep(progress: InProgress, proposal: Proposal, answer: Answer, by: User) -> TimePlan:
    state = proposal.state_of(progress.problem, progress.answer, progress.deeds)
    bound = best_bound(progress.problem).minutes
    plan = plan_on_the_day(progress.plan, state, answer, bound, progress.ovens)
    TimePlan.objects.filter(pk=progress.row.pk).update(state=PlanState.SUPERSEDED)
    return TimePlan.objects.create(
        lesson=progress.lesson,
        number=progress.row.number + 1,
        inputs={**progress.row.inputs, "replan": proposal.mark},
        inputs_hash=progress.row.inputs_hash,
        answer=kept_plan(plan),
        status=plan.status,
        fits=plan.fits,
        finish_minutes=plan.finish_minutes,
        bound_minutes=plan.bound_minutes,
        by=by,
    )


@transaction.atomic
def learn(*, lesson: Lesson, pace: Pace, by: User) -> LearnedMinutes:
    """Keep what one day teaches of a technique at a level, together with the days kept before.

    The pace that stood is superseded. Accepting the same day once more changes nothing.
    """
    technique = Technique.objects.select_for_update().get(code=pace.technique)
    standing_row = LearnedMinutes.objects.filter(
        technique=technique, level=pace.level, state=PlanState.ACCEPTED
    ).first()
    before = standing_row.timings if standing_row else {}
    if before.get(lesson.code) == list(pace.timings):
        return standing_row
    if standing_row:
        standing_row.state = PlanState.SUPERSEDED
        standing_row.save(update_fields=["state"])
    timings = {**before, lesson.code: list(pace.timings)}
    every = Pace(pace.technique, pace.level, tuple(each for day in timings.values() for each in day))
    return LearnedMinutes.objects.create(
        technique=technique,
        level=pace.level,
        pace_per_mille=every.per_mille,
        count=every.count,
        lessons=sorted(timings),
        timings=timings,
        by=by,
    )
