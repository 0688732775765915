"""Which lots a kit is filled from, and what the stores are short of.

For the kits page (shortages are named before anything is issued) and for the action that
issues. Plain data in, plain data out; amounts are whole milligrams.

The rule, in this order
-----------------------
1. A lot is *barred* when it is held, when nobody has read its label, when it is a substitute
   that was not accepted for this lesson, when its own label names a kind of allergen that the
   label of its food, as read last, does not (the kit's label would leave it out), when its
   use-by date lies before the day of use, when it was opened or thawed longer ago than the stores
   let this food keep, when it comes in only after that day, or when it
   is reserved for free-from kits and the kit is none. A best-before date that has passed is
   a matter of quality: the lot is used, with a warning. A made lot (a pooled bowl) is barred
   outside the lesson that it was made in, from its discard time on, and for free-from kits.
2. Of the rest, the earliest date that still covers the day of use goes first; lots without
   a date go last; of two bowls the one that is thrown away first; ties go to the earliest
   receipt, then to the code. A free-from kit takes reserved lots first, then unopened ones,
   then opened ones with a warning.
3. A lot may be split and a line may be filled from several lots; whole pieces are never
   split. What is left over is short, and said so: issued + short = needed.

Worked example: nine kits of 160 g butter on 16 February. Lot LS-2207, use by that very day,
has 1,000 g and gives all of it; lot LS-2219 gives the other 440 g. On the 17th the first
lot is past its use-by and is not touched.

Sources: use-by and best-before are different data (titles of GS1 identifiers 17 and 15);
issuing the earliest date first, ties by receipt, is practice in stores (common practice, no
source).
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from curriculum.wording import listed


@dataclass(frozen=True, slots=True)
class LotData:
    """One lot as it stands. ``date_kind`` is "use_by", "best_before" or "none" (no date).

    ``names_more``: kinds of allergen, as printed, that the lot's own label names and the label
    of its food, as read last, does not. ``made_in`` is the code of the lesson that a made lot
    belongs to, ``discard_at`` when it is thrown away, in the college's own time. ``unread``: nobody
    has read its label; ``only_for``: codes of the lessons that a substitute was accepted for.
    ``last_on``: the last day of use after opening or thawing, where the stores have said how long.
    """

    code: str
    food: str
    on_hand_milligrams: int
    received_on: date
    date_kind: str = "none"
    dated_on: date | None = None
    held: bool = False
    reserved_free_from: bool = False
    opened: bool = False
    names_more: tuple[str, ...] = ()
    made_in: str = ""
    discard_at: datetime | None = None
    unread: bool = False
    only_for: tuple[str, ...] | None = None
    last_on: date | None = None


@dataclass(frozen=True, slots=True)
class Use:
    """What a lot is wanted for: the day, the lesson (its code) and the moment; without them no made lot."""

    on: date
    lesson: str = ""
    at: datetime | None = None


@dataclass(frozen=True, slots=True)
class LineNeed:
    """One kit line to fill: any hashable key, its food, how much, by when, for what kit.

    ``unit_milligrams`` is the weight of a whole piece that is not split, or 0 for weights.
    """

    key: object
    food: str
    milligrams: int
    unit_milligrams: int = 0
    free_from: bool = False


@dataclass(frozen=True, slots=True)
class Draw:
    """So much from one lot for one line, with a warning where there is one."""

    key: object
    lot: str
    food: str
    milligrams: int
    warning: str = ""


@dataclass(frozen=True, slots=True)
class Shortage:
    """A food the lots do not cover: needed, issued, short, and why lots were left out."""

    food: str
    needed_milligrams: int
    issued_milligrams: int
    left_out: tuple[str, ...] = ()

    @property
    def short_milligrams(self) -> int:
        """What is missing: needed less issued."""
        return self.needed_milligrams - self.issued_milligrams


@dataclass(frozen=True, slots=True)
class Allocation:
    """Everything that is drawn, and what is short."""

    draws: tuple[Draw, ...]
    shortages: tuple[Shortage, ...]

    @property
    def warnings(self) -> tuple[str, ...]:
        """Each warning once, in the order in which it arose."""
        return tuple(dict.fromkeys(draw.warning for draw in self.draws if draw.warning))

    def by_lot(self, food: str) -> tuple[tuple[str, int], ...]:
        """For one food: lot and milligrams drawn from it, in the order in which they are used."""
        drawn: dict[str, int] = defaultdict(int)
        for draw in self.draws:
            if draw.food == food:
                drawn[draw.lot] += draw.milligrams
        return tuple(drawn.items())


def allocate(needs: Iterable[LineNeed], lots: Iterable[LotData], use: date | Use) -> Allocation:
    """Fill the lines from the lots for that use; earlier lines are served first."""
    wanted = tuple(needs)
    stock = tuple(lots)
    asked = use if isinstance(use, Use) else Use(use)
    left = {lot.code: lot.on_hand_milligrams for lot in stock}
    draws = tuple(draw for need in wanted for draw in _fill(need, stock, left, asked))
    return Allocation(draws, _shortages(wanted, draws, stock, asked))


def barred(lot: LotData, use: date | Use, free_from: bool = False) -> str:
    """Why a lot may not be used on that day for such a kit; empty when it may."""
    asked = use if isinstance(use, Use) else Use(use)
    if lot.held:
        return f"Lot {lot.code} is held."
    if lot.made_in:
        return _made_barred(lot, asked, free_from)
    if lot.unread:
        return f"Lot {lot.code} waits for its label: nobody has read it."
    if lot.only_for is not None and asked.lesson not in lot.only_for:
        return _not_accepted(lot, asked)
    if lot.names_more:
        return (
            f"The label of lot {lot.code} names {listed(lot.names_more)}, and the label of this food that "
            "was read last does not. Read the label again and write down what both name."
        )
    if lot.date_kind == "use_by" and lot.dated_on is not None and lot.dated_on < asked.on:
        return f"Lot {lot.code} is past its use-by date of {_day(lot.dated_on)}."
    if lot.last_on is not None and lot.last_on < asked.on:
        return (
            f"Lot {lot.code} was opened or thawed, and keeps until {_day(lot.last_on)} by the stores’ rule."
        )
    if lot.received_on > asked.on:
        return f"Lot {lot.code} comes in only on {_day(lot.received_on)}."
    if lot.reserved_free_from and not free_from:
        return f"Lot {lot.code} is reserved for free-from kits."
    return ""


def _not_accepted(lot: LotData, use: Use) -> str:
    if not lot.only_for:
        return f"Lot {lot.code} is a substitute and was accepted for no lesson."
    if use.lesson:
        return f"Lot {lot.code} is a substitute and was not accepted for this lesson."
    return f"Lot {lot.code} is a substitute: it goes into the lessons it was accepted for, and no other."


def _made_barred(lot: LotData, use: Use, free_from: bool) -> str:
    if lot.made_in != use.lesson:
        return f"Made lot {lot.code} belongs to the lesson it was made in."
    if use.at is not None and lot.discard_at is not None and use.at >= lot.discard_at:
        return (
            f"Made lot {lot.code} was to be thrown away by {lot.discard_at:%H:%M} on "
            f"{_day(lot.discard_at)}. Weigh it as waste."
        )
    if free_from:
        return f"Made lot {lot.code} is pooled: a free-from kit gets pieces of its own."
    return ""


def warning(lot: LotData, use_on: date, free_from: bool = False) -> str:
    """What to look at before a lot is used; empty when there is nothing."""
    if lot.date_kind == "best_before" and lot.dated_on is not None and lot.dated_on < use_on:
        return (
            f"Lot {lot.code} is past its best-before date of {_day(lot.dated_on)}: look at it, then decide."
        )
    if free_from and lot.opened:
        return f"Lot {lot.code} is open already: a free-from kit takes an unopened pack where there is one."
    return ""


def in_order(lots: Iterable[LotData], free_from: bool = False) -> list[LotData]:
    """Lots in the order in which they are used up."""
    return sorted(lots, key=lambda lot: _rank(lot, free_from))


def _rank(lot: LotData, free_from: bool) -> tuple[int, date, str, date, str]:
    kept = (0 if lot.reserved_free_from else 2 if lot.opened else 1) if free_from else 0
    last = lot.discard_at.date() if lot.discard_at else lot.dated_on or date.max
    at = f"{lot.discard_at:%H:%M}" if lot.discard_at else ""
    return (kept, last, at, lot.received_on, lot.code)


def _fill(need: LineNeed, stock: tuple[LotData, ...], left: dict[str, int], use: Use) -> list[Draw]:
    missing = need.milligrams
    draws = []
    usable = [lot for lot in stock if lot.food == need.food and not barred(lot, use, need.free_from)]
    for lot in in_order(usable, need.free_from):
        take = _whole(min(missing, left[lot.code]), need.unit_milligrams)
        if take:
            left[lot.code] -= take
            missing -= take
            draws.append(Draw(need.key, lot.code, need.food, take, warning(lot, use.on, need.free_from)))
    return draws


def _whole(milligrams: int, unit: int) -> int:
    return milligrams - milligrams % unit if unit else milligrams


def _shortages(
    needs: tuple[LineNeed, ...], draws: tuple[Draw, ...], stock: tuple[LotData, ...], use: Use
) -> tuple[Shortage, ...]:
    needed: dict[str, int] = defaultdict(int)
    issued: dict[str, int] = defaultdict(int)
    for need in needs:
        needed[need.food] += need.milligrams
    for draw in draws:
        issued[draw.food] += draw.milligrams
    return tuple(
        Shortage(food, total, issued[food], _left_out(food, stock, use))
        for food, total in needed.items()
        if issued[food] < total
    )


def _left_out(food: str, stock: tuple[LotData, ...], use: Use) -> tuple[str, ...]:
    """Why lots of this food that hold something were not used."""
    there = in_order(lot for lot in stock if lot.food == food and lot.on_hand_milligrams)
    return tuple(why for lot in there if (why := barred(lot, use)))


def _day(day: date) -> str:
    return f"{day.day} {day:%b}"
