"""How a dish that goes home was cooled, against the published limit; and what became of it, in words.

Plain data in, plain data out. Whether a reading keeps a limit is a fact about the reading and says
nothing about the dish; the college's own procedure decides what goes home.

Worked example: cooling from 11:20 to 12:35 is 75 minutes, read at 7.0 °C: within 90 minutes and not
above 8 °C, so the limit is kept. 91 minutes, or 8.1 °C, do not keep it.
"""

from dataclasses import dataclass
from datetime import date, datetime

from curriculum import wording
from curriculum.limits import BY_CODE, DEFER, holds

LIMIT = BY_CODE["cooling"]
LIMIT_WORDS = f"{LIMIT.words}, at {wording.temperature(LIMIT.decicelsius)} or colder"
SOURCE = f"{LIMIT.source}. {DEFER}"


@dataclass(frozen=True, slots=True)
class Cooling:
    """When cooling began, when it was read, and the reading in tenths of a degree. Aware times.

    ValueError when it was read before it began.
    """

    since: datetime
    read_at: datetime
    decicelsius: int

    def __post_init__(self) -> None:
        if self.read_at <= self.since:
            raise ValueError("It is read after cooling began.")

    @property
    def minutes(self) -> int:
        """Whole minutes, a part of one counted as one."""
        return -(-int((self.read_at - self.since).total_seconds()) // 60)

    @property
    def kept(self) -> bool:
        """Whether time and reading both keep the limit."""
        in_time = (self.read_at - self.since).total_seconds() <= (LIMIT.seconds or 0)
        return in_time and holds(LIMIT, self.decicelsius)

    @property
    def words(self) -> str:
        """ "cooled 11:20 to 12:35 (75 min), 7 °C"."""
        times = f"{wording.clock(self.since.time())} to {wording.clock(self.read_at.time())}"
        return f"cooled {times} ({self.minutes} min), {wording.temperature(self.decicelsius)}"


def kept_with_reading() -> dict[str, object]:
    """The limit as it is kept with the reading, so that it says later what ruled then."""
    return {
        "shape": 1,
        "decicelsius": LIMIT.decicelsius,
        "seconds": LIMIT.seconds,
        "words": LIMIT_WORDS,
        "source": LIMIT.source,
        "country": LIMIT.country,
    }


@dataclass(frozen=True, slots=True)
class Portions:
    """What became of one bench's dish, in portions. ValueError below nothing."""

    eaten: int = 0
    sold: int = 0
    home: int = 0
    wasted: int = 0

    def __post_init__(self) -> None:
        if min(self.eaten, self.sold, self.home, self.wasted) < 0:
            raise ValueError("Less than no portion became of it.")

    @property
    def together(self) -> int:
        """All portions that were said."""
        return self.eaten + self.sold + self.home + self.wasted

    @property
    def words(self) -> str:
        """ "4 eaten in the college, 4 taken home"."""
        said = (
            (self.eaten, "eaten in the college"),
            (self.sold, "sold"),
            (self.home, "taken home"),
            (self.wasted, "thrown away"),
        )
        return ", ".join(f"{wording.figure(count)} {words}" for count, words in said if count)


@dataclass(frozen=True, slots=True)
class BecameEntry:
    """What a person says of one or several benches; ``decided`` is who decided where a limit is not kept."""

    portions: Portions
    cooling: Cooling | None = None
    eat_by: date | None = None
    keep_words: str = ""
    decided: str = ""


def said_words(portions: Portions, cooling: Cooling | None, eat_by: date | None, decided: str) -> str:
    """One sentence for a page or a recall: portions, then what was written of those that went home."""
    parts = [portions.words]
    if portions.home:
        parts.append(cooling.words if cooling else "no cooling written")
        if cooling and not cooling.kept:
            parts.append("the limit was not kept")
        if decided:
            parts.append(f"decided: {decided}")
        if eat_by:
            parts.append(f"to be eaten by {wording.short_date(eat_by)}")
    return wording.sentence(", ".join(parts))
