"""Hold everything that a recall is about, at once."""

from uuid import UUID

from django.db import transaction

from curriculum.people.models import User
from curriculum.records.actions import once
from kitchen.stores.ledgers import lots_locked
from kitchen.stores.models import Lot
from kitchen.stores.recall.queries import with_made


@transaction.atomic
def hold_everything(*, lots: list[Lot], why: str, by: User, key: UUID | None = None) -> list[str]:
    """Hold these lots and every lot made of them, all or none; returns the codes that were not held before.

    Empty lots are held too: what comes back sealed would otherwise be issued again. A lot that
    is held already keeps its own reason.
    """
    keys = sorted(lot.pk for lot in lots)

    def do() -> dict:
        rows = _all_locked(keys)
        new = [lot for lot in rows.values() if not lot.held]
        for lot in new:
            lot.held, lot.held_why = True, f"{why} ({by.printed_name})"[:200]
        Lot.objects.bulk_update(new, ["held", "held_why"])
        return {"held": sorted(lot.code for lot in new)}

    return once(key=key, action="hold_everything", by=by, said={"lots": keys, "why": why}, do=do)["held"]


def _all_locked(keys: list[int]) -> dict[int, Lot]:
    """The lots and what was made of them, locked; made lots are younger, so the order of keys holds."""
    rows: dict[int, Lot] = {}
    wanted = with_made(keys)
    while wanted - set(rows):
        rows |= lots_locked(wanted - set(rows))
        wanted = with_made(keys)
    return rows
