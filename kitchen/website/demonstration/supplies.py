"""What the stores of the demonstration do: take lots in, read a label, make, weigh and issue kits."""

from collections.abc import Iterable
from datetime import date

from curriculum.foods.models import Food
from kitchen.lessons.models import Lesson
from kitchen.stores.actions import accept_kits, issue_kits
from kitchen.stores.entries import LabelRead, LotEntry
from kitchen.stores.lots.actions import read_label, receive_lots
from kitchen.stores.lots.labels.actions import read_lot_label
from kitchen.stores.models import KitLine, KitSet, Lot, Requisition
from kitchen.stores.requisitions.actions import approve_requisition, submit_requisition
from kitchen.stores.weighout.actions import initial, put_lid, tick_clean, weigh
from kitchen.stores.weighout.order import Stop
from kitchen.stores.weighout.page import CLEAN_START
from kitchen.stores.weighout.queries import weigh_out
from kitchen.website.demonstration import files
from kitchen.website.demonstration.people import person
from kitchen.website.demonstration.stages import answer_of, key, on_day

STORES, SECOND = "hana", "desmond"
IN_STORE = "in_store"


def lots_in(stock: dict, foods: dict) -> list[LotEntry]:
    """The lots that lie in the stores when term work begins, from stores.json and foods.json.

    A lot whose label was read says what the food's label says.
    """
    said = {each["code"]: each for each in foods["foods"]}
    return [_lot(each, said[each["food"]]) for each in stock["lots"] if each["state"] == IN_STORE]


def _lot(each: dict, food: dict) -> LotEntry:
    read_on = each.get("label_read_on")
    opened_on = each.get("opened_on")
    return LotEntry(
        code=each["code"],
        food=each["food"],
        milligrams=each["milligrams"],
        received_on=date.fromisoformat(each["received_on"]),
        supplier=each["supplier"],
        date_kind=each["date_kind"],
        dated_on=date.fromisoformat(each["date"]),
        opened_on=date.fromisoformat(opened_on) if opened_on else None,
        reserved_free_from="reserved_for" in each,
        contains=tuple(food["contains"]) if read_on else (),
        may_contain=tuple(food["may_contain"]) if read_on else (),
        label_read_on=date.fromisoformat(read_on) if read_on else None,
        note=each.get("label_note", ""),
    )


def take_stock_in() -> None:
    """Take in the lots of the files, unless the stores hold lots already."""
    if not Lot.objects.exists():
        entries = lots_in(files.read("stores.json"), files.read("foods.json"))
        receive_lots(entries=entries, by=person(STORES))


def requisition(lesson: Lesson, said: dict) -> Requisition:
    """The lecturer asks, the stores approve; at a second start the requisition that stands."""
    standing = Requisition.objects.filter(lesson=lesson, state=Requisition.State.APPROVED).first()
    return standing or approve_requisition(requisition=ask(lesson, said), by=person(STORES))


def ask(lesson: Lesson, said: dict) -> Requisition:
    """The lecturer submits the requisition; at a second start the one that was submitted."""
    asked = answer_of(said["code"], "requisition")
    if asked is not None:
        return Requisition.objects.get(pk=asked["requisition"])
    lecturer = person(said["lecturer"])
    return submit_requisition(lesson=lesson, by=lecturer, key=key(said["code"], "requisition"))


def make_kits(lesson: Lesson, said: dict) -> KitSet:
    """Accept the kits as they are reckoned, whatever is short; at a second start the set that was made."""
    made = answer_of(said["code"], "kits")
    if made is not None:
        return KitSet.objects.get(pk=made["kit_set"])
    return accept_kits(lesson=lesson, by=person(STORES), key=key(said["code"], "kits"))


def read_labels(kit_set: KitSet, said: dict) -> list[Food]:
    """Read the labels that hold kits of the set back, the day before; returns the foods read."""
    foods = Food.objects.filter(
        pk__in=KitLine.objects.filter(kit__kit_set=kit_set).values("food"), label_read_on=None
    )
    return [_read(food, said) for food in foods]


def _read(food: Food, said: dict) -> Food:
    """The food's label, and the pack of each of its lots that nobody has read."""
    printed = next(each for each in files.read("foods.json")["foods"] if each["code"] == food.code)
    read = LabelRead(
        contains=tuple(printed["contains"]),
        may_contain=tuple(printed["may_contain"]),
        facts=tuple(tuple(fact) for fact in printed["facts"]),
    )
    on = date.fromisoformat(said.get("ahead_on", said["date"]))
    by = person(STORES)
    read_label(food=food, read=read, on=on, by=by, key=key(said["code"], "label", food.code))
    for lot in food.lots.filter(label_read_on=None, made_in=None):
        read_lot_label(lot=lot, read=read, on=on, by=by, key=key(said["code"], "label", lot.code))
    food.refresh_from_db()
    return food


def issue(lesson: Lesson, kit_set: KitSet, said: dict) -> None:
    """Weigh every line and issue what the lots hold; a line that is short stays open and is named."""
    if answer_of(said["code"], "issue") is not None:
        return
    with on_day(lesson.on):
        weigh_out_all(kit_set, said)
        issue_kits(lesson=lesson, by=person(STORES), key=key(said["code"], "issue"), short_accepted=True)


def weigh_out_all(kit_set: KitSet, said: dict) -> None:
    """Weigh the kits out in their order: begun clean, each free-from kit lidded before the next.

    A second person looks after that.
    """
    both = {"kit_set": kit_set, "by": person(STORES)}
    for thing, _ in CLEAN_START:
        tick_clean(thing=thing, **both)
    order = weigh_out(kit_set).order
    whole = [stop for stop in order if stop.is_kit]
    for stop in whole:
        weigh(weights=_weights([stop]), key=key(said["code"], "weigh whole", stop.code), **both)
        put_lid(kit=stop.code, is_on=True, key=key(said["code"], "lid", stop.code), **both)
    weigh(weights=_weights(order), key=key(said["code"], "weigh"), **both)
    seen = [(item.kit, item.food) for stop in order for item in stop.items if item.way and not item.short]
    initial(weights=seen, second=person(SECOND), key=key(said["code"], "second person"), **both)


def _weights(stops: Iterable[Stop]) -> list[tuple[str, str]]:
    """Everything that the lots cover; what is short stays open."""
    return [(item.kit, item.food) for stop in stops for item in stop.items if not item.short]
