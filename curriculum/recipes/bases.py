"""The factor of a batch and of each of its components, with where it came from in words.

For ``scaling``. A component goes by portions, by the area its tin has lined, by the volume
its tin has filled, by the pan, or is fixed for each bench; see the sum in ``scaling``.

Worked example: 35 portions of 185 g are wanted as 50 of 230 g, so the batch is
50 x 230 / (35 x 185) = 11.5 / 6.475 = 1.776 times as large; nobody shortens that on the way.
"""

from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from curriculum.errors import RuleBroken
from curriculum.recipes import tins as geometry
from curriculum.recipes.data import ComponentData, RecipeData, TinData

TIN_BASES = frozenset(("lined_area", "filled_volume"))
BASIS_WORDS = {
    "portions": "by portions",
    "lined_area": "by the area lined",
    "filled_volume": "by the volume filled",
    "pieces": "by pieces",
    "vessel": "by the pan",
    "minimum": "by portions, with a least mass",
    "fixed": "fixed for each bench",
}


@dataclass(frozen=True, slots=True)
class Filled:
    """How a tin is filled: measured ``inside`` its paste or outside, to which part of its depth.

    ``old_part`` is what the recipe fills of its own tin, ``new_part`` what is wanted now.
    """

    inside: bool = True
    old_part: Fraction = Fraction(1)
    new_part: Fraction = Fraction(1)

    @property
    def factor(self) -> Fraction:
        """How much more of the depth is filled."""
        return self.new_part / self.old_part


#: As the recipe fills it.
AS_WRITTEN = Filled()


def batch_factor(recipe: RecipeData, portions: int, size: Fraction = Fraction(1)) -> Fraction:
    """Wanted over stated portions, times their ``size`` (wanted over written portion weight).

    Whole batches for counts that the same dish may be cut for: a tart stated for 8 that may be
    cut for 10 is the same tart for 10, and two of them for 20.
    """
    if size == 1 and portions % recipe.portions_stated:
        for count in recipe.may_be_cut_for:
            if portions % count == 0:
                return Fraction(portions // count)
    return Fraction(portions, recipe.portions_stated) * size


def demand_pairs(recipe: RecipeData, tins: tuple[TinData, ...]) -> tuple[TinData, ...]:
    """One new tin for each of the recipe's, or RuleBroken."""
    if len(tins) != len(recipe.tins):
        raise RuleBroken(
            "other_tins",
            f"{recipe.title} is made in {len(recipe.tins)} kinds of tin and {len(tins)} were given. "
            "Give one new tin for each.",
        )
    return tins


def own_tins(recipe: RecipeData, factor: Fraction) -> tuple[TinData, ...]:
    """The recipe's own tins, whole ones, enough for the wanted portions."""
    return tuple(replace(tin, count=max(1, ceil(tin.count * factor))) for tin in recipe.tins)


def component_factor(
    recipe: RecipeData,
    component: ComponentData,
    factor: Fraction,
    used: tuple[TinData, ...],
    filled: Filled = AS_WRITTEN,
) -> tuple[Fraction, str]:
    """(factor of this component, its basis in words) for a batch of ``factor`` in the tins ``used``."""
    words = BASIS_WORDS[component.basis]
    if component.basis in ("fixed", "vessel"):
        return Fraction(1), words
    if component.basis in TIN_BASES:
        pair = tin_of(recipe, component.code, used)
        if pair is not None:
            return _tin_factor(component.basis, *pair, filled), _tin_words(component.basis, *pair, filled)
    return factor, words


def tin_of(recipe: RecipeData, code: str, used: tuple[TinData, ...]) -> tuple[TinData, TinData] | None:
    """The tin that this component lines or fills, before and after. A recipe's only tin serves all."""
    for old, new in zip(recipe.tins, used, strict=True):
        if code == old.lined_with or code in old.filled_with:
            return old, new
    return (recipe.tins[0], used[0]) if len(recipe.tins) == 1 else None


def tin_words(
    recipe: RecipeData, factor: Fraction, used: tuple[TinData, ...], filled: Filled = AS_WRITTEN
) -> list[str]:
    """What whole tins and another depth mean, in sentences."""
    said = []
    for old, new in zip(recipe.tins, used, strict=True):
        if not _is_followed(recipe, old):
            continue
        if same_but_for_count(old, new):
            made = Fraction(new.count, old.count) * recipe.portions_stated
            wanted = factor * recipe.portions_stated
            if made != wanted and wanted.denominator == made.denominator == 1:
                said.append(f"Tins are filled whole: {wanted} portions need {new.count}, which make {made}.")
        elif depth := geometry.depth_words(old, new):
            said.append(depth)
    if filled.factor != 1:
        said.append("The tin is filled to another part of its depth, so the baking time changes with it.")
    return said


def _is_followed(recipe: RecipeData, tin: TinData) -> bool:
    """Whether some component is made larger or smaller by this tin."""
    codes = {each.code for each in recipe.components if each.basis in TIN_BASES}
    return bool(codes) if len(recipe.tins) == 1 else bool(codes & {tin.lined_with, *tin.filled_with})


def same_but_for_count(old: TinData, new: TinData) -> bool:
    """Whether it is the same tin, in another number."""
    return replace(old, count=1) == replace(new, count=1)


def _tin_factor(basis: str, old: TinData, new: TinData, filled: Filled) -> Fraction:
    part = filled.factor if basis == "filled_volume" else Fraction(1)
    if same_but_for_count(old, new):
        return Fraction(new.count, old.count) * part
    if basis == "lined_area":
        return geometry.lining_factor(old, new)
    return geometry.filling_factor(old, new, filled.inside) * part


def _tin_words(basis: str, old: TinData, new: TinData, filled: Filled) -> str:
    words = BASIS_WORDS[basis]
    part = ""
    if basis == "filled_volume" and filled.factor != 1:
        part = f", filled to {_per_cent(filled.new_part)} and not {_per_cent(filled.old_part)} of the depth"
    if same_but_for_count(old, new):
        return f"{words}, {new.count} × {geometry.words(new)}{part}"
    where = "inside" if filled.inside else "outside"
    measured = f", measured {where} the paste" if old.lined_with and basis == "filled_volume" else ""
    return f"{words}{measured}{part}, {geometry.words(old)} to {geometry.words(new)}"


def _per_cent(part: Fraction) -> str:
    return f"{round(part * 100)} %"
