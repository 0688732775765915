"""Which packs to buy from whom for a week, at least cost, exactly.

For the plan of a week. Once it is said which deliveries come, every food is bought alone
(``kitchen.stores.packs``), so the search is over sets of deliveries only: each is decided in
turn, the cheapest beginning first. A beginning costs at least what its foods cost if every
delivery still undecided came for nothing, and at least the least orders and charges of those
that were decided to come. A set that is wholly decided is settled with its least orders
(``least_orders.py``). When a settled set is the cheapest of all that is left, nothing cheaper
exists. A delivery that cannot reach its least order by what is needed and what else will be used
is never decided to come; a food that no delivery brings then is left out, and leaving one out
counts more than every cost, so that as few are as can be.

What counts: packs, deliveries, and what is left over and does not keep. What keeps is stock and
is not counted as a saving. Beyond ``MOST_SETS`` beginnings the search ends with the best answer
found and the bound; then ``solver.py`` goes on where a solver is installed, and where it proves
nothing either the answer says that it is no proof.

Worked example: a supplier who is 50p cheaper and charges £4.50 for the delivery is not asked
for one pack; for ten packs he is.
"""

from heapq import heappop, heappush
from itertools import combinations

from kitchen.stores.orders import least_orders
from kitchen.stores.orders.choices import NEVER, Choices
from kitchen.stores.orders.least_orders import LeastOrders, Settled
from kitchen.stores.orders.problem import Answer, Ask, Buy
from kitchen.stores.orders.solver import solved, solver_module
from kitchen.stores.orders.ways import most_spent
from kitchen.stores.packs import MICRO

#: How many beginnings are looked at before the search ends without a proof (our own choice, no source).
MOST_SETS = 20_000
#: For how many suppliers together the least orders are laid beside the foods that they cannot bring;
#: more changes the speed and never the answer (our own choice, no source).
MOST_TOGETHER = 4

#: A beginning in the queue: its bound, how many are undecided, its number, how many are decided,
#: and the deliveries that come or still may.
_Entry = tuple[int, int, int, int, int]


def optimum(ask: Ask, most_sets: int = MOST_SETS) -> Answer:
    """The cheapest packs and deliveries. ValueError when a wanted food can come from nobody."""
    choices = Choices(ask)
    if not ask.wanted:
        return Answer((), (), 0, 0)
    found = _Search(ask, choices).run(most_sets)
    return found if found.proved else solved(choices, found)


def beginnings() -> int:
    """How many beginnings the search may look at."""
    return least_orders.BEFORE_THE_SOLVER if solver_module() else least_orders.MOST_BEGINNINGS


class _Search:
    def __init__(self, ask: Ask, choices: Choices) -> None:
        self.ask, self.choices, self.orders = ask, choices, LeastOrders(choices, beginnings())
        reached = 0
        for want, reach in zip(ask.wanted, choices.reach, strict=True):
            reached |= reach if want.milligrams else 0
        for at, drop in enumerate(ask.drops):
            if drop.least_pence and most_spent(choices, at) < drop.least_pence:
                reached &= ~(1 << at)
        self.undecided = [
            at
            for at, drop in sorted(enumerate(ask.drops), key=lambda pair: (pair[1].on, pair[1].supplier))
            if reached >> at & 1 and (drop.charge_pence or drop.least_pence)
        ]
        self.every = reached
        self.queue: list[_Entry] = []
        self.pushed = 0
        self.best: tuple[int, Settled, int] = (2 * NEVER, Settled((), NEVER, 0), 0)
        #: The least bound of a set that could not be settled to the end.
        self.open_bound = 2 * NEVER

    def run(self, most_sets: int) -> Answer:
        self._push(0, self.every)
        for _ in range(most_sets):
            if not self.queue or self.queue[0][0] >= self.best[0] or self._hands_over():
                break
            _, _, _, decided, drops = heappop(self.queue)
            if decided == len(self.undecided):
                self._settle(drops)
            else:
                self._push(decided + 1, drops & ~(1 << self.undecided[decided]))
                self._push(decided + 1, drops)
        left = self.queue[0][0] if self.queue else 2 * NEVER
        for drops in (self.every, self.every & ~sum(1 << at for at in self.undecided)):
            if self.best[0] >= NEVER:
                self._settle(drops)
        return self._answer(min(left, self.open_bound, self.best[0]))

    def _hands_over(self) -> bool:
        """Whether nothing more is proved here and a solver goes on."""
        return self.orders.left <= 0 and solver_module() is not None

    def _push(self, decided: int, drops: int) -> None:
        bound = self._bound(decided, drops)
        if bound < min(self.best[0], NEVER):
            self.pushed += 1
            heappush(self.queue, (bound, -decided, self.pushed, decided, drops))

    def _bound(self, decided: int, drops: int) -> int:
        """What every set costs at least that begins so.

        At least what its foods cost alone; and for some of the deliveries that were decided to
        come, at least their least orders and the foods that none of them can bring.
        """
        come = [at for at in self.undecided[:decided] if drops >> at & 1]
        charges = sum(self.ask.drops[at].charge_pence for at in come)
        held = tuple(at for at in come if self.ask.drops[at].least_pence)
        costs = self.choices.cost_by_reach(drops, sum(1 << at for at in held))
        bound = sum(costs.values())
        for some in self._groups(held):
            least, bits = sum(self.ask.drops[at].least_pence for at in some), sum(1 << at for at in some)
            others = sum(micro for reach, micro in costs.items() if not reach & bits)
            bound = max(bound, MICRO * least + others)
        return MICRO * charges + bound

    def _groups(self, come: tuple[int, ...]) -> list[tuple[int, ...]]:
        """Each delivery by itself, and those of every choice of suppliers together."""
        suppliers: dict[str, list[int]] = {}
        for at in come:
            suppliers.setdefault(self.ask.drops[at].supplier, []).append(at)
        groups = {(at,) for at in come}
        for count in range(1, min(len(suppliers), MOST_TOGETHER) + 1):
            for chosen in combinations(suppliers.values(), count):
                groups.add(tuple(at for each in chosen for at in each))
        return sorted(groups)

    def _settle(self, drops: int) -> None:
        settled = self.orders.settle(drops, self.best[0])
        if settled is None:
            return
        if settled.bound_micro < settled.micro:
            self.open_bound = min(self.open_bound, settled.bound_micro)
        if settled.micro < min(NEVER, self.best[0]):
            self.best = (settled.micro, settled, drops)

    def _answer(self, bound: int) -> Answer:
        micro, settled, drops = self.best
        counts: dict[tuple[int, int, int], int] = {}
        for wanted, item, count in settled.picks:
            counts[wanted, item.drop, item.pack] = counts.get((wanted, item.drop, item.pack), 0) + count
        buys = tuple(
            Buy(wanted, self.ask.drops[drop], self.ask.packs[pack], count)
            for (wanted, drop, pack), count in counts.items()
        )
        used = {buy.drop for buy in buys}
        come = tuple(
            drop
            for at, drop in enumerate(self.ask.drops)
            if drops >> at & 1 and (drop in used or drop.charge_pence)
        )
        bought = {wanted for wanted, _, _ in counts}
        needed = (at for at, want in enumerate(self.ask.wanted) if want.milligrams)
        return Answer(buys, come, micro, bound, tuple(at for at in needed if at not in bought))
