"""Small problems of whole packs, drawn from a number; and what they cost, found by trying everything."""

import random
from datetime import date, timedelta

from kitchen.stores.orders.problem import MISSING, Ask, Drop, Wanted
from kitchen.stores.packs import MICRO, PackData

MONDAY = date(2027, 2, 15)
#: No pack of a small problem is larger.
MOST_PACK = 5000


def tiny_ask(number: int) -> Ask:
    """One to three foods, one to three deliveries of two suppliers, least orders that often bind."""
    draw = random.Random(number)
    suppliers = ("dairy", "mill")
    days = [MONDAY, MONDAY + timedelta(1)]
    drops = tuple(
        Drop(supplier, day, draw.choice((0, 2, 5)), draw.choice((0, 5, 9, 12)))
        for supplier in suppliers
        for day in draw.sample(days, draw.randint(1, 2))
    )[: draw.randint(1, 3)]
    foods = ("butter", "flour", "sugar")[: draw.randint(1, 3)]
    packs = tuple(
        PackData(food, supplier, draw.randint(1, 5) * 1000, draw.randint(1, 9))
        for food in foods
        for supplier in suppliers
        for _ in range(draw.randint(0, 2))
    )
    there = {drop.supplier for drop in drops}
    wanted = tuple(
        _tiny_want(food, draw, days)
        for food in foods
        if any(pack.food == food and pack.supplier in there for pack in packs)
    )
    return Ask(wanted, drops, packs)


def _tiny_want(food: str, draw: random.Random, days: list[date]) -> Wanted:
    """A need, mostly with what else will be used; sometimes no need, so that it may only fill up."""
    more = draw.choice((0, 0, 1000, 2500, 6000))
    need = draw.randint(1, 5) * 1000 * (not more or draw.random() < 0.7)
    return Wanted(food, max(0, need - draw.choice((0, 300))), MONDAY, days[1], draw.choice((0, 0, 400)), more)


def cost_by_trying(ask: Ask) -> int:
    """The least cost over every set of deliveries, by walking from nothing bought to all covered.

    A state is what is bought of each food and still to be spent with each delivery. A food that no
    delivery of the set brings is missing; one that it brings is lawful at the end within its most
    (``Wanted.most_milligrams``) or where it costs what the cheapest cover of its own costs.
    """
    free = sum(1 << at for at, drop in enumerate(ask.drops) if not (drop.charge_pence or drop.least_pence))
    found = [_walk(ask, drops | free) for drops in range(1 << len(ask.drops))]
    return min(cost for cost in found if cost is not None)


def _walk(ask: Ask, drops: int) -> int | None:
    come = [drop for at, drop in enumerate(ask.drops) if drops >> at & 1]
    steps = [_steps(ask, want, come) for want in ask.wanted]
    out = [bool(want.milligrams) and not mine for want, mine in zip(ask.wanted, steps, strict=True)]
    base = MICRO * sum(drop.charge_pence for drop in come) + MISSING * sum(out)
    ends: dict[tuple[int, ...], int] = {tuple(drop.least_pence for drop in come): base}
    for want, mine, missing in zip(ask.wanted, steps, out, strict=True):
        if missing:
            continue
        lawful = _lawful(ask, want, mine, len(come))
        joined: dict[tuple[int, ...], int] = {}
        for left, cost in ends.items():
            for spent, more in lawful.items():
                now = tuple(max(0, each - done) for each, done in zip(left, spent, strict=True))
                joined[now] = min(joined.get(now, cost + more), cost + more)
        ends = joined
    return ends.get((0,) * len(come))


def _steps(ask: Ask, want: Wanted, come: list[Drop]) -> list[tuple[int, int, int, int]]:
    return [
        (place, pack.milligrams, pack.pence, pack.micro(want.waste_pence_per_kilogram))
        for place, drop in enumerate(come)
        if want.from_on <= drop.on <= want.by_on
        for pack in ask.packs
        if pack.food == want.food and pack.supplier == drop.supplier
    ]


def _lawful(ask: Ask, want: Wanted, steps: list, count: int) -> dict[tuple[int, ...], int]:
    """Every lawful way to buy a food: what it spends with each delivery, and its least cost."""
    saved = want.milligrams * want.waste_pence_per_kilogram
    every = _steps(ask, want, list(ask.drops))
    most = want.most_milligrams(min((size for _, size, _, _ in every), default=1))
    states = {(0, (0,) * count): 0}
    queue = list(states)
    while queue:
        got, spent = state = queue.pop()
        for place, size, pence, micro in steps:
            to = (got + size, tuple(each + pence * (n == place) for n, each in enumerate(spent)))
            cost = states[state] + micro
            if got + size <= max(most, want.milligrams + MOST_PACK) and cost < states.get(to, cost + 1):
                states[to] = cost
                queue.append(to)
    covers = {state: cost for state, cost in states.items() if state[0] >= want.milligrams}
    least = min(covers.values())
    found: dict[tuple[int, ...], int] = {}
    for (got, spent), cost in covers.items():
        if got <= most or cost == least:
            found[spent] = min(found.get(spent, cost - saved), cost - saved)
    return found


def week_ask(foods: int, sizes: int, suppliers: int, number: int = 1) -> Ask:
    """A week of so many foods, each in so many packs over the suppliers, as large as a college's."""
    draw = random.Random(number)
    names = [f"supplier {n}" for n in range(1, suppliers + 1)]
    drops = tuple(Drop(name, MONDAY, draw.randint(300, 900), draw.randint(3000, 9000)) for name in names)
    wanted, packs = [], []
    for n in range(foods):
        pence_a_kilogram = draw.randint(80, 2000)
        for _ in range(sizes):
            grams = draw.choice((250, 500, 1000, 1500, 2500, 5000, 10_000, 16_000))
            off = draw.uniform(0.85, 1.35) * (1.15 - 0.04 * (grams / 1000) ** 0.5)
            pence = max(1, round(pence_a_kilogram * grams / 1000 * off))
            packs.append(PackData(f"food {n}", draw.choice(names), grams * 1000, pence, key=len(packs)))
        waste = draw.choice((0, 0, 100))
        wanted.append(Wanted(f"food {n}", draw.randint(200, 20_000) * 1000, MONDAY, MONDAY, waste))
    return Ask(tuple(wanted), drops, tuple(packs))
