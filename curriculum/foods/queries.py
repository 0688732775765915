"""Foods as calculations need them, and the packs they are costed by."""

import hashlib
from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from django.db.models import Q, QuerySet

from curriculum.allergens import kinds_of
from curriculum.foods.costs import PackPrice
from curriculum.foods.data import FoodData, MadeFrom
from curriculum.foods.models import Food, FoodAllergen, Pack

#: What is the same in a row and in its dataclass.
_SAME = [
    "code",
    "name",
    "storage",
    "scaling_class",
    "increment_milligrams",
    "rounding",
    "usable_per_mille",
    "counted_in",
    "piece_milligrams",
    "edible_piece_milligrams",
    "label_read_on",
    "milligrams_per_ml",
    "from_tap",
    "dough_part",
    "gelatine_bloom",
]

#: What a person writes of a food that is in the book already.
WRITTEN = [
    "name",
    "storage",
    "scaling_class",
    "increment_milligrams",
    "rounding",
    "usable_per_mille",
    "usable_source",
    "counted_in",
    "piece_milligrams",
    "edible_piece_milligrams",
    "piece_source",
    "dough_part",
    "milligrams_per_ml",
    "density_source",
    "note",
]


def fingerprint(food: Food) -> str:
    """A digest of what is written of a food: another one once somebody changed it."""
    written = repr([getattr(food, name) for name in WRITTEN])
    return hashlib.sha256(written.encode("utf-8", "surrogatepass")).hexdigest()[:16]


def with_labels(foods: QuerySet[Food]) -> QuerySet[Food]:
    """The foods with what ``food_data`` asks for: two queries for any number of them."""
    return foods.select_related("made_from").prefetch_related("allergens")


def food_data(food: Food) -> FoodData:
    """One food as its row and its label stand today (see ``with_labels``)."""
    said: dict[str, list[str]] = {"contains": [], "may_contain": []}
    for allergen in food.allergens.all():
        said[allergen.presence].append(allergen.kind)
    made_from = None
    if food.made_from_id is not None:
        made_from = MadeFrom(food.made_from.code, food.made_from_milligrams)
    return FoodData(
        **{name: getattr(food, name) for name in _SAME},
        contains=tuple(said["contains"]),
        may_contain=tuple(said["may_contain"]),
        facts=tuple(sorted(food.facts.items())),
        made_from=made_from,
    )


def foods_data(codes: Iterable[str]) -> dict[str, FoodData]:
    """Foods by code in the order asked for, then the whole pieces that they are parts of.

    Two queries. A code that is no food is left out.
    """
    wanted = list(dict.fromkeys(codes))
    rows = with_labels(Food.objects.filter(Q(code__in=wanted) | Q(parts__code__in=wanted)).distinct())
    found = {food.code: food_data(food) for food in rows}
    order = wanted + [code for code in found if code not in set(wanted)]
    return {code: found[code] for code in order if code in found}


def prices(day: date, foods: Iterable[str] | None = None) -> dict[str, PackPrice]:
    """The pack that each food is costed by on a day, by the food's code. One query."""
    packs = _costed(day).select_related("food")
    if foods is not None:
        packs = packs.filter(food__code__in=list(foods))
    return {
        pack.food.code: PackPrice(pack.food.code, pack.milligrams, pack.pence, pack.pieces)
        for pack in packs.order_by("from_on", "pk")
    }


def foods_in_use() -> QuerySet[Food]:
    """Foods that nobody has retired, by name."""
    return Food.objects.filter(retired_at=None).order_by("name")


def all_foods_data() -> list[FoodData]:
    """Every food in use with its named pieces, for finding which one a line means. Three queries."""
    rows = with_labels(foods_in_use()).prefetch_related("piece_weights")
    return [replace(food_data(food), piece_weights=_named_pieces(food)) for food in rows]


def _named_pieces(food: Food) -> tuple[tuple[str, int], ...]:
    return tuple((piece.name, piece.milligrams) for piece in food.piece_weights.all())


def figure_sources() -> dict[str, dict[str, str]]:
    """Whose figures each food in use has: of "density", of "piece", of each named piece. Two queries."""
    found = {}
    for food in foods_in_use().prefetch_related("piece_weights"):
        named = {piece.name: piece.source for piece in food.piece_weights.all()}
        found[food.code] = {"density": food.density_source, "piece": food.piece_source, **named}
    return found


def foods_found(
    words: str = "", *, storage: str = "", kind: str = "", lacks: str = "", today: date | None = None
) -> QuerySet[Food]:
    """Foods whose names hold all these words, narrowed, with their allergens. Two queries.

    ``kind`` is a group or kind that the label says, contained or perhaps. ``lacks`` is "label",
    "price" (none to cost by on ``today``, nor of the whole piece it is a part of) or empty;
    "retired" shows the retired ones instead.
    """
    found = Food.objects.filter(retired_at__isnull=lacks != "retired").order_by("name")
    for word in words.split()[:12]:
        found = found.filter(name__icontains=word)
    if storage:
        found = found.filter(storage=storage)
    if kind:
        found = found.filter(pk__in=FoodAllergen.objects.filter(kind__in=kinds_of(kind)).values("food"))
    if lacks == "label":
        found = found.filter(label_read_on=None, from_tap=False)
    if lacks == "price" and today is not None:
        costed = _costed(today).values("food")
        whole_costed = Q(made_from__isnull=False, made_from__in=costed)
        found = found.filter(from_tap=False).exclude(Q(pk__in=costed) | whole_costed)
    return found.prefetch_related("allergens")


def _costed(day: date) -> QuerySet[Pack]:
    """Packs that foods are costed by on a day."""
    standing = Q(until_on=None) | Q(until_on__gte=day)
    return Pack.objects.filter(standing, from_on__lte=day, for_costing=True)


def free_food_code(wanted: str) -> str:
    """The code, or the first of wanted_2, wanted_3 … that no food has. One query."""
    taken = set(Food.objects.filter(code__startswith=wanted).values_list("code", flat=True))
    number, code = 1, wanted
    while code in taken:
        number += 1
        code = f"{wanted}_{number}"
    return code
