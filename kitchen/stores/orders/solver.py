"""The week's purchase as one integer programme, for weeks in which several least orders bind.

For ``optimum.py``, where its own search ended without a proof. OR-tools is imported inside one
function; where it is not installed, or does not end in its time, the answer known stands.

A delivery comes or not; of each pack with each delivery so many are bought. A food is covered or
missing, and its packs are lawful by one of the rules of ``problem.py``: within its most, or as
cheap as any cover with the deliveries that come. That last rule is written out for each group of
offers that makes a food cheaper than every smaller group does.

Worked example: 2 kg of flour are needed, in a sack of 16 kg for £13.60 or bags of 1.5 kg for £1.65.
The sack is beyond the most, and two bags cost £3.30: to fill a least order by it is not lawful.
"""

from collections import defaultdict
from dataclasses import dataclass, field, replace
from itertools import combinations
from types import ModuleType
from typing import Any

from kitchen.stores.orders.choices import Choices, Item
from kitchen.stores.orders.problem import Answer, Ask, Buy, Drop, cost_micro
from kitchen.stores.packs import least_cost, packs_for

#: Work at most of one programme, in the solver's own measure: some seconds of one core (our own choice).
WORK = 1.5
#: And for fewer packs at the same cost.
TIDY_WORK = 0.3
#: With more different offers of one food the groups of them are too many to write out.
MOST_OFFERS = 8

#: The sizes that a delivery offers of a food: milligrams and cost.
Offer = frozenset[tuple[int, int]]


def solver_module() -> ModuleType | None:
    """The solver, or None where it is not installed."""
    try:
        from ortools.sat.python import cp_model
    except ImportError:
        return None
    return cp_model


@dataclass
class _Model:
    """The variables: which deliveries come, which foods are covered, how many packs are bought."""

    cp: ModuleType
    choices: Choices
    model: Any
    comes: list[Any] = field(default_factory=list)
    covered: dict[int, Any] = field(default_factory=dict)
    bought: dict[tuple[int, Item], Any] = field(default_factory=dict)

    @property
    def ask(self) -> Ask:
        """What was asked."""
        return self.choices.ask


def solved(choices: Choices, known: Answer, work: float = WORK) -> Answer:
    """The cheapest answer with its proof, or the one known where no proof was found in the time."""
    cp = solver_module()
    if cp is None or not known.buys and not known.missing:
        return known
    for nothing_missing in (True, False):
        built = _build(cp, choices, nothing_missing=nothing_missing)
        if built is None:
            return known
        _begin_with(built, known)
        solver = _one_worker(cp, work)
        status = solver.solve(built.model)
        if status != cp.INFEASIBLE:
            return _better(built, solver, status, known) if status in (cp.OPTIMAL, cp.FEASIBLE) else known
    return known


def _one_worker(cp: ModuleType, work: float) -> Any:
    solver = cp.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.linearization_level = 2
    solver.parameters.max_deterministic_time = work
    return solver


def _better(built: "_Model", solver: Any, status: int, known: Answer) -> Answer:
    """The solver's answer where it is proved or cheaper, with the better of the bounds."""
    if status == built.cp.OPTIMAL:
        found = _answer(built, _fewest_packs(built, solver), known)
        return replace(found, bound_micro=found.micro)
    found = _answer(built, solver, known)
    best = min(found, known, key=lambda each: each.micro)
    if best.missing:
        return best
    return replace(best, bound_micro=max(known.bound_micro, int(solver.best_objective_bound)))


def _fewest_packs(built: "_Model", solver: Any) -> Any:
    """Of the answers that cost as little, one with few packs: a sack sooner than a dozen bags."""
    built.model.add(_cost(built) <= round(solver.objective_value))
    built.model.clear_hints()
    for variable in (*built.bought.values(), *built.comes, *built.covered.values()):
        built.model.add_hint(variable, solver.value(variable))
    built.model.minimize(sum(built.bought.values()))
    tidier = _one_worker(built.cp, TIDY_WORK)
    status = tidier.solve(built.model)
    return tidier if status in (built.cp.OPTIMAL, built.cp.FEASIBLE) else solver


def _build(cp: ModuleType, choices: Choices, *, nothing_missing: bool) -> _Model | None:
    """The programme; ``nothing_missing`` is tried first, since it is proved sooner."""
    built = _Model(cp, choices, cp.CpModel())
    for at, drop in enumerate(choices.ask.drops):
        comes = built.model.new_bool_var(f"delivery {at}")
        if not (drop.charge_pence or drop.least_pence):
            built.model.add(comes == 1)
        built.comes.append(comes)
    for wanted in range(len(choices.ask.wanted)):
        if not _food(built, wanted):
            return None
    for at, drop in enumerate(choices.ask.drops):
        spent = sum(item.pence * count for (_, item), count in built.bought.items() if item.drop == at)
        if drop.least_pence:
            built.model.add(spent >= drop.least_pence * built.comes[at])
    if nothing_missing:
        built.model.add_bool_and(built.covered.values())
    built.model.minimize(_cost(built))
    return built


def _food(built: _Model, wanted: int) -> bool:
    """One wanted food; False where its last rule is too long to write out."""
    model, want, items = built.model, built.ask.wanted[wanted], built.choices.items[wanted]
    most = built.choices.most[wanted]
    here = []
    for item in items:
        top = max(packs_for(want.milligrams, item.milligrams), most // item.milligrams)
        count = model.new_int_var(0, top, f"{wanted} by {item.pack} with {item.drop}")
        model.add(count <= top * built.comes[item.drop])
        built.bought[wanted, item] = count
        here.append((item, count))
    brought = sum(item.milligrams * count for item, count in here)
    if not want.milligrams:
        model.add(brought <= most)
        return True
    covered = built.covered[wanted] = model.new_bool_var(f"{wanted} is covered")
    model.add(brought >= want.milligrams).only_enforce_if(covered)
    for _, count in here:
        model.add(count == 0).only_enforce_if(~covered)
    return _within_its_most(built, wanted, here, brought, most)


def _within_its_most(built: _Model, wanted: int, here: list, brought: Any, most: int) -> bool:
    """The packs stay within the most, or no cover costs less with the deliveries that come."""
    sizes = [(item.milligrams, item.micro) for item, _ in here]
    if all(size[0] * packs_for(built.ask.wanted[wanted].milligrams, size[0]) <= most for size in sizes):
        built.model.add(brought <= most)
        return True
    cheapest = built.model.new_bool_var(f"{wanted} is covered at least cost")
    built.model.add(brought <= most).only_enforce_if(~cheapest)
    offers = _offers(built, wanted)
    if len(offers) > MOST_OFFERS:
        return False
    paid = sum(item.micro * count for item, count in here)
    for group, cost in _groups(built.ask.wanted[wanted].milligrams, list(offers)):
        come = [offers[offer] for offer in group]
        built.model.add(paid <= cost).only_enforce_if([cheapest, built.covered[wanted], *come])
    return True


def _offers(built: _Model, wanted: int) -> dict[Offer, Any]:
    """What is on offer for a food, each with whether some delivery that offers just that comes."""
    by_drop: dict[int, set[tuple[int, int]]] = defaultdict(set)
    for item in built.choices.items[wanted]:
        by_drop[item.drop].add((item.milligrams, item.micro))
    offers: dict[Offer, Any] = {}
    for drop, sizes in by_drop.items():
        offer = frozenset(sizes)
        if offer not in offers:
            offers[offer] = built.model.new_bool_var(f"{wanted} is offered so with {drop}")
        built.model.add_implication(built.comes[drop], offers[offer])
    return offers


def _groups(need: int, offers: list[Offer]) -> list[tuple[tuple[Offer, ...], int]]:
    """Groups of offers with which a food costs less than with every smaller group, and what it costs."""
    found: list[tuple[tuple[Offer, ...], int]] = []
    for size in range(1, len(offers) + 1):
        for group in combinations(offers, size):
            cost = least_cost(need, sorted(set().union(*group)))
            smaller = [known for other, known in found if set(other) < set(group)]
            if cost < min(smaller, default=cost + 1):
                found.append((group, cost))
    return found


def _cost(built: _Model) -> Any:
    """Packs, waste and charges; a missing food counts more than all of them together."""
    every = built.choices.charges((1 << len(built.comes)) - 1)
    missing = (
        1
        + every
        + sum(
            item.micro * max(packs_for(want.milligrams, item.milligrams), most // item.milligrams)
            for want, most, items in zip(
                built.ask.wanted, built.choices.most, built.choices.items, strict=True
            )
            for item in items
        )
    )
    charges = [built.choices.charges(1 << at) * comes for at, comes in enumerate(built.comes)]
    return (
        sum(item.micro * count for (_, item), count in built.bought.items())
        + sum(charges)
        + sum(missing * (1 - covered) for covered in built.covered.values())
        - sum(
            built.ask.wanted[at].milligrams * built.ask.wanted[at].waste_pence_per_kilogram * covered
            for at, covered in built.covered.items()
        )
    )


def _begin_with(built: _Model, known: Answer) -> None:
    """The answer known, as a beginning."""
    counts = {(buy.wanted, buy.drop, buy.pack): buy.count for buy in known.buys}
    for (wanted, item), count in built.bought.items():
        drop, pack = built.ask.drops[item.drop], built.ask.packs[item.pack]
        built.model.add_hint(count, counts.get((wanted, drop, pack), 0))
    for at, comes in enumerate(built.comes):
        built.model.add_hint(comes, built.ask.drops[at] in known.drops)
    for at, covered in built.covered.items():
        built.model.add_hint(covered, at not in known.missing)


def _answer(built: _Model, solver: Any, known: Answer) -> Answer:
    ask = built.ask
    buys = _fresher(
        ask,
        [
            Buy(wanted, ask.drops[item.drop], ask.packs[item.pack], solver.value(count))
            for (wanted, item), count in built.bought.items()
            if solver.value(count)
        ],
    )
    used = {buy.drop for buy in buys}
    drops = tuple(
        drop
        for at, drop in enumerate(ask.drops)
        if drop in used or (drop.charge_pence and solver.value(built.comes[at]))
    )
    missing = tuple(at for at, covered in built.covered.items() if not solver.value(covered))
    return Answer(buys, drops, cost_micro(ask, buys, drops, missing), known.bound_micro, missing)


def _fresher(ask: Ask, buys: list[Buy]) -> tuple[Buy, ...]:
    """The same packs, each with the latest delivery of its supplier that comes anyhow and costs the same."""
    spent: dict[Drop, int] = defaultdict(int)
    for buy in buys:
        spent[buy.drop] += buy.pence
    found = []
    for buy in buys:
        want, best = ask.wanted[buy.wanted], buy.drop
        for drop in sorted(spent, key=lambda each: each.on):
            may = drop.supplier == best.supplier and best.on < drop.on <= want.by_on
            if may and buy.pack.sold_on(drop.on) and spent[best] - buy.pence >= best.least_pence:
                spent[best] -= buy.pence
                spent[drop] += buy.pence
                best = drop
        found.append(replace(buy, drop=best))
    return tuple(found)
