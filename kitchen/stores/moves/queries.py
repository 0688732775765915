"""What the pages beside the kits read: units of a food, lots to count, what may be counted in."""

from collections.abc import Iterable
from fractions import Fraction

from django.db.models import QuerySet, Sum
from django.db.models.functions import Coalesce

from curriculum import wording
from curriculum.foods.models import Food
from kitchen.stores.models import Lot, Movement
from kitchen.stores.weighout.managers import not_left

#: Milligrams in a gram: the unit of what is not counted in pieces.
GRAM = 1000


def piece_of(food: Food) -> int:
    """Milligrams of one piece of a food that is counted in pieces, else 0."""
    counted = food.counted_in == Food.CountedIn.PIECES
    return (food.piece_milligrams or 0) if counted else 0


def unit_of(food: Food) -> int:
    """Milligrams of one unit in which people write amounts of this food: a piece, else a gram."""
    return piece_of(food) or GRAM


def unit_words(food: Food) -> str:
    """ "pieces" or "g", as it stands behind a box."""
    return "pieces" if piece_of(food) else "g"


def milligrams_of(amount: Fraction, food: Food) -> int:
    """So many pieces or grams of a food, in milligrams; ValueError for a part of a piece."""
    if piece_of(food) and amount.denominator != 1:
        raise ValueError(f"{food.name} is counted in whole pieces. Write a whole number, such as 3.")
    return int(amount * unit_of(food))


def out_and_back(movement: Movement) -> tuple[int, int]:
    """What left the movement's lot for its kit line and what came back, corrections counted. One query."""
    rows = Movement.objects.filter(lot=movement.lot_id, kit_line=movement.kit_line_id).order_by()
    rows = rows.annotate(way=Coalesce("corrects__kind", "kind")).values_list("way")
    moved = dict(rows.annotate(moved=Sum("milligrams")))
    out = -sum(moved.get(way, 0) for way in (Movement.Kind.ISSUE, Movement.Kind.SUPPLEMENTARY))
    return out, moved.get(Movement.Kind.RETURN, 0)


def foods_kept() -> QuerySet[Food]:
    """Foods that stand in the stores: not retired, not from the tap, not made here; by name."""
    return Food.objects.filter(retired_at=None, from_tap=False, made_from=None).order_by("name")


def food_named(code: str) -> Food | None:
    """One of them by its code."""
    return foods_kept().filter(code=code).first()


def lots_to_count(keys: Iterable[int] | None = None) -> list[Lot]:
    """Lots that hold something (or those of these keys), by storage and food. One query."""
    lots = Lot.objects.filter(on_hand_milligrams__gt=0) if keys is None else Lot.objects.filter(pk__in=keys)
    rows = lots.select_related("food").order_by("food__name", "date", "received_on", "code")
    order = {storage: place for place, storage in enumerate(Food.Storage.values)}
    return sorted(rows, key=lambda lot: order[lot.food.storage])


def lessons_with_trays(lot: Lot) -> list[str]:
    """The lessons on whose trays something of a lot stands weighed, in words. One query."""
    rows = not_left().filter(lot=lot).order_by("weighing__kit_line__kit__kit_set__lesson__on")
    lesson = "weighing__kit_line__kit__kit_set__lesson__"
    found = rows.values_list(f"{lesson}title", f"{lesson}on").distinct()
    return [f"{title} on {wording.short_date(on)}" for title, on in found]
