"""Pooled bowls: what goes into one, and one that is made."""

from datetime import datetime, timedelta

from curriculum.people.queries import now_at, the_college
from kitchen.stores.made.actions import make_lot
from kitchen.stores.made.bowls import MadeEntry
from kitchen.stores.models import Lot
from tests.builders.stores import Stage


def now() -> datetime:
    """The moment at the college."""
    return now_at(the_college())


def an_entry(pieces: dict[str, int] | None = None, grams: int = 0, **changes: object) -> MadeEntry:
    """Beaten egg out of the earliest lot, made now, thrown away in four hours."""
    taken = {"MP-0710": 9} if pieces is None else pieces
    said = {
        "food": "egg_beaten",
        "pieces": tuple(taken.items()),
        "milligrams": (grams or 50 * sum(taken.values())) * 1000,
        "made_at": now(),
        "discard_at": now() + timedelta(hours=4),
        "kept_where": "Walk-in fridge",
    }
    return MadeEntry(**said | changes)


def a_bowl(stage: Stage, pieces: dict[str, int] | None = None, **changes: object) -> Lot:
    """A bowl of beaten egg made for the stage's lesson."""
    return make_lot(lesson=stage.lesson, entry=an_entry(pieces, **changes), by=stage.stores)
