"""The lawful ways to buy one food: within its use, or the cheapest cover; each with what it spends."""

from kitchen.stores.orders.choices import Choices
from kitchen.stores.orders.problem import Ask, Drop, Wanted
from kitchen.stores.orders.ways import Ways, front, most_spent
from kitchen.stores.packs import MICRO, PackData
from tests.builders.orders import MONDAY

MILL, SHOP = Drop("mill", MONDAY, 0, 900), Drop("shop", MONDAY)


def ways_of(need, more, packs, least=900):
    choices = Choices(Ask((Wanted("flour", need, MONDAY, MONDAY, 0, more),), (MILL, SHOP), tuple(packs)))
    return Ways(choices, 0, 0b11, [0], (least,)), choices


def test_one_two_or_three_packs_are_lawful_and_four_are_not():
    ways, choices = ways_of(1000, 2000, [PackData("flour", "mill", 1000, 200)])
    found, _ = ways.within((0,), 10**12)
    assert [(way.micro, way.spent) for way in found] == [(n * 200 * MICRO, (n * 200,)) for n in (1, 2, 3)]
    assert most_spent(choices, 0) == 600


def test_a_sack_that_is_the_cheapest_cover_is_lawful_however_large():
    packs = [PackData("flour", "mill", 1000, 200), PackData("flour", "mill", 9000, 150)]
    found, _ = ways_of(1000, 0, packs)[0].within((0,), 10**12)
    assert [way.micro for way in found] == [150 * MICRO, 200 * MICRO]
    assert most_spent(ways_of(1000, 0, packs)[1], 0) == 200


def test_what_is_spent_is_credited_at_a_price_and_the_best_way_follows_it():
    packs = [PackData("flour", "mill", 1000, 250), PackData("flour", "shop", 1000, 200)]
    ways, _ = ways_of(1000, 0, packs)
    assert [ways.best((price,)).full for price in (0, MICRO // 10, MICRO // 2)] == [(0,), (0,), (250,)]


def test_a_label_that_another_beats_is_left_out():
    assert [spent for spent, _ in front({(1,): (5,), (2,): (5,), (3,): (9,), (0,): (5,)})] == [(2,), (3,)]
