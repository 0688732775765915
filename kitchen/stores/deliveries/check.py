"""What a delivery is judged by at the door: temperature by storage class, dates, counts.

For the action that checks a line and for its page. Plain data in, plain data out. A limit
is the published one or the college's own, whichever is stricter; both are named. Nothing
here says that a food is safe: it says whether a reading keeps a limit.

Worked example: chilled butter arrives at 6.5 °C. The regulations say 8 °C or colder, so it
keeps the limit, with the advice to aim for 5 °C. Where the college's own rule is 5 °C, it
does not, and the line is rejected.

Sources: ``curriculum.limits``. Comparing count, weight, temperature and date with the order
at the door is common practice, no source; days that must be left are the college's own.
"""

from dataclasses import dataclass
from datetime import date

from curriculum.limits import BY_CODE, Limit, holds
from curriculum.wording import counted, short_date, temperature

#: The limit of each storage class on arrival; food that keeps without cold has none.
ON_ARRIVAL = {"chilled": BY_CODE["cold_hold"], "frozen": BY_CODE["frozen_arrival"]}
#: What is aimed for, beside the limit.
AIM = {"chilled": BY_CODE["cold_target"]}


@dataclass(frozen=True, slots=True)
class Rule:
    """The college's own demand for one storage class; None where it has none."""

    warmest_decicelsius: int | None = None
    least_days_left: int | None = None


@dataclass(frozen=True, slots=True)
class Ruling:
    """What rules a reading: the figure, whose it is, where it comes from, and what is aimed for."""

    decicelsius: int
    words: str
    source: str
    country: str
    aim: Limit | None = None

    def kept(self, decicelsius: int) -> bool:
        """Whether a reading keeps it."""
        return decicelsius <= self.decicelsius

    @property
    def kept_with_reading(self) -> dict[str, object]:
        """As it is kept with the reading, so that it says later what ruled then."""
        return {
            "shape": 1,
            "decicelsius": self.decicelsius,
            "words": self.words,
            "source": self.source,
            "country": self.country,
        }


def ruling(storage: str, rule: Rule) -> Ruling | None:
    """What rules the temperature of that storage class, or None when nothing does."""
    limit, own = ON_ARRIVAL.get(storage), rule.warmest_decicelsius
    if own is not None and (limit is None or own < limit.decicelsius):
        words = f"{storage.capitalize()} food arrives at {temperature(own)} or colder"
        return Ruling(own, words, "The college’s own rule", limit.country if limit else "", AIM.get(storage))
    if limit is None:
        return None
    return Ruling(limit.decicelsius, limit.words, limit.source, limit.country, AIM.get(storage))


def too_warm(storage: str, decicelsius: int, rule: Rule) -> str:
    """Why food at this temperature is not taken in; empty when the reading keeps what rules."""
    rules = ruling(storage, rule)
    if rules is None or rules.kept(decicelsius):
        return ""
    return (
        f"It was read at {temperature(decicelsius)}. {rules.words} ({rules.source}). Reject it, "
        "or read it again with a clean probe between two packs."
    )


def advice(storage: str, decicelsius: int) -> str:
    """What to say of a reading that keeps the limit and not what is aimed for; empty otherwise."""
    aim = AIM.get(storage)
    if aim is None or holds(aim, decicelsius):
        return ""
    return f"{temperature(decicelsius)} keeps the limit. {aim.words} ({aim.source})."


def past(kind: str, dated_on: date | None, today: date) -> str:
    """Why food with that date is not taken in at all; empty when it may be."""
    if dated_on is None or dated_on >= today or kind != "use_by":
        return ""
    return f"Its use-by date was {short_date(dated_on, today)}. It is not taken in: reject it."


def short_dated(kind: str, dated_on: date | None, today: date, rule: Rule) -> str:
    """What to decide about a date that leaves few days; empty when there are enough."""
    if dated_on is None:
        return ""
    left, least = (dated_on - today).days, rule.least_days_left or 0
    if left >= least and left >= 0:
        return ""
    words = {"use_by": "use by", "best_before": "best before"}[kind]
    if left < 0:
        return f"It is past its best-before date of {short_date(dated_on, today)}. Look at it, then decide."
    return (
        f"{words.capitalize()} {short_date(dated_on, today)} leaves {counted(left, 'day')}. "
        f"The college asks for {counted(least, 'day')} at least."
    )


@dataclass(frozen=True, slots=True)
class Tally:
    """One line of an order against what came: packs asked, taken in, rejected, waiting for a decision."""

    ordered: int
    taken: int = 0
    rejected: int = 0
    waiting: int = 0

    @property
    def to_come(self) -> int:
        """Packs that were not looked at yet, never below nothing."""
        return max(0, self.ordered - self.taken - self.rejected - self.waiting)

    @property
    def short(self) -> int:
        """Packs that did not come into the stores, never below nothing."""
        return max(0, self.ordered - self.taken - self.waiting)

    @property
    def over(self) -> int:
        """Packs more than were ordered, never below nothing."""
        return max(0, self.taken + self.waiting - self.ordered)

    @property
    def state(self) -> tuple[str, str]:
        """The shape and the words of its state."""
        if self.waiting:
            return "cannot", "waits for a decision"
        if self.over:
            return "late", f"{self.over} more than ordered"
        if not self.short:
            return "done", "all taken in"
        if self.rejected and not self.to_come:
            return "short", f"{self.rejected} rejected"
        return ("todo", "to check") if not self.taken + self.rejected else ("late", f"{self.to_come} to come")
