"""Writing foods, suppliers and packs down, and what a learner avoids."""

from collections.abc import Iterable
from datetime import date
from uuid import UUID

from django.db import transaction

from curriculum.errors import RuleBroken
from curriculum.foods.entries import FoodEntry, PackEntry, SupplierEntry
from curriculum.foods.models import Avoidance, Food, FoodAllergen, Pack, PieceWeight, Supplier, YieldFigure
from curriculum.people.models import Student, User
from curriculum.records.actions import once

#: Fields of an entry that are fields of the row under the same name.
SAME = [
    "code",
    "name",
    "storage",
    "scaling_class",
    "increment_milligrams",
    "rounding",
    "usable_per_mille",
    "counted_in",
    "label_read_on",
    "piece_milligrams",
    "edible_piece_milligrams",
    "piece_source",
    "dough_part",
    "made_from_milligrams",
    "milligrams_per_ml",
    "from_tap",
    "usable_source",
    "density_source",
    "note",
]


@transaction.atomic
def add_foods(*, entries: Iterable[FoodEntry], by: User) -> list[Food]:
    """Add several foods at once with their allergens and figures, a part and its piece in any order.

    A label date among the entries is one that ``by`` vouches for.
    """
    entries = list(entries)
    made = Food.objects.bulk_create(_food(entry, by) for entry in entries)
    by_code = {food.code: food for food in Food.objects.all()}
    parts = [entry for entry in entries if entry.made_from]
    for entry in parts:
        by_code[entry.code].made_from = by_code[entry.made_from]
    Food.objects.bulk_update([by_code[entry.code] for entry in parts], ["made_from"])
    FoodAllergen.objects.bulk_create(
        FoodAllergen(food=by_code[entry.code], kind=kind, presence=presence)
        for entry in entries
        for presence in FoodAllergen.Presence.values
        for kind in getattr(entry, presence)
    )
    _add_figures(entries, by_code)
    return made


def _add_figures(entries: list[FoodEntry], by_code: dict[str, Food]) -> None:
    """What a cook counts and what the tables print, each with its source."""
    PieceWeight.objects.bulk_create(
        PieceWeight(food=by_code[entry.code], name=name, milligrams=milligrams, source=source)
        for entry in entries
        for name, milligrams, source in entry.piece_weights
    )
    YieldFigure.objects.bulk_create(
        YieldFigure(food=by_code[entry.code], usable_per_mille=share, source=source)
        for entry in entries
        for share, source in entry.yield_figures
    )


@transaction.atomic
def add_food(*, entry: FoodEntry, by: User, key: UUID | None = None) -> Food:
    """Add one food. RuleBroken when a food of that name is in the book already."""

    def do() -> dict:
        if Food.objects.filter(name__iexact=entry.name).exists():
            raise RuleBroken("food_known", f"{entry.name} is in the book already.", field="name")
        return {"food": add_foods(entries=[entry], by=by)[0].pk}

    answer = once(key=key, action="add_food", by=by, said={"name": entry.name}, do=do)
    return Food.objects.get(pk=answer["food"])


def _food(entry: FoodEntry, by: User) -> Food:
    return Food(
        **{name: getattr(entry, name) for name in SAME},
        label_read_by=by if entry.label_read_on else None,
        facts=dict(entry.facts),
        gelatine_bloom=entry.bloom,
    )


@transaction.atomic
def add_suppliers(*, entries: Iterable[SupplierEntry], by: User) -> list[Supplier]:
    """Add several suppliers at once."""
    return Supplier.objects.bulk_create(
        Supplier(
            code=entry.code,
            name=entry.name,
            lead_days=entry.lead_days,
            cut_off=entry.cut_off,
            delivery_weekdays=list(entry.delivery_weekdays),
            least_order_pence=entry.least_order_pence,
            delivery_pence=entry.delivery_pence,
        )
        for entry in entries
    )


@transaction.atomic
def add_packs(*, entries: Iterable[PackEntry], by: User) -> list[Pack]:
    """Add several packs at once. KeyError for an unknown food or supplier."""
    foods = {food.code: food for food in Food.objects.all()}
    suppliers = {supplier.code: supplier for supplier in Supplier.objects.all()}
    return Pack.objects.bulk_create(
        Pack(
            food=foods[entry.food],
            supplier=suppliers[entry.supplier],
            milligrams=entry.milligrams,
            pieces=entry.pieces,
            pence=entry.pence,
            for_costing=entry.for_costing,
            from_on=entry.from_on,
            gtin=entry.gtin,
        )
        for entry in entries
    )


@transaction.atomic
def note_avoidance(
    *,
    student: Student,
    from_on: date,
    by: User,
    kind: str = "",
    way: str = "",
    food: Food | None = None,
    note: str = "",
    severity: str = "",
) -> Avoidance:
    """Note what a learner avoids: a kind or group of allergens, a way of eating, or one food.

    Without a severity a way of eating is a choice and the rest an allergy. ValidationError
    unless exactly one of the three is said.
    """
    severity = severity or (Avoidance.Severity.CHOICE if way else Avoidance.Severity.ALLERGY)
    avoidance = Avoidance(
        student=student,
        kind=kind,
        way=way,
        food=food,
        severity=severity,
        note=note,
        from_on=from_on,
        noted_by=by,
    )
    avoidance.full_clean()
    avoidance.save()
    return avoidance


@transaction.atomic
def end_avoidance(*, avoidance: Avoidance, until_on: date, by: User) -> Avoidance:
    """End what a learner avoids: ``until_on`` is its last day; the row stays. Twice is once."""
    if avoidance.until_on is None:
        avoidance.until_on = until_on
        avoidance.save(update_fields=["until_on"])
    return avoidance
