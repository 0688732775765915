"""What a draft comes to so far: what it weighs, how many portions it gives, what it costs.

For the pages of the writer, beside the forms. Weights are of what is written on the
lines; portions come from the finished weights, less the rejects, where such are written,
and are otherwise the portions stated. Cost is of what is used. Nothing is rounded before
it is written.

Worked example: paste 404 g and custard 456 g weigh 860 g; a finished weight of 760 g at
95 g a portion gives 8 portions, so 860 g put in for 8 is 107.5 g a portion before losses.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from curriculum import wording
from curriculum.errors import RuleBroken
from curriculum.foods.costs import PackPrice, a_portion, pence
from curriculum.recipes import costing, portions, scaling
from curriculum.recipes.checks import NOTHING_KNOWN, findings
from curriculum.recipes.data import ComponentData, RecipeData
from curriculum.recipes.finding import Finding, Teaching
from curriculum.wording import plural


@dataclass(frozen=True, slots=True)
class SoFar:
    """Rows of (words, figure), sentences beside them, and what the check list says."""

    weights: tuple[tuple[str, str], ...]
    total: str
    gives: tuple[tuple[str, str], ...]
    cost: tuple[tuple[str, str], ...]
    says: tuple[str, ...]
    findings: tuple[Finding, ...]

    @property
    def stopping(self) -> int:
        """How many findings have to be mended."""
        return sum(finding.stops for finding in self.findings)


def so_far(recipe: RecipeData, prices: Mapping[str, PackPrice], teaching: Teaching = NOTHING_KNOWN) -> SoFar:
    """The sums of a draft as it stands, or as it would be with what is typed."""
    served = [each for each in recipe.components if each.code not in recipe.not_served]
    total = sum(map(_put_in, recipe.components), Fraction(0))
    costs, says = _costs(recipe, prices)
    return SoFar(
        weights=tuple((each.name, wording.amount(_put_in(each))) for each in recipe.components),
        total=wording.amount(total),
        gives=tuple(_gives(recipe, sum(map(_eaten, served), Fraction(0)))),
        cost=costs,
        says=says,
        findings=findings(recipe, teaching),
    )


def _put_in(component: ComponentData) -> Fraction:
    return Fraction(sum(line.milligrams for line in component.lines))


def _eaten(component: ComponentData) -> Fraction:
    return Fraction(sum(line.milligrams for line in component.lines if line.enters_portion))


def _gives(recipe: RecipeData, eaten: Fraction) -> list[tuple[str, str]]:
    unit = recipe.unit or "portion"
    rows = [("Stated", wording.counted(recipe.portions_stated, unit, plural(unit)))]
    had = portions.to_be_had(recipe)
    if had is None:
        rows.append(("By finished weights", "none written"))
    else:
        rows.append(("By finished weights, less rejects", wording.counted(had, unit, plural(unit))))
    if eaten:
        rows.append((f"Put in for one {unit}", wording.amount(eaten / recipe.portions_stated)))
    if recipe.portion_milligrams:
        rows.append((f"One {unit} is said to weigh", wording.amount(recipe.portion_milligrams)))
    return rows


def _costs(
    recipe: RecipeData, prices: Mapping[str, PackPrice]
) -> tuple[tuple[tuple[str, str], ...], tuple[str, ...]]:
    try:
        scaled = scaling.scale(recipe, recipe.portions_stated)
        cost = costing.batch_cost(scaled, recipe, prices)
    except RuleBroken as error:
        return (), (f"The cost cannot be reckoned yet: {error.message}",)
    rows = (
        ("Cost so far", wording.money(pence(cost.exact_pence))),
        ("For one portion stated", wording.money(pence(a_portion(cost.exact_pence, scaled.portions)))),
    )
    missing = [recipe.food(code).name for code in cost.without_price]
    return rows, ((f"Without a price, so not counted: {wording.listed(missing)}.",) if missing else ())
