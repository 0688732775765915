"""The pages of a weigh-out as plain data: the order with its rounds, one stop, what stands in the way.

For the views and templates. Everything is in words already; nothing is reckoned here but what
comes next.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from curriculum import wording
from curriculum.foods.data import FoodData
from kitchen.stores.trays import Tray
from kitchen.stores.weighout.order import Item, Stop, WithoutLid, in_the_way, kits_in_the_way, next_stop

#: What is clean before anything is weighed, in the order of the hand: code and words.
CLEAN_START = (
    ("bench", "Bench wiped down, nothing of the last food on it"),
    ("scale", "Scale clean, level and at zero"),
    ("scoops", "Scoops and containers clean and dry, one for each food"),
    ("hands", "Hands washed, apron clean"),
)


@dataclass(frozen=True, slots=True)
class CleanTick:
    """One thing to be clean: its words, and when and by whom it was ticked today, or empty."""

    thing: str
    words: str
    done: str = ""


@dataclass(frozen=True, slots=True)
class LastTap:
    """The last weight of the person who looks, so that it can be taken back."""

    stop: str
    title: str
    item: Item


@dataclass(frozen=True, slots=True)
class WeighOut:
    """Everything of a weigh-out. ``went_on`` says why somebody weighs on before the lids are on.

    ``spoiled`` are weights whose lot may not leave any more; ``apart`` counts trays to take apart.
    """

    trays: tuple[Tray, ...]
    order: tuple[Stop, ...]
    foods: Mapping[str, FoodData]
    clean: tuple[CleanTick, ...]
    waiting: tuple[WithoutLid, ...] = ()
    went_on: str = ""
    spoiled: tuple[str, ...] = ()
    apart: int = 0
    cancelled: bool = False
    last: LastTap | None = None
    seen: str = ""

    @property
    def is_clean(self) -> bool:
        """Whether all is ticked today."""
        return all(tick.done for tick in self.clean)

    @property
    def next(self) -> Stop | None:
        """The first stop where a hand is needed."""
        return next_stop(self.order)

    @property
    def first_round(self) -> tuple[Stop, ...]:
        """Free-from kits, then dry food."""
        return tuple(stop for stop in self.order if not stop.late)

    @property
    def second_round(self) -> tuple[Stop, ...]:
        """Chilled and frozen food, which may be left until shortly before it is needed."""
        return tuple(stop for stop in self.order if stop.late)

    @property
    def first_round_done(self) -> bool:
        """Whether only the second round is left."""
        return all(not stop.to_do for stop in self.first_round)

    @property
    def blocked(self) -> tuple[Tray, ...]:
        """Kits that are not weighed, since a label is not read."""
        return tuple(tray for tray in self.trays if tray.blocked_why)

    @property
    def unchecked(self) -> tuple[Stop, ...]:
        """Stops at which a second look is still to come."""
        return tuple(stop for stop in self.order if stop.unchecked)

    @property
    def some_weighed(self) -> bool:
        """Whether anything is weighed here at all."""
        return any(stop.weighed for stop in self.order)

    def stop(self, code: str) -> Stop | None:
        """The stop of that code, or None."""
        return next((each for each in self.order if each.code == code), None)

    def in_the_way(self, stop: Stop) -> tuple[WithoutLid, ...]:
        """The kits without a lid before which this stop's food is not opened; none once somebody went on."""
        if self.went_on:
            return ()
        if stop.is_kit:
            return kits_in_the_way(stop, self.foods, self.waiting)
        return in_the_way(self.foods[stop.code], self.waiting)


def clean_ticks(done: Mapping[str, str]) -> tuple[CleanTick, ...]:
    """What is to be clean, with what is ticked: words by the code of the thing."""
    return tuple(CleanTick(thing, words, done.get(thing, "")) for thing, words in CLEAN_START)


def last_tap(order: Sequence[Stop], tapped: tuple[str, str] | None) -> LastTap | None:
    """The weight of that kit and food where it stands, with its stop."""
    if tapped is None:
        return None
    found = (
        LastTap(stop.code, stop.title, item)
        for stop in order
        for item in stop.weighed
        if (item.kit, item.food) == tapped and not item.issued
    )
    return next(found, None)


def second_round_words(stops: Sequence[Stop], on: date) -> str:
    """What stands above the second round: the day, and the first time of its stops."""
    times = sorted(stop.times for stop in stops if stop.times.startswith("Not before") and stop.to_do)
    first = times[0].split(",")[0][len("Not before ") :] if times else ""
    when = f"not before {first} on {wording.long_date(on)}" if first else f"on {wording.long_date(on)}"
    return f"It may be left: weigh it {when}, and begin with clean bench, scale, scoops and hands again."


def gate_words(order: Sequence[Stop], kits: Sequence[str], waiting: Sequence[WithoutLid]) -> list[str]:
    """What stands open before these kits leave: lids, second looks, and weights that ask for one.

    Where nothing at all was weighed here the scale's paper is the record, and nothing stands open.
    """
    items = [item for stop in order for item in stop.items if item.kit in kits]
    if not any(item.done for item in items):
        return []
    lids = [each.words for each in waiting if each.kit in kits and not each.blocked_why]
    open_checks = [_open_words(stop, kits) for stop in order]
    return [*lids, *(words for words in open_checks if words)]


def _open_words(stop: Stop, kits: Sequence[str]) -> str:
    """The second looks that are open at one stop: "Fine salt: bench 1 and spare kit not checked."."""
    items = [item for item in stop.items if item.kit in kits and item.way and not item.looked.passed]
    if not items:
        return ""
    if stop.is_kit:
        names = wording.listed(item.name for item in items)
    else:
        names = wording.listed(f"{item.name[:1].lower()}{item.name[1:]}" for item in items)
    return f"{stop.title}: {names} not looked at by a second person or scale."
