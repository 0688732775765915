"""What becomes of orders: a week is accepted, orders are changed, sent, cancelled, delivered.

For the pages of the week and of orders. The rules of every action of the stores hold here too
(``kitchen.stores.actions``). An order is sent by a person; here it is only noted. What was sent is
never changed: what a lesson needs beyond it is a supplementary order.
"""

from collections.abc import Iterable
from datetime import date, datetime
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food, Pack, Supplier
from curriculum.people.models import User
from curriculum.people.queries import now_at, the_college
from curriculum.records.actions import draw_code, once
from curriculum.wording import clock, long_date, money
from kitchen.stores.orders import queries
from kitchen.stores.orders.changed import as_it_stands, hash_of, inputs_of
from kitchen.stores.orders.closed.queries import closed_days
from kitchen.stores.orders.entries import KeepingEntry, LineEntry, OrderEntry, WeekEntry
from kitchen.stores.orders.models import Keeping, Order, OrderLine, WeekPlan

State = Order.State


@transaction.atomic
def accept_week(*, entry: WeekEntry, by: User, key: UUID | None = None) -> WeekPlan:
    """Keep what is ordered for a week, with what it was computed from.

    Lines join the draft order of the same supplier and day; what comes with an order that was sent
    is a supplementary one. RuleBroken "week_accepted" when somebody else was first, "week_changed"
    when the needs or the stock are not what the page showed, "nothing_ordered", "no_such_delivery".
    """

    def do() -> dict:
        list(Supplier.objects.select_for_update().order_by("pk"))
        _demand_first(entry)
        inputs = inputs_of(queries.week_basis(entry.monday).served)
        _demand_unchanged(entry, inputs)
        plan = WeekPlan.objects.create(
            monday=entry.monday,
            number=entry.number + 1,
            inputs=inputs,
            inputs_hash=entry.inputs_hash,
            answer={"shape": 1, **dict(entry.answer)},
            by=by,
        )
        for order in entry.orders:
            _write(plan, order, by)
        return {"plan": plan.pk}

    said = {"monday": entry.monday, "orders": repr(entry.orders), "number": entry.number}
    answer = once(key=key, action="accept_week", by=by, said=said, do=do)
    return WeekPlan.objects.get(pk=answer["plan"])


@transaction.atomic
def change_order(
    *, order: Order, lines: Iterable[LineEntry], by: User, key: UUID | None = None, seen: str = ""
) -> Order:
    """Change the counts of a draft, and add packs of its supplier; a count of nothing takes a line away.

    ``seen`` is the order as whoever writes saw it (``changed.as_it_stands``; empty: not asked).
    RuleBroken "not_a_draft", "other_supplier", "changed_meanwhile".
    """
    lines = tuple(lines)

    def do() -> dict:
        row = _locked(order, State.DRAFT, "changed")
        _demand_seen(row, seen)
        packs = Pack.objects.in_bulk([line.pack for line in lines])
        if any(pack.supplier_id != row.supplier_id for pack in packs.values()):
            raise RuleBroken("other_supplier", "This supplier does not sell that pack. Choose one of theirs.")
        for line in lines:
            _set(row, packs[line.pack], line)
        return {"order": row.pk}

    said = {"order": order.code, "lines": repr(lines)}
    once(key=key, action="change_order", by=by, said=said, do=do)
    return order


@transaction.atomic
def note_sent(*, order: Order, by: User, agreed: str = "", key: UUID | None = None) -> Order:
    """Note that a person has sent the order. From then on it is not changed.

    RuleBroken "not_a_draft", "empty_order", and without words on what was ``agreed`` with the
    supplier "too_late" and "below_least_order".
    """

    def do() -> dict:
        row = _locked(order, State.DRAFT, "sent")
        _demand_sendable(row, agreed)
        row.state, row.sent_at, row.sent_by, row.agreed = State.SENT, timezone.now(), by, agreed[:200]
        row.save(update_fields=["state", "sent_at", "sent_by", "agreed"])
        return {"order": row.pk}

    said = {"order": order.code, "agreed": agreed}
    return Order.objects.get(pk=once(key=key, action="note_sent", by=by, said=said, do=do)["order"])


@transaction.atomic
def cancel_order(*, order: Order, why: str, by: User, key: UUID | None = None) -> Order:
    """Cancel a draft or a sent order, with the reason.

    RuleBroken "order_ended", and "check_begun" while what came of it is being checked.
    """

    def do() -> dict:
        row = Order.objects.select_for_update().get(pk=order.pk)
        if row.state not in queries.COMING:
            raise RuleBroken(
                "order_ended", f"Order {row.code} is {row.get_state_display()}: nothing is left to cancel."
            )
        _demand_no_check(row)
        row.state, row.ended_at, row.ended_by, row.cancelled_why = State.CANCELLED, timezone.now(), by, why
        row.save(update_fields=["state", "ended_at", "ended_by", "cancelled_why"])
        return {"order": row.pk}

    said = {"order": order.code, "why": why}
    return Order.objects.get(pk=once(key=key, action="cancel_order", by=by, said=said, do=do)["order"])


@transaction.atomic
def note_delivered(*, order: Order, by: User) -> Order:
    """Note that what was ordered has come and was checked. RuleBroken "not_sent"."""
    row = Order.objects.select_for_update().get(pk=order.pk)
    if row.state != State.SENT:
        raise RuleBroken(
            "not_sent", f"Order {row.code} is {row.get_state_display()}. Only one that was sent is delivered."
        )
    row.state, row.ended_at, row.ended_by = State.DELIVERED, timezone.now(), by
    row.save(update_fields=["state", "ended_at", "ended_by"])
    return row


@transaction.atomic
def set_keeping(*, food: Food, entry: KeepingEntry, by: User, key: UUID | None = None) -> Keeping:
    """Write the par level of a food down, and how many days it keeps."""

    def do() -> dict:
        said = {name: getattr(entry, name) for name in KeepingEntry.__slots__}
        row, _ = Keeping.objects.update_or_create(food=food, defaults={**said, "by": by})
        row.full_clean()
        return {"keeping": row.pk}

    said = {"food": food.code, "entry": repr(entry)}
    return Keeping.objects.get(pk=once(key=key, action="set_keeping", by=by, said=said, do=do)["keeping"])


def _demand_first(entry: WeekEntry) -> None:
    """Nobody has accepted this week since the page was opened."""
    latest = next(iter(queries.plans_of(entry.monday)), None)
    if latest is not None and latest.number != entry.number:
        raise RuleBroken(
            "week_accepted",
            f"{latest.by.printed_name} accepted orders for this week at "
            f"{clock(timezone.localtime(latest.at).time())}. What they ordered is counted below: "
            "look at what is left to buy, then accept that.",
        )


def _demand_unchanged(entry: WeekEntry, inputs: dict) -> None:
    if not any(line.count for order in entry.orders for line in order.lines):
        raise RuleBroken("nothing_ordered", "Every count is nothing. Write how many packs are ordered.")
    if hash_of(inputs) != entry.inputs_hash:
        raise RuleBroken(
            "week_changed",
            "What the lessons need, or what is in stock, changed while this page was open. "
            "The page shows it as it is now: look at the counts, then accept.",
        )


def _write(plan: WeekPlan, entry: OrderEntry, by: User) -> None:
    """The lines of one day, each with the order of its supplier."""
    lines = [line for line in entry.lines if line.count]
    packs = Pack.objects.select_related("supplier").in_bulk([line.pack for line in lines])
    orders: dict[int, Order] = {}
    for line in lines:
        pack = packs[line.pack]
        if pack.supplier_id not in orders:
            orders[pack.supplier_id] = _order_for(plan, pack.supplier, entry.on, by)
        _add(orders[pack.supplier_id], pack, line)


def _order_for(plan: WeekPlan, supplier: Supplier, on: date, by: User) -> Order:
    """The draft of this supplier and day, or a new order; after one that was sent, a supplementary one."""
    data = queries.supplier_data(supplier, closed_days(on, on))
    if not data.delivers_on(on):
        why = data.why_closed(on)
        words = f"Nothing is taken in on {long_date(on, on)}: {why}." if why else ""
        message = words or f"{supplier.name} does not deliver on {long_date(on, on)}."
        raise RuleBroken("no_such_delivery", message)
    same = Order.objects.filter(supplier=supplier, for_on=on, plan__monday=plan.monday)
    draft = same.filter(state=State.DRAFT).select_for_update(of=("self",)).order_by("pk").first()
    if draft is not None:
        return draft
    sent = same.filter(state=State.SENT).order_by("pk").first()
    return Order.objects.create(
        supplier=supplier, code=draw_code(Order), for_on=on, plan=plan, supplements=sent, by=by
    )


def _add(order: Order, pack: Pack, line: LineEntry) -> None:
    row = OrderLine.objects.filter(order=order, pack=pack).first()
    if row is None:
        facts = {"count": line.count, "proposed": line.proposed, "pence_a_pack": pack.pence}
        weeks = {"fills_from": line.fills_from, "fills_until": line.fills_until} if line.filling else {}
        OrderLine.objects.create(order=order, pack=pack, fill_packs=line.filling, **facts, **weeks)
        return
    row.count += line.count
    row.proposed = (row.proposed or 0) + (line.proposed or 0)
    if line.filling:
        row.fill_packs += line.filling
        row.fills_from = min(filter(None, (row.fills_from, line.fills_from)))
        row.fills_until = max(filter(None, (row.fills_until, line.fills_until)))
    row.save(update_fields=["count", "proposed", "fill_packs", "fills_from", "fills_until"])


def _demand_seen(order: Order, seen: str) -> None:
    """Counts are whole rows: what somebody else wrote meanwhile would be written over."""
    if seen and seen != as_it_stands(order.lines.values_list("pack", "count")):
        raise RuleBroken(
            "changed_meanwhile",
            "Somebody changed this order after you opened it. Nothing is written yet: look your counts over "
            "beside the lines as they stand now, then send them again.",
        )


def _set(order: Order, pack: Pack, line: LineEntry) -> None:
    row = OrderLine.objects.filter(order=order, pack=pack).first()
    if row is None and line.count:
        OrderLine.objects.create(order=order, pack=pack, count=line.count, pence_a_pack=pack.pence)
    elif row is not None and not line.count:
        row.delete()
    elif row is not None:
        fewer = max(0, row.count - line.count)
        row.count, row.fill_packs = line.count, max(0, row.fill_packs - fewer)
        row.save(update_fields=["count", "fill_packs"])


def _locked(order: Order, state: str, done: str) -> Order:
    row = Order.objects.select_for_update().get(pk=order.pk)
    if row.state != state:
        raise RuleBroken(
            "not_a_draft",
            f"Order {row.code} is {row.get_state_display()} and is not {done} any more. "
            "What is needed beyond it is ordered from the page of the week, as a supplementary order.",
        )
    return row


def _demand_no_check(row: Order) -> None:
    open_check = row.deliveries.filter(closed_at=None).first()
    if open_check is not None:
        raise RuleBroken(
            "check_begun",
            f"The van is here: delivery {open_check.code} of order {row.code} is being checked. Reject there "
            "what the college does not keep and close the check; then cancel what has not come.",
        )


def _demand_sendable(row: Order, agreed: str) -> None:
    lines = list(row.lines.all())
    if not lines:
        raise RuleBroken("empty_order", "Nothing is on this order. Add a pack, or cancel it.")
    supplier = queries.supplier_data(Supplier.objects.get(pk=row.supplier_id))
    until = supplier.send_by(row.for_on)
    stands = _late(until, row.for_on) + _below(
        row, sum(line.count * line.pence_a_pack for line in lines), supplier
    )
    if stands and not agreed:
        raise RuleBroken(
            stands[0][0],
            f"{' '.join(words for _, words in stands)} Write what was agreed with {supplier.name}, "
            "if they take it all the same.",
            field="agreed",
        )


def _late(until: datetime, on: date) -> list[tuple[str, str]]:
    if now_at(the_college()).replace(tzinfo=None) <= until:
        return []
    words = f"{clock(until.time())} on {long_date(until.date(), on)}"
    return [("too_late", f"For the delivery on {long_date(on, on)} orders were taken until {words}.")]


def _below(row: Order, pence: int, supplier: queries.SupplierData) -> list[tuple[str, str]]:
    """Below the least order, unless it comes with an order that was sent before."""
    if pence >= supplier.least_pence or row.supplements_id is not None:
        return []
    return [
        (
            "below_least_order",
            f"The packs come to {money(pence)}; {supplier.name} takes orders from "
            f"{money(supplier.least_pence)} on.",
        )
    ]
