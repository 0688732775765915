"""What is written down of one food: a yield test, a price, a label, a change, an end.

Tests are a ledger and a price is never edited: a new one ends the old one. What a label said
before is replaced, since a recipe reads its labels today; what was said at issue is copied there.
"""

from datetime import date, timedelta
from uuid import UUID

from django.db import transaction
from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.foods import yields
from curriculum.foods.costs import PackPrice
from curriculum.foods.entries import FoodEntry
from curriculum.foods.models import Food, FoodAllergen, Pack, Supplier, YieldFigure, YieldTest
from curriculum.foods.one.said import LabelSaid, PriceSaid, YieldSaid
from curriculum.foods.queries import WRITTEN, fingerprint, prices
from curriculum.people.models import User
from curriculum.records.actions import once


@transaction.atomic
def record_yield_test(
    *, food: Food, said: YieldSaid, by: User, today: date, key: UUID | None = None
) -> YieldTest:
    """Append a yield test of the college's own. RuleBroken for more usable than bought, or a day to come."""
    if not 0 < said.usable_milligrams <= said.purchased_milligrams:
        raise RuleBroken(
            "more_usable_than_bought",
            "More is left than was bought. Write the usable weight after trimming.",
            field="usable",
        )
    if said.on > today:
        raise RuleBroken(
            "test_to_come", "This day is still to come. Write the day on which it was weighed.", field="on"
        )

    def do() -> dict:
        row = YieldTest.objects.create(
            food=food,
            on=said.on,
            purchased_milligrams=said.purchased_milligrams,
            usable_milligrams=said.usable_milligrams,
            by=by,
        )
        return {"test": row.pk}

    asked = {"food": food.code, "on": said.on, "weights": [said.purchased_milligrams, said.usable_milligrams]}
    answer = once(key=key, action="record_yield_test", by=by, said=asked, do=do)
    return YieldTest.objects.get(pk=answer["test"])


@transaction.atomic
def use_table_yield(*, food: Food, figure: YieldFigure, by: User) -> Food:
    """From now on the food has the usable share of this table, with its source. Twice is once."""
    if figure.food_id != food.pk:
        raise RuleBroken("figure_of_another_food", "This figure is of another food. Choose one of its own.")
    return _use_share(food, figure.usable_per_mille, figure.source)


@transaction.atomic
def use_own_yield(*, food: Food, by: User) -> Food:
    """From now on the food has the usable share of all tests of the college's own, by weight."""
    tests = tuple(
        yields.TestedYield(test.on, test.purchased_milligrams, test.usable_milligrams)
        for test in food.yield_tests.order_by("on", "pk")
    )
    if not tests:
        raise RuleBroken("no_own_test", f"No yield test of {food.name} is written down yet. Write one first.")
    return _use_share(food, yields.tested_per_mille(tests), yields.own_source(tests))


@transaction.atomic
def add_price(*, food: Food, said: PriceSaid, by: User, key: UUID | None = None) -> Pack:
    """A pack at a price from a day on; the same pack's earlier price ends the day before.

    The pack that recipes are costed by stays that pack at its new price, ticked or not.

    RuleBroken when the same pack has a price that begins on that day or later.
    """

    def do() -> dict:
        supplier = Supplier.objects.get(code=said.supplier)
        same = Pack.objects.select_for_update().filter(
            food=food, supplier=supplier, milligrams=said.milligrams, pieces=said.pieces
        )
        _refuse_a_later_one(same.filter(from_on__gte=said.from_on).order_by("-from_on").first())
        costed_by_it = said.for_costing or _is_costed_by(food, same.filter(until_on=None).first(), said)
        same.filter(until_on=None).update(until_on=said.from_on - timedelta(days=1))
        pack = Pack(
            food=food,
            supplier=supplier,
            milligrams=said.milligrams,
            pieces=said.pieces,
            pence=said.pence,
            for_costing=costed_by_it,
            from_on=said.from_on,
        )
        pack.full_clean()
        pack.save()
        return {"pack": pack.pk}

    asked = {"food": food.code, "price": str(said)}
    answer = once(key=key, action="add_price", by=by, said=asked, do=do)
    return Pack.objects.get(pk=answer["pack"])


@transaction.atomic
def write_label(*, food: Food, said: LabelSaid, by: User, today: date) -> Food:
    """What a label says now stands for the food, read by ``by`` on a day not after ``today``.

    RuleBroken for a kind said twice, a day to come, or a reading older than the one on file.
    """
    food = Food.objects.select_for_update().get(pk=food.pk)
    _refuse_label(food, said, today)
    food.allergens.all().delete()
    FoodAllergen.objects.bulk_create(
        FoodAllergen(food=food, kind=kind, presence=presence)
        for presence in FoodAllergen.Presence.values
        for kind in getattr(said, presence)
    )
    food.facts = dict(food.facts) | dict(said.facts)
    food.label_read_on, food.label_read_by = said.read_on, by
    food.save(update_fields=["facts", "label_read_on", "label_read_by"])
    return food


@transaction.atomic
def edit_food(*, food: Food, entry: FoodEntry, by: User, seen: str = "") -> Food:
    """Write a food's figures anew; its code, label, facts and prices stay as they are.

    ``seen`` is the fingerprint of the food as whoever writes saw it (empty: not asked).
    RuleBroken when it stands otherwise by now, or another food has the name.
    """
    food = Food.objects.select_for_update().get(pk=food.pk)
    if seen and fingerprint(food) != seen:
        raise RuleBroken(
            "changed_meanwhile",
            f"Somebody changed {food.name} after you opened this form, so nothing was written. "
            "Open it again and look it over.",
        )
    if Food.objects.filter(name__iexact=entry.name).exclude(pk=food.pk).exists():
        raise RuleBroken("food_known", f"{entry.name} is in the book already.", field="name")
    for name in WRITTEN:
        setattr(food, name, getattr(entry, name))
    food.full_clean()
    food.save(update_fields=WRITTEN)
    return food


@transaction.atomic
def retire_food(*, food: Food, by: User) -> Food:
    """Take a food out of the lists; recipes, packs and kits that have it keep it. Twice is once."""
    if food.retired_at is None:
        food.retired_at = timezone.now()
        food.save(update_fields=["retired_at"])
    return food


@transaction.atomic
def bring_back_food(*, food: Food, by: User) -> Food:
    """Put a retired food into the lists again. Twice is once."""
    food.retired_at = None
    food.save(update_fields=["retired_at"])
    return food


def _use_share(food: Food, per_mille: int, source: str) -> Food:
    food.usable_per_mille, food.usable_source = per_mille, source
    food.save(update_fields=["usable_per_mille", "usable_source"])
    return food


def _is_costed_by(food: Food, pack: Pack | None, said: PriceSaid) -> bool:
    """Whether the food is costed by this pack on the day that the new price begins."""
    if pack is None or not pack.for_costing:
        return False
    costed = prices(said.from_on, [food.code]).get(food.code)
    return costed == PackPrice(food.code, pack.milligrams, pack.pence, pack.pieces)


def _refuse_a_later_one(later: Pack | None) -> None:
    if later is not None:
        raise RuleBroken(
            "price_begins_later",
            f"This pack has a price from {later.from_on:%d %B %Y}. Write a day after that; "
            "a price that was paid is not changed.",
            field="from_on",
        )


def _refuse_label(food: Food, said: LabelSaid, today: date) -> None:
    if set(said.contains) & set(said.may_contain):
        raise RuleBroken(
            "said_twice",
            "A kind is ticked as contained and as may contain. Tick it once.",
            field="may_contain",
        )
    if said.read_on > today:
        raise RuleBroken(
            "label_read_to_come",
            "This day is still to come. Write the day on which the label was read.",
            field="read_on",
        )
    if food.label_read_on and said.read_on < food.label_read_on:
        raise RuleBroken(
            "older_label",
            f"A label read on {food.label_read_on:%d %B %Y} is on file, which is later. The later one stays.",
            field="read_on",
        )
