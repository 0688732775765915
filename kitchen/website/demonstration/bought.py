"""What the stores of the demonstration keep and have just had brought: par levels, an open delivery.

One line of the delivery is taken in; the other came in place of what was asked and waits for a
decision, since its label names more. Every stage has a key of its own.
"""

from datetime import date

from curriculum.foods.models import Food, Pack, Supplier
from kitchen.stores.deliveries.actions import begin_delivery, check_line
from kitchen.stores.deliveries.entries import LineEntry
from kitchen.stores.deliveries.models import Delivery
from kitchen.stores.orders.actions import set_keeping
from kitchen.stores.orders.entries import KeepingEntry
from kitchen.website.demonstration import files
from kitchen.website.demonstration.people import person
from kitchen.website.demonstration.stages import answer_of, key
from kitchen.website.demonstration.supplies import STORES

FILE = "bought.json"
GRAM = 1000


def keep_par() -> None:
    """Set the par levels of the file; one that was set stays as people changed it."""
    for each in files.read(FILE)["par"]:
        if answer_of("par", each["food"]) is None:
            food = Food.objects.get(code=each["food"])
            entry = KeepingEntry(par_milligrams=each["grams"] * GRAM)
            set_keeping(food=food, entry=entry, by=person(STORES), key=key("par", each["food"]))


def deliver() -> None:
    """Begin the check of the delivery and write its lines down."""
    said = files.read(FILE)["delivery"]
    on, stores = date.fromisoformat(said["on"]), person(STORES)
    begun = answer_of(said["code"], "delivery")
    if begun is None:
        delivery = begin_delivery(
            on=on,
            supplier=Supplier.objects.get(code=said["supplier"]),
            note_number=said["note_number"],
            by=stores,
            key=key(said["code"], "delivery"),
        )
    else:
        delivery = Delivery.objects.get(pk=begun["delivery"])
    for number, each in enumerate(said["lines"]):
        if answer_of(said["code"], "line", number) is None:
            entry = _entry(each, delivery.supplier, seen=number)
            check_line(
                delivery=delivery, entry=entry, on=on, by=stores, key=key(said["code"], "line", number)
            )


def _entry(each: dict, supplier: Supplier, seen: int) -> LineEntry:
    """One line as it was checked at the door, its label read."""
    pack = _pack(each, supplier)
    return LineEntry(
        food=each["food"],
        count=each["count"],
        milligrams=each["count"] * (pack.milligrams if pack else each["grams"] * GRAM),
        substitute="in_place_of" in each,
        why=each.get("in_place_of", ""),
        pack=pack.pk if pack else None,
        batch=each["batch"],
        date_kind=each["date_kind"],
        dated_on=date.fromisoformat(each["date"]),
        label_read=True,
        contains=tuple(each["contains"]),
        lot_code=each["lot"],
        seen=seen,
    )


def _pack(each: dict, supplier: Supplier) -> Pack | None:
    if "pack_grams" not in each:
        return None
    return Pack.objects.get(food__code=each["food"], supplier=supplier, milligrams=each["pack_grams"] * GRAM)
