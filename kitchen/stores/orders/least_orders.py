"""What a set of deliveries costs when each has to reach the least order of its supplier.

For ``optimum.py``. Without least orders every food is bought alone at its least cost. Where a
delivery stays below its least order then, something dearer is bought from it on purpose: a food
from this supplier instead of another, or packs beyond the need. Both are searched exactly:

1. Each wanted food has a list of *ways* to cover it: cost, and what it spends with each delivery
   that has a least order. A way is left out when another costs no more and spends no less.
2. Packs beyond the need are a sum of their own for each delivery: the least that must be added to
   spend so much more there (``Extra``).
3. Foods are joined one after the other. A beginning (what it spends, at most the least orders)
   keeps its cheapest way. It is given up when its cost, with a lower bound of the rest, is
   above the best answer known. The bound prices what is still to be spent with each delivery
   (``_prices``): for any price, the rest costs at least what it costs with the spending
   credited, plus the price of the spending that is missing.

Numbers are whole throughout, so that a bound is a bound. Beyond ``MOST_BEGINNINGS`` the search
ends with the best answer found and with the bound, and says that it is no proof.

Worked example: butter for £9.00 from the dairy and flour for £8.00 from the mill or £8.50 from
the dairy; the dairy takes no order below £17.00. The flour comes from the dairy: £17.50. With a
least order of £18.00 a pack more is bought there.
"""

from dataclasses import dataclass
from math import gcd

from kitchen.stores.orders.choices import NEVER, Choices, Item
from kitchen.stores.packs import counts_of, least_table, packs_for

#: How many beginnings are looked at before the search ends without a proof (our own choice, no source).
MOST_BEGINNINGS = 20_000
#: How often the prices are bettered; more changes the speed and never the answer (our own choice).
ROUNDS = 30

#: With how many others a beginning is compared; more changes the speed and never the answer (our own).
MOST_COMPARED = 60

#: What is spent with each delivery that has a least order.
Spent = tuple[int, ...]
#: Which item how often.
Counts = dict[Item, int]


@dataclass(frozen=True, slots=True)
class Settled:
    """The packs of each wanted food (extra ones last, by wanted food), their cost, and the bound."""

    picks: tuple[tuple[int, Item, int], ...]
    micro: int
    bound_micro: int


@dataclass(frozen=True, slots=True)
class Way:
    """One way to cover a wanted food: ``spent`` is ``full``, at most the least orders."""

    micro: int
    spent: Spent
    full: Spent
    counts: tuple[tuple[Item, int], ...]


class Extra:
    """The least cost of spending so much more with one delivery, whatever is bought."""

    def __init__(self, choices: Choices, drop: int) -> None:
        self.pool = [
            (wanted, item)
            for wanted, items in enumerate(choices.items)
            for item in items
            if item.drop == drop and item.pence > 0
        ]
        pairs = [(item.pence, item.micro) for _, item in self.pool]
        least = choices.ask.drops[drop].least_pence
        self.table = least_table(least, _undominated(pairs)) if pairs else [0] + [NEVER] * least
        #: The least cost of a penny spent, rounded down.
        self.price = min((micro // pence for pence, micro in pairs), default=0)

    def picks(self, pence: int) -> list[tuple[int, Item, int]]:
        """What to buy to spend that much."""
        found = []
        while pence > 0:
            wanted, item = next(
                (wanted, item)
                for wanted, item in self.pool
                if self.table[pence] == item.micro + self.table[max(0, pence - item.pence)]
            )
            found.append((wanted, item, 1))
            pence -= item.pence
        return found


class LeastOrders:
    """Settles sets of deliveries; what does not depend on the set is reckoned once."""

    def __init__(self, choices: Choices) -> None:
        self.choices = choices
        self._extras: dict[int, Extra] = {}
        #: How many beginnings may still be looked at, all sets together.
        self.left = MOST_BEGINNINGS

    def settle(self, drops: int, upper: int) -> Settled | None:
        """The cheapest packs with these deliveries, charges counted; None when all cost ``upper`` or more."""
        base = self.choices.cost(drops) + self.choices.charges(drops)
        picks = self._each_alone(drops)
        tracked = self._tracked(drops)
        spent = _sum_of(picks, tracked)
        short = [max(0, self._least(drop) - spent[at]) for at, drop in enumerate(tracked)]
        if not any(short):
            return Settled(tuple(picks), base, base) if base < upper else None
        return _Joining(self, drops, tracked).settle(upper)

    def extra(self, drop: int) -> Extra:
        """The extra packs of a delivery."""
        if drop not in self._extras:
            self._extras[drop] = Extra(self.choices, drop)
        return self._extras[drop]

    def _least(self, drop: int) -> int:
        return self.choices.ask.drops[drop].least_pence

    def _tracked(self, drops: int) -> list[int]:
        return [at for at, drop in enumerate(self.choices.ask.drops) if drops >> at & 1 and drop.least_pence]

    def _each_alone(self, drops: int) -> list[tuple[int, Item, int]]:
        """Each food at its least cost, each pack with its freshest delivery."""
        found = []
        for wanted, want in enumerate(self.choices.ask.wanted):
            items = self.choices.open_items(wanted, drops)
            counts = counts_of(want.milligrams, [(item.milligrams, item.micro) for item in items])
            found += [(wanted, items[at], count) for at, count in counts.items()]
        return found


class _Joining:
    """One set of deliveries of which some stay below their least order."""

    def __init__(self, orders: LeastOrders, drops: int, tracked: list[int]) -> None:
        self.orders, self.choices, self.tracked = orders, orders.choices, tracked
        self.items = [self.choices.open_items(at, drops) for at in range(len(self.choices.items))]
        self.charges = self.choices.charges(drops)
        self.extras = [orders.extra(drop) for drop in tracked]
        self.least = tuple(self.choices.ask.drops[drop].least_pence for drop in tracked)

    def settle(self, upper: int) -> Settled | None:
        """The cheapest answer below ``upper``; None when there is none."""
        prices, bound, tried = self._prices(upper)
        upper = min(upper, self._filled(tried) + 1)
        if bound >= upper:
            return None
        ways = [self._ways(at, prices, upper - bound) for at in range(len(self.items))]
        order = sorted(range(len(ways)), key=lambda at: len(ways[at]))
        found = self._join([ways[at] for at in order], prices, upper) if self.orders.left > 0 else None
        if found is None and self.orders.left > 0:
            return None
        if found is None or self.orders.left <= 0:
            micro = self._filled(tried)
            return Settled(self._picks(tried), micro, min(bound, micro))
        chosen = [way for _, way in sorted(zip(order, found[1], strict=True), key=lambda pair: pair[0])]
        return Settled(self._picks(chosen), found[0], found[0])

    # Prices, the bound that they give, and the ways of one food within it

    def _prices(self, upper: int) -> tuple[Spent, int, list[Way]]:
        """Prices of a penny spent with each delivery, their bound, and the best answer met on the way."""
        prices, best = (0,) * len(self.least), ((), -NEVER)
        tried: tuple[int, list[Way]] = (2 * NEVER, [])
        for turn in range(ROUNDS):
            chosen = [self._cheapest(at, prices) for at in range(len(self.items))]
            tried = min(tried, (self._filled(chosen), chosen), key=lambda each: each[0])
            spent = [sum(way.full[at] for way in chosen) for at in range(len(self.least))]
            slope = [least - done for least, done in zip(self.least, spent, strict=True)]
            bound = self.charges + sum(way.micro for way in chosen) + _dot(prices, slope)
            best = max(best, (prices, bound), key=lambda each: each[1])
            size = sum(each * each for each in slope)
            goal = min(upper, tried[0])
            if not size or best[1] >= goal:
                break
            step = max(1, (goal - bound) * 4 // (4 + turn))
            prices = tuple(
                min(max(0, price + step * each // size), extra.price)
                for price, each, extra in zip(prices, slope, self.extras, strict=True)
            )
        return (*best, tried[1])

    def _cheapest(self, wanted: int, prices: Spent) -> Way:
        """The least cost when what is spent is credited at these prices."""
        items, want = self.items[wanted], self.choices.ask.wanted[wanted]
        sizes = [(item.milligrams, self._credited(item, prices)) for item in items]
        counts = counts_of(want.milligrams, sizes)
        return self._way(wanted, tuple((items[at], count) for at, count in counts.items()))

    def _credited(self, item: Item, prices: Spent) -> int:
        """What an item costs less its spending at these prices; never below nothing."""
        at = self.tracked.index(item.drop) if item.drop in self.tracked else None
        return item.micro - (prices[at] * item.pence if at is not None else 0)

    def _way(self, wanted: int, counts: tuple[tuple[Item, int], ...]) -> Way:
        full = tuple(
            sum(item.pence * count for item, count in counts if item.drop == drop) for drop in self.tracked
        )
        want = self.choices.ask.wanted[wanted]
        saved = want.milligrams * want.waste_pence_per_kilogram
        micro = sum(item.micro * count for item, count in counts) - saved
        return Way(micro, self._capped(full), full, counts)

    def _ways(self, wanted: int, prices: Spent, gap: int) -> list[Way]:
        """Every way that may be part of an answer within the gap, and is not beaten by another."""
        items = self.items[wanted]
        if self.orders.left <= 0 or not any(item.drop in self.tracked for item in items):
            return [self._cheapest(wanted, prices)]
        unit_of, units = _in_units(self.choices.ask.wanted[wanted].milligrams, items)
        adds = [(item, unit_of[item], self._way(wanted, ((item, 1),)).full) for item in items]
        credited = {item: self._credited(item, prices) for item in items}
        best = least_table(units, [(size, credited[item]) for item, size, _ in adds])
        fronts: list[dict[Spent, tuple]] = [{} for _ in range(units + 1)]
        fronts[units][(0,) * len(self.tracked)] = (0, None, None, 0)
        for at in range(units, 0, -1):
            found, fronts[at] = _front(fronts[at]), {}
            self.orders.left -= len(found)
            for spent, label in found if self.orders.left > 0 else ():
                for item, size, more in adds:
                    rest, net = max(0, at - size), label[3] + credited[item]
                    if net + best[rest] <= best[units] + gap:
                        both = self._capped(tuple(map(sum, zip(spent, more, strict=True))))
                        _keep(fronts[rest], both, (label[0] + item.micro, label, item, net))
        return [self._way(wanted, _counted(label)) for _, label in _front(fronts[0])]

    def _capped(self, spent: Spent) -> Spent:
        return tuple(map(min, spent, self.least))

    # Joining the foods

    def _filled(self, ways: list[Way]) -> int:
        """These ways, with extra packs up to every least order."""
        return self.charges + sum(way.micro for way in ways) + self._missing(self._total(ways))

    def _missing(self, spent: Spent) -> int:
        """What extra packs cost that lead from there to every least order."""
        ends = zip(self.extras, self.least, spent, strict=True)
        return sum(extra.table[least - done] for extra, least, done in ends)

    def _total(self, ways: list[Way]) -> Spent:
        return self._capped(tuple(sum(way.full[at] for way in ways) for at in range(len(self.least))))

    def _join(self, ways: list[list[Way]], prices: Spent, upper: int) -> tuple[int, list[Way]] | None:
        """The cheapest answer below ``upper``; None when there is none or the search gave up."""
        rest = [0]
        for each in reversed(ways):
            rest.append(rest[-1] + min(way.micro - _dot(prices, way.spent) for way in each))
        rest.reverse()
        labels = {(0,) * len(self.least): (self.charges, None, None)}
        for at, each in enumerate(ways):
            joined: dict[Spent, tuple] = {}
            for spent, label in _front(labels):
                for way in each:
                    micro = label[0] + way.micro
                    now = self._capped(tuple(map(sum, zip(spent, way.spent, strict=True))))
                    if micro + rest[at + 1] + self._priced(prices, now) < upper:
                        _keep(joined, now, (micro, label, way))
            labels = joined
            self.orders.left -= len(labels)
            if self.orders.left <= 0:
                return None
        ends = [(label[0] + self._missing(spent), label) for spent, label in labels.items()]
        micro, label = min(ends, key=lambda end: end[0], default=(upper, None))
        return (micro, _chain(label)) if micro < upper else None

    def _priced(self, prices: Spent, spent: Spent) -> int:
        return _dot(prices, tuple(map(int.__sub__, self.least, spent)))

    def _picks(self, ways: list[Way]) -> tuple[tuple[int, Item, int], ...]:
        picks = [(wanted, item, count) for wanted, way in enumerate(ways) for item, count in way.counts]
        for extra, least, done in zip(self.extras, self.least, self._total(ways), strict=True):
            picks += extra.picks(least - done)
        return tuple(picks)


def _sum_of(picks: list[tuple[int, Item, int]], tracked: list[int]) -> list[int]:
    return [sum(item.pence * count for _, item, count in picks if item.drop == drop) for drop in tracked]


def _in_units(needed: int, items: tuple[Item, ...]) -> tuple[dict[Item, int], int]:
    unit = gcd(*(item.milligrams for item in items))
    return {item: item.milligrams // unit for item in items}, packs_for(needed, unit)


def _undominated(pairs: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Without packs that another one outspends at no more cost."""
    kept: list[tuple[int, int]] = []
    for pence, micro in sorted(set(pairs), key=lambda pair: (-pair[0], pair[1])):
        if not kept or micro < kept[-1][1]:
            kept.append((pence, micro))
    return kept


def _front(labels: dict[Spent, tuple]) -> list[tuple[Spent, tuple]]:
    """Labels that no other beats: none costs no more and spends no less. Of many, not all are compared."""
    kept: list[tuple[Spent, tuple]] = []
    recent: list[Spent] = []
    for spent, label in sorted(labels.items(), key=lambda pair: (pair[1][0], [-each for each in pair[0]])):
        if not any(all(map(int.__ge__, before, spent)) for before in recent):
            kept.append((spent, label))
            recent = [each for each in recent if not all(map(int.__le__, each, spent))][-MOST_COMPARED:]
            recent.append(spent)
    return kept


def _keep(labels: dict[Spent, tuple], spent: Spent, label: tuple) -> None:
    known = labels.get(spent)
    if known is None or label[0] < known[0]:
        labels[spent] = label


def _chain(label: tuple) -> list:
    """What was added on the way to a label, the first first."""
    found = []
    while label[1] is not None:
        found.append(label[2])
        label = label[1]
    return found[::-1]


def _counted(label: tuple) -> tuple[tuple[Item, int], ...]:
    counts: Counts = {}
    for item in _chain(label):
        counts[item] = counts.get(item, 0) + 1
    return tuple(counts.items())


def _dot(prices: Spent, spent: Spent) -> int:
    return sum(map(int.__mul__, prices, spent))
