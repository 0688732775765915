"""Which lots end soon, and which lessons already planned could use them.

Plain data in, plain data out. A lot ends on the earliest of the date on its pack, the last day
after opening or thawing that the stores have written, and the day a made lot is thrown away. A
lesson could use it when one of its recipes takes the food and it is taught on a day from today
to the lot's last; past a best-before date alone the food may still be used.

Worked example: on 16 February a cream with use-by 19 February has 3 days left. Lessons of the
17th and the 20th make a custard: only the first could use it.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from curriculum import wording


@dataclass(frozen=True, slots=True)
class Ending:
    """One lot (its key): its food (key), its last day, and ``hard_on``, after which it goes nowhere.

    ``last_on`` is the earliest of its days. ``hard_on`` leaves a best-before date out; None without any.
    """

    lot: int
    food: int
    last_on: date
    hard_on: date | None = None

    def gone(self, today: date) -> bool:
        """Whether it may be used no more."""
        return self.hard_on is not None and self.hard_on < today


@dataclass(frozen=True, slots=True)
class Planned:
    """One lesson (its key), its day, and the foods (keys) that its recipes take."""

    lesson: int
    on: date
    foods: frozenset[int]


def last_day(*days: date | None) -> date | None:
    """The earliest of the days that are known; None when none is."""
    return min((day for day in days if day is not None), default=None)


def days_left(last_on: date, today: date) -> int:
    """0 on its last day, below nothing once it is past."""
    return (last_on - today).days


def left_words(last_on: date, today: date) -> str:
    """ "3 days left", "today is the last day", "2 days past"."""
    left = days_left(last_on, today)
    if left < 0:
        return f"{wording.counted(-left, 'day')} past"
    return f"{wording.counted(left, 'day')} left" if left else "today is the last day"


def could_use(ending: Ending, planned: Iterable[Planned], today: date) -> list[int]:
    """The lessons that could use a lot, by their keys, the earliest first."""
    rows = sorted(planned, key=lambda each: (each.on, each.lesson))
    return [
        each.lesson
        for each in rows
        if ending.food in each.foods and each.on >= today and not ending.gone(each.on)
    ]
