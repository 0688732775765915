"""What is fixed by hand in a lesson, as rows and as the calculation reads it."""

from kitchen.lessons.models import Lesson
from kitchen.timeplan.pins.data import PinData
from kitchen.timeplan.pins.models import Pin


def pins_of(lesson: Lesson) -> tuple[PinData, ...]:
    """Everything that is fixed, the oldest first. One query."""
    return tuple(map(_data, rows_of(lesson)))


def rows_of(lesson: Lesson) -> list[Pin]:
    """The rows, the oldest first, with who fixed each. One query."""
    return list(Pin.objects.filter(lesson=lesson).select_related("appliance", "by").order_by("pk"))


def _data(row: Pin) -> PinData:
    return PinData(
        number=row.pk,
        kind=row.kind,
        bench=str(row.bench or ""),
        step=row.step,
        part=row.part,
        minute=row.minute or 0,
        oven=row.appliance.code if row.appliance else "",
        other_bench=str(row.other_bench or ""),
        other_step=row.other_step or 0,
        other_part=row.other_part or 0,
    )
