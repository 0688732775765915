"""What is free of a thing in a place while a lesson wants it, and who lends what is short.

For the requisition, the kits page and the approval of a loan. Plain counts and whole minutes
of one day. A lesson holds what it uses from its start until it is washed and back
(``wash`` minutes after its end). What is free is the count of the place less the most that
others hold at one moment, not the sum of all: a tin used at nine can be used again at eleven.

Between lessons of one room the earlier goes first; the later one finds what is left. A room's
own lessons go before loans, and an approved loan before everything that is asked later.

Worked example: Saffron Kitchen has 6 flan tins. Its own lesson from 13:00 to 17:00 takes 4, so
that 2 are free for a lesson elsewhere from 14:00; one that ends at 12:30 and washes for 30
minutes finds all 6.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

#: Minutes for washing, drying and carrying back before others can use a thing: our own choice,
#: no source; a college writes its own.
WASH_MINUTES = 30


@dataclass(frozen=True, slots=True)
class Hold:
    """What one lesson holds of one place: ``own`` where it works in that room itself."""

    lesson: str
    place: int
    starts: int
    ends: int
    own: bool
    counts: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Asking:
    """The lesson that asks: its code, its room, its slot in minutes after midnight."""

    lesson: str
    room: int
    starts: int
    ends: int


@dataclass(frozen=True, slots=True)
class Lender:
    """A place with what is free of one thing; ``stores`` where it is the stores.

    ``besides`` is how many things that the lesson lacks this place could lend alone.
    """

    place: int
    name: str
    free: int
    stores: bool = False
    besides: int = 0


@dataclass(frozen=True, slots=True)
class Loan:
    """So many out of one place."""

    place: int
    name: str
    count: int


def free_in(
    place: int, there: Mapping[str, int], holds: Iterable[Hold], asking: Asking, wash: int
) -> dict[str, int]:
    """How many of each thing of a place are free for the lesson that asks, never below none."""
    others = [each for each in holds if each.place == place and hinders(each, asking, wash)]
    return {item: max(0, count - _most(item, others, asking, wash)) for item, count in there.items()}


def hinders(hold: Hold, asking: Asking, wash: int) -> bool:
    """Whether what is held stands in the way: it overlaps, washing included, and goes first."""
    if hold.lesson == asking.lesson:
        return False
    if hold.own and hold.place == asking.room and (hold.starts, hold.lesson) > (asking.starts, asking.lesson):
        return False
    return hold.starts < asking.ends + wash and asking.starts < hold.ends + wash


def _most(item: str, holds: Sequence[Hold], asking: Asking, wash: int) -> int:
    """The most of one thing that is held at one moment of the lesson that asks."""
    moments = {asking.starts, *(each.starts for each in holds if each.starts > asking.starts)}
    return max(
        (
            sum(each.counts.get(item, 0) for each in holds if each.starts <= moment < each.ends + wash)
            for moment in moments
        ),
        default=0,
    )


def lend(short: int, lenders: Iterable[Lender]) -> tuple[Loan, ...]:
    """Who lends what is short: as few places as can be, the stores among them where that costs no more.

    Of those that have enough alone, the one goes first that could lend most other things too: one
    walk. What all together cannot lend stays short.
    """
    ready = sorted((each for each in lenders if each.free), key=lambda each: (-each.free, each.name))
    alone = [each for each in ready if each.free >= short]
    if alone:
        chosen = min(alone, key=lambda each: (-each.besides, not each.stores, -each.free, each.name))
        return (Loan(chosen.place, chosen.name, short),)
    few = _few(short, ready)
    first = [each for each in ready if each.stores]
    rooms = [each for each in ready if not each.stores]
    with_stores = [*first, *_few(short - sum(each.free for each in first), rooms)]
    chosen = with_stores if first and len(with_stores) <= len(few) else few
    return _shared_out(short, chosen)


def _few(short: int, ready: Sequence[Lender]) -> list[Lender]:
    """The largest first, until it is enough."""
    chosen: list[Lender] = []
    for each in ready:
        if sum(one.free for one in chosen) >= short:
            break
        chosen.append(each)
    return chosen


def _shared_out(short: int, chosen: Iterable[Lender]) -> tuple[Loan, ...]:
    loans = []
    for each in chosen:
        count = min(short, each.free)
        if count:
            loans.append(Loan(each.place, each.name, count))
        short -= count
    return tuple(loans)


def start_times(by_bench: Sequence[int], beside: int, there: int, most: int = 3) -> int | None:
    """In how many start times what is there would do, or None: the benches parted evenly, largest first.

    The benches of one start time have theirs washed before the next begins; ``beside`` is taken
    all the time. One start time is no way out, so the answer is two or ``most``.
    """
    for times in range(2, min(most, len(by_bench)) + 1):
        loads = [0] * times
        for count in sorted(by_bench, reverse=True):
            loads[loads.index(min(loads))] += count
        if max(loads) + beside <= there:
            return times
    return None
