"""Keeping, handing in and opening again a learner's own order of work; whether they are assessed."""

from datetime import datetime
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.people.models import Student, User
from curriculum.people.queries import the_college, today_at
from curriculum.recipes.models import Version
from curriculum.records.actions import once
from kitchen.lessons.models import Lesson
from kitchen.timeplan.own_order.models import OwnOrder, OwnOrderSetting
from kitchen.timeplan.own_order.queries import newest_order
from kitchen.timeplan.own_order.written import (
    WrittenOrder,
    kept_order,
    read_or_none,
    read_order,
    unreadable,
)


def save_order(
    *,
    lesson: Lesson,
    student: Student,
    version: Version,
    order: WrittenOrder,
    based_on: int,
    by: User,
    key: UUID | None = None,
) -> OwnOrder:
    """Keep what a learner wrote, times that cannot be read included; ``based_on`` is what they saw.

    RuleBroken when it was kept from elsewhere since, is handed in, or the lesson is over.
    """
    lines = kept_order(order)

    def do() -> dict:
        current, row = _locked(lesson, student)
        _demand_being_written(current, row)
        _demand_seen(row, based_on)
        if row is None:
            row = OwnOrder(lesson=current, student=student, number=1, saved=0)
        row.version, row.lines = version, lines
        row.saved, row.saved_at = row.saved + 1, timezone.now()
        row.save()
        return {"order": row.pk}

    said = {"lesson": lesson.pk, "student": student.pk, "lines": lines, "based_on": based_on}
    return _row(once(key=key, action="save_own_order", by=by, said=said, do=do))


def hand_in_order(
    *, lesson: Lesson, student: Student, based_on: int, by: User, key: UUID | None = None
) -> OwnOrder:
    """Hand in the order as it was last kept; from then on it stands.

    RuleBroken when nothing was kept, it was kept from elsewhere since, a time in it cannot be
    read, or no step has a time. What breaks a rule of the kitchen may be handed in.
    """

    def do() -> dict:
        current, row = _locked(lesson, student)
        _demand_being_written(current, row)
        _demand_seen(row, based_on)
        _demand_readable(row)
        row.state, row.handed_in_at = OwnOrder.State.HANDED_IN, timezone.now()
        row.save(update_fields=["state", "handed_in_at"])
        return {"order": row.pk}

    said = {"lesson": lesson.pk, "student": student.pk, "based_on": based_on}
    return _row(once(key=key, action="hand_in_own_order", by=by, said=said, do=do))


def open_order_again(
    *, lesson: Lesson, student: Student, why: str, by: User, key: UUID | None = None
) -> OwnOrder:
    """Let a learner write on: the next order begins with what was handed in, which stays as it is.

    RuleBroken when nothing is handed in, or no reason is given.
    """

    def do() -> dict:
        current, row = _locked(lesson, student)
        if row is None or not row.is_handed_in:
            raise RuleBroken("not_handed_in", "This order is not handed in, so it is open already.")
        if not why.strip():
            raise RuleBroken("no_reason", "No reason is written. Write why it is opened again.", field="why")
        opened = OwnOrder.objects.create(
            lesson=current,
            student=student,
            version_id=row.version_id,
            number=row.number + 1,
            lines=row.lines,
            saved=row.saved + 1,
            saved_at=row.saved_at,
            opened_by=by,
            opened_at=timezone.now(),
            opened_why=why.strip(),
        )
        return {"order": opened.pk}

    said = {"lesson": lesson.pk, "student": student.pk, "why": why}
    return _row(once(key=key, action="open_own_order", by=by, said=said, do=do))


@transaction.atomic
def say_whether_assessed(*, lesson: Lesson, assessed: bool, by: User) -> OwnOrderSetting:
    """Say whether the learners' own orders of a lesson are assessed; the same again changes nothing."""
    Lesson.objects.select_for_update().get(pk=lesson.pk)
    setting = OwnOrderSetting.objects.filter(lesson=lesson).first()
    if setting is None:
        return OwnOrderSetting.objects.create(lesson=lesson, own_order_assessed=assessed, by=by)
    if setting.own_order_assessed != assessed:
        setting.own_order_assessed, setting.by = assessed, by
        setting.save()
    return setting


def demand_plan_open(*, hidden: bool) -> None:
    """RuleBroken while the site's plan is hidden from the learner who asks for it."""
    if hidden:
        raise RuleBroken(
            "plan_hidden",
            "In this lesson your own order of work is assessed. The site’s plan of your bench is shown"
            " once you have handed yours in.",
        )


def _locked(lesson: Lesson, student: Student) -> tuple[Lesson, OwnOrder | None]:
    """The lesson as it is now and the order that counts, both locked: one device after another."""
    current = Lesson.objects.select_for_update().get(pk=lesson.pk)
    Student.objects.select_for_update().get(pk=student.pk)
    return current, newest_order(current, student)


def _row(answer: dict) -> OwnOrder:
    return OwnOrder.objects.get(pk=answer["order"])


def _demand_being_written(lesson: Lesson, row: OwnOrder | None) -> None:
    if row is not None and row.is_handed_in:
        raise RuleBroken(
            "handed_in",
            f"Your order of work was handed in {_when(row.handed_in_at)}. Only your lecturer can open it"
            " again.",
        )
    if lesson.state == Lesson.State.CANCELLED:
        raise RuleBroken("cancelled", "This lesson is cancelled, so no order of work is written for it.")
    if today_at(the_college()) > lesson.on:
        raise RuleBroken(
            "lesson_over", "The day of this lesson is over, so its order of work stays as it is."
        )


def _demand_seen(row: OwnOrder | None, based_on: int) -> None:
    """Refuse to write over what was kept since the page was opened."""
    if row is None and based_on == 0:
        return
    if row is None or row.saved != based_on:
        when = f" {_when(row.saved_at)}" if row else ""
        raise RuleBroken(
            "kept_elsewhere",
            f"You kept this order from another page{when}, after this one was opened. What you typed here"
            " is still below and is not kept. Compare the two, then keep this one in its place.",
        )


def _demand_readable(row: OwnOrder | None) -> None:
    order = read_order(row.lines) if row else WrittenOrder()
    for trouble in unreadable(order):
        raise RuleBroken("unreadable", f"{trouble.words} Then hand it in.", field=trouble.field)
    if all(read_or_none(line.at) is None for line in order.steps):
        raise RuleBroken("nothing_written", "No step has a time yet. Write when you begin each one first.")


def _when(at: datetime) -> str:
    local = at.astimezone(ZoneInfo(the_college().time_zone))
    return f"on {local.day} {local:%B} at {local:%H:%M}"
