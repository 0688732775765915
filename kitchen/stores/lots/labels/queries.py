"""What the page of one lot's label reads: other lots of the food, earlier readings, what it names more."""

from dataclasses import dataclass

from django.db.models import QuerySet

from curriculum.allergens import printed
from curriculum.wording import listed, sentence, short_date
from kitchen.stores.lots.managers import names_more
from kitchen.stores.lots.models import LabelReading
from kitchen.stores.models import Lot

#: So many other lots are offered as "the same label": the youngest readings (our own figure, no source).
OFFERED = 6


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """One reading in words: when, by whom, what, and whose label it was said to equal."""

    on: str
    by: str
    says: str
    same_as: str


def unread_lots() -> list[Lot]:
    """Lots that hold something and whose pack nobody has read, by food. One query."""
    rows = Lot.objects.filter(on_hand_milligrams__gt=0, label_read_on=None, made_in=None)
    return list(rows.select_related("food", "supplier").order_by("food__name", "date", "code"))


def same_choices(lot: Lot) -> list[tuple[Lot, str]]:
    """Other lots of the food whose pack was read, the last read first, with what it says. One query."""
    rows: QuerySet[Lot] = Lot.objects.filter(food=lot.food_id, label_read_on__isnull=False, made_in=None)
    rows = rows.exclude(pk=lot.pk).select_related("supplier").order_by("-label_read_on", "-pk")[:OFFERED]
    return [(row, _choice(row)) for row in rows]


def readings(lot: Lot) -> list[ReadingRow]:
    """Every reading of this lot's pack, the last first. One query."""
    rows = LabelReading.objects.filter(lot=lot).select_related("by", "same_as").order_by("-number")
    return [
        ReadingRow(
            short_date(row.on),
            row.by.printed_name,
            label_words(row.contains, row.may_contain),
            row.same_as.code if row.same_as else "",
        )
        for row in rows
    ]


def beyond_food(lot: Lot) -> str:
    """ "milk and soya": what this pack names and the label of its food does not; empty when nothing."""
    return listed(names_more(lot)) if lot.label_read_on else ""


def label_words(contains: list[str], may_contain: list[str]) -> str:
    """ "Contains milk. May contain soya."; "Names none of the declarable kinds."."""
    if not contains and not may_contain:
        return "Names none of the declarable kinds."
    has = sentence(f"contains {listed(map(printed, contains))}") if contains else ""
    may = sentence(f"may contain {listed(map(printed, may_contain))}") if may_contain else ""
    return " ".join(each for each in (has, may) if each)


def _choice(lot: Lot) -> str:
    supplier = f", {lot.supplier.name}" if lot.supplier else ""
    says = label_words(lot.label_allergens, lot.label_may_contain)
    return f"{says} Read {short_date(lot.label_read_on)}{supplier}."
