"""Lessons as evidence, without a database."""

from datetime import date, timedelta

from kitchen.stores.learning.evidence import LessonFood

FIRST_DAY = date(2027, 1, 12)


def a_lesson_food(number: int = 1, **changes) -> LessonFood:
    """One lesson with nine kits of 20 g of dusting flour in 1,440 g, all used."""
    said = {
        "lesson": f"LESSON{number}",
        "title": "Quiche",
        "on": FIRST_DAY + timedelta(weeks=number),
        "group": "PC2-A",
        "recipe": "R01",
        "food": "soft_wheat_flour",
        "benches": 8,
        "batches": 9,
        "planned": 1_440_000,
        "issued": 1_440_000,
        "given": 20_000,
    }
    return LessonFood(**(said | changes))
