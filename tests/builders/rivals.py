"""Many small scenes for two people who want the same at once, written straight into the tables.

Scene ``n`` has a food and a lot of it of its own, and two lessons whose only kit asks for 100 g of
it; there are 150 g. So either lesson can be served, and never both.
"""

from datetime import time
from uuid import uuid4

from django.db import transaction

from curriculum.foods.models import Food
from kitchen.lessons.models import Lesson
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.models import Kit, KitLine, KitSet, Lot
from kitchen.stores.weighout.actions import weigh
from tests.builders.cast import TERM, TODAY, Cast

ASKED, THERE = 100_000, 150_000


def lot_of(number: int) -> str:
    """The code of a scene's lot, and of its food."""
    return f"rival_{number}"


def lesson_of(who: int, number: int) -> str:
    """The code of a scene's lesson, of the first person or of the second."""
    return f"RV{who}{number:05d}"


def rivals(cast: Cast, scenes: int, *, there: int = THERE, issued: bool = False) -> None:
    """So many scenes; with ``issued`` the kit of each scene's first lesson has left already."""
    facts = {"label_read_on": TERM}
    foods = Food.objects.bulk_create(
        Food(code=lot_of(number), name=f"Rival food {number}", **facts) for number in range(scenes)
    )
    facts |= {"received_on": TERM, "date_kind": "none"}
    lots = Lot.objects.bulk_create(Lot(code=food.code, food=food, **facts) for food in foods)
    moves = [Move(lot.pk, there, "receive", uuid4()) for lot in lots]
    for who in (0, 1):
        lines = _lines(cast, _lessons(cast, who, scenes), foods)
        if issued and who == 0:
            moves += [
                Move(lot.pk, -ASKED, "issue", uuid4(), line.pk) for lot, line in zip(lots, lines, strict=True)
            ]
    with transaction.atomic():
        move(lots=lots_locked(lot.pk for lot in lots), moves=moves, by=cast.stores)


def made_again(cast: Cast, scenes: int) -> None:
    """So many scenes; the kit of each first lesson was weighed, then made again just the same.

    There is food for one kit beside the tray that stands weighed.
    """
    rivals(cast, scenes, there=ASKED + THERE)
    old = list(KitSet.objects.filter(lesson__code__startswith="RV0").order_by("lesson__code"))
    foods = [Food.objects.get(code=lot_of(number)) for number in range(scenes)]
    for kit_set, food in zip(old, foods, strict=True):
        weigh(kit_set=kit_set, weights=[(kit_set.lesson.code, food.code)], by=cast.stores)
    KitSet.objects.filter(pk__in=[each.pk for each in old]).update(state=KitSet.State.SUPERSEDED)
    _lines(cast, [each.lesson for each in old], foods, number=2)


def new_kit_of(number: int) -> str:
    """The code of the kit that was made again."""
    return f"RW0{number:05d}"


def _lessons(cast: Cast, who: int, scenes: int) -> list[Lesson]:
    facts = {"on": TODAY, "starts": time(9), "minutes": 180, "room": cast.room, "state": "approved"}
    facts |= {"group": cast.group, "lecturer": cast.lecturer}
    return Lesson.objects.bulk_create(
        Lesson(code=lesson_of(who, number), title="Rivals", **facts) for number in range(scenes)
    )


def _lines(cast: Cast, lessons: list[Lesson], foods: list[Food], number: int = 1) -> list[KitLine]:
    facts = {"number": number, "inputs": {"version": cast.recipe_version.pk}, "inputs_hash": ""}
    sets = KitSet.objects.bulk_create(KitSet(lesson=lesson, **facts, by=cast.stores) for lesson in lessons)
    facts = {"kind": "demonstration", "version": cast.recipe_version}
    first = "V" if number == 1 else "W"
    kits = Kit.objects.bulk_create(
        Kit(kit_set=each, code=f"R{first}{each.lesson.code[2:]}", **facts) for each in sets
    )
    amount = {"exact": "100000", "milligrams": ASKED, "stock_milligrams": ASKED, "position": 1}
    return KitLine.objects.bulk_create(
        KitLine(kit=kit, food=food, food_words=food.name, **amount)
        for kit, food in zip(kits, foods, strict=True)
    )
