"""Evenings of the demonstration that were held: what they took, gave back and threw away; yield tests.

They teach the stores something from the first day on. Each evening has lots of its own, of which
nothing is left.
"""

from collections import Counter
from datetime import date, timedelta

from django.db.models import Sum

from curriculum.foods.models import Food
from curriculum.foods.one.actions import record_yield_test
from curriculum.foods.one.said import YieldSaid
from kitchen.lessons.models import Lesson, Place
from kitchen.stores.actions import accept_kits, issue_kits
from kitchen.stores.entries import LotEntry
from kitchen.stores.lots.actions import receive_lots
from kitchen.stores.models import KitLine, KitSet, Lot
from kitchen.stores.moves import reasons
from kitchen.stores.moves.lesson.actions import give_more, take_back_from_lesson
from kitchen.stores.moves.lesson.back import CameBack
from kitchen.website.demonstration import files, lessons
from kitchen.website.demonstration.people import person
from kitchen.website.demonstration.stages import answer_of, key
from kitchen.website.demonstration.supplies import STORES

FILE = "held.json"
GRAM = 1000


def hold() -> None:
    """Every evening of the file, and the yield tests; what was done at an earlier start stays."""
    file = files.read(FILE)
    for evening in file["evenings"]:
        if answer_of(evening["code"], "done") is None:
            _hold({**file["lesson"], **evening})
    for number, each in enumerate(file["yield_tests"]):
        _test(number, each)


def _hold(said: dict) -> None:
    lesson = lessons.book(said)
    lessons.place(lesson, said)
    made = answer_of(said["code"], "kits")
    if made is None:
        kit_set = accept_kits(lesson=lesson, by=person(STORES), key=key(said["code"], "kits"))
    else:
        kit_set = KitSet.objects.get(pk=made["kit_set"])
    _take_in(kit_set, said)
    issue_kits(lesson=lesson, by=person(STORES), key=key(said["code"], "issue"))
    for number, each in enumerate(said["given"]):
        _give(lesson, said, number, each)
    _back(lesson, said)


def _take_in(kit_set: KitSet, said: dict) -> None:
    """As much of each food as the evening takes, with the label of the food."""
    wanted = Counter({each["food"]: each["grams"] * GRAM for each in said["given"]})
    lines = KitLine.objects.filter(kit__kit_set=kit_set, stock_milligrams__gt=0).order_by()
    wanted += Counter(dict(lines.values_list("food__code").annotate(sum=Sum("stock_milligrams"))))
    on = date.fromisoformat(said["date"])
    entries = [_lot(food, wanted[food], on, number) for number, food in enumerate(sorted(wanted), start=1)]
    if not Lot.objects.filter(code=entries[0].code).exists():
        receive_lots(entries=entries, by=person(STORES))


def _lot(food: str, milligrams: int, on: date, number: int) -> LotEntry:
    label = next(each for each in files.read("foods.json")["foods"] if each["code"] == food)
    return LotEntry(
        code=f"EV-{on:%d%m}-{number:02}",
        food=food,
        milligrams=milligrams,
        received_on=on - timedelta(1),
        date_kind="best_before",
        dated_on=on + timedelta(3),
        contains=tuple(label["contains"]),
        may_contain=tuple(label["may_contain"]),
        label_read_on=on - timedelta(1),
    )


def _give(lesson: Lesson, said: dict, number: int, each: dict) -> None:
    give_more(
        lesson=lesson,
        place=Place.objects.filter(shift__lesson=lesson).order_by("bench__number").first(),
        food=Food.objects.get(code=each["food"]),
        milligrams=each["grams"] * GRAM,
        reason=reasons.words_of(reasons.MORE, each["reason"], each.get("note", "")),
        by=person(STORES),
        key=key(said["code"], "given", number),
    )


def _back(lesson: Lesson, said: dict) -> None:
    """What came back opened and was thrown away; an evening of which nothing came back is done too."""
    lots = Lot.objects.filter(movements__kit_line__kit__kit_set__lesson=lesson).order_by("pk")
    rows = [
        CameBack(
            lots.filter(food__code=each["food"]).first().pk,
            opened_milligrams=each["grams"] * GRAM,
            opened_to=reasons.words_of(reasons.WASTE, each["reason"]),
        )
        for each in said["back"]
    ]
    take_back_from_lesson(
        lesson=lesson, rows=rows, sealed_and_cold=True, by=person(STORES), key=key(said["code"], "done")
    )


def _test(number: int, each: dict) -> None:
    on = date.fromisoformat(each["on"])
    record_yield_test(
        food=Food.objects.get(code=each["food"]),
        said=YieldSaid(on, each["purchased"] * GRAM, each["usable"] * GRAM),
        by=person(each["by"]),
        today=on,
        key=key("yield_test", each["food"], number),
    )
