"""Whether what is delivered lasts until the lessons that it is for.

Plain data in, plain data out. A date printed on the pack counts, and so does how many days the
stores say that the food keeps after delivery; the earlier of the two. That food is bought for the
day on which it is used is common practice, no source.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from curriculum.wording import counted, listed, short_date

#: Of the lessons that a date does not reach, so many are named.
NAMED_AT_MOST = 4
WORDS = {"use_by": "Use by", "best_before": "Best before", "kept": "Kept until"}


@dataclass(frozen=True, slots=True)
class LessonUse:
    """A lesson that a food was bought for: its words and its day."""

    words: str
    on: date


@dataclass(frozen=True, slots=True)
class Last:
    """The last day of what is delivered.

    ``kind`` is "use_by", "best_before", or "kept" where the stores' own days say it.
    """

    kind: str
    on: date

    @property
    def is_law(self) -> bool:
        """Whether it goes into no kit after that day; else somebody looks at it and decides."""
        return self.kind == "use_by"

    def days_missing(self, on: date) -> int:
        """By how many days it does not reach a day; nothing when it does."""
        return max(0, (on - self.on).days)

    def words(self, today: date) -> str:
        """ "Use by Wed 24 Feb"."""
        return f"{WORDS[self.kind]} {short_date(self.on, today)}"


def last_of(kind: str, dated_on: date | None, came_on: date, kept_days: int | None) -> Last | None:
    """The earlier of the date on the pack and of the days that the stores keep it; None with neither.

    Worked example: watercress without a date that keeps three days, delivered on the 22nd: kept until
    the 25th. With "use by 24" on it: use by the 24th.
    """
    found = []
    if dated_on is not None:
        found.append(Last(kind, dated_on))
    if kept_days is not None:
        found.append(Last("kept", came_on + timedelta(kept_days)))
    return min(found, key=lambda last: (last.on, not last.is_law), default=None)


def does_not_reach(last: Last | None, uses: Iterable[LessonUse], today: date) -> str:
    """Which lessons come after the last day of what is delivered; empty when it reaches them all.

    Worked example: cream, use by 24 February, bought for lessons on the 23rd and the 26th: it does not
    reach the second, by two days.
    """
    if last is None:
        return ""
    late = [use for use in uses if last.days_missing(use.on)]
    if not late:
        return ""
    missed = [
        f"{use.words} on {short_date(use.on, today)} ({counted(last.days_missing(use.on), 'day')})"
        for use in late[:NAMED_AT_MOST]
    ]
    more = f" and {counted(len(late) - NAMED_AT_MOST, 'more lesson')}" if len(late) > NAMED_AT_MOST else ""
    return f"{last.words(today)} does not reach {listed(missed)}{more}."
