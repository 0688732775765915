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
   is reserved for free-from kits and the kit is none, or when it is open and the kit is one
   (unless it is reserved, or this weight came out of it before). A best-before date that has
   passed is a matter of quality: the lot is used, with a warning. A made lot (a pooled bowl) is barred
   outside the lesson that it was made in, from its discard time on, and for free-from kits.
2. Of the rest, the earliest date that still covers the day of use goes first; lots without
   a date go last; of two bowls the one that is thrown away first; ties go to the earliest
   receipt, then to the code. A free-from kit takes reserved lots first, then unopened ones.
   What stands weighed on its tray is drawn from the lots that it was weighed from, as long
   as they may be used; what stands weighed for other lessons is not there to be drawn.
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

from curriculum.wording import amount, listed


@dataclass(frozen=True, slots=True)
class LotData:
    """One lot as it stands. ``date_kind`` is "use_by", "best_before" or "none" (no date).

    ``names_more``: kinds of allergen, as printed, that the lot's own label names and the label
    of its food, as read last, does not. ``made_in`` is the code of the lesson that a made lot
    belongs to, ``discard_at`` when it is thrown away, in the college's own time. ``unread``: nobody
    has read its label; ``only_for``: codes of the lessons that a substitute was accepted for.
    ``last_on``: the last day of use after opening or thawing, where the stores have said how long.
    ``aside_milligrams``: what stands weighed out of it on trays of other lessons and has not left.
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
    aside_milligrams: int = 0

    @property
    def free_milligrams(self) -> int:
        """What can be drawn from it: on hand less what stands weighed for other lessons."""
        return max(0, self.on_hand_milligrams - self.aside_milligrams)


@dataclass(frozen=True, slots=True)
class Use:
    """What a lot is wanted for: the day, the lesson (its code) and the moment; without them no made lot."""

    on: date
    lesson: str = ""
    at: datetime | None = None


@dataclass(frozen=True, slots=True)
class LineNeed:
    """One kit line to fill: any hashable key, its food, how much, by when, for what kit.

    ``unit_milligrams`` is the weight of a whole piece that is not split, or 0 for weights;
    ``weighed_from`` are the lots that it stands weighed from, with milligrams.
    """

    key: object
    food: str
    milligrams: int
    unit_milligrams: int = 0
    free_from: bool = False
    weighed_from: tuple[tuple[str, int], ...] = ()


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
    left = {lot.code: lot.free_milligrams for lot in stock}
    weighed = [_as_weighed(need, stock, left, asked) for need in wanted]
    filled = (_fill(need, stock, left, asked, so_far) for need, so_far in zip(wanted, weighed, strict=True))
    draws = tuple(draw for found in filled for draw in found)
    return Allocation(draws, _shortages(wanted, draws, stock, asked))


def barred(lot: LotData, use: date | Use, free_from: bool = False, *, weighed: bool = False) -> str:
    """Why a lot may not be used on that day for such a kit; empty when it may.

    ``weighed``: the food stands weighed out of it already, so that it may be open by now.
    """
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
    if free_from and lot.opened and not lot.reserved_free_from and not weighed:
        return f"Lot {lot.code} is open already: a free-from kit takes an unopened or a reserved pack."
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


def warning(lot: LotData, use_on: date) -> str:
    """What to look at before a lot is used; empty when there is nothing."""
    if lot.date_kind == "best_before" and lot.dated_on is not None and lot.dated_on < use_on:
        return (
            f"Lot {lot.code} is past its best-before date of {_day(lot.dated_on)}: look at it, then decide."
        )
    return ""


def in_order(lots: Iterable[LotData], free_from: bool = False) -> list[LotData]:
    """Lots in the order in which they are used up."""
    return sorted(lots, key=lambda lot: _rank(lot, free_from))


def _rank(lot: LotData, free_from: bool) -> tuple[int, date, str, date, str]:
    kept = int(free_from and not lot.reserved_free_from)
    last = lot.discard_at.date() if lot.discard_at else lot.dated_on or date.max
    at = f"{lot.discard_at:%H:%M}" if lot.discard_at else ""
    return (kept, last, at, lot.received_on, lot.code)


def _as_weighed(need: LineNeed, stock: tuple[LotData, ...], left: dict[str, int], use: Use) -> dict[str, int]:
    """What a weight draws from the lots that it was weighed from, before anything else is drawn."""
    lots = {lot.code: lot for lot in stock if lot.food == need.food}
    taken: dict[str, int] = {}
    for code, milligrams in need.weighed_from:
        lot = lots.get(code)
        if lot is None or barred(lot, use, need.free_from, weighed=True):
            continue
        missing = need.milligrams - sum(taken.values())
        take = _whole(min(milligrams, missing, left[code]), need.unit_milligrams)
        if take:
            left[code] -= take
            taken[code] = take
    return taken


def _fill(
    need: LineNeed, stock: tuple[LotData, ...], left: dict[str, int], use: Use, weighed: dict[str, int]
) -> list[Draw]:
    """All draws of a line: what it was weighed from, then the earliest dates for what is missing."""
    taken = dict(weighed)
    missing = need.milligrams - sum(taken.values())
    usable = [lot for lot in stock if lot.food == need.food and not barred(lot, use, need.free_from)]
    for lot in in_order(usable, need.free_from):
        take = _whole(min(missing, left[lot.code]), need.unit_milligrams)
        if take:
            left[lot.code] -= take
            missing -= take
            taken[lot.code] = taken.get(lot.code, 0) + take
    warnings = {lot.code: warning(lot, use.on) for lot in stock if lot.code in taken}
    return [Draw(need.key, lot, need.food, grams, warnings[lot]) for lot, grams in taken.items()]


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
        Shortage(food, total, issued[food], _left_out(needs, food, stock, use))
        for food, total in needed.items()
        if issued[food] < total
    )


def _left_out(needs: Iterable[LineNeed], food: str, stock: tuple[LotData, ...], use: Use) -> tuple[str, ...]:
    """Why lots of this food that hold something were not used, or not wholly."""
    there = in_order(lot for lot in stock if lot.food == food and lot.on_hand_milligrams)
    kinds = {need.free_from for need in needs if need.food == food}
    barred_lots = (why for lot in there for kind in sorted(kinds) if (why := barred(lot, use, kind)))
    aside = (_aside(lot) for lot in there if lot.aside_milligrams and not barred(lot, use))
    return tuple(dict.fromkeys((*barred_lots, *aside)))


def _aside(lot: LotData) -> str:
    return f"{amount(lot.aside_milligrams)} of lot {lot.code} stand weighed on other trays."


def _day(day: date) -> str:
    return f"{day.day} {day:%b}"
