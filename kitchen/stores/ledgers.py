"""The one writer of stock: every movement, and what a lot has on hand, is written here.

For the actions of the stores. Movements are appended and never changed; a lot's
``on_hand_milligrams`` and ``moves`` are a copy of the end of its ledger, written in the
same transaction. Whoever calls has locked the lots (``lots_locked``) in key order, so that
two people who issue the last of a lot do it one after the other; the second is told.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from uuid import UUID

from django.db import transaction

from curriculum import wording
from curriculum.errors import RuleBroken
from curriculum.people.models import User
from kitchen.stores.models import Lot, Movement


@dataclass(frozen=True, slots=True)
class Move:
    """One change of one lot: milligrams in (+) or out (-), what kind, and for which kit line.

    ``key`` is the movement's own and makes a second writing of it fail; ``reason_code`` the code of its
    reason in the college's list, None where none was chosen from a list.
    """

    lot: int
    milligrams: int
    kind: str
    key: UUID
    kit_line: int | None = None
    reason: str = ""
    corrects: int | None = None
    reason_code: str | None = None

    def __post_init__(self) -> None:
        if self.milligrams == 0:
            raise ValueError("A movement moves something.")


def lots_locked(keys: Iterable[int]) -> dict[int, Lot]:
    """These lots by key, locked until the transaction ends, always in key order."""
    rows = Lot.objects.select_for_update().filter(pk__in=set(keys)).order_by("pk")
    return {lot.pk: lot for lot in rows}


def move(*, lots: Mapping[int, Lot], moves: Iterable[Move], by: User) -> list[Movement]:
    """Write these movements and the new balances of their lots; all or none.

    ``lots`` are locked rows. RuleBroken("lot_too_small") when a lot would fall below nothing.
    """
    if not transaction.get_connection().in_atomic_block:
        raise TypeError("Stock is moved inside a transaction only.")
    before = {key: lot.moves for key, lot in lots.items()}
    rows = [_row(lots[each.lot], each, by) for each in moves]
    for key in sorted({row.lot_id for row in rows}):
        _keep_end(lots[key], before[key])
    return Movement.objects.bulk_create(rows)


def _row(lot: Lot, each: Move, by: User) -> Movement:
    balance = lot.on_hand_milligrams + each.milligrams
    if balance < 0:
        raise RuleBroken(
            "lot_too_small",
            f"Lot {lot.code} has {wording.amount(lot.on_hand_milligrams)} and "
            f"{wording.amount(-each.milligrams)} were to leave it. Count the lot, or take another one.",
            lot=lot.code,
            on_hand_milligrams=lot.on_hand_milligrams,
        )
    lot.on_hand_milligrams = balance
    lot.moves += 1
    return Movement(
        lot=lot,
        number=lot.moves,
        milligrams=each.milligrams,
        balance_milligrams=balance,
        kind=each.kind,
        kit_line_id=each.kit_line,
        corrects_id=each.corrects,
        reason=each.reason,
        reason_code=each.reason_code,
        key=each.key,
        by=by,
    )


def _keep_end(lot: Lot, moves_before: int) -> None:
    """Copy the end of the ledger to the lot, unless somebody wrote in between."""
    kept = Lot.objects.filter(pk=lot.pk, moves=moves_before).update(
        on_hand_milligrams=lot.on_hand_milligrams, moves=lot.moves
    )
    if not kept:
        raise RuleBroken(
            "lot_moved_meanwhile", f"Somebody else moved lot {lot.code} just now. Open the page again."
        )
