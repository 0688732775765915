"""Baker's percentages, both ways: every weight of a dough as a share of its flour.

For whoever reads or writes a dough. Flour is 100 %; the total is more than 100 %. Exact
fractions; nobody rounds a total on the way (a divisor shortened from 1.62125 to 1.62
moves 50 kg of dough by 40 g).

Worked example: 73 baguettes of 390 g at 100/67/2/1 are 28,470 g at a total of 170 %:
flour 28,470 / 1.70 = 16,747.06 g, salt 334.94 g.
"""

from collections.abc import Mapping
from fractions import Fraction

from curriculum.errors import RuleBroken
from curriculum.recipes.data import ComponentData, RecipeData

Percentages = Mapping[str, Fraction]


def percentages(milligrams: Mapping[str, int | Fraction], flours: frozenset[str]) -> dict[str, Fraction]:
    """Each food's percentage of all the flour together. RuleBroken without flour."""
    flour = sum((Fraction(weight) for food, weight in milligrams.items() if food in flours), Fraction(0))
    if flour == 0:
        raise RuleBroken("dough_without_flour", "This dough has no flour, so nothing is a percentage of it.")
    return {food: Fraction(weight) * 100 / flour for food, weight in milligrams.items()}


def from_total(total_milligrams: Fraction | int, shares: Percentages) -> dict[str, Fraction]:
    """Weights of a dough of ``total_milligrams``."""
    per_percent = Fraction(total_milligrams) / sum(shares.values(), Fraction(0))
    return {food: share * per_percent for food, share in shares.items()}


def from_one(food: str, milligrams: Fraction | int, shares: Percentages) -> dict[str, Fraction]:
    """Weights of a dough of which one food is known (50 g of milk at 10 %)."""
    per_percent = Fraction(milligrams) / shares[food]
    return {other: share * per_percent for other, share in shares.items()}


def doughs(recipe: RecipeData) -> list[tuple[ComponentData, dict[str, Fraction]]]:
    """Each component that has flour, with the percentages of its foods; over-issue left out.

    A food that stands on two lines counts once, together.
    """
    found = []
    for component in recipe.components:
        weights: dict[str, Fraction] = {}
        for line in component.lines:
            if line.part == "recipe":
                weights[line.food] = weights.get(line.food, Fraction(0)) + line.milligrams
        flours = frozenset(food for food in weights if recipe.food(food).dough_part == "flour")
        if flours:
            found.append((component, percentages(weights, flours)))
    return found
