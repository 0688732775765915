"""What two people do in the scenes of ``tests.builders.rivals``, each in the same instant.

A deed gives back one word: what was done, or the code of the refusal. ``facts`` are the person
and who of the hands it is.
"""

from collections.abc import Callable
from uuid import UUID

from django.db import transaction

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.people.models import User
from kitchen.lessons.actions import cancel_lesson
from kitchen.lessons.models import Lesson
from kitchen.stores.actions import accept_kits, issue_kits
from kitchen.stores.deliveries.actions import check_line
from kitchen.stores.deliveries.entries import LineEntry
from kitchen.stores.deliveries.models import Delivery
from kitchen.stores.entries import LabelRead, LotEntry
from kitchen.stores.lots.actions import hold_lot, read_label, receive_lot, return_to_lot
from kitchen.stores.models import Kit, KitSet, Lot, Movement
from kitchen.stores.moves.actions import correct_movement, count_lots, waste_from_lot
from kitchen.stores.moves.counting import Counted
from kitchen.stores.moves.lesson.actions import give_more, take_back_from_lesson
from kitchen.stores.moves.lesson.back import REWORK, CameBack
from kitchen.stores.recall.actions import hold_everything
from kitchen.stores.weighout.actions import weigh
from kitchen.stores.weighout.old_trays.actions import keep_tray
from tests.builders.cast import TERM, TODAY
from tests.builders.rivals import ASKED, lesson_of, lot_of, new_kit_of
from tests.faults.hands import key_of

Facts = tuple[User, int]


def begin(who: int) -> Facts:
    """The person at the stores; both hands are the same person's, or two who share an account."""
    return User.objects.get(username="stores"), who


def lesson(who: int, number: int) -> Lesson:
    """A scene's lesson as it stands."""
    return Lesson.objects.get(code=lesson_of(who, number))


def lot(number: int) -> Lot:
    """A scene's lot as it stands."""
    return Lot.objects.get(code=lot_of(number))


def movement(number: int, kind: str) -> Movement:
    """The scene's one movement of that kind."""
    return Movement.objects.get(lot__code=lot_of(number), kind=kind)


def issue_own(facts: Facts, number: int, key: UUID) -> str:
    """Each issues the kit of a lesson of their own: there is food for one."""
    by, who = facts
    return f"moved-{issue_kits(lesson=lesson(who, number), by=by, key=key_of('own', number, who))}"


def issue_same(facts: Facts, number: int, key: UUID) -> str:
    """Several press the button of one lesson, each on a page of their own."""
    by, who = facts
    return f"moved-{issue_kits(lesson=lesson(0, number), by=by, key=key_of('same', number, who))}"


def issue_again(facts: Facts, number: int, key: UUID) -> str:
    """One button pressed several times: the same key."""
    return f"moved-{issue_kits(lesson=lesson(0, number), by=facts[0], key=key)}"


def cancel(facts: Facts, number: int, key: UUID) -> str:
    """The lesson is cancelled; what had left by then is told."""
    with transaction.atomic():
        row = cancel_lesson(lesson=lesson(0, number), why="No lecturer", by=facts[0])
        left = Movement.objects.filter(kit_line__kit__kit_set__lesson=row).count()
    return f"cancelled-{left}"


def count(facts: Facts, number: int, key: UUID) -> str:
    """The lot is counted: 10 g less than the book said before anything left."""
    counted = Counted(lot_of(number), 140_000, 1, "Spilt")
    return f"counted{count_lots(counts=[counted], by=facts[0], key=key)[lot_of(number)]}"


def hold(facts: Facts, number: int, key: UUID) -> str:
    """The lot is held; how many movements it had by then."""
    with transaction.atomic():
        row = hold_lot(lot=lot(number), why="Glass in it", by=facts[0])
        return f"held-{row.moves}"


def hold_all(facts: Facts, number: int, key: UUID) -> str:
    """The lot is recalled, with everything made of it; how many movements they had by then."""
    with transaction.atomic():
        codes = hold_everything(lots=[lot(number)], why="Recalled", by=facts[0], key=key)
        held = Lot.objects.filter(code__in=codes).values_list("moves", flat=True)
        return f"held-{len(codes)}-{sum(held)}"


def back_line(facts: Facts, number: int, key: UUID) -> str:
    """What left for the first lesson comes back sealed, each from a page of the lot."""
    by, who = facts
    said = {"milligrams": ASKED, "sealed_and_cold": True, "key": key_of("back_line", number, who)}
    return f"back-{return_to_lot(issue=movement(number, 'issue'), by=by, **said)}"


def back_lesson(facts: Facts, number: int, key: UUID) -> str:
    """The same comes back, written on the lesson's page."""
    by, who = facts
    said = {"rows": [CameBack(lot(number).pk, ASKED)], "sealed_and_cold": True}
    key = key_of("back_lesson", number, who)
    take_back_from_lesson(lesson=lesson(0, number), by=by, key=key, **said)
    return "back-150000"


def back_rework(facts: Facts, number: int, key: UUID) -> str:
    """It comes back opened and is kept for re-work, a lot of its own."""
    rows = [CameBack(lot(number).pk, 0, ASKED, REWORK)]
    said = {"rows": rows, "sealed_and_cold": False, "rework_until": TODAY}
    take_back_from_lesson(lesson=lesson(0, number), by=facts[0], key=key, **said)
    return "kept"


def correct_issue(facts: Facts, number: int, key: UUID) -> str:
    """It was 40 g that left, not 100."""
    by, who = facts
    said = {"should_be_milligrams": 40_000, "reason": "Misread", "key": key_of("correct", number, who)}
    return f"corrected-{correct_movement(movement=movement(number, 'issue'), by=by, **said)}"


def correct_receipt(facts: Facts, number: int, key: UUID) -> str:
    """It was 60 g that came, not 150: too little for a kit."""
    row, said = movement(number, "receive"), {"should_be_milligrams": 60_000, "reason": "Misread"}
    return f"corrected-{correct_movement(movement=row, by=facts[0], key=key, **said)}"


def give_last(facts: Facts, number: int, key: UUID) -> str:
    """All that the lot has is given to a lesson whose kits have left: each gives to another one."""
    by, who = facts
    to, food = (
        Lesson.objects.get(code=f"LESSQN{'2233'[who * 2 :][:2]}"),
        Food.objects.get(code=lot_of(number)),
    )
    said = {"lesson": to, "place": None, "food": food, "milligrams": 1000, "reason": "Dropped"}
    give_more(by=by, key=key_of("last", number, who), **said)
    return "given"


def accept(facts: Facts, number: int, key: UUID) -> str:
    """Two make the kits of one lesson."""
    by, who = facts
    accept_kits(lesson=Lesson.objects.get(code="LESSQN22"), by=by, key=key_of("accept", number, who))
    return "accepted"


def receive_butter(facts: Facts, number: int, key: UUID) -> str:
    """A gram of butter is taken in, for which kits wait."""
    said = {"label_read_on": TERM, "received_on": TERM, "contains": ("milk",)}
    receive_lot(entry=LotEntry(f"BUTTER{number}", "butter", 1000, **said), by=facts[0], key=key)
    return "received"


def receive_and_tell(facts: Facts, number: int, key: UUID) -> str:
    """Each takes a gram in, and says of how much the kits that wait are short then."""
    by, who = facts
    entry = LotEntry(
        f"B{number}X{who}", "butter", 1000, label_read_on=TERM, received_on=TERM, contains=("milk",)
    )
    with transaction.atomic():
        receive_lot(entry=entry, by=by, key=key_of("tell", number, who))
        rows = KitSet.objects.get(lesson__code="LESSQN22", state="accepted").shortages
    return f"short-{next(row['short_milligrams'] for row in rows if row['code'] == 'butter')}"


def read_butter(facts: Facts, number: int, key: UUID) -> str:
    """Meanwhile somebody reads the label of butter."""
    read_label(
        food=Food.objects.get(code="butter"), read=LabelRead(("milk",)), on=TODAY, by=facts[0], key=key
    )
    return "read"


def check(facts: Facts, number: int, key: UUID) -> str:
    """The same line of a delivery is checked on two tablets; neither had seen the other's."""
    by, who = facts
    entry = LineEntry(lot_of(number), 2, 2_000_000, label_read=True, seen=0)
    delivery = Delivery.objects.get(note_number=f"note {number}")
    line = check_line(delivery=delivery, entry=entry, on=TODAY, by=by, key=key_of("check", number, who))
    return line.verdict


def weigh_own(facts: Facts, number: int, key: UUID) -> str:
    """The kit of a lesson is weighed out of the scene's lot."""
    by, who = facts
    weights = [(lesson_of(who, number), lot_of(number))]
    kit_set = KitSet.objects.get(lesson__code=lesson_of(who, number))
    key = key_of("weigh", number, who)
    return f"weighed-{weigh(kit_set=kit_set, weights=weights, by=by, key=key).weighed}"


def waste(facts: Facts, number: int, key: UUID) -> str:
    """So much of the lot is thrown away that too little is left for a kit."""
    said = {"milligrams": ASKED, "reason": "Dropped"}
    return f"wasted-{waste_from_lot(lot=lot(number), by=facts[0], key=key, **said)}"


def keep_old_tray(facts: Facts, number: int, key: UUID) -> str:
    """What stands on the old tray stands for the kit made again; what had left of it by then is told."""
    by, who = facts
    old, new = (Kit.objects.get(code=code) for code in (lesson_of(0, number), new_kit_of(number)))
    with transaction.atomic():
        kept = keep_tray(old=old, new=new, by=by, key=key_of("keep", number, who))
        left = Movement.objects.filter(kit_line__kit=new).count()
    return f"kept-{kept}-{left}"


def told(do: Callable[[Facts, int, UUID], str]) -> Callable[[Facts, int, UUID], str]:
    """A refusal is an answer too."""

    def answer(facts: Facts, number: int, key: UUID) -> str:
        try:
            return do(facts, number, key)
        except RuleBroken as refused:
            return refused.code

    return answer


ALL = (issue_own, issue_same, issue_again, cancel, count, hold, hold_all, back_line, back_lesson, back_rework)
ALL += (correct_issue, correct_receipt, give_last, accept, receive_butter, receive_and_tell)
ALL += (read_butter, check, weigh_own, waste, keep_old_tray)
RIVAL_DEEDS = {do.__name__: (begin, told(do)) for do in ALL}
