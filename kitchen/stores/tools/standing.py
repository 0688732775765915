"""How each thing of a lesson stands: needed, here, borrowed, to be borrowed, short; in words.

For the lesson's page of equipment, the kits page and the requisition. The calculation of what
is free is ``lending``, of what is needed ``needs``.

Worked example: 9 flan tins are needed and 7 are here. Saffron Kitchen has 2 free: "Short of 2
flan tins: 9 needed, 7 here. 2 can be borrowed from Saffron Kitchen. Two start times would do
without."
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from curriculum import wording
from kitchen.stores.tools.kinds import counted, many_of, name_of, order_of
from kitchen.stores.tools.lending import Asking, Hold, Lender, Loan, free_in, lend, start_times
from kitchen.stores.tools.needs import Needed


@dataclass(frozen=True, slots=True)
class Place:
    """A room or the stores: what it has that is not missing, by thing."""

    key: int
    name: str
    stores: bool
    there: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Day:
    """Everything that is asked: places, who holds what that day, minutes for washing."""

    places: tuple[Place, ...]
    holds: tuple[Hold, ...]
    wash: int


@dataclass(frozen=True, slots=True)
class Standing:
    """One thing of a lesson. ``lent`` is approved, ``offers`` could be borrowed, ``short`` is the rest."""

    item: str
    needed: int
    here: int
    lent: tuple[Loan, ...] = ()
    offers: tuple[Loan, ...] = ()
    start_times: int | None = None

    @property
    def missing(self) -> int:
        """What the room lacks beyond what is lent already."""
        return max(0, self.needed - self.here - sum(each.count for each in self.lent))

    @property
    def short(self) -> int:
        """What stays short when everything offered is borrowed."""
        return max(0, self.missing - sum(each.count for each in self.offers))

    @property
    def name(self) -> str:
        """The thing in words."""
        return name_of(self.item)

    @property
    def words(self) -> str:
        """What is short and what would do, empty when nothing is."""
        return short_words(self)


def standings(
    needed: Iterable[Needed], asking: Asking, day: Day, lent: Iterable[tuple[str, Loan]] = ()
) -> tuple[Standing, ...]:
    """Each thing of the lesson that asks, knives first; ``lent`` are its approved loans by thing."""
    free = {place.key: free_in(place.key, place.there, day.holds, asking, day.wash) for place in day.places}
    here, loans = free.get(asking.room, {}), tuple(lent)
    found = {
        each: Standing(
            each.item,
            each.count,
            here.get(each.item, 0),
            tuple(loan for item, loan in loans if item == each.item),
        )
        for each in sorted(needed, key=lambda each: order_of(each.item))
    }
    missing = [each for each in found.values() if each.missing]
    lenders = _lenders(missing, [place for place in day.places if place.key != asking.room], free)
    return tuple(
        _with_ways(one, each, lenders[one.item]) if one.missing else one for each, one in found.items()
    )


def _with_ways(one: Standing, each: Needed, lenders: Iterable[Lender]) -> Standing:
    """The same with who could lend it, and in how many start times what is there would do."""
    there = one.here + sum(loan.count for loan in one.lent)
    times = start_times(each.by_bench, each.beside, there)
    return replace(one, offers=lend(one.missing, lenders), start_times=times)


def _lenders(
    missing: Sequence[Standing], places: Sequence[Place], free: Mapping[int, Mapping[str, int]]
) -> dict[str, list[Lender]]:
    """By thing: the places that have some free, each with how many of all these it has enough of."""
    still = {
        (each.item, place.key): free[place.key].get(each.item, 0) - _lends(place.key, each)
        for each in missing
        for place in places
    }
    besides = {
        place.key: sum(still[each.item, place.key] >= each.missing for each in missing) for place in places
    }
    return {
        each.item: [
            Lender(place.key, place.name, still[each.item, place.key], place.stores, besides[place.key])
            for place in places
            if still[each.item, place.key] > 0
        ]
        for each in missing
    }


def _lends(place: int, each: Standing) -> int:
    """How many a place lends of a thing already."""
    return sum(loan.count for loan in each.lent if loan.place == place)


def short_words(each: Standing) -> str:
    """ "Short of 2 flan tins: 9 needed, 7 here. Two start times or a borrowed set would do." """
    if not each.missing:
        return ""
    lent = f" {lent_words(each.lent)}" if each.lent else ""
    return (
        f"Short of {counted(each.missing, each.item)}: {each.needed} needed, {each.here} here.{lent} "
        f"{_would_do(each)}"
    )


def lent_words(loans: Iterable[Loan]) -> str:
    """ "2 borrowed from Saffron Kitchen."."""
    return " ".join(f"{loan.count} borrowed from {loan.name}." for loan in loans)


def offer_words(loans: Iterable[Loan]) -> str:
    """ "2 from Saffron Kitchen and 1 from Lower Stores"."""
    return wording.listed(f"{loan.count} from {loan.name}" for loan in loans)


def _would_do(each: Standing) -> str:
    ways = []
    if each.offers:
        rest = f"; {each.short} stay short" if each.short else ""
        ways.append(f"Free elsewhere then: {offer_words(each.offers)}{rest}.")
    else:
        ways.append(f"No other place has {many_of(each.item)} free then.")
    if each.start_times:
        times = wording.number(each.start_times).capitalize()
        ways.append(
            f"{times} start times would do with what is here, when the first benches’ are washed before "
            "the next begin."
        )
    elif each.short:
        ways.append("Let benches share, or take fewer benches.")
    return " ".join(ways)
