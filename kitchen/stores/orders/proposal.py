"""What is proposed to be ordered for a week: the optimum, beside it two simpler ways, and what is too late.

For the page of a week. The two simpler ways are what people do who reckon by hand: every line
rounded up alone to the cheapest single pack, and the best single pack of each food after pooling.
Both pay each delivery once and are not held to least orders, so they are never shown dearer than
they would be; what cannot be ordered is left out of them too, so that all three buy the same foods.

Where a least order is not reached, the order is filled up with what lessons of the coming weeks
will use (``week.uses_of``), never with what would not keep from the first delivery on which it
could come until that lesson. Where that does not do either, the foods that only this supplier
has stay without an order, and ``Refused`` says how much is short of what.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta

from curriculum.wording import clock, long_date
from kitchen.stores.orders.calendar import SupplierData, drops, latest_chance
from kitchen.stores.orders.choices import Choices
from kitchen.stores.orders.optimum import optimum
from kitchen.stores.orders.problem import Answer, Ask, Buy, Drop, Wanted
from kitchen.stores.orders.ways import most_spent
from kitchen.stores.orders.week import FoodUse
from kitchen.stores.packs import PackData, cheapest, counts_of


@dataclass(frozen=True, slots=True)
class TooLate:
    """A food that nobody can bring in time, and why."""

    wanted: Wanted
    why: str


@dataclass(frozen=True, slots=True)
class Refused:
    """A delivery that cannot be ordered: what the foods that are left out cost, and what is short.

    ``reached_pence`` is the most that it comes to with everything that is needed or will be used. Where
    that is enough, other deliveries need the same foods for their own least orders.
    """

    drop: Drop
    buys: tuple[Buy, ...]
    reached_pence: int

    @property
    def short_pence(self) -> int:
        """What is missing to the least order; nothing where other orders need the same foods."""
        return max(0, self.drop.least_pence - self.reached_pence)


@dataclass(frozen=True, slots=True)
class Proposal:
    """The answer to an ask; ``alone_pence`` and ``single_pence`` are the two simpler ways.

    ``uses`` is what will be used of each food after the week, for what fills up.
    """

    ask: Ask
    answer: Answer
    alone_pence: int
    single_pence: int
    too_late: tuple[TooLate, ...] = ()
    refused: tuple[Refused, ...] = ()
    uses: Mapping[str, tuple[FoodUse, ...]] = field(default_factory=dict)


def propose(
    pooled: Sequence[Wanted],
    lines: Sequence[Wanted],
    packs: Sequence[PackData],
    suppliers: Mapping[str, SupplierData],
    now: datetime,
    paid: Iterable[tuple[str, date]] = (),
    uses: Mapping[str, tuple[FoodUse, ...]] | None = None,
    keeps_days: Mapping[str, int] | None = None,
) -> Proposal:
    """The cheapest orders for what is wanted. ``lines`` are the same needs, each lesson's line alone.

    ``uses`` may fill up least orders; a food without a number of days in ``keeps_days`` never does.
    """
    by_food: dict[str, list[PackData]] = {}
    for pack in packs:
        by_food.setdefault(pack.food, []).append(pack)
    first = now.date()
    last = max((want.by_on for want in (*pooled, *lines)), default=first)
    come = drops(suppliers.values(), first, last, now, paid)
    asked = [part for want in pooled for part in _parts(want, lines, _ways(want, come, by_food))]
    can = [want for want in asked if _ways(want, come, by_food)]
    late = [want for want in asked if not _ways(want, come, by_food)]
    filling = _Filling(uses or {}, keeps_days or {}, come, by_food)
    ask = Ask(tuple(filling.added(can)), come, tuple(packs))
    answer = optimum(ask)
    bought = [want for at, want in enumerate(can) if at not in answer.missing]
    left = [want for at, want in enumerate(can) if at in answer.missing]
    kept = [line for line in lines if not any(_part_of(line, want) for want in left)]
    return Proposal(
        ask,
        answer,
        _by_hand(kept, come, by_food),
        _by_hand(bought, come, by_food),
        tuple(TooLate(want, _why(want, by_food.get(want.food, []), suppliers)) for want in late),
        _refused(ask, answer, by_food),
        uses or {},
    )


@dataclass(frozen=True, slots=True)
class _Filling:
    """What may fill up: the use of the coming weeks, as far as it keeps."""

    uses: Mapping[str, tuple[FoodUse, ...]]
    keeps_days: Mapping[str, int]
    come: Sequence[Drop]
    by_food: Mapping[str, list[PackData]]

    def added(self, wants: Sequence[Wanted]) -> list[Wanted]:
        """What is wanted, the last of each food with its use; and foods that may only fill up."""
        last = {want.food: at for at, want in enumerate(wants)}
        found = [self._more(want) if last[want.food] == at else want for at, want in enumerate(wants)]
        days = [drop.on for drop in self.come]
        for food in sorted(self.uses.keys() - last.keys()) if days and wants else ():
            only = self._more(Wanted(food, 0, min(days), max(days), 0, 1))
            found += [only] if only.more_milligrams > 1 else []
        return found

    def _more(self, want: Wanted) -> Wanted:
        days = [drop.on for drop, _ in _ways(want, self.come, self.by_food)]
        if not days or want.food not in self.keeps_days:
            return want
        keeps_until = min(days) + timedelta(self.keeps_days[want.food])
        more = sum(use.milligrams for use in self.uses.get(want.food, ()) if use.on <= keeps_until)
        return replace(want, more_milligrams=more, waste_pence_per_kilogram=0) if more else want


def _refused(ask: Ask, answer: Answer, by_food: Mapping[str, list[PackData]]) -> tuple[Refused, ...]:
    """Each food that is left out, with the delivery of which the least is short."""
    if not answer.missing:
        return ()
    choices = Choices(ask)
    reached = {drop: most_spent(choices, at) for at, drop in enumerate(ask.drops)}
    found: dict[Drop, list[Buy]] = {}
    for at in answer.missing:
        want = ask.wanted[at]
        ways = _ways(want, ask.drops, by_food)
        drop = min((drop for drop, _ in ways), key=lambda each: (each.least_pence - reached[each], each.on))
        packs = [pack for each, pack in ways if each == drop]
        counts = counts_of(want.milligrams, [(pack.milligrams, pack.pence) for pack in packs])
        found.setdefault(drop, []).extend(Buy(at, drop, packs[place], n) for place, n in counts.items())
    return tuple(Refused(drop, tuple(buys), reached[drop]) for drop, buys in found.items())


def _parts(want: Wanted, lines: Iterable[Wanted], ways: list) -> list[Wanted]:
    """The same, or each day alone where no one delivery serves all its days."""
    if ways:
        return [want]
    by_day: dict[date, Wanted] = {}
    for line in lines:
        if _part_of(line, want):
            before = by_day.get(line.by_on)
            more = before.milligrams if before else 0
            by_day[line.by_on] = replace(line, milligrams=line.milligrams + more)
    return list(by_day.values()) or [want]


def _part_of(line: Wanted, want: Wanted) -> bool:
    """Whether a lesson's line is among what is bought together here."""
    return line.food == want.food and line.from_on <= want.from_on and want.by_on <= line.by_on


def _ways(
    want: Wanted, come: Iterable[Drop], by_food: Mapping[str, list[PackData]]
) -> list[tuple[Drop, PackData]]:
    return [
        (drop, pack)
        for drop in come
        if want.from_on <= drop.on <= want.by_on
        for pack in by_food.get(want.food, ())
        if pack.supplier == drop.supplier and pack.sold_on(drop.on)
    ]


def _by_hand(wants: Iterable[Wanted], come: Iterable[Drop], by_food: Mapping[str, list[PackData]]) -> int:
    """Each of these in whole packs of its cheapest single size, with the last delivery that brings it."""
    pence, used = 0, set()
    for want in wants:
        ways = _ways(want, come, by_food)
        bought = cheapest(want.milligrams, [pack for _, pack in ways])
        if bought is not None:
            pence += bought.pence
            used.add(max((drop for drop, pack in ways if pack == bought.pack), key=lambda drop: drop.on))
    return pence + sum(drop.charge_pence for drop in used)


def _why(want: Wanted, packs: list[PackData], suppliers: Mapping[str, SupplierData]) -> str:
    """Why nobody brings it in time, with the last moment at which an order would have been sent."""
    if not packs:
        return "No pack of it is on any supplier’s list."
    selling = [suppliers[code] for code in dict.fromkeys(pack.supplier for pack in packs)]
    chance = latest_chance(selling, want.from_on, want.by_on)
    shut = [
        f"{supplier.name} would come on {long_date(day, want.by_on)}, but {why}."
        for supplier in selling
        for day, why in supplier.kept_away(want.from_on, want.by_on)
    ]
    if chance is None and shut:
        return " ".join(shut)
    if chance is None:
        return (
            f"Nobody who sells it delivers between {long_date(want.from_on, want.by_on)} and "
            f"{long_date(want.by_on, want.by_on)}: earlier it does not keep, later it comes too late."
        )
    until, supplier, day = chance
    return (
        f"The order had to reach {supplier.name} by {clock(until.time())} on "
        f"{long_date(until.date(), want.by_on)}, for the delivery on {long_date(day, want.by_on)}."
    )
