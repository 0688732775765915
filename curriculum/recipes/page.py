"""What the recipe page shows, worked out: weights, words and figures ready to print.

For the recipe page, the writing page and the printed sheet of a recipe. Plain data in,
plain data out: the template only places it. A line carries the figure, the food, its
allergens in words and its points (``weigh_words``); a step its deed, cue, ways, faults and
caution (``step_words``).
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from curriculum import wording
from curriculum.allergens import GROUPS, printed
from curriculum.foods.costs import PackPrice, a_portion, pence
from curriculum.recipes import checks_without, costing, picture, scaling, timing
from curriculum.recipes.data import FoodData, RecipeData
from curriculum.recipes.eating import WayOfEating, used_foods, ways_of_eating
from curriculum.recipes.portion_minutes import steps_for
from curriculum.recipes.scaling import ScaledRecipe
from curriculum.recipes.step_words import StepWords, steps_words
from curriculum.recipes.tins import words as tin_words
from curriculum.recipes.weigh_words import ComponentWords, component_words
from curriculum.techniques.entries import FaultEntry, TechniqueEntry


@dataclass(frozen=True, slots=True)
class RecipePage:
    """One version, for so many portions, ready to print."""

    code: str
    title: str
    number: int
    level: str
    facts: str
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    not_read: tuple[str, ...]
    free_from: tuple[str, ...]
    claims_broken: tuple[str, ...]
    components: tuple[ComponentWords, ...]
    steps: tuple[StepWords, ...]
    slip: tuple[tuple[str, str], ...]
    cost_sum: str
    without_price: tuple[str, ...]
    equipment: tuple[str, ...]
    cautions: tuple[str, ...]
    caution: str
    caution_steps: str
    words: tuple[str, ...]
    tins: tuple[str, ...]
    eating: tuple[WayOfEating, ...]
    notes: str
    picture: picture.Picture | None
    broken: tuple[str, ...]


def page_of(
    recipe: RecipeData,
    techniques: Mapping[str, str],
    prices: Mapping[str, PackPrice],
    portions: int | None = None,
    faults: Mapping[str, tuple[FaultEntry, ...]] | None = None,
) -> RecipePage:
    """The page; names and faults of techniques by code. RuleBroken for portions that are none."""
    scaled = scaling.scale(recipe, portions or recipe.portions_stated)
    timed, cook = _timed(recipe, scaled.portions)
    cost = costing.batch_cost(scaled, recipe, prices)
    foods = used_foods(recipe)
    return RecipePage(
        code=recipe.code,
        title=recipe.title,
        number=recipe.number,
        level=recipe.level,
        facts=_facts(recipe),
        contains=_kinds(foods, "contains"),
        may_contain=_may_contain(foods),
        not_read=_not_read(foods),
        free_from=tuple(_group_words(code) for code in checks_without.claims_kept(recipe)),
        claims_broken=tuple(each.words for each in checks_without.claims(recipe) if each.stops),
        components=tuple(component_words(recipe, each) for each in scaled.components),
        steps=steps_words(timed.steps, techniques, faults or {}, scaled),
        slip=tuple(_slip(timed, cook, pence(cost.exact_pence))),
        cost_sum=wording.money(pence(a_portion(cost.exact_pence, scaled.portions))),
        without_price=tuple(recipe.food(code).name for code in cost.without_price),
        equipment=tuple(_equipment(recipe)),
        cautions=_cautions(recipe),
        caution=recipe.caution,
        caution_steps=_caution_steps(recipe),
        words=(*scaled.words, *_tins(scaled), *_whole(recipe, scaled)),
        tins=tuple(_tins(scaled)),
        eating=ways_of_eating(recipe),
        notes=recipe.notes,
        picture=None if cook is None else picture.draw(timed, cook),
        broken=() if cook is None else tuple(map(_broken, cook.broken)),
    )


def _timed(recipe: RecipeData, portions: int) -> tuple[RecipeData, timing.OneCook | None]:
    """The recipe with its minutes for so many portions, and one cook's clock of it; None round a loop."""
    timed = replace(recipe, steps=steps_for(recipe, portions))
    return timed, None if timing.loop(timed) else timing.one_cook(timed)


def _not_read(foods: Iterable[FoodData]) -> tuple[str, ...]:
    return tuple(food.name for food in foods if food.label_read_on is None and not food.from_tap)


def page_known(
    recipe: RecipeData, known: Mapping[str, TechniqueEntry], prices: Mapping[str, PackPrice]
) -> RecipePage:
    """The page as stated, with the faults of the techniques that are ``known`` by code."""
    names = {code: each.name for code, each in known.items()}
    return page_of(recipe, names, prices, faults={code: each.faults for code, each in known.items()})


def _facts(recipe: RecipeData) -> str:
    unit = recipe.unit or "portion"
    stated = wording.counted_words(recipe.portions_stated, unit, wording.plural(unit))
    words = f"{recipe.level.capitalize()}. {stated.capitalize()}"
    if recipe.portions_obtainable != recipe.portions_stated:
        words += f", {wording.number(recipe.portions_obtainable)} to be had"
    if recipe.may_be_cut_for:
        words += f", may be cut for {wording.listed(map(str, recipe.may_be_cut_for), 'or')}"
    if recipe.portion_milligrams:
        words += f", about {wording.amount(recipe.portion_milligrams)} each"
    return f"{words}."


def _kinds(foods: list[FoodData], presence: str) -> tuple[str, ...]:
    kinds = {kind for food in foods for kind in getattr(food, presence)}
    return tuple(printed(kind) for group in GROUPS.values() for kind in group[1] if kind in kinds)


def _may_contain(foods: list[FoodData]) -> tuple[str, ...]:
    return tuple(
        f"{food.name}: {wording.listed(printed(kind) for kind in food.may_contain)}"
        for food in foods
        if food.may_contain
    )


def _group_words(code: str) -> str:
    return GROUPS[code][0] if code in GROUPS else printed(code)


def _slip(recipe: RecipeData, cook: timing.OneCook | None, cost: int) -> list[tuple[str, str]]:
    rows = []
    if cook is not None:
        rows = [
            ("At work", wording.duration(cook.work_minutes)),
            ("Waiting", wording.duration(cook.waiting_minutes)),
            ("One cook, waiting filled", wording.duration(cook.minutes)),
        ]
    stays = [stay for step in recipe.steps for stay in step.stays if stay.appliance_kind == "oven"]
    if stays:
        settings = {stay.decicelsius for stay in stays if stay.decicelsius is not None}
        counted = wording.counted_words(len(settings), "setting")
        rows.append((f"Oven, {counted}", wording.duration(sum(stay.minutes for stay in stays))))
    return [*rows, ("Ingredients", wording.money(cost))]


def _equipment(recipe: RecipeData) -> list[str]:
    made = []
    for each in recipe.equipment:
        name = each.item.replace("_", " ")
        count = f"{each.count} × " if each.count > 1 else ""
        made.append(f"{count}{name}{' (shared by the room)' if each.shared_by_room else ''}")
    return made


def _cautions(recipe: RecipeData) -> tuple[str, ...]:
    said = " ".join([recipe.caution, *(step.caution for step in recipe.steps)])
    return tuple(dict.fromkeys(re.split(r"(?<=\.)\s+(?=[A-Z])", said.strip()))) if said.strip() else ()


def _caution_steps(recipe: RecipeData) -> str:
    """Where the cautions of single steps stand, in a sentence; empty when no step has one."""
    found = [str(step.position) for step in recipe.steps if step.caution]
    if not found:
        return ""
    if len(found) == 1:
        return f"A caution stands at step {found[0]}."
    return f"Cautions stand at steps {wording.listed(found)}."


def _tins(scaled: ScaledRecipe) -> list[str]:
    return [f"{tin.count} × {tin_words(tin)}." for tin in scaled.tins]


def _whole(recipe: RecipeData, scaled: ScaledRecipe) -> list[str]:
    pieces = scaling.pieces_to_issue(scaled.lines, recipe)
    if not pieces:
        return []
    counted = [f"{-(-count // 1)} × {recipe.food(code).name}" for code, count in pieces.items()]
    return [f"Given whole to a bench: {'; '.join(counted)}."]


def _broken(found: tuple[int, int, int, int]) -> str:
    needs, position, held, longest = found
    return (
        f"One cook cannot keep step {position} within {wording.duration(longest)} of step {needs}: "
        f"it waits {wording.duration(held)}."
    )


def totals(recipe: RecipeData) -> Fraction:
    """Milligrams of all lines that enter the portion, as written."""
    return Fraction(
        sum(line.milligrams for each in recipe.components for line in each.lines if line.enters_portion)
    )
