"""What each wanted food costs for each set of deliveries, reckoned once; shared by the searches.

For ``optimum.py``, ``ways.py`` and ``least_orders.py``. A set of deliveries is a number whose bits are their
places in the ask. The cost of a wanted food depends only on the packs that can reach it, so it
is kept by those packs, and two deliveries of one supplier at one price are reckoned once. Foods
that the same deliveries can bring are summed together.
"""

from dataclasses import dataclass, field

from kitchen.stores.orders.problem import MISSING, Ask
from kitchen.stores.packs import MICRO, least_cost

#: More than everything: no answer.
NEVER = 10**20


@dataclass(frozen=True, slots=True)
class Item:
    """One pack with one delivery, for one wanted food: places in the ask."""

    pack: int
    drop: int
    milligrams: int
    pence: int
    micro: int


@dataclass
class Choices:
    """The items of each wanted food, and what it costs for a set of deliveries."""

    ask: Ask
    items: list[tuple[Item, ...]] = field(init=False)
    #: What may be bought of each wanted food, in milligrams, when it costs more than it has to.
    most: list[int] = field(init=False)
    reach: list[int] = field(init=False)
    _by_drops: dict[int, dict[int, int]] = field(init=False)
    _same_reach: dict[int, list[int]] = field(init=False)
    _by_packs: list[dict[frozenset[int], int]] = field(init=False)

    def __post_init__(self) -> None:
        by_food: dict[str, list[int]] = {}
        for at, pack in enumerate(self.ask.packs):
            by_food.setdefault(pack.food, []).append(at)
        self.items = [self._items(at, by_food) for at in range(len(self.ask.wanted))]
        self.most = [self._most(at) for at in range(len(self.ask.wanted))]
        self.reach = [_bits(item.drop for item in items) for items in self.items]
        self._same_reach = {}
        for wanted, reach in enumerate(self.reach):
            if self.ask.wanted[wanted].milligrams:
                self._same_reach.setdefault(reach, []).append(wanted)
        self._by_drops = {reach: {} for reach in self._same_reach}
        self._by_packs = [{} for _ in self.items]
        if not all(items for items, want in zip(self.items, self.ask.wanted, strict=True) if want.milligrams):
            raise ValueError("Every wanted food has a pack that can come in time.")

    def _most(self, wanted: int) -> int:
        packs = [item.milligrams for item in self.items[wanted]]
        return self.ask.wanted[wanted].most_milligrams(min(packs, default=1))

    def _items(self, wanted: int, by_food: dict[str, list[int]]) -> tuple[Item, ...]:
        want, found = self.ask.wanted[wanted], []
        # The latest delivery first: of two that cost the same, the fresher one is taken.
        days = sorted(enumerate(self.ask.drops), key=lambda pair: (-pair[1].on.toordinal(), pair[0]))
        for place, drop in days:
            if want.from_on <= drop.on <= want.by_on:
                for at in by_food.get(want.food, ()):
                    pack = self.ask.packs[at]
                    if pack.supplier == drop.supplier and pack.sold_on(drop.on):
                        micro = pack.micro(want.waste_pence_per_kilogram)
                        found.append(Item(at, place, pack.milligrams, pack.pence, micro))
        return tuple(found)

    def open_items(self, wanted: int, drops: int) -> tuple[Item, ...]:
        """What can be bought for a wanted food with these deliveries, the fresher first."""
        return tuple(item for item in self.items[wanted] if drops >> item.drop & 1)

    def cost(self, drops: int) -> int:
        """The packs and what is wasted, for all wanted foods with these deliveries; charges apart."""
        return sum(self.cost_by_reach(drops, 0).values())

    def cost_by_reach(self, drops: int, some: int) -> dict[int, int]:
        """The same, told apart by which of ``some`` deliveries can bring a food."""
        found: dict[int, int] = {}
        for reach, known in self._by_drops.items():
            micro = known.get(drops & reach)
            if micro is None:
                micro = sum(self._cost_of(wanted, drops) for wanted in self._same_reach[reach])
                known[drops & reach] = micro
            found[reach & some] = found.get(reach & some, 0) + micro
        return found

    def _cost_of(self, wanted: int, drops: int) -> int:
        found = {item.pack: item for item in self.open_items(wanted, drops)}
        if not found:
            return MISSING
        known, packs = self._by_packs[wanted], frozenset(found)
        if packs not in known:
            want = self.ask.wanted[wanted]
            sizes = [(item.milligrams, item.micro) for item in found.values()]
            saved = want.milligrams * want.waste_pence_per_kilogram
            known[packs] = least_cost(want.milligrams, sizes) - saved
        return known[packs]

    def charges(self, drops: int) -> int:
        """What these deliveries cost."""
        return MICRO * sum(drop.charge_pence for at, drop in enumerate(self.ask.drops) if drops >> at & 1)


def _bits(places: object) -> int:
    found = 0
    for place in places:
        found |= 1 << place
    return found
