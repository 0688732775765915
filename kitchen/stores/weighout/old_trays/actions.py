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
    lid_is_on,
    locked,
    open_set,
    tray_locked,
    weighing,
)
from kitchen.stores.weighout.models import Lid, WeighedFrom


@transaction.atomic
def take_apart(*, kit: Kit, by: User, key: UUID | None = None) -> int:
    """A weighed tray was taken apart: its weights are taken back, its lid is off. Returns how many lines.

    RuleBroken "kit_has_left".
    """

    def do() -> dict:
        lines = tray_locked(locked(kit.kit_set), kit.code)
        demand_here(lines)
        if lid_is_on(kit):
            Lid.objects.create(kit=kit, number=kit.lids.count() + 1, is_on=False, by=by)
        done = [line for line in lines if line.pk in current_weighings(lines)]
        Weighing.objects.bulk_create(weighing(line, True, by, key) for line in done)
        return {"taken_apart": len(done)}

    return once(key=key, action="take_apart", by=by, said={"kit": kit.code}, do=do)["taken_apart"]


@transaction.atomic
def keep_tray(*, old: Kit, new: Kit, by: User, key: UUID | None = None) -> int:
    """Let a tray that was weighed stand for a new kit that asks for the very same; returns how many lines.

    Its weights are written on the new kit with their lots and taken back on the old one. Second
    looks and the lid are given anew. RuleBroken "not_the_same", "kit_has_left", "kits_made_again".
    """

    def do() -> dict:
        for each in sorted((old.kit_set, new.kit_set), key=lambda row: row.pk):
            locked(each)
        before = tray_locked(old.kit_set, old.code)
        lines = tray_locked(open_set(new.kit_set), new.code)
        demand_here([*before, *lines])
        _demand_same(before, lines)
        weighed = current_weighings(before)
        rows = Weighing.objects.bulk_create(
            weighing(line, False, by, key) for line in lines if line.stock_milligrams
        )
        from_lots = {row.pk: list(row.taken_from.all()) for row in weighed.values()}
        by_place = {line.position: weighed[line.pk].pk for line in before if line.pk in weighed}
        WeighedFrom.objects.bulk_create(
            WeighedFrom(weighing=row, lot_id=each.lot_id, milligrams=each.milligrams)
            for row in rows
            for each in from_lots[by_place[row.kit_line.position]]
        )
        Weighing.objects.bulk_create(weighing(line, True, by, key) for line in before if line.pk in weighed)
        return {"kept": len(rows)}

    said = {"old": old.code, "new": new.code}
    return once(key=key, action="keep_tray", by=by, said=said, do=do)["kept"]


def _demand_same(before: list[KitLine], lines: list[KitLine]) -> None:
    weighed = current_weighings(before)
    asked, there = (
        [(line.food_id, line.component, line.milligrams, line.pieces, line.position) for line in found]
        for found in (lines, before)
    )
    whole = all(line.pk in weighed for line in before if line.stock_milligrams)
    free, was_free = (
        {tuple(line.kit.version.sheet["free_from"]) for line in found} for found in (lines, before)
    )
    if asked != there or free != was_free or not whole or current_weighings(lines):
        raise RuleBroken("not_the_same", "This tray is not what the new kit asks for. Take it apart.")
