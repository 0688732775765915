"""What is proposed to be ordered for a week: the optimum, beside it two simpler ways, and what is too late.

For the page of a week. The two simpler ways are what people do who reckon by hand: every line
rounded up alone to the cheapest single pack, and the best single pack of each food after pooling.
Both pay each delivery once and are not held to least orders, so they are never shown dearer than
they would be.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from curriculum.wording import clock, long_date
from kitchen.stores.orders.calendar import SupplierData, drops, latest_chance
from kitchen.stores.orders.optimum import optimum
from kitchen.stores.orders.problem import Answer, Ask, Drop, Wanted
from kitchen.stores.packs import PackData, cheapest


@dataclass(frozen=True, slots=True)
class TooLate:
    """A food that nobody can bring in time, and why."""

    wanted: Wanted
    why: str


@dataclass(frozen=True, slots=True)
class Proposal:
    """The answer to an ask; ``alone_pence`` and ``single_pence`` are the two simpler ways."""

    ask: Ask
    answer: Answer
    alone_pence: int
    single_pence: int
    too_late: tuple[TooLate, ...] = ()


def propose(
    pooled: Sequence[Wanted],
    lines: Sequence[Wanted],
    packs: Sequence[PackData],
    suppliers: Mapping[str, SupplierData],
    now: datetime,
    paid: Iterable[tuple[str, date]] = (),
) -> Proposal:
    """The cheapest orders for what is wanted. ``lines`` are the same needs, each lesson's line alone."""
    by_food: dict[str, list[PackData]] = {}
    for pack in packs:
        by_food.setdefault(pack.food, []).append(pack)
    first = now.date()
    last = max((want.by_on for want in (*pooled, *lines)), default=first)
    come = drops(suppliers.values(), first, last, now, paid)
    asked = [part for want in pooled for part in _parts(want, lines, _ways(want, come, by_food))]
    can = [want for want in asked if _ways(want, come, by_food)]
    late = [want for want in asked if not _ways(want, come, by_food)]
    ask = Ask(tuple(can), come, tuple(packs))
    return Proposal(
        ask,
        optimum(ask),
        _by_hand(lines, come, by_food),
        _by_hand(can, come, by_food),
        tuple(TooLate(want, _why(want, by_food.get(want.food, []), suppliers)) for want in late),
    )


def _parts(want: Wanted, lines: Iterable[Wanted], ways: list) -> list[Wanted]:
    """The same, or each day alone where no one delivery serves all its days."""
    if ways:
        return [want]
    by_day: dict[date, Wanted] = {}
    for line in lines:
        if line.food == want.food and line.from_on <= want.from_on and want.by_on <= line.by_on:
            before = by_day.get(line.by_on)
            more = before.milligrams if before else 0
            by_day[line.by_on] = replace(line, milligrams=line.milligrams + more)
    return list(by_day.values()) or [want]


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
    if chance is None:
        return (
            f"Nobody who sells it delivers between {long_date(want.from_on, want.by_on)} and "
            f"{long_date(want.by_on, want.by_on)}: earlier it does not keep, later it comes too late."
        )
    until, supplier, day = chance
    return (
        f"It had to be sent to {supplier.name} by {clock(until.time())} on "
        f"{long_date(until.date(), want.by_on)}, for the delivery on {long_date(day, want.by_on)}."
    )
