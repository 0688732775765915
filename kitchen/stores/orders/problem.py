"""What is to be bought, from whom it can come, and an answer: plain data that refuses nonsense.

For ``optimum.py`` and what shows it. Days are dates, amounts whole milligrams, money whole
pence; a cost inside the search is in millionths of a penny (``packs.MICRO``).

Where a least order is not reached by what is needed, packs beyond the need fill it up, but only
of what will be used (``Wanted.more_milligrams``). So the packs of a food are lawful in one of
three cases: they stay within the need and that use; they are over by less than the smallest pack
there is; or nothing covers the need at less cost with the deliveries that come. A food whose
only deliveries cannot reach their least order so is left out, and the answer says which.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from kitchen.stores.packs import MICRO, PackData, least_cost

#: What a food counts that is left out: more than all else, so that as few as can be are (in micro).
MISSING = 10**15


@dataclass(frozen=True, slots=True)
class Wanted:
    """A food to be bought once: so much, delivered from a day (or it does not keep) to a day.

    ``waste_pence_per_kilogram`` is what a kilogram left over costs besides its price; nothing
    when it keeps until it is used. ``more_milligrams`` is what else of it will be used and keeps
    until then: only so much may fill up a least order. Nothing needed: it may only fill up.
    """

    food: str
    milligrams: int
    from_on: date
    by_on: date
    waste_pence_per_kilogram: int = 0
    more_milligrams: int = 0

    def __post_init__(self) -> None:
        least = min(self.milligrams, self.more_milligrams, self.waste_pence_per_kilogram)
        if least < 0 or not self.milligrams + self.more_milligrams:
            raise ValueError("What is wanted weighs something, and waste costs nothing or something.")

    def most_milligrams(self, smallest_pack: int) -> int:
        """What may be bought of it where it could be covered at less cost."""
        over = max(self.more_milligrams, smallest_pack - 1) if self.milligrams else self.more_milligrams
        return self.milligrams + over


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
    """What to buy. ``micro`` is its cost, ``bound_micro`` what no answer can cost less than.

    ``missing`` are the places of wanted foods that no delivery brings; each counts ``MISSING``.
    """

    buys: tuple[Buy, ...]
    drops: tuple[Drop, ...]
    micro: int
    bound_micro: int
    missing: tuple[int, ...] = ()

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
        return -(-(self.micro - len(self.missing) * MISSING - self.pence * MICRO) // MICRO)


@dataclass(frozen=True, slots=True)
class Ask:
    """Everything the search is given; every wanted food has at least one pack that can come in time."""

    wanted: tuple[Wanted, ...]
    drops: tuple[Drop, ...]
    packs: tuple[PackData, ...]


def faults(ask: Ask, answer: Answer) -> list[str]:
    """What is wrong with an answer, judged without the search: empty for a lawful one.

    Every need is covered by packs of its food that come in time, at the price of their day, or
    said to be missing; each delivery reaches its least order, and nothing is bought beyond what
    will be used to reach it; the cost is what it says.
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
    for at, (want, milligrams) in enumerate(zip(ask.wanted, got, strict=True)):
        if milligrams < want.milligrams and at not in answer.missing:
            found.append(f"{want.food} is short.")
        if milligrams and (at in answer.missing or too_much(ask, answer, at, milligrams)):
            found.append(f"{want.food} is bought beyond what will be used.")
    for drop in answer.drops:
        if sum(buy.pence for buy in answer.buys if buy.drop == drop) < drop.least_pence:
            found.append(f"{drop.supplier} does not deliver for so little on {drop.on}.")
    if (
        cost_micro(ask, answer.buys, answer.drops, answer.missing) != answer.micro
        or answer.bound_micro > answer.micro
    ):
        found.append("The cost is not what it says.")
    return found


def too_much(ask: Ask, answer: Answer, at: int, milligrams: int) -> bool:
    """Whether so much of a wanted food is neither used nor the cheapest way to cover the need."""
    want = ask.wanted[at]
    there = [
        drop for drop in ask.drops if drop in answer.drops or not (drop.charge_pence or drop.least_pence)
    ]
    smallest = min((pack.milligrams for pack in packs_in_time(ask, want, ask.drops)), default=1)
    if milligrams <= want.most_milligrams(smallest):
        return False
    sizes = [
        (pack.milligrams, pack.micro(want.waste_pence_per_kilogram))
        for pack in packs_in_time(ask, want, there)
    ]
    paid = sum(
        buy.count * buy.pack.micro(want.waste_pence_per_kilogram) for buy in answer.buys if buy.wanted == at
    )
    return not sizes or paid > least_cost(want.milligrams, sizes)


def packs_in_time(ask: Ask, want: Wanted, drops: Iterable[Drop]) -> list[PackData]:
    """The packs of a food that these deliveries bring within its days."""
    return [
        pack
        for drop in drops
        if want.from_on <= drop.on <= want.by_on
        for pack in ask.packs
        if (pack.food, pack.supplier) == (want.food, drop.supplier) and pack.sold_on(drop.on)
    ]


def cost_micro(
    ask: Ask, buys: tuple[Buy, ...], drops: tuple[Drop, ...], missing: tuple[int, ...] = ()
) -> int:
    """What these packs and deliveries cost, with what is left over and does not keep, and what is missing."""
    packs = sum(buy.count * buy.pack.micro(ask.wanted[buy.wanted].waste_pence_per_kilogram) for buy in buys)
    needs = sum(
        want.milligrams * want.waste_pence_per_kilogram
        for at, want in enumerate(ask.wanted)
        if at not in missing
    )
    return packs - needs + sum(drop.charge_pence for drop in drops) * MICRO + len(missing) * MISSING
