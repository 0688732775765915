"""What is to be bought, from whom it can come, and an answer: plain data that refuses nonsense.

For ``optimum.py`` and what shows it. Days are dates, amounts whole milligrams, money whole
pence; a cost inside the search is in millionths of a penny (``packs.MICRO``).
"""

from dataclasses import dataclass
from datetime import date

from kitchen.stores.packs import MICRO, PackData


@dataclass(frozen=True, slots=True)
class Wanted:
    """A food to be bought once: so much, delivered from a day (or it does not keep) to a day.

    ``waste_pence_per_kilogram`` is what a kilogram left over costs besides its price; nothing
    when it keeps until it is used.
    """

    food: str
    milligrams: int
    from_on: date
    by_on: date
    waste_pence_per_kilogram: int = 0

    def __post_init__(self) -> None:
        if self.milligrams <= 0 or self.waste_pence_per_kilogram < 0:
            raise ValueError("What is wanted weighs something, and waste costs nothing or something.")


@dataclass(frozen=True, slots=True)
class Drop:
    """One delivery that a supplier can still make: its charge, and the least value it is made for."""

    supplier: str
    on: date
    charge_pence: int = 0
    least_pence: int = 0


@dataclass(frozen=True, slots=True)
class Buy:
    """So many packs for one of the wanted foods (its place in the list), with one delivery."""

    wanted: int
    drop: Drop
    pack: PackData
    count: int

    @property
    def pence(self) -> int:
        """The price of these packs."""
        return self.count * self.pack.pence


@dataclass(frozen=True, slots=True)
class Answer:
    """What to buy. ``micro`` is its cost, ``bound_micro`` what no answer can cost less than."""

    buys: tuple[Buy, ...]
    drops: tuple[Drop, ...]
    micro: int
    bound_micro: int

    @property
    def proved(self) -> bool:
        """Whether nothing cheaper exists."""
        return self.micro == self.bound_micro

    @property
    def goods_pence(self) -> int:
        """The packs."""
        return sum(buy.pence for buy in self.buys)

    @property
    def charges_pence(self) -> int:
        """The deliveries."""
        return sum(drop.charge_pence for drop in self.drops)

    @property
    def pence(self) -> int:
        """What is paid: packs and deliveries."""
        return self.goods_pence + self.charges_pence

    @property
    def waste_pence(self) -> int:
        """What is left over and does not keep, in whole pence (rounded up)."""
        return -(-(self.micro - self.pence * MICRO) // MICRO)


@dataclass(frozen=True, slots=True)
class Ask:
    """Everything the search is given; every wanted food has at least one pack that can come in time."""

    wanted: tuple[Wanted, ...]
    drops: tuple[Drop, ...]
    packs: tuple[PackData, ...]


def faults(ask: Ask, answer: Answer) -> list[str]:
    """What is wrong with an answer, judged without the search: empty for a lawful one.

    Every need is covered by packs of its food that come in time, at the price of their day; each
    delivery reaches its least order; the cost is what it says.
    """
    found = []
    got = [0] * len(ask.wanted)
    for buy in answer.buys:
        want = ask.wanted[buy.wanted]
        got[buy.wanted] += buy.count * buy.pack.milligrams
        if buy.count <= 0 or buy.pack.food != want.food or buy.pack.supplier != buy.drop.supplier:
            found.append(f"{buy.pack} is not bought for {want.food} from {buy.drop.supplier}.")
        if not want.from_on <= buy.drop.on <= want.by_on or not buy.pack.sold_on(buy.drop.on):
            found.append(f"{buy.pack} does not come for {want.food} on {buy.drop.on}.")
        if buy.drop not in answer.drops or buy.drop not in ask.drops:
            found.append(f"Nobody delivers on {buy.drop.on}.")
    found += [
        f"{want.food} is short."
        for want, milligrams in zip(ask.wanted, got, strict=True)
        if milligrams < want.milligrams
    ]
    for drop in answer.drops:
        if sum(buy.pence for buy in answer.buys if buy.drop == drop) < drop.least_pence:
            found.append(f"{drop.supplier} does not deliver for so little on {drop.on}.")
    if cost_micro(ask, answer.buys, answer.drops) != answer.micro or answer.bound_micro > answer.micro:
        found.append("The cost is not what it says.")
    return found


def cost_micro(ask: Ask, buys: tuple[Buy, ...], drops: tuple[Drop, ...]) -> int:
    """What these packs and deliveries cost, with what is left over and does not keep."""
    packs = sum(buy.count * buy.pack.micro(ask.wanted[buy.wanted].waste_pence_per_kilogram) for buy in buys)
    needs = sum(want.milligrams * want.waste_pence_per_kilogram for want in ask.wanted)
    return packs - needs + sum(drop.charge_pence for drop in drops) * MICRO
