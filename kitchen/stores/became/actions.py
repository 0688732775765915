"""A person says what became of the dishes, and to which benches a shared kit was given.

The rules of every action of the stores hold here too (``kitchen.stores.actions``). Whoever finds that it
was wrong says it again: the last row stands, the ones before stay.
"""

import uuid
from collections.abc import Iterable
from uuid import UUID

from django.db import transaction

from curriculum import wording
from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.people.queries import local_now, the_college, today_at
from curriculum.records.actions import once
from kitchen.lessons.models import Lesson, Place
from kitchen.safety.models import Reading
from kitchen.stores.actions import lesson_locked
from kitchen.stores.became.cooling import LIMIT_WORDS, BecameEntry, Cooling, kept_with_reading
from kitchen.stores.became.models import Became, KitGiven, KitGivenTo
from kitchen.stores.models import Kit

#: A dish may be cut into so many times the planned portions; more is a slip (our own choice, no source).
CUT_SMALLER = 2


@transaction.atomic
def say_what_became(
    *, lesson: Lesson, places: Iterable[Place], entry: BecameEntry, by: User, key: UUID | None = None
) -> int:
    """Write for each of these benches what became of its dish; returns how many benches.

    RuleBroken "lesson_cancelled", "not_yet", "nothing_became", "more_than_made", "read_later",
    "home_says_how_long", "eat_by", and "cooling_decided" when food went home without a reading that
    keeps the limit and nobody decided.
    """
    rows = sorted(places, key=lambda each: each.pk)

    def do() -> dict:
        lesson_locked(lesson)
        _demand_said(lesson, entry)
        for place in rows:
            _demand_made(place, entry)
            _say(lesson, place, entry, by, key)
        return {"benches": len(rows)}

    said = {"places": [each.pk for each in rows], "entry": repr(entry)}
    return once(key=key, action="say_what_became", by=by, said=said, do=do)["benches"]


@transaction.atomic
def say_kit_given(*, kit: Kit, places: Iterable[Place], by: User, key: UUID | None = None) -> KitGiven:
    """Write to which benches a kit without a bench was given, and to no others. RuleBroken."""
    rows = sorted(places, key=lambda each: each.pk)

    def do() -> dict:
        row = Kit.objects.select_for_update().get(pk=kit.pk)
        if row.place_id is not None:
            raise RuleBroken("kit_of_a_bench", f"Kit {row.code} belongs to one bench and went to no other.")
        given = KitGiven.objects.create(kit=row, number=row.given.count() + 1, key=key or uuid.uuid4(), by=by)
        KitGivenTo.objects.bulk_create(KitGivenTo(given=given, place=place) for place in rows)
        return {"given": given.pk}

    said = {"kit": kit.code, "places": [each.pk for each in rows]}
    return KitGiven.objects.get(pk=once(key=key, action="say_kit_given", by=by, said=said, do=do)["given"])


def _say(lesson: Lesson, place: Place, entry: BecameEntry, by: User, key: UUID | None) -> Became:
    own = uuid.uuid5(key, f"became:{place.pk}") if key else uuid.uuid4()
    cooling, portions = entry.cooling, entry.portions
    return Became.objects.create(
        place=place,
        number=place.became.count() + 1,
        eaten_portions=portions.eaten,
        sold_portions=portions.sold,
        home_portions=portions.home,
        wasted_portions=portions.wasted,
        cooling_from=cooling.since if cooling else None,
        cooled_at=cooling.read_at if cooling else None,
        reading=_reading(lesson, place, entry, by, own) if cooling else None,
        eat_by=entry.eat_by,
        keep_words=entry.keep_words,
        decided=entry.decided,
        key=own,
        by=by,
    )


def _reading(lesson: Lesson, place: Place, entry: BecameEntry, by: User, key: UUID) -> Reading:
    """The reading with the limit that ruled then."""
    return Reading.objects.create(
        what=f"{lesson.title}, cooled to go home"[:120],
        decicelsius=entry.cooling.decicelsius,
        lesson=lesson,
        place=place,
        limit=kept_with_reading(),
        verdict="kept" if entry.cooling.kept else "not kept",
        key=uuid.uuid5(key, "reading"),
        by=by,
    )


def _demand_said(lesson: Lesson, entry: BecameEntry) -> None:
    if lesson.on > today_at(the_college()):
        raise RuleBroken(
            "not_yet", f"The lesson is on {wording.long_date(lesson.on)}. Say it after the class has cooked."
        )
    if not entry.portions.together:
        raise RuleBroken("nothing_became", "No portion is written. Write at least one.", field="eaten")
    if entry.cooling:
        _demand_read(entry.cooling)
    if entry.portions.home:
        _demand_home(lesson, entry)


def _demand_read(cooling: Cooling) -> None:
    """Nothing is read in the future; a demonstration college on a day of its own has no clock to hold."""
    college = the_college()
    now = local_now(college)
    if college.shown_today is None and cooling.read_at > now:
        words = f"It is {wording.clock(now.time())}. Write when it was read, not when it will be."
        raise RuleBroken("read_later", words, field="read_at")


def _demand_made(place: Place, entry: BecameEntry) -> None:
    """Refuse more portions than a bench can have cut out of its dish."""
    planned, said = place.dish.portions_a_bench, entry.portions.together
    if said > planned * CUT_SMALLER:
        raise RuleBroken(
            "more_than_made",
            f"Bench {place.bench.number} was to make {wording.counted(planned, 'portion')}, and {said} are "
            f"written together. Cut smaller it may be twice as many, at most {planned * CUT_SMALLER}.",
            field="eaten",
        )


def _demand_home(lesson: Lesson, entry: BecameEntry) -> None:
    if entry.eat_by is None or not entry.keep_words:
        field = "keep_words" if entry.eat_by else "eat_by"
        words = "Food goes home with a day and words of the college’s own procedure. Write both."
        raise RuleBroken("home_says_how_long", words, field=field)
    if entry.eat_by < lesson.on:
        on = wording.long_date(lesson.on)
        raise RuleBroken("eat_by", f"It was cooked on {on}. Write that day or a later one.", field="eat_by")
    if entry.decided or (entry.cooling and entry.cooling.kept):
        return
    was = f"It was {entry.cooling.words}" if entry.cooling else "No cooling is written"
    raise RuleBroken(
        "cooling_decided",
        f"{was}, and the limit is: {LIMIT_WORDS}. Write who decided that it went home, and by what of the "
        "college’s own procedure, or say that it became something else.",
        field="decided",
    )
