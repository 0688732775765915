"""Days at the stores: a lesson each whose bench makes an egg paste, with eggs of its own in a lot."""

from dataclasses import replace
from datetime import time
from uuid import uuid4

from django.db import transaction

from curriculum.foods.data import FoodData, MadeFrom
from curriculum.foods.models import Food
from curriculum.recipes.data import LineData
from curriculum.recipes.models import Version
from curriculum.recipes.sheets import sheet_hash, write_sheet
from kitchen.lessons.models import Dish, Lesson, Place, PlaceLearner, Shift
from kitchen.stores.ledgers import Move, lots_locked, move
from kitchen.stores.models import Lot
from tests.builders.cast import TERM, TODAY, Cast, shortbread

EGG = 57_000


def days_of_stores(cast: Cast, days: int) -> None:
    """So many lessons (DAY00000 …), two eggs and another one for each, flour and butter for all."""
    egg = _egg_paste(cast.recipe_version)
    lots = [
        ("FLOUR", Food.objects.get(code="plain_flour"), 10**8),
        ("BUTTER", Food.objects.get(code="butter"), 10**8),
    ]
    lots += [(f"EGGS{day}", egg, 4 * EGG) for day in range(days)]
    facts = {"received_on": TERM, "date_kind": "none", "label_read_on": TERM}
    rows = Lot.objects.bulk_create(Lot(code=code, food=food, **facts) for code, food, _ in lots)
    with transaction.atomic():
        moves = [Move(row.pk, lot[2], "receive", uuid4()) for row, lot in zip(rows, lots, strict=True)]
        move(lots=lots_locked(row.pk for row in rows), moves=moves, by=cast.stores)
    for day in range(days):
        _lesson(cast, day)


def _egg_paste(version: Version) -> Food:
    """The cast's shortbread takes 50 g of beaten egg, which is one egg."""
    egg = Food.objects.create(
        code="egg", name="Egg", label_read_on=TERM, counted_in="pieces", piece_milligrams=EGG
    )
    beaten = Food.objects.create(
        code="egg_beaten", name="Beaten egg", made_from=egg, made_from_milligrams=50_000
    )
    plain = shortbread()
    paste = plain.components[0]
    lines = (*paste.lines, LineData(position=3, food="egg_beaten", milligrams=50_000, issued="as_bought"))
    foods = (
        *plain.foods,
        FoodData("egg", "Egg", counted_in="pieces", piece_milligrams=EGG, label_read_on=TERM),
        FoodData("egg_beaten", "Beaten egg", made_from=MadeFrom("egg", 50_000)),
    )
    sheet = write_sheet(replace(plain, components=(replace(paste, lines=lines),), foods=foods))
    version.sheet, version.sheet_hash = sheet, sheet_hash(sheet)
    version.save()
    row = version.components.create(code="A", name="Paste", basis="portions", position=1)
    row.lines.create(position=1, food=beaten, milligrams=50_000)
    return egg


def _lesson(cast: Cast, day: int) -> None:
    lesson = Lesson.objects.create(
        code=f"DAY{day:05d}",
        title="Egg paste",
        on=TODAY,
        starts=time(9),
        minutes=180,
        room=cast.room,
        group=cast.group,
        lecturer=cast.lecturer,
        state=Lesson.State.APPROVED,
    )
    shift = Shift.objects.create(lesson=lesson, number=1, starts=time(9), minutes=180)
    dish = Dish.objects.create(lesson=lesson, version=cast.recipe_version, portions_a_bench=8, working="pair")
    place = Place.objects.create(
        shift=shift,
        bench=cast.room.benches.first(),
        dish=dish,
        version=cast.recipe_version,
        code=f"D{day:06d}",
    )
    PlaceLearner.objects.create(place=place, shift=shift, student=cast.learner)
