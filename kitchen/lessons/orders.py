"""What is asked for when a lesson is booked or changed, as one plain value.

``BookingOrder`` refuses nonsense by itself; what other lessons have to say about it is
judged by ``slots`` and by the action.
"""

from dataclasses import asdict, dataclass
from datetime import date, time

from curriculum.errors import RuleBroken
from curriculum.wording import clock_minutes
from kitchen.lessons.slots import Slot, Trouble, slot_troubles


@dataclass(frozen=True, slots=True)
class BookingOrder:
    """A lesson as it is asked for. Rows are named by their keys.

    ``version`` is the recipe version, ``minutes`` the whole slot, ``working`` "single" or
    "pair"; ``ahead_steps`` are positions of steps done before the lesson, on ``ahead_on``.
    A break of ``break_minutes`` (0: none) begins ``break_after`` minutes after the lesson does.
    """

    on: date
    starts: time
    minutes: int
    start_minutes: int
    clear_minutes: int
    room: int
    group: int
    lecturer: int
    version: int
    portions_a_bench: int
    working: str
    title: str = ""
    kind: str = "practical"
    cover: int | None = None
    technician: int | None = None
    demonstration_batches: int = 0
    spare_batches: int = 0
    ahead_steps: tuple[int, ...] = ()
    ahead_on: date | None = None
    taught_steps: tuple[int, ...] = ()
    food_becomes: str = "eaten"
    minutes_a_plate: int = 0
    note: str = ""
    contingency_minutes: int = 0
    break_after: int = 0
    break_minutes: int = 0
    supervisors: int = 1

    @property
    def slot(self) -> Slot:
        """The slot in minutes after midnight."""
        return Slot(self.starts.hour * 60 + self.starts.minute, self.minutes)

    @property
    def teacher(self) -> int:
        """Who stands in the room: the cover where there is one, else the lecturer."""
        return self.cover or self.lecturer

    def said(self) -> dict:
        """The order as plain JSON, for its receipt."""
        return {
            name: str(value) if isinstance(value, date | time) else value
            for name, value in asdict(self).items()
        }

    def troubles(self) -> list[Trouble]:
        """What is wrong with the order by itself."""
        found = slot_troubles(self.slot, self.start_minutes, self.clear_minutes, self.contingency_minutes)
        if not found and self.break_minutes:
            found += self._break_troubles()
        if self.portions_a_bench < 1:
            found.append(Trouble("portions_a_bench", "no_portions", "A bench makes at least one portion."))
        if self.minutes_a_plate and self.kind != "assessed":
            words = (
                f"{self.minutes_a_plate} minutes a plate are written, and the lesson is not assessed."
                " Write 0, or choose an assessed practical."
            )
            found.append(Trouble("minutes_a_plate", "plates_of_no_assessment", words))
        if self.ahead_steps and self.ahead_on is None:
            words = "Steps are done ahead, and no day is given for them. Write the day."
            found.append(Trouble("ahead_on", "no_day_ahead", words))
        if self.ahead_on is not None and self.ahead_on > self.on:
            words = "The day ahead is after the lesson. Write the day of the lesson or an earlier one."
            found.append(Trouble("ahead_on", "ahead_after_lesson", words))
        return found

    def _break_troubles(self) -> list[Trouble]:
        """A break lies in the time for cooking: after start-up, and before what is kept free at the end."""
        starts = self.slot.starts
        first = starts + self.start_minutes
        last = starts + self.minutes - self.clear_minutes - self.contingency_minutes
        begins, ends = starts + self.break_after, starts + self.break_after + self.break_minutes
        if begins < first:
            at = f"begin at {clock_minutes(begins)}, and start-up ends at {clock_minutes(first)}"
        elif ends > last:
            at = f"end at {clock_minutes(ends)}, and the time for cooking at {clock_minutes(last)}"
        else:
            return []
        words = f"The break would {at}. Write another time for it."
        return [Trouble("break_after", "break_outside_cooking", words)]


def demand_none(troubles: list[Trouble]) -> None:
    """Raise RuleBroken for the first trouble; its facts carry all, field by field."""
    if troubles:
        first = troubles[0]
        at_fields = tuple((trouble.field, trouble.message) for trouble in troubles)
        raise RuleBroken(first.code, first.message, field=first.field, at_fields=at_fields)
