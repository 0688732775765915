"""Fixing a start, an oven or an order of a lesson's time plan by hand, and letting it go."""

from collections.abc import Iterable
from typing import Any

from django.db import transaction

from curriculum.errors import RuleBroken
from curriculum.people.models import User
from kitchen.lessons.models import Lesson
from kitchen.rooms.models import Appliance
from kitchen.timeplan.models import DayEvent, What
from kitchen.timeplan.pins.data import ORDER, OVEN, START, PinData
from kitchen.timeplan.pins.models import Pin

#: So many things are fixed in one lesson at most; whoever needs more has a plan of their own. Our own
#: choice, no source.
MOST_PINS = 60


@transaction.atomic
def fix_start(*, lesson: Lesson, pins: Iterable[PinData], by: User) -> list[Pin]:
    """Fix the start of a part at some benches, or of a demonstration; a start fixed before moves."""
    current = _still_planned(lesson)
    rows = [
        Pin.objects.update_or_create(
            **_of_the_part(current, START, pin),
            defaults={"minute": pin.minute, "by": by},
        )[0]
        for pin in _in_order(pins)
    ]
    return _few_enough(current, rows)


@transaction.atomic
def fix_oven(*, lesson: Lesson, pins: Iterable[PinData], by: User) -> list[Pin]:
    """Fix the oven of a bake at some benches; one fixed before is changed. RuleBroken for no oven there."""
    current = _still_planned(lesson)
    ovens = {row.code: row for row in Appliance.objects.filter(room=current.room_id, kind="oven")}
    rows = []
    for pin in _in_order(pins):
        if pin.oven not in ovens:
            raise RuleBroken("no_such_oven", "There is no such oven in the room.", field="oven")
        rows.append(
            Pin.objects.update_or_create(
                **_of_the_part(current, OVEN, pin), defaults={"appliance": ovens[pin.oven], "by": by}
            )[0]
        )
    return _few_enough(current, rows)


@transaction.atomic
def fix_order(*, lesson: Lesson, pins: Iterable[PinData], by: User) -> list[Pin]:
    """Fix that one part has ended before another begins; the same order again changes nothing."""
    current = _still_planned(lesson)
    rows = [
        Pin.objects.get_or_create(
            **_of_the_part(current, ORDER, pin),
            other_bench=_number(pin.other_bench),
            other_step=pin.other_step,
            other_part=pin.other_part,
            defaults={"by": by},
        )[0]
        for pin in _in_order(pins)
    ]
    return _few_enough(current, rows)


@transaction.atomic
def let_go(*, lesson: Lesson, pins: Iterable[Pin], by: User) -> int:
    """Let go of what was fixed; how many there were. What is gone already is no error."""
    current = _still_planned(lesson)
    rows = Pin.objects.filter(lesson=current, pk__in=[pin.pk for pin in pins])
    return rows.delete()[0]


def _still_planned(lesson: Lesson) -> Lesson:
    """The lesson, locked. RuleBroken when it is cancelled or its class has begun."""
    current = Lesson.objects.select_for_update(of=("self",)).get(pk=lesson.pk)
    if current.state == Lesson.State.CANCELLED:
        raise RuleBroken("cancelled", "This lesson is cancelled; nothing is fixed in its plan any more.")
    if DayEvent.objects.filter(lesson=current, what=What.BEGAN, undone_by=None).exists():
        raise RuleBroken(
            "class_runs",
            "The class has begun. Change its plan on the page of the day, where nothing is lost.",
        )
    return current


def _of_the_part(lesson: Lesson, kind: str, pin: PinData) -> dict[str, Any]:
    """What names the part that a row is about."""
    bench = _number(pin.bench)
    return {"lesson": lesson, "kind": kind, "bench": bench, "step": pin.step, "part": pin.part}


def _number(bench: str) -> int | None:
    return int(bench) if bench else None


def _in_order(pins: Iterable[PinData]) -> list[PinData]:
    return sorted(pins, key=lambda pin: (pin.step, _number(pin.bench) or 0, pin.part))


def _few_enough(lesson: Lesson, rows: list[Pin]) -> list[Pin]:
    count = Pin.objects.filter(lesson=lesson).count()
    if count > MOST_PINS:
        raise RuleBroken(
            "too_many_fixed",
            f"That would be {count} things fixed in this lesson; {MOST_PINS} are the most. Let something go"
            " first.",
        )
    return rows
