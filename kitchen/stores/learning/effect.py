"""What a figure would change in the kits and requisitions of the lessons that come.

Plain data in, plain data out: each lesson is reckoned once with the figures that stand and once
with the new one among them. Worked example: nine kits of the quiche with 30 instead of 20 g of
flour take 90 g more; at 90 p a kilogram that is 8 p.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from curriculum.foods.costs import PackPrice, Use, pence, total
from curriculum.recipes.data import RecipeData
from kitchen.stores.kits import kit_of_bench
from kitchen.stores.learning.figures import Figure, allowances, allowed, laid_on
from kitchen.stores.needs import class_need


@dataclass(frozen=True, slots=True)
class Coming:
    """A lesson to come: how many batches of which recipe (as it was approved), of how many portions."""

    code: str
    title: str
    on: date
    group: str
    portions: int
    batches: tuple[tuple[RecipeData, int], ...]


@dataclass(frozen=True, slots=True)
class Change:
    """What a lesson would take more (+) or less (-) of the food: milligrams as bought, and pence."""

    code: str
    title: str
    on: date
    group: str
    milligrams: int
    pence: int


def changes(
    coming: Iterable[Coming],
    food: str,
    standing: Iterable[Figure],
    new: Figure,
    prices: Mapping[str, PackPrice],
) -> tuple[Change, ...]:
    """The lessons in which a figure would change something of a food, in their order."""
    before = tuple(standing)
    after = (*(each for each in before if _key(each) != _key(new)), new)
    found = []
    for lesson in coming:
        more = _asked(lesson, food, after) - _asked(lesson, food, before)
        if more:
            cost = total([Use(food, Fraction(abs(more)))], prices)
            sign = 1 if more > 0 else -1
            found.append(
                Change(
                    lesson.code, lesson.title, lesson.on, lesson.group, more, sign * pence(cost.exact_pence)
                )
            )
    return tuple(found)


def _key(figure: Figure) -> tuple[str, str, str]:
    return figure.kind, figure.food, figure.of


def _asked(lesson: Coming, food: str, figures: tuple[Figure, ...]) -> int:
    """What the kits take of the food together, and the allowance on it."""
    laid = [(laid_on(recipe, figures), count) for recipe, count in lesson.batches]
    kits = [kit for recipe, count in laid for kit in [kit_of_bench(recipe, lesson.portions)] * count]
    need = next((each for each in class_need(kits) if each.food == food), None)
    if need is None:
        return 0
    share = allowances([recipe for recipe, _ in laid], figures).get(food)
    return need.ordered_milligrams + allowed(need, share)[0]
