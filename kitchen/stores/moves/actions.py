"""What the stores do with stock outside the kits: throw away, count, count in, correct.

The rules of every action of the stores hold here too (``kitchen.stores.actions``); stock is
written by ``kitchen.stores.ledgers`` alone, and a movement that was wrong stays and is followed
by one that says so.
"""

import uuid
from collections.abc import Iterable
from dataclasses import asdict
from uuid import UUID

from django.db import transaction

from curriculum import wording
from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.people.queries import the_college, today_at
from curriculum.records.actions import draw_code, once, own_key
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.models import Lot, MadePart, Movement
from kitchen.stores.moves import queries
from kitchen.stores.moves.counting import Counted, Difference
from kitchen.stores.moves.entries import FoundEntry
from kitchen.stores.weighout.managers import set_aside


@transaction.atomic
def waste_from_lot(
    *,
    lot: Lot,
    milligrams: int,
    reason: str,
    by: User,
    reason_code: str | None = None,
    key: UUID | None = None,
) -> int:
    """Throw away so much of a lot, with the words why and their code; returns what is left.

    What stands weighed on trays is thrown away there, after its weights are taken back.
    RuleBroken "lot_too_small", "stands_on_trays".
    """

    def do() -> dict:
        lots = lots_locked([lot.pk])
        _demand_there(lots[lot.pk], milligrams)
        _demand_in_the_pack(lots[lot.pk], milligrams)
        said_why = {"reason": reason, "reason_code": reason_code}
        out = Move(lot.pk, -milligrams, Movement.Kind.WASTE, key or uuid.uuid4(), **said_why)
        move(lots=lots, moves=[out], by=by)
        return {"left": lots[lot.pk].on_hand_milligrams}

    said = {"lot": lot.code, "milligrams": milligrams, "reason": reason}
    return once(key=key, action="waste_from_lot", by=by, said=said, do=do)["left"]


@transaction.atomic
def count_lots(*, counts: Iterable[Counted], by: User, key: UUID | None = None) -> dict[str, int]:
    """Let the book say what was counted; returns by lot how much more (+) or less (-) it is.

    A lot that agrees gets no movement. RuleBroken "count_says_why" at every lot whose difference
    asks for a reason and has none, "lot_moved_meanwhile" when stock moved, or was weighed out,
    since it was counted.
    """
    rows = sorted(counts, key=lambda each: each.lot)

    def do() -> dict:
        keys = Lot.objects.filter(code__in=[each.lot for each in rows]).values_list("pk", flat=True)
        lots = lots_locked(keys)
        by_code = {each.code: each for each in Lot.objects.filter(pk__in=lots).select_related("food")}
        found = {each.lot: _difference(by_code[each.lot], each) for each in rows}
        _demand_unmoved(rows, by_code, set_aside(lots))
        _demand_reasons(rows, found, by_code)
        moves = [
            Move(
                by_code[each.lot].pk,
                found[each.lot].milligrams,
                Movement.Kind.COUNT,
                own_key(key, each.lot),
                reason=each.reason or "Counted",
                reason_code=each.reason_code,
            )
            for each in rows
            if found[each.lot].milligrams
        ]
        move(lots=lots, moves=moves, by=by)
        return {"differ": {code: each.milligrams for code, each in found.items() if each.milligrams}}

    said = {"counts": [asdict(each) for each in rows]}
    return once(key=key, action="count_lots", by=by, said=said, do=do)["differ"]


@transaction.atomic
def count_in_food(*, entry: FoundEntry, by: User, key: UUID | None = None) -> Lot:
    """Let the book have food that lies in the stores and that it lacks: a lot without a supplier.

    It waits for its label like any other. RuleBroken "not_kept" for a food that is not stocked.
    """

    def do() -> dict:
        food = queries.food_named(entry.food)
        if food is None:
            raise RuleBroken("not_kept", "This food is not kept in the stores. Choose another.", field="food")
        lot = Lot.objects.create(
            code=draw_code(Lot),
            food=food,
            received_on=today_at(the_college()),
            date_kind=entry.date_kind,
            date=entry.dated_on,
            note=f"Counted in. {entry.reason}"[:200],
        )
        why = {"reason": entry.reason, "reason_code": entry.reason_code}
        into = Move(lot.pk, entry.milligrams, Movement.Kind.COUNT, key or uuid.uuid4(), **why)
        move(lots=lots_locked([lot.pk]), moves=[into], by=by)
        return {"lot": lot.pk}

    said = {name: str(value) for name, value in asdict(entry).items()}
    return Lot.objects.get(pk=once(key=key, action="count_in_food", by=by, said=said, do=do)["lot"])


@transaction.atomic
def correct_movement(
    *, movement: Movement, should_be_milligrams: int, reason: str, by: User, key: UUID | None = None
) -> int:
    """Correct a movement by another one that names it; returns what the lot then holds.

    ``should_be_milligrams`` is the amount without its sign, 0 when nothing moved at all.
    RuleBroken "corrected_already", "nothing_to_correct", "in_a_made_lot", "more_than_issued",
    "lot_too_small".
    """

    def do() -> dict:
        lots = lots_locked([movement.lot_id])
        _demand_correctable(movement)
        sign = 1 if movement.milligrams > 0 else -1
        more = sign * should_be_milligrams - movement.milligrams
        if not more:
            raise RuleBroken(
                "nothing_to_correct", "That is what the book says. Write what it really was.", field="amount"
            )
        _demand_no_more_back(movement, more)
        row = Move(
            movement.lot_id,
            more,
            Movement.Kind.COUNT,
            key or uuid.uuid4(),
            movement.kit_line_id,
            f"Corrects movement {movement.number}: {reason}"[:200],
            movement.pk,
        )
        move(lots=lots, moves=[row], by=by)
        return {"on_hand": lots[movement.lot_id].on_hand_milligrams}

    said = {"movement": movement.pk, "should_be": should_be_milligrams, "reason": reason}
    return once(key=key, action="correct_movement", by=by, said=said, do=do)["on_hand"]


def _demand_there(lot: Lot, milligrams: int) -> None:
    if milligrams > lot.on_hand_milligrams:
        raise RuleBroken(
            "lot_too_small",
            f"Lot {lot.code} has {wording.amount(lot.on_hand_milligrams)} in the book and "
            f"{wording.amount(milligrams)} were to be thrown away. Write less, or count the lot first.",
            field="amount",
            on_hand_milligrams=lot.on_hand_milligrams,
        )


def _demand_in_the_pack(lot: Lot, milligrams: int) -> None:
    """Refuse what is in no pack any more, since it stands weighed on trays."""
    aside = set_aside([lot.pk]).get(lot.pk, 0)
    left = lot.on_hand_milligrams - aside
    if milligrams > left:
        raise RuleBroken(
            "stands_on_trays",
            f"{wording.amount(aside).capitalize()} of lot {lot.code} stand weighed on trays of "
            f"{wording.listed(queries.lessons_with_trays(lot))}; {wording.amount(max(0, left))} are left in "
            "the pack. Take those weights back first, or throw less away.",
            field="amount",
        )


def _difference(lot: Lot, counted: Counted) -> Difference:
    weighed = counted.weighed_milligrams
    there = counted.milligrams + weighed
    return Difference(lot.on_hand_milligrams, there, queries.piece_of(lot.food), weighed)


def _demand_unmoved(rows: Iterable[Counted], lots: dict[str, Lot], weighed: dict[int, int]) -> None:
    now = {code: (lot.moves, weighed.get(lot.pk, 0)) for code, lot in lots.items()}
    moved = [each.lot for each in rows if now[each.lot] != (each.moves, each.weighed_milligrams)]
    if moved:
        raise RuleBroken(
            "lot_moved_meanwhile",
            "Stock moved since this page was opened. Count these lots once more.",
            at_fields=tuple(
                (f"n_{lots[code].pk}", f"Lot {code} moved since the page was opened. Count it once more.")
                for code in moved
            ),
        )


def _demand_reasons(rows: Iterable[Counted], found: dict[str, Difference], lots: dict[str, Lot]) -> None:
    unsaid = [each.lot for each in rows if found[each.lot].asks_why and not each.reason]
    if unsaid:
        raise RuleBroken(
            "count_says_why",
            "A difference above the threshold has a reason.",
            at_fields=tuple((f"why_{lots[code].pk}", found[code].why_words) for code in unsaid),
        )


def _demand_correctable(movement: Movement) -> None:
    if Movement.objects.filter(corrects=movement.pk).exists() or movement.corrects_id:
        raise RuleBroken(
            "corrected_already", "This movement is corrected already. Count the lot to set it right again."
        )
    if MadePart.objects.filter(movement=movement.pk).exists():
        raise RuleBroken(
            "in_a_made_lot",
            "This went into a made lot, which says what is in it. Count the made lot instead.",
        )


def _demand_no_more_back(movement: Movement, more: int) -> None:
    """What came back of a kit line stays at most what left for it, when this movement is so much more."""
    if movement.kit_line_id is None:
        return
    out, back = queries.out_and_back(movement)
    if movement.kind == Movement.Kind.RETURN:
        back += more
    elif movement.kind in (Movement.Kind.ISSUE, Movement.Kind.SUPPLEMENTARY):
        out -= more
    if back > out:
        raise RuleBroken(
            "more_than_issued",
            f"Then {wording.amount(out)} had left for this kit and {wording.amount(back)} had come back. "
            "Correct the other movement first, or write another figure.",
            field="amount",
        )
