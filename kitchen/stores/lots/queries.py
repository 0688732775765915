"""What the pages of the stock read: lots, where they came from and went to, labels."""

from dataclasses import dataclass
from datetime import date, datetime

from django.db.models import Count, Q, QuerySet, Sum
from django.utils import timezone

from curriculum import wording
from curriculum.allergens import printed
from curriculum.foods.models import Food
from curriculum.people.queries import now_at, the_college
from kitchen.lessons.models import Lesson
from kitchen.stores.allocation import Use, barred, warning
from kitchen.stores.deliveries.models import DeliveryLine
from kitchen.stores.made.queries import PartRow, made_lots_with, parts_of
from kitchen.stores.models import Lot, Movement
from kitchen.stores.moves.counting import amount_words
from kitchen.stores.moves.queries import piece_of
from kitchen.stores.queries import ACCEPTED, lot_data

#: The shape and word of a lot's state.
IN_STORE, LAST, STOPPED = ("done", "in store"), ("late", "look at it"), ("stopped", "not to be issued")
UNREAD = ("cannot", "waits for its label")


@dataclass(frozen=True, slots=True)
class LotRow:
    """One lot as a line of the stock: words for what is on hand, its date and its state."""

    lot: Lot
    on_hand: str
    date: str
    state: tuple[str, str]
    why: str


@dataclass(frozen=True, slots=True)
class MoveRow:
    """One movement in words: how much, what became of it, and whether it can come back."""

    movement: Movement
    amount: str
    balance: str
    where: str
    lesson: str
    may_come_back: bool


@dataclass(frozen=True, slots=True)
class LotPage:
    """One lot with its movements and its label."""

    row: LotRow
    moves: tuple[MoveRow, ...]
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    parts: tuple[PartRow, ...] = ()
    went_into: tuple[Lot, ...] = ()
    came: DeliveryLine | None = None
    accepted_for: tuple[Lesson, ...] = ()


@dataclass(frozen=True, slots=True)
class LabelRow:
    """One food with what its label says and how many lots of it are there."""

    food: Food
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]


def stock() -> QuerySet[Lot]:
    """Lots that hold something, by food and then by date."""
    return (
        Lot.objects.filter(on_hand_milligrams__gt=0)
        .select_related("food__keeping", "supplier", "made_in")
        .prefetch_related("food__allergens", ACCEPTED)
        .order_by("food__name", "date", "received_on", "code")
    )


def movements_of(lot: Lot) -> list[Movement]:
    """Where a lot came from and where it went, oldest first, with kit, lesson and bench. One query."""
    return list(
        lot.movements.select_related(
            "by", "kit_line__kit__kit_set__lesson__group", "kit_line__kit__place__bench"
        ).order_by("number")
    )


def returned_milligrams(movement: Movement) -> int:
    """What has already come back of one issue, corrections of both counted."""
    of_line = Movement.objects.filter(lot=movement.lot_id, kit_line=movement.kit_line_id)
    returned = Q(kind=Movement.Kind.RETURN) | Q(corrects__kind=Movement.Kind.RETURN)
    back = of_line.filter(returned | Q(corrects=movement.pk))
    return back.aggregate(total=Sum("milligrams"))["total"] or 0


def labels() -> list[Food]:
    """Foods in use with their allergens and how many lots there are; unread ones first. Two queries."""
    rows = (
        Food.objects.filter(retired_at=None, from_tap=False, made_from=None)
        .annotate(
            lots_there=Count("lots", filter=Q(lots__on_hand_milligrams__gt=0)),
            lots_unread=Count("lots", filter=Q(lots__on_hand_milligrams__gt=0, lots__label_read_on=None)),
        )
        .prefetch_related("allergens")
        .order_by("name")
    )
    return sorted(
        rows, key=lambda food: (food.label_read_on is not None and not food.lots_unread, not food.lots_there)
    )


def lots_of(food: Food) -> list[Lot]:
    """The lots of a food that hold something."""
    return list(Lot.objects.filter(food=food, on_hand_milligrams__gt=0).order_by("date", "code"))


def stock_rows(today: date) -> list[LotRow]:
    """Every lot that holds something, in words. Four queries."""
    now = now_at(the_college())
    return [lot_row(lot, today, now) for lot in stock()]


def lot_row(lot: Lot, today: date, now: datetime) -> LotRow:
    """One lot in words, as it stands on that day at that moment."""
    data = lot_data(lot)
    own = data.made_in or (data.only_for[0] if data.only_for else "")
    stopped = barred(data, Use(today, own, now), free_from=data.reserved_free_from)
    look = (barred(data, today) if data.only_for else "") or warning(data, today)
    unread = data.unread and not lot.held
    state = UNREAD if unread else STOPPED if stopped else LAST if look else IN_STORE
    return LotRow(
        lot,
        on_hand_words(lot.food, lot.on_hand_milligrams),
        date_words(lot, today),
        state,
        stopped or look,
    )


def on_hand_words(food: Food, milligrams: int) -> str:
    """ "71 pieces", "12.5 kg", "440 g"."""
    if food.counted_in == Food.CountedIn.PIECES and food.piece_milligrams:
        return wording.counted(milligrams // food.piece_milligrams, "piece")
    return wording.amount(milligrams, stores=True)


def date_words(lot: Lot, today: date) -> str:
    """ "use by 16 Feb", "no date"; a made lot: "throw away by 12:30 on 16 Feb"."""
    if lot.discard_at is not None:
        at = timezone.localtime(lot.discard_at)
        return f"throw away by {wording.clock(at.time())} on {wording.short_date(at.date(), today)}"
    if lot.date is None:
        return "no date"
    return f"{lot.get_date_kind_display()} {wording.short_date(lot.date, today)}"


def lot_page(lot: Lot, today: date) -> LotPage:
    """One lot whole. Eight queries at most beside the lot's own."""
    moves = movements_of(lot)
    back = {each.kit_line_id for each in moves if each.kind == Movement.Kind.RETURN}
    return LotPage(
        row=lot_row(lot, today, now_at(the_college())),
        moves=tuple(_move_row(each, lot, back) for each in moves),
        contains=tuple(printed(kind) for kind in lot.label_allergens),
        may_contain=tuple(printed(kind) for kind in lot.label_may_contain),
        parts=tuple(parts_of(lot)),
        went_into=tuple(made_lots_with([lot])),
        came=DeliveryLine.objects.filter(lot=lot).select_related("delivery__order").first(),
        accepted_for=accepted_lessons(lot),
    )


def accepted_lessons(lot: Lot) -> tuple[Lesson, ...]:
    """The lessons that a substitute was accepted for. One query for a substitute, none for any other lot."""
    if not lot.restricted:
        return ()
    rows = lot.accepted_for.select_related("lesson__group").order_by("lesson__on", "lesson__starts")
    return tuple(row.lesson for row in rows)


def label_rows() -> list[LabelRow]:
    """Every food with its label in words, unread ones first. Two queries."""
    return [LabelRow(food, _printed(food, "contains"), _printed(food, "may_contain")) for food in labels()]


def _printed(food: Food, presence: str) -> tuple[str, ...]:
    return tuple(printed(row.kind) for row in food.allergens.all() if row.presence == presence)


def _moved_words(food: Food, milligrams: int) -> str:
    """ "+90 pieces", "−640 g"; a part of a piece, after a correction, is weighed."""
    words = amount_words(abs(milligrams), piece_of(food))
    return f"{'−' if milligrams < 0 else '+'}{words}"


def _move_row(movement: Movement, lot: Lot, back: set[int | None]) -> MoveRow:
    supplier = lot.supplier.name if lot.supplier else ""
    kit = movement.kit_line.kit if movement.kit_line else None
    lesson = kit.kit_set.lesson if kit else None
    place = (
        f"bench {kit.place.bench.number}" if kit and kit.place else (kit.get_kind_display() if kit else "")
    )
    of_lesson = f"{lesson.title}, {lesson.group.code}, {place}" if lesson else ""
    where = ". ".join(part for part in (of_lesson, movement.reason) if part) or supplier
    return MoveRow(
        movement=movement,
        amount=_moved_words(lot.food, movement.milligrams),
        balance=on_hand_words(lot.food, movement.balance_milligrams),
        where=where,
        lesson=lesson.code if lesson else "",
        may_come_back=movement.kind == Movement.Kind.ISSUE and movement.kit_line_id not in (None, *back),
    )
