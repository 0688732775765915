"""Small problems of whole packs, drawn from a number; and what they cost, found by trying everything."""

import random
from datetime import date, timedelta
from heapq import heappop, heappush

from kitchen.stores.orders.problem import Ask, Drop, Wanted
from kitchen.stores.packs import MICRO, PackData

MONDAY = date(2027, 2, 15)


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
        Wanted(
            food, draw.randint(1, 5) * 1000 - draw.choice((0, 300)), MONDAY, days[1], draw.choice((0, 0, 400))
        )
        for food in foods
        if any(pack.food == food and pack.supplier in there for pack in packs)
    )
    return Ask(wanted, drops, packs)


def cost_by_trying(ask: Ask) -> int | None:
    """The least cost over every set of deliveries, by walking from nothing bought to all covered.

    A state is what is still needed of each food and still to be spent with each delivery. None
    when no set of deliveries covers all foods.
    """
    found = [_walk(ask, drops) for drops in range(1 << len(ask.drops))]
    return min((cost for cost in found if cost is not None), default=None)


def _walk(ask: Ask, drops: int) -> int | None:
    come = [drop for at, drop in enumerate(ask.drops) if drops >> at & 1]
    steps = [
        (at, place, pack.milligrams, pack.pence, pack.micro(want.waste_pence_per_kilogram))
        for at, want in enumerate(ask.wanted)
        for place, drop in enumerate(come)
        if want.from_on <= drop.on <= want.by_on
        for pack in ask.packs
        if pack.food == want.food and pack.supplier == drop.supplier
    ]
    start = (tuple(want.milligrams for want in ask.wanted), tuple(drop.least_pence for drop in come))
    queue, done = [(0, start)], set()
    while queue:
        cost, (needs, least) = heappop(queue)
        if (needs, least) in done:
            continue
        done.add((needs, least))
        if not any(needs) and not any(least):
            saved = sum(want.milligrams * want.waste_pence_per_kilogram for want in ask.wanted)
            return cost - saved + MICRO * sum(drop.charge_pence for drop in come)
        for at, place, milligrams, pence, micro in steps:
            left = tuple(max(0, need - milligrams) if n == at else need for n, need in enumerate(needs))
            spend = tuple(max(0, each - pence) if n == place else each for n, each in enumerate(least))
            heappush(queue, (cost + micro, (left, spend)))
    return None


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
