"""What the stores hold for a lesson that is cancelled or moved. A fixed number of queries."""

from datetime import date, timedelta

from django.db.models import Q, QuerySet, Sum
from django.urls import reverse
from django.utils import timezone

from curriculum import wording
from kitchen.lessons.models import Lesson
from kitchen.lessons.papers.models import Print
from kitchen.rooms.models import Equipment
from kitchen.stores.hanging.words import Bowl, Facts, Hanging, Ordered, if_cancelled, if_moved
from kitchen.stores.models import KitLine, KitSet, Lot, Movement, Requisition
from kitchen.stores.orders.models import Order, OrderLine
from kitchen.stores.orders.queries import food_words
from kitchen.stores.queries import WEIGHINGS, current_weighings
from kitchen.stores.requisitions.queries import coming_before
from kitchen.stores.tools.kinds import KNIVES, counted, group_of
from kitchen.stores.tools.models import EquipmentMove
from kitchen.stores.tools.queries import open_of

WAITING = (Requisition.State.SUBMITTED, Requisition.State.QUERIED)


def hanging_on(lesson: Lesson, *, cancelled: bool = False) -> tuple[tuple[Hanging, str], ...]:
    """What hangs on a lesson, with the address where it is done; ``cancelled``: as if it were.

    Nothing of one that is neither cancelled nor moved: two queries then, fourteen at most.
    """
    if cancelled or lesson.state == Lesson.State.CANCELLED:
        found = if_cancelled(facts_of(lesson))
    elif lesson.state != Lesson.State.RUN and _asked_for(_in_force(lesson)) not in (None, lesson.on):
        found = if_moved(facts_of(lesson))
    else:
        found = ()
    return tuple((each, _url(each, lesson)) for each in found)


def facts_of(lesson: Lesson) -> Facts:
    """Everything that the stores hold for a lesson."""
    row = _in_force(lesson)
    kit_set = KitSet.objects.filter(lesson=lesson, state=KitSet.State.ACCEPTED).first()
    waiting = Requisition.objects.filter(lesson=lesson, state__in=WAITING).order_by("-number").first()
    things = _things_out(lesson)
    return Facts(
        on=lesson.on,
        requisition=row.number if row else 0,
        approved=row is not None and row.state == Requisition.State.APPROVED,
        waiting=waiting.number if waiting else 0,
        asked_for=_asked_for(row),
        kit_set=kit_set.number if kit_set else 0,
        lines_weighed=_weighed(kit_set) if kit_set else 0,
        kits_out=_kits_out(lesson),
        orders=_orders(lesson, row),
        bowls=_bowls(lesson),
        prints=Print.objects.filter(lesson=lesson).count(),
        things_out=sum(things.values()),
        knives_out=tuple(counted(things[item], item) for item in sorted(things) if group_of(item) == KNIVES),
    )


def _in_force(lesson: Lesson) -> Requisition | None:
    """The approved requisition of a lesson, or the latest that waits."""
    rows = Requisition.objects.filter(lesson=lesson, state__in=(Requisition.State.APPROVED, *WAITING))
    found = sorted(rows.prefetch_related("lines__food"), key=lambda row: (row.state in WAITING, -row.number))
    return found[0] if found else None


def _asked_for(row: Requisition | None) -> date | None:
    return date.fromisoformat(row.inputs["use_on"]) if row and row.inputs else None


def _weighed(kit_set: KitSet) -> int:
    lines = KitLine.objects.filter(kit__kit_set=kit_set).prefetch_related(WEIGHINGS)
    return len(current_weighings(lines))


def _kits_out(lesson: Lesson) -> int:
    """Kits of which something that left is not back in its lot."""
    moves = Movement.objects.filter(kit_line__kit__kit_set__lesson=lesson).order_by()
    sums = moves.values("kit_line__kit", "kit_line", "lot").annotate(out=Sum("milligrams"))
    return len({row["kit_line__kit"] for row in sums if row["out"] < 0})


def _orders(lesson: Lesson, row: Requisition | None) -> tuple[Ordered, ...]:
    """What is ordered of the foods of an approved requisition, for the days before it."""
    if row is None or row.state != Requisition.State.APPROVED:
        return ()
    day = _asked_for(row) or lesson.on
    codes = {line.food.code for line in row.lines.all()}
    return tuple(_ordered(each) for each in coming_before(day, codes))


def _ordered(row: OrderLine) -> Ordered:
    words = food_words(row.pack.food)
    size = f"{words.amount(row.pack.milligrams)} {wording.plain(words.name)}"
    packs = f"{wording.counted(row.count, 'pack')} of {size}"
    sent = row.order.state == Order.State.SENT
    return Ordered(row.order.code, row.order.supplier.name, row.order.for_on, sent, packs)


def _bowls(lesson: Lesson) -> tuple[Bowl, ...]:
    rows = Lot.objects.filter(made_in=lesson, on_hand_milligrams__gt=0).select_related("food")
    return tuple(
        Bowl(
            row.code,
            f"{row.food.name}, {wording.amount(row.on_hand_milligrams, stores=True)}",
            f"{timezone.localtime(row.discard_at):%H:%M} on "
            + wording.long_date(timezone.localtime(row.discard_at).date(), row.discard_at.date()),
        )
        for row in rows.order_by("code")
    )


def _things_out(lesson: Lesson) -> dict[str, int]:
    """By thing: how many of it are counted out to the lesson and not back. Two queries, one where none is."""
    rows = [(thing, out) for (thing, _), out in open_of(lesson).items() if out > 0]
    items = dict(Equipment.objects.filter(pk__in=[thing for thing, _ in rows]).values_list("pk", "item"))
    found = dict.fromkeys(items.values(), 0)
    for thing, out in rows:
        found[items[thing]] += out
    return found


def _with_things_out() -> QuerySet:
    """The keys of lessons to which a thing is counted out that is not back."""
    rows = EquipmentMove.objects.exclude(lesson=None).order_by().values("lesson", "equipment", "place")
    return rows.annotate(out=Sum("out_change")).filter(out__gt=0).values("lesson")


def _url(each: Hanging, lesson: Lesson) -> str:
    return reverse(each.page, args=[each.key or lesson.code]) if each.page else ""


def cancelled_that_hang(today: date) -> list[Lesson]:
    """Cancelled lessons from a week ago on that had an approved requisition, kits or things still out."""
    asked = Requisition.objects.filter(state=Requisition.State.APPROVED).values("lesson")
    kits = KitSet.objects.filter(state=KitSet.State.ACCEPTED).values("lesson")
    rows = Lesson.objects.filter(state=Lesson.State.CANCELLED, on__gte=today - timedelta(7))
    rows = rows.filter(Q(pk__in=asked) | Q(pk__in=kits) | Q(pk__in=_with_things_out()))
    return list(rows.select_related("group").order_by("on", "starts")[:100])
