"""A lot is opened or thawed, and that is taken back while nothing went out of it since.

The rules of every action of the stores hold here too (``kitchen.stores.actions``).
"""

import uuid
from datetime import date
from uuid import UUID

from django.db import transaction

from curriculum import wording
from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.people.models import User
from curriculum.people.queries import the_college, today_at
from curriculum.records.actions import once
from kitchen.stores.ledgers import lots_locked
from kitchen.stores.lots.models import Opening
from kitchen.stores.lots.opened.queries import on_trays, standing_of, went_out_since
from kitchen.stores.lots.opened.standing import Said
from kitchen.stores.models import Lot

Kind = Opening.Kind


@transaction.atomic
def open_lot(*, lot: Lot, kind: str, on: date, by: User, key: UUID | None = None) -> Lot:
    """Say that a lot was opened or thawed on a day.

    RuleBroken "nothing_left", "made_lot", "said_already", "not_frozen", "before_it_came", "not_yet".
    """

    def do() -> dict:
        row = lots_locked([lot.pk])[lot.pk]
        _demand_fits(row, kind)
        _demand_day(row, on)
        setattr(row, f"{kind}_on", on)
        _say(row, kind, on, by, key)
        return {"lot": row.pk}

    said = {"lot": lot.code, "kind": kind, "on": on.isoformat()}
    return Lot.objects.get(pk=once(key=key, action="open_lot", by=by, said=said, do=do)["lot"])


@transaction.atomic
def undo_opening(*, lot: Lot, why: str, by: User, key: UUID | None = None) -> Lot:
    """Take the last opening or thawing back with the words why.

    RuleBroken "nothing_to_undo", "went_out", "on_trays": a pack that was weighed from is no unopened one.
    """

    def do() -> dict:
        row = lots_locked([lot.pk])[lot.pk]
        rows = standing_of(row)
        if not rows:
            raise RuleBroken("nothing_to_undo", f"Nobody said here that lot {row.code} was opened or thawed.")
        last = rows[-1]
        _demand_untouched(row, last)
        setattr(row, f"{last.kind}_on", None)
        _say(row, last.kind, last.on, by, key, undone=True, why=why[:150])
        return {"lot": row.pk}

    said = {"lot": lot.code, "why": why}
    return Lot.objects.get(pk=once(key=key, action="undo_opening", by=by, said=said, do=do)["lot"])


def _say(lot: Lot, kind: str, on: date, by: User, key: UUID | None, **more: object) -> None:
    lot.save(update_fields=[f"{kind}_on"])
    number = lot.openings.count() + 1
    Opening.objects.create(
        lot=lot, number=number, kind=kind, on=on, moves=lot.moves, key=key or uuid.uuid4(), by=by, **more
    )


def _demand_untouched(lot: Lot, last: Said) -> None:
    out, weighed = went_out_since(lot, last.moves), on_trays(lot)
    if out:
        raise RuleBroken(
            "went_out",
            f"{wording.amount(out)} went out of lot {lot.code} since it was {last.kind}, so it stays "
            f"{last.kind}. Hold the lot when something is wrong with it.",
        )
    if weighed:
        raise RuleBroken(
            "on_trays",
            f"{wording.amount(weighed)} of lot {lot.code} stand weighed on trays, so it stays {last.kind}. "
            "Hold the lot when something is wrong with it.",
        )


def _demand_fits(lot: Lot, kind: str) -> None:
    if not lot.on_hand_milligrams:
        raise RuleBroken("nothing_left", f"The book has nothing left of lot {lot.code}. Count it first.")
    if lot.made_in_id:
        raise RuleBroken("made_lot", f"Lot {lot.code} was made here: it ends when its label says so.")
    if kind == Kind.THAWED and lot.food.storage != Food.Storage.FROZEN:
        raise RuleBroken(
            "not_frozen",
            f"{lot.food.name} is not kept frozen in the book. Say that it was opened.",
            field="kind",
        )
    before = getattr(lot, f"{kind}_on")
    if before is not None:
        raise RuleBroken(
            "said_already",
            f"Lot {lot.code} was {kind} on {wording.short_date(before)} already.",
            field="kind",
        )


def _demand_day(lot: Lot, on: date) -> None:
    today = today_at(the_college())
    if on > today:
        raise RuleBroken(
            "not_yet",
            f"{wording.long_date(on)} is still to come. Write the day when it was done.",
            field="on",
        )
    if on < lot.received_on:
        raise RuleBroken(
            "before_it_came",
            f"The lot came in on {wording.long_date(lot.received_on)}. Write that day or a later one.",
            field="on",
        )
