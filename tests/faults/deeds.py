"""What the hands of ``tests.faults.hands`` can do: each deed once for its key.

A deed is a pair: ``begin`` fetches what it needs in the process, told who of the hands it is,
``do`` does it and gives back the answer as one word.
"""

import os
from dataclasses import replace
from datetime import UTC, datetime, timedelta

from django.db import transaction

from assessments.marking.actions import give_mark
from assessments.marking.models import Sheet
from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.people.models import User
from curriculum.records.actions import once
from kitchen.lessons.actions import book_lesson
from kitchen.lessons.models import Lesson
from kitchen.lessons.queries import order_of
from kitchen.stores.actions import issue_kits
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.made.actions import make_lot
from kitchen.stores.made.bowls import MadeEntry
from kitchen.stores.models import Lot
from kitchen.stores.moves.lesson.actions import give_more
from kitchen.timeplan.day.actions import Said, tap
from kitchen.timeplan.own_order.actions import save_order
from kitchen.timeplan.own_order.written import StepLine, WrittenOrder
from tests.faults.day_deeds import DAY_DEEDS
from tests.faults.equipment_deeds import EQUIPMENT_DEEDS
from tests.faults.order_deeds import ORDER_DEEDS
from tests.faults.rival_deeds import RIVAL_DEEDS
from tests.faults.scale_deeds import SCALE_DEEDS


def storeman() -> User:
    return User.objects.get(username="stores")


def begin_stock(who):
    return storeman(), Lot.objects.get(code="FAULTY").pk


def take_one_gram(facts, number, key) -> str:
    """One gram leaves the lot through the ledger's one writer; a lot that is empty refuses."""
    by, lot = facts

    def do() -> dict:
        rows = move(lots=lots_locked([lot]), moves=[Move(lot, -1000, "waste", key)], by=by)
        return {"number": rows[0].number}

    try:
        with transaction.atomic():
            answer = once(key=key, action="take_one_gram", by=by, said={"number": number}, do=do)
    except RuleBroken as refused:
        return refused.code
    return f"movement-{answer['number']}"


def begin_issue(who):
    return storeman(), Lesson.objects.get(code="LESSQN22")


def issue(facts, number, key) -> str:
    """The kits of the lesson leave; whoever presses twice is told the same."""
    by, lesson = facts
    try:
        return f"moved-{issue_kits(lesson=lesson, by=by, key=key)}"
    except RuleBroken as refused:
        return refused.code


def begin_mark(who):
    sheet = Sheet.objects.get(part=Sheet.Part.FIRST, sitting__student__college_number="N100")
    return sheet.marker, sheet


def give_a_mark(facts, number, key) -> str:
    """One mark on one slot of one sheet; the figure tells which sending it was."""
    by, sheet = facts
    entry = give_mark(sheet=sheet, place="texture", milli=number % 11 * 1000, by=by, key=key)
    return f"entry-{entry.number}"


def begin_booking(who):
    lesson = Lesson.objects.get(code="LESSQN22")
    return lesson.lecturer, order_of(lesson)


def book(facts, number, key) -> str:
    """The same slot of another day, asked for by every hand under no number: only one can have it."""
    by, order = facts
    try:
        book_lesson(order=replace(order, on=order.on + timedelta(days=number + 7)), by=by)
    except RuleBroken as refused:
        return refused.code
    return "booked"


def begin_day(who):
    lesson = Lesson.objects.get(code="LESSQN22")
    return lesson.lecturer, lesson


def tap_the_day(facts, number, key) -> str:
    """Taps of a class in turn: started, five minutes more, done; every hand taps the same."""
    by, lesson = facts
    what = ("started", "later", "done")[number % 3]
    said = Said(what, "1", 1, 0, minutes=5 if what == "later" else None)
    return f"{what}-{tap(lesson=lesson, said=said, by=by, key=key).number}"


def begin_bowl(who):
    return storeman(), Lesson.objects.get(code="LESSQN22")


def make_a_bowl(facts, number, key) -> str:
    """Two pieces of the lot go into a bowl; a lot with none left refuses, and no bowl is made."""
    by, lesson = facts
    now = datetime(2027, 2, 16, tzinfo=UTC)
    entry = MadeEntry("egg_beaten", (("FAULTY", 2),), 100_000, now, now + timedelta(days=2))
    try:
        return f"bowl-{make_lot(lesson=lesson, entry=entry, by=by, key=key).pk}"
    except RuleBroken as refused:
        return refused.code


def begin_more(who):
    return storeman(), Lesson.objects.get(code="LESSQN22"), Food.objects.get(code="butter")


def give_a_gram_more(facts, number, key) -> str:
    """A gram more for the demonstration; when the lot has none left it is refused, and no kit is made."""
    by, lesson, food = facts
    said = {"lesson": lesson, "place": None, "food": food, "milligrams": 1000, "reason": "Dropped"}
    try:
        return f"kit-{give_more(**said, by=by, key=key).pk}"
    except RuleBroken as refused:
        return refused.code


def begin_order(who):
    lesson = Lesson.objects.get(code="LESSQN22")
    student = User.objects.get(username="student").student
    return lesson, student, lesson.dishes.get().version, os.getpid()


def keep_an_order(facts, number, key) -> str:
    """One learner's order of work, kept from several devices that all saw the same: only one may keep it."""
    lesson, student, version, device = facts
    order = WrittenOrder((StepLine(1, "09:20", f"device {device}"),))
    said = {"lesson": lesson, "student": student, "version": version, "order": order}
    try:
        save_order(**said, based_on=number, by=student.user)
    except RuleBroken as refused:
        return refused.code
    return "kept"


DEEDS = {
    "more": (begin_more, give_a_gram_more),
    "order": (begin_order, keep_an_order),
    "bowl": (begin_bowl, make_a_bowl),
    "day": (begin_day, tap_the_day),
    "book": (begin_booking, book),
    "mark": (begin_mark, give_a_mark),
    "stock": (begin_stock, take_one_gram),
    "issue": (begin_issue, issue),
    **RIVAL_DEEDS,
    **DAY_DEEDS,
    **EQUIPMENT_DEEDS,
    **ORDER_DEEDS,
    **SCALE_DEEDS,
}
