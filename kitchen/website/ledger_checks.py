"""What must be true of the ledgers whatever happened: killed processes, races, double sends.

Each check gives sentences about what is wrong; none means that it holds. They read
everything once and change nothing.
"""

from collections import Counter
from collections.abc import Callable, Iterator

from django.db.models import Sum
from django.db.models.functions import Coalesce

from assessments.marking.models import MarkEntry
from curriculum.ledgers import ledger_models, unprotected
from kitchen.lessons.models import Attendance
from kitchen.rooms.models import Equipment
from kitchen.stores.deliveries.models import DeliveryLine
from kitchen.stores.models import KitLine, Lot, MadePart, Movement
from kitchen.stores.tools.models import EquipmentMove
from kitchen.timeplan.models import DayEvent

#: What takes food out of a lot for a kit, and what brings it back.
OUT_AND_BACK = (Movement.Kind.ISSUE, Movement.Kind.SUPPLEMENTARY, Movement.Kind.RETURN)


def triggers_stand() -> Iterator[str]:
    """Every ledger table refuses UPDATE and DELETE."""
    for table in unprotected(model._meta.db_table for model in ledger_models()):
        yield f"The table {table} has lost its triggers and could be changed."


def stock_adds_up() -> Iterator[str]:
    """Movements of a lot are numbered without a gap, each balance is the sum so far, the lot agrees."""
    sums: dict[int, tuple[int, int]] = {}
    rows = Movement.objects.order_by("lot", "number").values_list(
        "lot", "number", "milligrams", "balance_milligrams"
    )
    for lot, number, milligrams, balance in rows.iterator():
        total, count = sums.get(lot, (0, 0))
        total, count = total + milligrams, count + 1
        sums[lot] = (total, count)
        if number != count:
            yield f"Movement {number} of lot key {lot} stands at place {count}."
        if balance != total:
            yield f"Movement {number} of lot key {lot} says {balance} mg, the sum is {total} mg."
    for lot in Lot.objects.order_by("pk").iterator():
        if (lot.on_hand_milligrams, lot.moves) != sums.get(lot.pk, (0, 0)):
            said = f"{lot.on_hand_milligrams} mg after {lot.moves} movements"
            yield f"Lot {lot.code} says {said}; the ledger differs."


def made_lots_say_what_went_in() -> Iterator[str]:
    """A made lot came in once, and names the issues out of other lots that went into it."""
    went_in: dict[int, int] = {}
    for part in MadePart.objects.select_related("movement", "made").iterator():
        went_in[part.made_id] = went_in.get(part.made_id, 0) + 1
        if part.movement.kind != Movement.Kind.ISSUE or part.movement.lot_id == part.made_id:
            yield f"A part of made lot {part.made.code} is no issue out of another lot."
    received = Movement.objects.filter(kind=Movement.Kind.RECEIVE).values_list("lot", flat=True)
    times = Counter(received.filter(lot__made_in__isnull=False))
    for lot in Lot.objects.exclude(made_in=None).order_by("pk").iterator():
        if not went_in.get(lot.pk):
            yield f"Made lot {lot.code} does not say what went into it."
        if times[lot.pk] != 1:
            yield f"Made lot {lot.code} came in {times[lot.pk]} times."


def kits_get_what_they_ask_for() -> Iterator[str]:
    """No more leaves for a kit line than it asks for, and no more comes back into a lot than left it."""
    sent: dict[int, int] = {}
    out: dict[tuple[int, int], int] = {}
    rows = Movement.objects.exclude(kit_line=None).annotate(way=Coalesce("corrects__kind", "kind"))
    moved = rows.order_by().values_list("lot", "kit_line", "way", "corrects")
    for lot, line, way, corrects, milligrams in moved.annotate(moved=Sum("milligrams")).iterator():
        if way in OUT_AND_BACK:
            out[lot, line] = out.get((lot, line), 0) - milligrams
        if way in (Movement.Kind.ISSUE, Movement.Kind.SUPPLEMENTARY) and corrects is None:
            sent[line] = sent.get(line, 0) - milligrams
    for lot, line in sorted(key for key, milligrams in out.items() if milligrams < 0):
        yield f"More came back into lot key {lot} than left it for kit line key {line}."
    for line, asked in KitLine.objects.order_by("pk").values_list("pk", "stock_milligrams").iterator():
        if sent.get(line, 0) > asked:
            yield f"{sent[line]} mg left for kit line key {line}, which asks for {asked} mg."


def deliveries_are_taken_in_once() -> Iterator[str]:
    """The lot of a line that was taken in came in with the line's weight, as its first movement."""
    first = DeliveryLine.objects.filter(lot__movements__number=1)
    received = dict(first.values_list("pk", "lot__movements__milligrams"))
    for line in DeliveryLine.objects.exclude(lot=None).select_related("delivery").order_by("pk").iterator():
        if received.get(line.pk) != line.milligrams:
            yield f"Line {line.number} of delivery {line.delivery.code} was taken in, and its lot differs."


def equipment_adds_up() -> Iterator[str]:
    """Changes of a thing are numbered without a gap, each count is the sum so far, none is below nothing."""
    things = {row.pk: row for row in Equipment.objects.order_by("pk")}
    sums = {key: (row.at_first, 0, 0) for key, row in things.items()}
    with_whom: Counter[tuple] = Counter()
    for row in EquipmentMove.objects.order_by("equipment", "number").iterator():
        count, out, moves = sums[row.equipment_id]
        sums[row.equipment_id] = said = (count + row.change, out + row.out_change, moves + 1)
        with_whom[row.equipment_id, row.lesson_id, row.place_id] += row.out_change
        if (row.count_after, row.out_after, row.number) != said:
            yield f"Change {row.number} of thing key {row.equipment_id} does not follow from the one before."
    for key, row in things.items():
        if (row.count, row.out, row.moves) != sums[key]:
            yield f"Thing key {key} says {row.count}, {row.out} of them out; the ledger differs."
    for (thing, lesson, _), out in with_whom.items():
        if out < 0:
            yield f"More of thing key {thing} came back from lesson key {lesson} than went out."


def marks_are_whole_chains() -> Iterator[str]:
    """Every later mark supersedes the one numbered just before it, of the same sheet and criterion."""
    rows = MarkEntry.objects.select_related("supersedes").exclude(supersedes=None)
    for entry in rows.iterator():
        before = entry.supersedes
        same = (before.sheet_id, before.criterion_id, before.technique) == (
            entry.sheet_id,
            entry.criterion_id,
            entry.technique,
        )
        if not same or before.number != entry.number - 1:
            yield f"Mark entry key {entry.pk} does not follow the one it supersedes."


def attendance_is_in_order() -> Iterator[str]:
    """Attendance of a learner in a lesson is numbered from one without a gap."""
    seen: dict[tuple[int, int], int] = {}
    rows = Attendance.objects.order_by("lesson", "student", "number").values_list(
        "lesson", "student", "number"
    )
    for lesson, student, number in rows.iterator():
        seen[lesson, student] = seen.get((lesson, student), 0) + 1
        if number != seen[lesson, student]:
            yield f"Attendance {number} of learner key {student} in lesson key {lesson} is out of order."


def days_are_in_order() -> Iterator[str]:
    """What happened in a lesson is numbered from one without a gap; an undo undoes what came before it."""
    counts: dict[int, int] = {}
    rows = DayEvent.objects.order_by("lesson", "number").values_list("lesson", "number", "undoes__number")
    for lesson, number, undoes in rows.iterator():
        counts[lesson] = counts.get(lesson, 0) + 1
        if number != counts[lesson]:
            yield f"Event {number} of the day of lesson key {lesson} stands at place {counts[lesson]}."
        if undoes is not None and undoes >= number:
            yield f"Event {number} of the day of lesson key {lesson} undoes a later one."


CHECKS: tuple[Callable[[], Iterator[str]], ...] = (
    triggers_stand,
    stock_adds_up,
    made_lots_say_what_went_in,
    kits_get_what_they_ask_for,
    deliveries_are_taken_in_once,
    equipment_adds_up,
    marks_are_whole_chains,
    attendance_is_in_order,
    days_are_in_order,
)


def faults() -> list[str]:
    """Everything that is wrong with the ledgers, in sentences."""
    return [sentence for check in CHECKS for sentence in check()]
