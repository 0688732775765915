"""What becomes of a delivery: begun, checked line by line, a substitute decided on, closed.

The rules of every action of the stores hold here too (``kitchen.stores.actions``). A line that
is taken in makes its lot through ``receive_lots`` in the same transaction; a line that waits
for a decision keeps what its lot will say and is in no stock until somebody decides.
"""

import uuid
from collections.abc import Iterable
from dataclasses import asdict
from datetime import date
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food, Pack, Supplier
from curriculum.people.models import User
from curriculum.records.actions import draw_code, once
from kitchen.lessons.models import Lesson
from kitchen.safety.models import Reading
from kitchen.stores.deliveries import check, queries
from kitchen.stores.deliveries.entries import LineEntry
from kitchen.stores.deliveries.models import AcceptedFor, Delivery, DeliveryLine, DeliveryRule
from kitchen.stores.deliveries.reach.actions import demand_date, demand_reached
from kitchen.stores.entries import LabelRead, LotEntry
from kitchen.stores.lots.actions import read_label, receive_lots, widen_label
from kitchen.stores.made.bowls import Label
from kitchen.stores.models import Lot
from kitchen.stores.orders.actions import note_delivered
from kitchen.stores.orders.models import Order

Verdict = DeliveryLine.Verdict


@transaction.atomic
def begin_delivery(
    *,
    on: date,
    by: User,
    order: Order | None = None,
    supplier: Supplier | None = None,
    note_number: str = "",
    key: UUID | None = None,
) -> Delivery:
    """Begin the check of what a supplier brings, for an order or without one.

    RuleBroken "begun_already" while a delivery of the same order is open; "order_not_sent" for an
    order that is a draft, cancelled or delivered: what came all the same is checked without one.
    """
    who = order.supplier if order else supplier

    def do() -> dict:
        if order is not None:
            _demand_sent(
                Order.objects.select_for_update(of=("self",)).select_related("ended_by").get(pk=order.pk)
            )
            _demand_none_open(order)
        row = Delivery.objects.create(
            code=draw_code(Delivery), order=order, supplier=who, note_number=note_number, on=on, by=by
        )
        return {"delivery": row.pk}

    said = {"order": order.pk if order else None, "supplier": who.pk, "note": note_number, "on": str(on)}
    answer = once(key=key, action="begin_delivery", by=by, said=said, do=do)
    return Delivery.objects.get(pk=answer["delivery"])


@transaction.atomic
def check_line(
    *, delivery: Delivery, entry: LineEntry, on: date, by: User, key: UUID | None = None
) -> DeliveryLine:
    """Write one checked line down: taken in as a lot, rejected, or waiting for a decision.

    RuleBroken "closed", "checked_meanwhile", "temperature_missing", "too_warm", "past_use_by",
    "short_dated", "why_missing", "lot_code_taken".
    """

    def do() -> dict:
        row = _open_locked(delivery)
        _demand_seen(row, entry)
        food = Food.objects.prefetch_related("allergens").get(code=entry.food)
        rule = queries.rule_of(food.storage)
        _demand_reason(entry)
        line = _line(row, entry, food, on, by)
        if entry.taken:
            _demand_cold(entry, food, rule)
            line.short_date = demand_date(row, entry, food, on, rule)
            line.short_date_why = entry.short_date_why if line.short_date else ""
        line.reading = _reading(entry, food, rule, row, by, key)
        _read_first(line, entry, on, by)
        _settle(line, entry)
        if line.verdict == Verdict.TAKEN:
            line.lot = _take_in(line, by, restricted=False)
        line.save()
        _remember(entry)
        return {"line": line.pk}

    said = {name: str(value) for name, value in asdict(entry).items()} | {"delivery": delivery.pk}
    answer = once(key=key, action="check_line", by=by, said=said, do=do)
    return DeliveryLine.objects.select_related("lot").get(pk=answer["line"])


@transaction.atomic
def read_line_label(
    *, line: DeliveryLine, label: Label, on: date, by: User, key: UUID | None = None
) -> DeliveryLine:
    """Write down what the label of a waiting substitute says; one that names no more is taken in.

    RuleBroken "decided_already".
    """

    def do() -> dict:
        row = _waiting_locked(line)
        row.label_allergens, row.label_may_contain = list(label.contains), list(label.may_contain)
        row.label_read_on, row.label_read_by = on, by
        if not queries.more_of(row):
            row.verdict = Verdict.TAKEN
            row.lot = _take_in(row, by, restricted=False)
        row.save()
        return {"line": row.pk}

    said = {"line": line.pk, "label": [label.contains, label.may_contain], "on": str(on)}
    once(key=key, action="read_line_label", by=by, said=said, do=do)
    return DeliveryLine.objects.select_related("lot").get(pk=line.pk)


@transaction.atomic
def accept_substitute(
    *, line: DeliveryLine, lessons: Iterable[Lesson], by: User, key: UUID | None = None
) -> DeliveryLine:
    """Take a substitute in for these lessons and no other; for none of them it waits in the stores.

    The label of the food then names what both labels name, and kits are judged by it.
    RuleBroken "decided_already", "label_not_read", "past_its_date" for a lesson after its use-by date.
    """
    lessons = sorted(lessons, key=lambda lesson: lesson.pk)

    def do() -> dict:
        row = _waiting_locked(line)
        if row.label_read_on is None:
            raise RuleBroken(
                "label_not_read", "Nobody has read the label of this substitute. Read it first, then decide."
            )
        demand_reached(row, lessons)
        row.verdict, row.decided_by, row.decided_at = Verdict.TAKEN, by, timezone.now()
        row.lot = _take_in(row, by, restricted=True)
        row.save()
        AcceptedFor.objects.bulk_create(AcceptedFor(lot=row.lot, lesson=lesson, by=by) for lesson in lessons)
        if lessons:
            widen_label(food=row.food, label=_label_of(row), by=by)
        return {"line": row.pk}

    said = {"line": line.pk, "lessons": [lesson.code for lesson in lessons]}
    once(key=key, action="accept_substitute", by=by, said=said, do=do)
    return DeliveryLine.objects.select_related("lot").get(pk=line.pk)


@transaction.atomic
def send_back(*, line: DeliveryLine, why: str, by: User, key: UUID | None = None) -> DeliveryLine:
    """Send a substitute back: it never stood in the stores. RuleBroken "decided_already"."""

    def do() -> dict:
        row = _waiting_locked(line)
        row.verdict, row.decided_by, row.decided_at = Verdict.SENT_BACK, by, timezone.now()
        row.why = f"{row.why} {why}".strip()
        row.save(update_fields=["verdict", "decided_by", "decided_at", "why"])
        return {"line": row.pk}

    once(key=key, action="send_back", by=by, said={"line": line.pk, "why": why}, do=do)
    return DeliveryLine.objects.get(pk=line.pk)


def decide_line(
    *, line: DeliveryLine, lessons: Iterable[str] | None, why: str, by: User, key: UUID | None = None
) -> DeliveryLine:
    """Accept a substitute for the lessons with these codes, or send it back when ``lessons`` is None."""
    if lessons is None:
        return send_back(line=line, why=why, by=by, key=key)
    rows = Lesson.objects.filter(code__in=list(lessons))
    return accept_substitute(line=line, lessons=rows, by=by, key=key)


@transaction.atomic
def close_delivery(*, delivery: Delivery, by: User) -> Delivery:
    """Say that the check is done; an order of which nothing is to come is delivered then.

    RuleBroken "closed", "line_waits".
    """
    row = _open_locked(delivery)
    waiting = row.lines.filter(verdict=Verdict.WAITING).order_by("number").first()
    if waiting is not None:
        raise RuleBroken(
            "line_waits", f"Line {waiting.number} waits for a decision. Decide on it, then close the check."
        )
    row.closed_at, row.closed_by = timezone.now(), by
    row.save(update_fields=["closed_at", "closed_by"])
    if row.order is not None and row.order.state == Order.State.SENT and not queries.lines_to_come(row):
        note_delivered(order=row.order, by=by)
    return row


@transaction.atomic
def set_rule(*, storage: str, rule: check.Rule, by: User) -> DeliveryRule:
    """Set what the college itself demands of one storage class."""
    row, _ = DeliveryRule.objects.update_or_create(storage=storage, defaults={**asdict(rule), "by": by})
    return row


def _demand_sent(order: Order) -> None:
    """Only what was sent is checked against its order."""
    words = {
        Order.State.DRAFT: "has not been sent. Note it as sent first",
        Order.State.CANCELLED: f"was cancelled ({order.cancelled_why}). If it came all the same, agree "
        "with the supplier whether it stays",
        Order.State.DELIVERED: "has come and was checked",
    }
    if order.state in words:
        raise RuleBroken(
            "order_not_sent",
            f"Order {order.code} {words[order.state]}; what lies here without an order is checked without "
            "one: choose its supplier.",
            field="order",
        )


def _demand_none_open(order: Order) -> None:
    found = Delivery.objects.filter(order=order, closed_at=None).select_related("by").first()
    if found is not None:
        raise RuleBroken(
            "begun_already",
            f"{found.by.name} has begun the check of order {order.code}. Go on with that one.",
            delivery=found.code,
        )


def _open_locked(delivery: Delivery) -> Delivery:
    row = Delivery.objects.select_for_update().get(pk=delivery.pk)
    if row.closed_at is not None:
        raise RuleBroken(
            "closed", "The check of this delivery is closed. Begin another one for what came later."
        )
    return row


def _waiting_locked(line: DeliveryLine) -> DeliveryLine:
    row = DeliveryLine.objects.select_for_update().get(pk=line.pk)
    if row.verdict != Verdict.WAITING:
        who = row.decided_by.name if row.decided_by else row.by.name
        raise RuleBroken(
            "decided_already", f"{who} has decided on this line already: {row.get_verdict_display()}."
        )
    return row


def _demand_seen(delivery: Delivery, entry: LineEntry) -> None:
    """Whoever checks the same line on another tablet is told first."""
    rows = delivery.lines.select_related("by", "food", "lot").order_by("number")[entry.seen :]
    for row in rows:
        if row.food.code == entry.food or (row.order_line_id and row.order_line_id == entry.order_line):
            lot = f", lot {row.lot.code}" if row.lot else ""
            raise RuleBroken(
                "checked_meanwhile",
                f"{row.by.name} has checked {row.food.name} meanwhile: {row.count}, "
                f"{row.get_verdict_display()}{lot}. Send this again only if it is more of it.",
            )


def _demand_reason(entry: LineEntry) -> None:
    if entry.why or (entry.taken and not entry.substitute):
        return
    words = "what came in its place" if entry.taken else "why it is rejected"
    raise RuleBroken("why_missing", f"This is empty. Write {words}.", field="why")


def _demand_cold(entry: LineEntry, food: Food, rule: check.Rule) -> None:
    if check.ruling(food.storage, rule) is None:
        return
    if entry.decicelsius is None:
        raise RuleBroken(
            "temperature_missing",
            f"{food.get_storage_display().capitalize()} food is read before it is taken in. "
            "Write the temperature.",
            field="celsius",
        )
    why = check.too_warm(food.storage, entry.decicelsius, rule)
    if why:
        raise RuleBroken("too_warm", why, field="celsius", decicelsius=entry.decicelsius)


def _line(delivery: Delivery, entry: LineEntry, food: Food, on: date, by: User) -> DeliveryLine:
    return DeliveryLine(
        delivery=delivery,
        number=delivery.lines.count() + 1,
        order_line_id=entry.order_line,
        pack_id=entry.pack,
        food=food,
        count=entry.count,
        milligrams=entry.milligrams,
        why=entry.why,
        batch=entry.batch,
        date_kind=entry.date_kind,
        date=entry.dated_on,
        label_allergens=list(entry.contains) if entry.label_read else [],
        label_may_contain=list(entry.may_contain) if entry.label_read else [],
        label_read_on=on if entry.label_read else None,
        label_read_by=by if entry.label_read else None,
        lot_code=entry.lot_code,
        reserved_free_from=entry.reserved_free_from,
        by=by,
    )


def _read_first(line: DeliveryLine, entry: LineEntry, on: date, by: User) -> None:
    """The first label of a food that anybody reads is the food's label."""
    first = entry.taken and entry.label_read and not entry.substitute and line.food.label_read_on is None
    if first:
        read = LabelRead(entry.contains, entry.may_contain)
        read_label(food=line.food, read=read, on=on, by=by)


def _settle(line: DeliveryLine, entry: LineEntry) -> None:
    """Rejected, taken in, or waiting: a substitute until its label is read, any label that names more."""
    if not entry.taken:
        line.verdict = Verdict.REJECTED
    elif queries.more_of(line) or (entry.substitute and not entry.label_read):
        line.verdict = Verdict.WAITING
    else:
        line.verdict = Verdict.TAKEN


def _reading(
    entry: LineEntry, food: Food, rule: check.Rule, delivery: Delivery, by: User, key: UUID | None
) -> Reading | None:
    """The reading, with what ruled at that moment."""
    if entry.decicelsius is None:
        return None
    rules = check.ruling(food.storage, rule)
    kept = rules is None or rules.kept(entry.decicelsius)
    return Reading.objects.create(
        what=f"{food.name}, delivery {delivery.code}"[:120],
        decicelsius=entry.decicelsius,
        limit=rules.kept_with_reading if rules else {},
        verdict="kept" if kept else "not kept",
        key=uuid.uuid5(key, "reading") if key else uuid.uuid4(),
        by=by,
    )


def _take_in(line: DeliveryLine, by: User, *, restricted: bool) -> Lot:
    """The lot of a line, by the one action that makes lots."""
    entry = LotEntry(
        code=line.lot_code or draw_code(Lot),
        food=line.food.code,
        milligrams=line.milligrams,
        received_on=line.delivery.on,
        supplier=line.delivery.supplier.code,
        batch=line.batch,
        date_kind=line.date_kind,
        dated_on=line.date,
        reserved_free_from=line.reserved_free_from,
        contains=tuple(line.label_allergens),
        may_contain=tuple(line.label_may_contain),
        label_read_on=line.label_read_on,
        label_read_by=line.label_read_by_id,
        restricted=restricted,
        pence=queries.pence_of(line),
        note=line.why[:200],
    )
    return receive_lots(entries=[entry], by=by)[0]


def _label_of(line: DeliveryLine) -> Label:
    return Label(tuple(line.label_allergens), tuple(line.label_may_contain))


def _remember(entry: LineEntry) -> None:
    """The number of a pack that was scanned for the first time."""
    if entry.gtin and entry.pack:
        Pack.objects.filter(pk=entry.pack, gtin="").update(gtin=entry.gtin)
