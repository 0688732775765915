"""What is read of openings: what stands, by whom, until when the lot keeps, whether it can be taken back."""

from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Sum

from curriculum import wording
from curriculum.foods.models import Food
from kitchen.stores.lots.models import Opening
from kitchen.stores.lots.opened.standing import Said, standing
from kitchen.stores.models import Lot, Movement
from kitchen.stores.weighout.managers import set_aside


@dataclass(frozen=True, slots=True)
class OpenedRow:
    """ "Opened", the day, who said it (empty: it came in so), and until when it then keeps, in words."""

    word: str
    on: date
    by: str
    keeps: str
    unsaid: bool


@dataclass(frozen=True, slots=True)
class OpenedPage:
    """What stands of a lot; ``may_open`` what can still be said; ``may_undo`` what can be taken back."""

    rows: tuple[OpenedRow, ...]
    may_open: tuple[str, ...]
    may_undo: str


def standing_of(lot: Lot) -> tuple[Said, ...]:
    """What was said here of the lot and still stands. One query."""
    rows = lot.openings.select_related("by").order_by("number")
    return standing(
        Said(row.number, row.kind, row.on, row.undone, row.moves, row.by.printed_name) for row in rows
    )


def went_out_since(lot: Lot, moves: int) -> int:
    """Milligrams that left the lot after it had so many movements. One query."""
    rows = Movement.objects.filter(lot=lot, number__gt=moves, milligrams__lt=0)
    return -(rows.aggregate(out=Sum("milligrams"))["out"] or 0)


def on_trays(lot: Lot) -> int:
    """Milligrams of the lot that stand weighed on trays and have not left. One query."""
    return set_aside([lot.pk]).get(lot.pk, 0)


def opened_page(lot: Lot) -> OpenedPage:
    """What stands, what can be said, what can be taken back. Three queries at most beside the lot's own."""
    said = standing_of(lot)
    who = {each.kind: each.by for each in said}
    days = {kind: getattr(lot, f"{kind}_on") for kind in Opening.Kind.values}
    rows = tuple(_row(lot, kind, on, who.get(kind, "")) for kind, on in days.items() if on is not None)
    last = said[-1] if said else None
    used = last is not None and (went_out_since(lot, last.moves) or on_trays(lot))
    undo = last.kind if last and not used else ""
    return OpenedPage(rows, kinds_to_say(lot), undo)


def kinds_to_say(lot: Lot) -> tuple[str, ...]:
    """ "opened", and "thawed" for frozen food, where nobody said it yet and something is left."""
    if lot.made_in_id or not lot.on_hand_milligrams:
        return ()
    frozen = lot.food.storage == Food.Storage.FROZEN
    kinds = (Opening.Kind.OPENED, Opening.Kind.THAWED) if frozen else (Opening.Kind.OPENED,)
    return tuple(str(kind) for kind in kinds if getattr(lot, f"{kind}_on") is None)


def _row(lot: Lot, kind: str, on: date, by: str) -> OpenedRow:
    keeping = getattr(lot.food, "keeping", None)
    days = getattr(keeping, f"{kind}_days") if keeping else None
    if days is None:
        return OpenedRow(kind.capitalize(), on, by, "", True)
    until = wording.short_date(on + timedelta(days))
    source = f", {keeping.source}" if keeping.source else ""
    once = "opening" if kind == Opening.Kind.OPENED else "thawing"
    keeps = f"Keeps until {until} ({wording.counted(days, 'day')} after {once}{source})."
    return OpenedRow(kind.capitalize(), on, by, keeps, False)
