"""What a set of deliveries costs when each has to reach the least order of its supplier.

For ``optimum.py``. Without least orders every food is bought alone at its least cost. Where a
delivery stays below its least order then, something dearer is bought from it on purpose: a food
from this supplier instead of another, or packs beyond the need, of what will be used. Both are
searched exactly:

1. Each wanted food has a list of lawful *ways* to buy it (``ways.py``): cost, and what it spends
   with each delivery that has a least order. A way is left out when another costs no more and
   spends no less. Foods that only fill up are one sum for each delivery (``fill.py``).
2. Foods are joined one after the other. A beginning (what it spends, at most the least orders)
   keeps its cheapest way. It is given up when its cost, with a lower bound of the rest, is
   above the best answer known. The bound prices what is still to be spent with each delivery
   (``_prices``): for any price, the rest costs at least what it costs with the spending
   credited, plus the price of the spending that is missing.

What fills up is reckoned for each delivery as if no other filled up with the same food: that is
a bound. Where two do, each food goes to one of them, and the answer may stay without a proof.
Numbers are whole throughout, so that a bound is a bound; it is rounded up to what packs can come
to. Beyond so many beginnings the search ends with the best answer found and with the bound, and
says that it is no proof. A set whose least orders cannot be reached has no answer.

Worked example: butter for £9.00 from the dairy and flour for £8.00 from the mill or £8.50 from
the dairy; the dairy takes no order below £17.00. The flour comes from the dairy: £17.50. With a
least order of £18.00 a pack more is bought there, if it will be used; else the dairy has no order.
"""

from dataclasses import dataclass
from math import gcd

from kitchen.stores.orders.choices import NEVER, Choices, Item
from kitchen.stores.orders.fill import Fill
from kitchen.stores.orders.ways import Spent, Way, Ways, chain, dot, front, keep, only_fills
from kitchen.stores.packs import MICRO, counts_of

#: How many beginnings are looked at before the search ends without a proof; fewer where a solver goes on
#: then (our own choice, no source).
MOST_BEGINNINGS, BEFORE_THE_SOLVER = 20_000, 6_000
#: What settling one set counts at least, in beginnings (our own choice, no source).
A_SET = 2000
#: How often the prices are bettered; more changes the speed and never the answer (our own choice).
ROUNDS = 30


@dataclass(frozen=True, slots=True)
class Settled:
    """The packs of each wanted food (extra ones last), their cost, and the bound.

    A cost of ``NEVER`` or more: no answer was found, and the bound says what one would cost at least.
    """

    picks: tuple[tuple[int, Item, int], ...]
    micro: int
    bound_micro: int


class LeastOrders:
    """Settles sets of deliveries; what does not depend on the set is reckoned once."""

    def __init__(self, choices: Choices, beginnings: int = MOST_BEGINNINGS) -> None:
        self.choices = choices
        #: How many beginnings may still be looked at, all sets together.
        self.left = beginnings
        self._fills: dict[tuple[int, frozenset[int]], Fill] = {}

    def settle(self, drops: int, upper: int) -> Settled | None:
        """The cheapest packs with these deliveries, charges counted; None when all cost ``upper`` or more."""
        base = self.choices.cost(drops) + self.choices.charges(drops)
        picks = self._each_alone(drops)
        tracked = [
            at for at, drop in enumerate(self.choices.ask.drops) if drops >> at & 1 and drop.least_pence
        ]
        spent = _sum_of(picks, tracked)
        if all(
            done >= self.choices.ask.drops[drop].least_pence
            for done, drop in zip(spent, tracked, strict=True)
        ):
            return Settled(tuple(picks), base, base) if base < upper else None
        if base >= upper:
            return None
        if self.left <= 0:
            return Settled((), NEVER, base)
        self.left -= A_SET
        return _Joining(self, drops, tracked).settle(upper)

    def fill(self, drop: int, without: frozenset[int], least: int) -> Fill:
        """What only fills up and comes with a delivery, without some foods."""
        if (drop, without) not in self._fills:
            choices, foods = self.choices, []
            for at, want in enumerate(choices.ask.wanted):
                items = tuple(item for item in choices.items[at] if item.drop == drop)
                if items and only_fills(want) and at not in without:
                    foods.append((at, items, choices.most[at]))
            self._fills[drop, without] = Fill(foods, least)
        return self._fills[drop, without]

    def _each_alone(self, drops: int) -> list[tuple[int, Item, int]]:
        """Each food at its least cost, each pack with its freshest delivery; without what nobody brings."""
        found = []
        for wanted, want in enumerate(self.choices.ask.wanted):
            items = self.choices.open_items(wanted, drops)
            if items:
                counts = counts_of(want.milligrams, [(item.milligrams, item.micro) for item in items])
                found += [(wanted, items[at], count) for at, count in counts.items()]
        return found


class _Joining:
    """One set of deliveries of which some stay below their least order."""

    def __init__(self, orders: LeastOrders, drops: int, tracked: list[int]) -> None:
        self.orders, self.choices, self.tracked = orders, orders.choices, tracked
        self.charges = self.choices.charges(drops)
        self.least = tuple(self._least(drop) for drop in tracked)
        every = [Ways(self.choices, at, drops, tracked, self.least) for at in range(len(self.choices.items))]
        #: What is joined food by food, and what only fills up.
        self.ways = [each for each in every if not each.only_fills and (each.need or each.items)]
        self.loose = [each for each in every if each.only_fills]
        self.step = self._step(every)

    def settle(self, upper: int) -> Settled | None:
        """The cheapest answer below ``upper``; None when there is none."""
        prices, bound, micro, tried = self._prices(upper)
        if bound >= min(upper, micro + 1):
            return None
        if bound < micro:
            joined = self._join(prices, min(upper, micro))
            if joined is not None:
                bound = max(bound, joined[0])
                micro, tried = joined[1:] if joined[1] < micro else (micro, tried)
        if bound >= upper or not (tried or bound < micro):
            return None
        return Settled(self._picks(tried) if micro < NEVER else (), micro, min(bound, micro))

    def _least(self, drop: int) -> int:
        """The least order, rounded up to what packs of this delivery can come to."""
        pence = gcd(*(item.pence for items in self.choices.items for item in items if item.drop == drop))
        least = self.choices.ask.drops[drop].least_pence
        return -(-least // pence) * pence if pence else least

    def _step(self, every: list[Ways]) -> int:
        """Every cost of this set, less what all have in common, is a multiple of this."""
        return gcd(*(item.micro for each in every for item in each.items)) or 1

    # Prices, the bound that they give, and the best answer met on the way

    def _prices(self, upper: int) -> tuple[Spent, int, int, list[Way]]:
        """Prices of a penny spent with each delivery, their bound, and the best answer met on the way."""
        prices, best = self._first_prices(), ((), -NEVER)
        tried: tuple[int, list[Way]] = (NEVER, [])
        seen: set[tuple] = set()
        for turn in range(ROUNDS):
            chosen = [each.best(prices) for each in (*self.ways, *self.loose)]
            joined = chosen[: len(self.ways)]
            shape = tuple(way.full for way in joined)
            if shape not in seen:
                seen.add(shape)
                for each in (joined, self._topped(joined)):
                    tried = min(tried, (self._filled(each), each), key=lambda one: one[0])
            spent = [sum(way.full[at] for way in chosen) for at in range(len(self.least))]
            slope = [least - done for least, done in zip(self.least, spent, strict=True)]
            bound = self._up(self._raw(prices))
            best = max(best, (prices, bound), key=lambda each: each[1])
            size = sum(each * each for each in slope)
            if not size or best[1] >= min(upper, tried[0]):
                break
            goal = min(upper, tried[0], best[1] + 2 * MICRO * sum(max(0, each) for each in slope) + MICRO)
            step = max(1, (goal - bound) * 4 // (4 + turn))
            prices = tuple(
                max(0, price + step * each // size) for price, each in zip(prices, slope, strict=True)
            )
        return (*best, *tried)

    def _first_prices(self) -> Spent:
        """A penny for a penny where a delivery is short, what filling up costs; or whatever bounds better."""
        spent = [
            sum(each.best((0,) * len(self.least)).full[at] for each in self.ways)
            for at in range(len(self.least))
        ]
        short = tuple(MICRO * (done < least) for done, least in zip(spent, self.least, strict=True))
        return max((short, (MICRO,) * len(short), (0,) * len(short)), key=self._raw)

    def _raw(self, prices: Spent) -> int:
        """What every answer costs at least, by these prices."""
        chosen = (each.best(prices) for each in (*self.ways, *self.loose))
        return (
            self.charges + sum(way.micro - dot(prices, way.full) for way in chosen) + dot(prices, self.least)
        )

    def _up(self, bound: int) -> int:
        """A bound, rounded up to what a cost can be."""
        common = self.charges + sum(each.common for each in self.ways)
        return common - (common - bound) // self.step * self.step

    def _topped(self, ways: list[Way]) -> list[Way]:
        """These ways, with packs beyond the need of what is needed anyhow, as far as they are used."""
        found, spent = list(ways), self._total(ways)
        for place, way in enumerate(found):
            counts, room = dict(way.counts), self.ways[place].most - way.milligrams
            for item in sorted(
                self.ways[place].items, key=lambda one: (one.micro - MICRO * one.pence, one.pence)
            ):
                while item.drop in self.tracked and item.milligrams <= room:
                    at = self.tracked.index(item.drop)
                    if self._fill(at).cost(max(0, self.least[at] - spent[at])) is not None:
                        break
                    counts[item] = counts.get(item, 0) + 1
                    room -= item.milligrams
                    spent = (*spent[:at], spent[at] + item.pence, *spent[at + 1 :])
            if counts != dict(way.counts):
                found[place] = self.ways[place].way(tuple(counts.items()))
        return found

    # Joining the foods

    def _filled(self, ways: list[Way]) -> int:
        """These ways, with what only fills up, to every least order; ``NEVER`` when that does not do."""
        picks = self._filling(self._total(ways))
        if picks is None:
            return NEVER
        return self.charges + sum(way.micro for way in ways) + sum(item.micro * n for _, item, n in picks)

    def _filling(self, spent: Spent) -> list[tuple[int, Item, int]] | None:
        """What fills up to every least order, each food with one delivery; None when it does not do."""
        short = {at: least - done for at, (least, done) in enumerate(zip(self.least, spent, strict=True))}
        short = {at: pence for at, pence in short.items() if pence}
        return self._shared(short) if len(short) > 1 else self._in_turn(short)

    def _shared(self, short: dict[int, int]) -> list[tuple[int, Item, int]] | None:
        """Each food belongs to the delivery that lacks most so far; in turn where that does not do."""
        left, mine = dict(short), {at: set() for at in short}
        for each in self.loose:
            here = {self.tracked.index(item.drop) for item in each.items if item.drop in self.tracked}
            at = max(here & left.keys(), key=lambda place: left[place], default=None)
            if at is not None:
                mine[at].add(each.place)
                left[at] -= each.most_pence(self.tracked[at])
        every, picks = {each.place for each in self.loose}, []
        for at, pence in short.items():
            fill = self._fill(at, frozenset(every - mine[at]))
            if fill.cost(pence) is None:
                return self._in_turn(short)
            picks += fill.picks(fill.cost(pence))
        return picks

    def _in_turn(self, short: dict[int, int]) -> list[tuple[int, Item, int]] | None:
        """The delivery that lacks most first, of every food; the others of what is left."""
        picks: list[tuple[int, Item, int]] = []
        for at in sorted(short, key=lambda place: -short[place]):
            fill = self._fill(at, frozenset(wanted for wanted, _, _ in picks))
            pence = fill.cost(short[at])
            if pence is None:
                return None
            picks += fill.picks(pence)
        return picks

    def _fill(self, at: int, without: frozenset[int] = frozenset()) -> Fill:
        return self.orders.fill(self.tracked[at], without, self.least[at])

    def _missing(self, spent: Spent) -> int:
        """What filling up costs at least from there to every least order."""
        short = (least - done for least, done in zip(self.least, spent, strict=True))
        costs = [self._fill(at).cost(each) for at, each in enumerate(short)]
        return NEVER if None in costs else MICRO * sum(costs)

    def _total(self, ways: list[Way]) -> Spent:
        done = (sum(way.full[at] for way in ways) for at in range(len(self.least)))
        return tuple(map(min, done, self.least))

    def _join(self, prices: Spent, upper: int) -> tuple[int, int, list[Way]] | None:
        """What every answer below ``upper`` costs at least, and the best; None when the search gave up."""
        lists, gap = [], upper - self._raw(prices)
        for each in self.ways:
            found, looked = each.within(prices, gap) if self.orders.left > 0 else ([], 0)
            self.orders.left -= looked
            lists.append(found)
        if self.orders.left <= 0:
            return None
        loose = sum(way.micro - dot(prices, way.full) for way in (each.best(prices) for each in self.loose))
        order = sorted(range(len(lists)), key=lambda at: len(lists[at]))
        ends = self._joined([lists[at] for at in order], prices, upper, loose)
        return self._best_end(ends, order, upper) if ends is not None else None

    def _best_end(self, ends: dict[Spent, tuple], order: list[int], upper: int) -> tuple[int, int, list[Way]]:
        """The bound, the cost and the ways of the best end; ``upper`` and none when there is none below."""
        costs = sorted((label[0] + self._missing(spent), spent) for spent, label in ends.items())
        least, best = min(costs[0][0], upper) if costs else upper, (upper, [])
        for cost, spent in costs:
            if cost >= best[0]:
                break
            ways = sorted(zip(order, chain(ends[spent]), strict=True), key=lambda pair: pair[0])
            real = self._filled([way for _, way in ways])
            if real < best[0]:
                best = (real, [way for _, way in ways])
        return (least, *best)

    def _joined(
        self, ways: list[list[Way]], prices: Spent, upper: int, loose: int
    ) -> dict[Spent, tuple] | None:
        """What can be spent in all and the cheapest way there; None when the search gave up."""
        rest = [loose]
        for each in reversed(ways):
            rest.append(rest[-1] + min(way.micro - dot(prices, way.spent) for way in each))
        rest.reverse()
        labels = {(0,) * len(self.least): (self.charges, None, None)}
        for at, each in enumerate(ways):
            joined: dict[Spent, tuple] = {}
            kept = front(labels)
            self.orders.left -= len(kept) * len(each)
            for spent, label in kept if self.orders.left > 0 else ():
                for way in each:
                    micro = label[0] + way.micro
                    now = tuple(map(min, map(int.__add__, spent, way.spent), self.least))
                    if micro + rest[at + 1] + self._priced(prices, now) < upper:
                        keep(joined, now, (micro, label, way))
            labels = joined
            if self.orders.left <= 0:
                return None
        return labels

    def _priced(self, prices: Spent, spent: Spent) -> int:
        return dot(prices, tuple(map(int.__sub__, self.least, spent)))

    def _picks(self, ways: list[Way]) -> tuple[tuple[int, Item, int], ...]:
        picks = [
            (each.place, item, count)
            for each, way in zip(self.ways, ways, strict=True)
            for item, count in way.counts
        ]
        return (*picks, *(self._filling(self._total(ways)) or ()))


def _sum_of(picks: list[tuple[int, Item, int]], tracked: list[int]) -> list[int]:
    return [sum(item.pence * count for _, item, count in picks if item.drop == drop) for drop in tracked]
