"""What the recipe page shows, worked out: weights, words and figures ready to print.

For the recipe page, the writing page and the printed sheet of a recipe. Plain data in,
plain data out: the template only places it. A line carries the figure, the food, its
allergens in words and its points; a step its deed, cue, meta and caution.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from curriculum import wording
from curriculum.allergens import GROUPS, printed, words_of
from curriculum.foods.costs import PackPrice, a_portion, pence
from curriculum.foods.handwriting import scaled_words
from curriculum.recipes import classes, costing, picture, scaling, timing
from curriculum.recipes.data import FoodData, LineData, RecipeData, StayData, StepData
from curriculum.recipes.scaling import ScaledLine, ScaledRecipe
from curriculum.recipes.tins import words as tin_words

PLACES = {
    "oven": "oven",
    "ring": "ring",
    "chiller": "chiller",
    "blast_chiller": "blast chiller",
    "cool_cabinet": "cool cabinet",
    "prover": "prover",
    "freezer": "freezer",
    "mixer": "mixer",
    "food_processor": "food processor",
    "torch_station": "torch station",
    "pass": "pass",
    "fryer": "fryer",
    "bench": "bench",
}
DOORS = {"may_open": "", "shut": "the door stays shut", "off_and_shut": "heat off, door shut"}
#: Cautions of the trade by what a step uses; each defers to the college's own assessment.
TECHNIQUE_CAUTION = "Source: the college’s own risk assessment. Follow it where it differs."


@dataclass(frozen=True, slots=True)
class LineWords:
    """One line of a docket: figure and unit, food, allergens by kind, points."""

    position: int
    figure: str
    unit: str
    food: str
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    points: tuple[str, ...]
    exact: str = ""


@dataclass(frozen=True, slots=True)
class ComponentWords:
    """One component as a docket: its code and name, what it weighs, how it scales."""

    code: str
    name: str
    weight: str
    basis: str
    note: str
    lines: tuple[LineWords, ...]


@dataclass(frozen=True, slots=True)
class StepWords:
    """One step: the deed, the cue, the meta line, techniques as (code, name), caution."""

    position: int
    words: str
    cue: str
    meta: str
    techniques: tuple[tuple[str, str], ...]
    caution: str
    points: tuple[str, ...]


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
    components: tuple[ComponentWords, ...]
    steps: tuple[StepWords, ...]
    slip: tuple[tuple[str, str], ...]
    cost_sum: str
    without_price: tuple[str, ...]
    equipment: tuple[str, ...]
    cautions: tuple[str, ...]
    words: tuple[str, ...]
    tins: tuple[str, ...]
    notes: str
    picture: picture.Picture | None
    broken: tuple[str, ...]


def page_of(
    recipe: RecipeData,
    techniques: Mapping[str, str],
    prices: Mapping[str, PackPrice],
    portions: int | None = None,
) -> RecipePage:
    """The page of a recipe; ``techniques`` gives names by code. RuleBroken for portions that are none."""
    scaled = scaling.scale(recipe, portions or recipe.portions_stated)
    cook = None if timing.loop(recipe) else timing.one_cook(recipe)
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
        not_read=tuple(food.name for food in foods if food.label_read_on is None and not food.from_tap),
        free_from=tuple(_group_words(code) for code in recipe.free_from),
        components=tuple(_component(recipe, each) for each in scaled.components),
        steps=tuple(_step(step, techniques) for step in recipe.steps),
        slip=tuple(_slip(recipe, cook, pence(cost.exact_pence))),
        cost_sum=wording.money(pence(a_portion(cost.exact_pence, scaled.portions))),
        without_price=tuple(recipe.food(code).name for code in cost.without_price),
        equipment=tuple(_equipment(recipe)),
        cautions=_cautions(recipe),
        words=(*scaled.words, *_tins(scaled), *_whole(recipe, scaled)),
        tins=tuple(_tins(scaled)),
        notes=recipe.notes,
        picture=None if cook is None else picture.draw(recipe, cook),
        broken=() if cook is None else tuple(map(_broken, cook.broken)),
    )


def used_foods(recipe: RecipeData) -> list[FoodData]:
    """Foods that stand on a line, each once, and the whole pieces behind parts (their labels count)."""
    codes = dict.fromkeys(line.food for component in recipe.components for line in component.lines)
    for code in list(codes):
        made_from = recipe.food(code).made_from
        if made_from is not None:
            codes.setdefault(made_from.food)
    return [food for food in recipe.foods if food.code in codes]


def _facts(recipe: RecipeData) -> str:
    unit = recipe.unit or "portion"
    stated = wording.counted_words(recipe.portions_stated, unit, plural(unit))
    words = f"{recipe.level.capitalize()}. {stated.capitalize()}"
    if recipe.portions_obtainable != recipe.portions_stated:
        words += f", {wording.number(recipe.portions_obtainable)} to be had"
    if recipe.may_be_cut_for:
        words += f", may be cut for {wording.listed(map(str, recipe.may_be_cut_for), 'or')}"
    if recipe.portion_milligrams:
        words += f", about {wording.amount(recipe.portion_milligrams)} each"
    return f"{words}."


def plural(unit: str) -> str:
    """A unit in the plural: "wedges", "portions of four pieces", "pastries"."""
    head, of, tail = unit.partition(" of ")
    before, space, last = head.rpartition(" ")
    if last.endswith(("s", "sh", "ch", "x")):
        last += "es"
    elif last.endswith("y") and last[-2:-1] not in "aeiou":
        last = f"{last[:-1]}ies"
    else:
        last += "s"
    return f"{before}{space}{last}{of}{tail}"


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


def _component(recipe: RecipeData, component: scaling.ScaledComponent) -> ComponentWords:
    original = next(each for each in recipe.components if each.code == component.code)
    return ComponentWords(
        component.code,
        component.name,
        wording.amount(component.exact_milligrams),
        component.words,
        original.note,
        tuple(
            _line(recipe, line, before) for line, before in zip(component.lines, original.lines, strict=True)
        ),
    )


def _line(recipe: RecipeData, line: ScaledLine, before: LineData) -> LineWords:
    food = recipe.food(line.food)
    figure, unit, exact = _figure(line, food)
    said = scaled_words(before.written, recipe.measures, line.exact_milligrams / Fraction(before.milligrams))
    measured = (f"{said}.",) if said and said != f"{figure} {unit}".strip() else ()
    return LineWords(
        line.position,
        figure,
        unit,
        food.name,
        tuple(words_of(kind) for kind in food.contains),
        tuple(words_of(kind) for kind in food.may_contain),
        (*measured, *_line_points(line, food)),
        exact,
    )


def _figure(line: ScaledLine, food: FoodData) -> tuple[str, str, str]:
    """(figure, unit, exact words when the figure was rounded)."""
    if line.give_pieces is not None and line.give_food == line.food:
        whole = -(-line.give_pieces // 1)
        return (
            wording.figure(whole),
            "",
            "" if whole == line.give_pieces else wording.figure(line.give_pieces, 2),
        )
    if line.factor == 1:
        return wording.grams(line.exact_milligrams), "g", ""
    shown = scaling.issued(line.exact_milligrams, food)
    exact = "" if shown == line.exact_milligrams else wording.exact_amount(line.exact_milligrams)
    return wording.grams(shown), "g", exact


def _line_points(line: ScaledLine, food: FoodData) -> list[str]:
    said = []
    if line.weight_is == "as_bought" and line.give_pieces is None:
        said.append("As bought.")
    if (
        line.give_pieces is None
        and line.issued == "as_bought"
        and line.give_milligrams != line.exact_milligrams
    ):
        said.append(f"Given as bought: {wording.amount(round(line.give_milligrams, -3))}.")
    if line.least_milligrams is not None and line.most_milligrams is not None:
        said.append(f"{wording.amount_range(line.least_milligrams, line.most_milligrams)}, the cue decides.")
    if line.held_back_milligrams:
        said.append(f"{wording.amount(line.held_back_milligrams)} held back.")
    if line.target_milligrams is not None:
        said.append(f"Reduce to {wording.amount(line.target_milligrams)}.")
    if line.rule not in ("range", "evaporating") and line.target_milligrams is None and line.words:
        said.append(line.words)
    if line.part != "recipe":
        said.append(wording.sentence(line.purpose or line.part.replace("_", "-")))
    return [*said, *([line.note] if line.note else [])]


def _step(step: StepData, techniques: Mapping[str, str]) -> StepWords:
    points = []
    if step.supervised:
        points.append("Only with the lecturer beside.")
    if step.shown_first:
        points.append("Shown first.")
    if step.checked_by_lecturer:
        points.append("Looked at by the lecturer before going on.")
    points += [
        f"By {way.name}: {wording.duration(way.active_minutes)}. {way.words}".strip() for way in step.ways[1:]
    ]
    named = tuple((code, techniques.get(code, code.replace("_", " "))) for code in step.techniques)
    return StepWords(step.position, step.words, step.cue, _meta(step), named, step.caution, tuple(points))


def _meta(step: StepData) -> str:
    parts = []
    if step.active_minutes:
        parts.append(f"{wording.duration(step.active_minutes)} at work")
    if step.waiting_minutes:
        parts.append(f"{wording.duration(step.waiting_minutes)} waiting{' first' if step.wait_first else ''}")
    said = [", ".join(parts)] if parts else []
    said += _stays(step)
    if step.core_decicelsius is not None:
        held = f", held {wording.seconds(step.core_seconds)}" if step.core_seconds else ""
        core = wording.temperature_range(step.core_decicelsius, step.core_most_decicelsius)
        said.append(f"core {core}{held}")
    if step.target_of and (
        step.target_low_decicelsius is not None or step.target_high_decicelsius is not None
    ):
        said.append(f"{step.target_of} {_reach(step)}")
    said += [_after(each.needs, each.least_minutes, each.longest_minutes) for each in step.after]
    return " ".join(wording.sentence(each) for each in said)


def _reach(step: StepData) -> str:
    return wording.temperature_range(step.target_low_decicelsius, step.target_high_decicelsius)


def _stays(step: StepData) -> list[str]:
    """The stays in words; a single one without its minutes, which stand before it."""
    if len(step.stays) != 1:
        return [stay_words(stay) for stay in step.stays]
    stay = step.stays[0]
    said_below = step.target_of != "" and step.target_of == stay.appliance_kind
    plain = stay.appliance_kind is None and stay.decicelsius is None
    return [] if said_below or plain else [stay_words(stay).rpartition(", ")[0]]


def stay_words(stay: StayData) -> str:
    """Where the food stays: "oven, 180 °C fan, 25 min"."""
    place = PLACES.get(stay.appliance_kind or "bench", stay.appliance_kind or "bench")
    parts = [place]
    if stay.decicelsius is not None:
        parts.append(f"{wording.temperature(stay.decicelsius)} {stay.heat}".strip())
    if DOORS[stay.door]:
        parts.append(DOORS[stay.door])
    return ", ".join([*parts, wording.duration(stay.minutes)])


def _after(needs: int, least: int, longest: int | None) -> str:
    limits = [f"at least {wording.duration(least)} later"] if least else []
    limits += [f"within {wording.duration(longest)}"] if longest is not None else []
    return f"after step {needs}" + (f" ({', '.join(limits)})" if limits else "")


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


def class_words(code: str) -> str:
    """What a scaling class does to a doubled batch, in words, for the writing form."""
    return classes.words(code, Fraction(2), False)[0] or "In proportion."
