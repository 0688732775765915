"""What becomes of a weighed tray that nobody wants any more: taken apart, or kept for a new kit.

Nothing has left the lots, so that no stock moves here either.
"""

from uuid import UUID

from django.db import transaction

from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.records.actions import once
from kitchen.stores.models import Kit, KitLine, Weighing
from kitchen.stores.queries import current_weighings
from kitchen.stores.weighout.actions import (
    demand_here,
    demand_not_left,
    locked,
    open_set,
    tray_locked,
    weighing,
)
from kitchen.stores.weighout.lids.actions import lid_is_on
from kitchen.stores.weighout.models import Lid, WeighedFrom
from kitchen.stores.weighout.old_trays.queries import asked
from kitchen.stores.weighout.old_trays.trays import pots


@transaction.atomic
def take_apart(*, kit: Kit, by: User, key: UUID | None = None) -> int:
    """A weighed tray was taken apart: its weights are taken back, its lid is off. Returns how many lines.

    RuleBroken "kit_has_left".
    """

    def do() -> dict:
        lines = tray_locked(locked(kit.kit_set), kit.code)
        demand_not_left(lines)
        if lid_is_on(kit):
            Lid.objects.create(kit=kit, number=kit.lids.count() + 1, is_on=False, by=by)
        done = [line for line in lines if line.pk in current_weighings(lines)]
        Weighing.objects.bulk_create(weighing(line, True, by, key) for line in done)
        return {"taken_apart": len(done)}

    return once(key=key, action="take_apart", by=by, said={"kit": kit.code}, do=do)["taken_apart"]


@transaction.atomic
def keep_tray(*, old: Kit, new: Kit, by: User, key: UUID | None = None) -> int:
    """Let what stands on a tray stand for a new kit, pot by pot; returns how many lines.

    The pots of which the new kit asks for just as much are written on it with their lots; every
    weight of the old one is taken back, since the other pots come off the tray. Second looks and the
    lid are given anew. RuleBroken "not_the_same", "kit_has_left", "kits_made_again".
    """

    def do() -> dict:
        for each in sorted((old.kit_set, new.kit_set), key=lambda row: row.pk):
            locked(each)
        before = tray_locked(old.kit_set, old.code)
        lines = tray_locked(open_set(new.kit_set), new.code)
        demand_not_left(before)
        demand_here(lines)
        weighed = current_weighings(before)
        pairs = _staying(before, weighed, lines)
        if not pairs:
            raise RuleBroken("not_the_same", "This tray is not what the new kit asks for. Take it apart.")
        rows = Weighing.objects.bulk_create(weighing(line, False, by, key) for line, _ in pairs)
        new_of = {weighed[stood.pk].pk: row for row, (_, stood) in zip(rows, pairs, strict=True)}
        WeighedFrom.objects.bulk_create(
            WeighedFrom(weighing=new_of[each.weighing_id], lot_id=each.lot_id, milligrams=each.milligrams)
            for each in WeighedFrom.objects.filter(weighing__in=new_of).order_by("pk")
        )
        Weighing.objects.bulk_create(weighing(line, True, by, key) for line in before if line.pk in weighed)
        return {"kept": len(rows)}

    said = {"old": old.code, "new": new.code}
    return once(key=key, action="keep_tray", by=by, said=said, do=do)["kept"]


def _staying(
    before: list[KitLine], weighed: dict[int, Weighing], lines: list[KitLine]
) -> list[tuple[KitLine, KitLine]]:
    """Lines of the new kit with the weighed lines that may stand for them; nothing for another plate."""
    if not before or not lines or _plate(before[0].kit) != _plate(lines[0].kit):
        return []
    standing = current_weighings(lines)
    there = [line for line in before if line.pk in weighed]
    wanted = [line for line in lines if line.pk not in standing and line.stock_milligrams]
    found, pots_there = pots(asked(line) for line in wanted), pots(asked(line) for line in there)
    stays = {food for food, pot in pots_there.items() if found.get(food) == pot}
    return list(
        zip(
            sorted((line for line in wanted if line.food.code in stays), key=_in_order),
            sorted((line for line in there if line.food.code in stays), key=_in_order),
            strict=True,
        )
    )


def _in_order(line: KitLine) -> str:
    return str(asked(line))


def _plate(kit: Kit) -> tuple[str, str, tuple[str, ...]]:
    return kit.kind, kit.place.plate if kit.place else "", tuple(kit.version.sheet["free_from"])
