"""The lawful ways to buy one food with a set of deliveries: what each costs and spends where.

For ``least_orders.py``. A way is lawful (``problem.faults``) when it stays within the food's most
(``Wanted.most_milligrams``), or when nothing covers the need at less cost with these deliveries.
Both are tables over whole units (the greatest common divisor of the packs): what is bought so
far, and the least that the rest costs, where money spent with a delivery may be credited at a
price. Packs beyond the need that fill a least order are part of the same table.

Worked example: 1,000 g of flour are needed and 2,000 g more will be used; packs of 1,000 g. One,
two or three packs are lawful, four are not.
"""

from dataclasses import dataclass
from math import gcd

from kitchen.stores.orders.choices import NEVER, Choices, Item
from kitchen.stores.orders.problem import MISSING, Wanted
from kitchen.stores.packs import MICRO, counts_of, least_cost, packs_for

#: With how many others a way is compared; more changes the speed and never the answer (our own choice).
MOST_COMPARED = 60

#: What is spent with each delivery that has a least order.
Spent = tuple[int, ...]
#: What a label carries: its cost, the label before it, what was added, and its cost with credit.
Label = tuple[int, "Label | None", object, int]


@dataclass(frozen=True, slots=True)
class Way:
    """One way to buy a wanted food: ``spent`` is ``full``, at most the least orders."""

    micro: int
    spent: Spent
    full: Spent
    counts: tuple[tuple[Item, int], ...]

    @property
    def milligrams(self) -> int:
        """What it brings."""
        return sum(item.milligrams * count for item, count in self.counts)


class Ways:
    """The ways of one wanted food with the deliveries of a set; ``least`` are their least orders."""

    def __init__(self, choices: Choices, wanted: int, drops: int, tracked: list[int], least: Spent) -> None:
        self.place, self.most = wanted, choices.most[wanted]
        self.want, self.tracked, self.least = choices.ask.wanted[wanted], tracked, least
        self.items = choices.open_items(wanted, drops)
        self.unit = gcd(*(item.milligrams for item in self.items)) if self.items else 1
        self.need = packs_for(self.want.milligrams, self.unit)
        self.top = self.most // self.unit
        self.sizes = [item.milligrams // self.unit for item in self.items]
        self.only_fills = only_fills(self.want) and bool(self.items)
        self.free = not any(item.drop in tracked for item in self.items)
        self._by_prices: dict[Spent, Way] = {}
        self.cheapest_covers = self._cheapest_covers()

    @property
    def saved(self) -> int:
        """What of the packs' cost is no waste: what is needed of them."""
        return self.want.milligrams * self.want.waste_pence_per_kilogram

    @property
    def common(self) -> int:
        """What every way costs before its packs are added."""
        return -self.saved if self.items else MISSING

    def most_pence(self, drop: int) -> int:
        """The most that its packs of one delivery come to."""
        return _most_within([item for item in self.items if item.drop == drop], self.most)

    def best(self, prices: Spent) -> Way:
        """The least cost when what is spent is credited at these prices."""
        mine = tuple(self._credit(item, prices) for item in self.items)
        if mine not in self._by_prices:
            self._by_prices[mine] = self._best(
                prices, [i.micro - c for i, c in zip(self.items, mine, strict=True)]
            )
        return self._by_prices[mine]

    def within(self, prices: Spent, gap: int) -> tuple[list[Way], int]:
        """Every way that costs at most so much more than the best one; and how many labels it took."""
        if self.free or not self.items:
            return [self.best(prices)], 1
        credited = [item.micro - self._credit(item, prices) for item in self.items]
        best = self.best(prices)
        most = best.micro - dot(prices, best.full) + self.saved + gap
        ends, looked = self._walk(credited, most, self.top, clipped=False)
        ways = {way.spent: way for way in ends}
        for way in self.cheapest_covers:
            if way.spent not in ways or way.micro < ways[way.spent].micro:
                ways[way.spent] = way
        return [
            way for _, (_, way) in front({spent: (way.micro, way) for spent, way in ways.items()})
        ], looked

    def way(self, counts: tuple[tuple[Item, int], ...]) -> Way:
        """What these packs cost and spend."""
        full = tuple(sum(i.pence * n for i, n in counts if i.drop == drop) for drop in self.tracked)
        micro = sum(item.micro * count for item, count in counts) - self.saved
        return Way(micro, tuple(map(min, full, self.least)), full, counts)

    def _credit(self, item: Item, prices: Spent) -> int:
        return prices[self.tracked.index(item.drop)] * item.pence if item.drop in self.tracked else 0

    def _cheapest_covers(self) -> list[Way]:
        """Every way that costs the least; of those that spend the same, one."""
        if not self.need:
            return [Way(0, (0,) * len(self.tracked), (0,) * len(self.tracked), ())]
        if not self.items:
            return [Way(MISSING, (0,) * len(self.tracked), (0,) * len(self.tracked), ())]
        costs = [item.micro for item in self.items]
        if self.free:
            sizes = [(item.milligrams, item.micro) for item in self.items]
            counts = counts_of(self.want.milligrams, sizes)
            return [self.way(tuple((self.items[at], count) for at, count in counts.items()))]
        table = _rest(self.sizes, costs, self.need, self.need, clipped=True)
        return self._walk(costs, table[0], self.need, clipped=True)[0]

    def _best(self, prices: Spent, credited: list[int]) -> Way:
        found = min(self.cheapest_covers, key=lambda way: way.micro - dot(prices, way.full))
        if self.free or not self.items or (not self.need and min(credited) >= 0):
            return found
        table = _rest(self.sizes, credited, self.need, self.top, clipped=False)
        if table[0] - self.saved >= found.micro - dot(prices, found.full):
            return found
        counts: dict[Item, int] = {}
        at = 0
        while at < self.need or table[at] < 0:
            place = next(
                place
                for place, size in enumerate(self.sizes)
                if at + size <= self.top and table[at] == credited[place] + table[at + size]
            )
            counts[self.items[place]] = counts.get(self.items[place], 0) + 1
            at += self.sizes[place]
        return self.way(tuple(counts.items()))

    def _walk(self, credited: list[int], most: int, top: int, *, clipped: bool) -> tuple[list[Way], int]:
        """The ways whose credited cost is at most that, from nothing bought upwards."""
        table = _rest(self.sizes, credited, self.need, top, clipped=clipped)
        labels: list[dict[Spent, Label]] = [{} for _ in range(top + 1)]
        labels[0][(0,) * len(self.tracked)] = (0, None, None, 0)
        adds = [
            (item, size, cost, self.way(((item, 1),)).full)
            for item, size, cost in zip(self.items, self.sizes, credited, strict=True)
        ]
        ends: dict[Spent, Label] = {}
        looked = 0
        for at in range(top + 1):
            for spent, label in front(labels[at]) if at < self.need else list(labels[at].items()):
                looked += len(adds)
                if at >= self.need:
                    keep(ends, spent, label)
                for item, size, cost, more in adds:
                    to, net = at + size, label[3] + cost
                    to = min(to, top) if clipped else to
                    if at < to <= top and net + table[to] <= most:
                        both = tuple(map(min, map(int.__add__, spent, more), self.least))
                        keep(labels[to], both, (label[0] + item.micro, label, item, net))
            labels[at] = {}
        return [self.way(_counted(label)) for _, label in front(ends)], looked


def only_fills(want: Wanted) -> bool:
    """Whether a food is not needed and only fills up; what is left of it costs nothing besides its price."""
    return not want.milligrams and not want.waste_pence_per_kilogram


def most_spent(choices: Choices, drop: int) -> int:
    """No lawful answer spends more than so many pence with one delivery."""
    found = 0
    for wanted, items in enumerate(choices.items):
        here = [item for item in items if item.drop == drop]
        if here:
            found += max(_most_within(here, choices.most[wanted]), _cover_alone(choices, wanted, here))
    return found


def _most_within(items: list[Item], most: int) -> int:
    unit = gcd(*(item.milligrams for item in items))
    table = [0] * (most // unit + 1)
    for at in range(1, len(table)):
        fit = [item for item in items if item.milligrams <= at * unit]
        table[at] = max((item.pence + table[at - item.milligrams // unit] for item in fit), default=0)
    return table[-1]


def _cover_alone(choices: Choices, wanted: int, items: list[Item]) -> int:
    """The cheapest cover with this delivery alone: what a cheapest cover costs is no more."""
    need = choices.ask.wanted[wanted].milligrams
    return least_cost(need, [(item.milligrams, item.micro) for item in items]) // MICRO


def _rest(sizes: list[int], costs: list[int], need: int, top: int, *, clipped: bool) -> list[int]:
    """The least that is still to be paid from each number of units on."""
    table = [NEVER] * (top + 1)
    for at in range(top, -1, -1):
        found = 0 if at >= need else NEVER
        for size, cost in zip(sizes, costs, strict=True):
            to = min(at + size, top) if clipped else at + size
            if at < to <= top and cost + table[to] < found:
                found = cost + table[to]
        table[at] = found
    return table


def front(labels: dict[Spent, tuple]) -> list[tuple[Spent, tuple]]:
    """Labels that no other beats: none costs no more and spends no less. Of many, not all are compared."""
    kept: list[tuple[Spent, tuple]] = []
    recent: list[Spent] = []
    for spent, label in sorted(labels.items(), key=lambda pair: (pair[1][0], [-each for each in pair[0]])):
        if not any(all(map(int.__ge__, before, spent)) for before in recent):
            kept.append((spent, label))
            recent = [each for each in recent if not all(map(int.__le__, each, spent))][-MOST_COMPARED:]
            recent.append(spent)
    return kept


def keep(labels: dict[Spent, tuple], spent: Spent, label: tuple) -> None:
    """Keep the cheapest label of what is spent."""
    known = labels.get(spent)
    if known is None or label[0] < known[0]:
        labels[spent] = label


def chain(label: tuple) -> list:
    """What was added on the way to a label, the first first."""
    found = []
    while label[1] is not None:
        found.append(label[2])
        label = label[1]
    return found[::-1]


def _counted(label: tuple) -> tuple[tuple[Item, int], ...]:
    counts: dict[Item, int] = {}
    for item in chain(label):
        counts[item] = counts.get(item, 0) + 1
    return tuple(counts.items())


def dot(prices: Spent, spent: Spent) -> int:
    """What is spent, at these prices."""
    return sum(map(int.__mul__, prices, spent))
