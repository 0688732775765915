"""All that is known of one food, for its page."""

from datetime import date

from curriculum.foods.costs import PackPrice
from curriculum.foods.models import Food, Pack
from curriculum.foods.one.page import Known, OwnTest, PackKnown, TableFigure
from curriculum.foods.queries import food_data, prices
from curriculum.foods.yields import TestedYield


def known_of(food: Food, today: date) -> Known:
    """A food with its figures, tests and packs: seven queries for any number of them."""
    whole = food.made_from.code if food.made_from else ""
    costed = prices(today, [food.code, whole])
    return Known(
        food=food_data(food),
        usable_source=food.usable_source,
        density_source=food.density_source,
        piece_source=food.piece_source,
        label_read_by=food.label_read_by.name if food.label_read_by else "",
        note=food.note,
        retired=food.retired_at is not None,
        pieces=tuple(food.piece_weights.values_list("name", "milligrams", "source")),
        tables=tuple(
            TableFigure(row.pk, row.usable_per_mille, row.source) for row in food.yield_figures.all()
        ),
        tests=_tests(food),
        packs=_packs(food, costed.get(food.code), today),
        made_from=(food.made_from.code, food.made_from.name) if food.made_from else None,
        whole_is_costed=whole in costed,
        parts=tuple(food.parts.order_by("name").values_list("code", "name")),
    )


def _tests(food: Food) -> tuple[OwnTest, ...]:
    rows = food.yield_tests.select_related("by").order_by("-on", "-pk")
    return tuple(
        OwnTest(TestedYield(row.on, row.purchased_milligrams, row.usable_milligrams), row.by.name)
        for row in rows
    )


def _packs(food: Food, costed: PackPrice | None, today: date) -> tuple[PackKnown, ...]:
    """Packs by supplier and size, the newest price of each first."""
    rows = Pack.objects.filter(food=food).select_related("supplier")
    found = []
    for row in rows.order_by("supplier__name", "milligrams", "-from_on", "-pk"):
        price = PackPrice(food.code, row.milligrams, row.pence, row.pieces)
        stands = row.from_on <= today and (row.until_on is None or today <= row.until_on)
        known = row.for_costing and stands and price == costed
        found.append(PackKnown(row.supplier.name, price, row.from_on, row.until_on, known))
    return tuple(found)
