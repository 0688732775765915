"""What the stores do with lots: take in, read the label, hold, release, take back.

For the pages of the stock and for the command that loads a college. The rules of every
action of the stores hold here too (``kitchen.stores.actions``); stock is written by
``kitchen.stores.ledgers`` alone.
"""

import uuid
from collections.abc import Iterable
from dataclasses import asdict
from datetime import date
from uuid import UUID

from django.db import IntegrityError, transaction
from django.db.models import Q

from curriculum import wording
from curriculum.allergens import printed
from curriculum.errors import RuleBroken
from curriculum.foods.models import Food, FoodAllergen, Supplier
from curriculum.people.models import User
from curriculum.records.actions import once
from kitchen.stores.entries import LabelRead, LotEntry
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.lots import queries
from kitchen.stores.lots.managers import label_of
from kitchen.stores.made.bowls import Label, together
from kitchen.stores.managers import judge_blocks, waiting_kits, waiting_sets
from kitchen.stores.models import KitLine, Lot, Movement
from kitchen.stores.proposal import prepare, shortages_of
from kitchen.stores.queries import kit_question


@transaction.atomic
def receive_lots(*, entries: Iterable[LotEntry], by: User) -> list[Lot]:
    """Take several lots in at once, each with its first movement. KeyError for an unknown food.

    The kits that wait are locked before the foods are: whoever reads a label does the same.
    """
    entries = list(entries)
    waiting_sets_locked()
    foods = {food.code: food for food in Food.objects.filter(code__in={each.food for each in entries})}
    suppliers = {each.code: each for each in Supplier.objects.all()}
    made = _kept([_lot(each, foods[each.food], suppliers.get(each.supplier), by) for each in entries])
    lots = lots_locked(lot.pk for lot in made)
    weights = {each.code: each.milligrams for each in entries}
    moves = [Move(lot.pk, weights[lot.code], Movement.Kind.RECEIVE, uuid.uuid4()) for lot in lots.values()]
    move(lots=lots, moves=moves, by=by)
    short_as_it_is_now(set(foods))
    return list(lots.values())


@transaction.atomic
def receive_lot(*, entry: LotEntry, by: User, key: UUID | None = None) -> Lot:
    """Take one lot in. RuleBroken "lot_code_taken"."""

    def do() -> dict:
        return {"lot": receive_lots(entries=[entry], by=by)[0].pk}

    said = {name: str(value) for name, value in asdict(entry).items()}
    return Lot.objects.get(pk=once(key=key, action="receive_lot", by=by, said=said, do=do)["lot"])


@transaction.atomic
def hold_lot(*, lot: Lot, why: str, by: User) -> Lot:
    """Hold a lot: nothing is issued from it until it is released."""
    return _held(lot, True, f"{why} ({by.printed_name})")


@transaction.atomic
def release_lot(*, lot: Lot, by: User) -> Lot:
    """Release a held lot."""
    return _held(lot, False, "")


@transaction.atomic
def return_to_lot(
    *, issue: Movement, milligrams: int, sealed_and_cold: bool, by: User, key: UUID | None = None
) -> int:
    """Put back into its lot what came back sealed and cold; returns what the lot then holds.

    RuleBroken "opened" for anything else (it does not go back to stock: common practice, no
    source), "more_than_issued" when more would come back than left.
    """

    def do() -> dict:
        lots = lots_locked([issue.lot_id])
        left = -issue.milligrams - queries.returned_milligrams(issue)
        _demand_return(milligrams, left, sealed_and_cold)
        back = Move(issue.lot_id, milligrams, Movement.Kind.RETURN, key or uuid.uuid4(), issue.kit_line_id)
        move(lots=lots, moves=[back], by=by)
        return {"on_hand": lots[issue.lot_id].on_hand_milligrams}

    said = {"issue": issue.pk, "milligrams": milligrams, "sealed_and_cold": sealed_and_cold}
    return once(key=key, action="return_to_lot", by=by, said=said, do=do)["on_hand"]


@transaction.atomic
def read_label(*, food: Food, read: LabelRead, on: date, by: User, key: UUID | None = None) -> Food:
    """Note what the label of a food says; kits that waited for it may leave, or are stopped by it.

    No lot is read by it: each pack is read by itself (``kitchen.stores.lots.labels``). Lines on trays
    that have not left yet are printed anew.
    """

    def do() -> dict:
        waiting_sets_locked()
        row = Food.objects.select_for_update().get(pk=food.pk)
        row.label_read_on, row.label_read_by = on, by
        row.facts = {**row.facts, **dict(read.facts)}
        row.save(update_fields=["label_read_on", "label_read_by", "facts"])
        row.allergens.all().delete()
        FoodAllergen.objects.bulk_create(
            FoodAllergen(food=row, kind=kind, presence=presence)
            for presence in FoodAllergen.Presence.values
            for kind in getattr(read, presence)
        )
        _reprint(row, read, on)
        judge_blocks(waiting_kits())
        short_as_it_is_now({row.code})
        return {"food": row.pk}

    said = {"food": food.code, "read": [read.contains, read.may_contain, read.facts], "on": on.isoformat()}
    once(key=key, action="read_label", by=by, said=said, do=do)
    food.refresh_from_db()
    return food


@transaction.atomic
def widen_label(*, food: Food, label: Label, by: User) -> Food:
    """Let the label of a food name what a lot's own label names besides; kits are judged by it.

    When the food's label was read, and by whom, stays as it is.
    """
    waiting_sets_locked()
    row = Food.objects.select_for_update().prefetch_related("allergens").get(pk=food.pk)
    book = label_of(row)
    wide = together([(book.contains, book.may_contain), (label.contains, label.may_contain)])
    row.allergens.all().delete()
    FoodAllergen.objects.bulk_create(
        FoodAllergen(food=row, kind=kind, presence=presence)
        for presence in FoodAllergen.Presence.values
        for kind in getattr(wide, presence)
    )
    if row.label_read_on is not None:
        _reprint(row, LabelRead(wide.contains, wide.may_contain), row.label_read_on)
    judge_blocks(waiting_kits())
    return row


def _kept(lots: list[Lot]) -> list[Lot]:
    """Keep new lots. RuleBroken "lot_code_taken", also when somebody took the code a moment ago."""
    codes = [lot.code for lot in lots]
    taken = Lot.objects.filter(code__in=codes).values_list("code", flat=True).first()
    twice = next((code for code in codes if codes.count(code) > 1), None)
    try:
        if taken or twice:
            raise IntegrityError
        with transaction.atomic():
            return Lot.objects.bulk_create(lots)
    except IntegrityError as error:
        code = taken or twice or codes[0]
        raise RuleBroken(
            "lot_code_taken", f"Lot {code} is in the book already. Give another code.", field="code"
        ) from error


def _lot(entry: LotEntry, food: Food, supplier: Supplier | None, by: User) -> Lot:
    return Lot(
        code=entry.code,
        food=food,
        supplier=supplier,
        batch=entry.batch,
        received_on=entry.received_on,
        date_kind=entry.date_kind,
        date=entry.dated_on,
        opened_on=entry.opened_on,
        reserved_free_from=entry.reserved_free_from,
        label_allergens=list(entry.contains),
        label_may_contain=list(entry.may_contain),
        label_read_on=entry.label_read_on,
        label_read_by_id=(entry.label_read_by or by.pk) if entry.label_read_on else None,
        restricted=entry.restricted,
        pence=entry.pence,
        note=entry.note,
    )


def _held(lot: Lot, held: bool, why: str) -> Lot:
    row = lots_locked([lot.pk])[lot.pk]
    row.held, row.held_why = held, why[:200]
    row.save(update_fields=["held", "held_why"])
    return row


def _demand_return(milligrams: int, left: int, sealed_and_cold: bool) -> None:
    if not sealed_and_cold:
        raise RuleBroken(
            "opened",
            "Only what is sealed and was kept cold goes back into its lot. Weigh the rest as waste.",
            field="sealed_and_cold",
        )
    if not 0 < milligrams <= left:
        raise RuleBroken(
            "more_than_issued",
            f"{wording.amount(milligrams)} were to come back and {wording.amount(left)} are out. "
            "Write what came back.",
            field="grams",
        )


def waiting_sets_locked() -> None:
    """Nobody issues kits while a label that may stop them is written down; sets come before lots."""
    list(waiting_sets().select_for_update(of=("self",)).order_by("pk"))


def _reprint(food: Food, read: LabelRead, on: date) -> None:
    """The lines of this food on trays that have not left carry the new words."""
    of_it = Q(food=food) | Q(food__made_from=food)
    KitLine.objects.filter(of_it, kit__in=list(waiting_kits())).update(
        allergens_words=", ".join(printed(kind) for kind in read.contains),
        may_contain_words=", ".join(printed(kind) for kind in read.may_contain),
        label_read_on=on,
    )


def short_as_it_is_now(foods: set[str]) -> None:
    """What waiting kits were short of is reckoned again where one of these foods was short."""
    waiting = waiting_sets().filter(issued_at=None).exclude(shortages=[])
    for kit_set in waiting.select_related("lesson"):
        if foods.isdisjoint(each["code"] for each in kit_set.shortages):
            continue
        question = kit_question(kit_set.lesson)
        if question is not None:
            names = dict(Food.objects.values_list("code", "name"))
            kit_set.shortages = shortages_of(prepare(question), names)
            kit_set.save(update_fields=["shortages"])
