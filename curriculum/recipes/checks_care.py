"""Looked over: work that hurts without a caution, and egg that is eaten raw without one.

Which cautions a recipe has is the college's own risk assessment; here it is only asked that
the step says one. The techniques are those of the list by which people are burnt or cut:
hot sugar, hot oil, a flame, a boning knife; sources as the list names them (hospitality
training pages on hot sugar and torch, fire service advice on deep frying; the knives common
practice, no source).
"""

from collections.abc import Iterator

from curriculum.recipes.checks_heat import heats
from curriculum.recipes.data import ComponentData, FoodData, RecipeData, StepData
from curriculum.recipes.finding import Finding
from curriculum.wording import listed

RISKY_PLACES = {
    "torch_station": "a blowtorch",
    "fryer": "hot oil",
    "mixer": "a machine",
    "food_processor": "a machine with a blade",
}
RISKY_TECHNIQUES = {
    "blowtorch_glaze": "a blowtorch",
    "deep_frying": "hot oil",
    "sugar_syrup": "hot sugar",
    "sugar_boiling": "hot sugar",
    "caramel": "hot sugar",
    "italian_meringue": "hot sugar",
    "boning_poultry": "a boning knife",
    "filleting_flatfish": "a filleting knife",
}
#: Egg that is heated by its maker; said in its name (common practice, no source).
TREATED = "pasteurised"


def without_caution(recipe: RecipeData) -> Iterator[Finding]:
    """Steps with a flame, hot sugar, hot oil, a machine or a boning knife that have no caution."""
    for step in recipe.steps:
        risks = _risks(step)
        if risks and not step.caution and not recipe.caution:
            words = (
                f"Step {step.position} works with {listed(risks)} and has no caution. Write it, "
                f"as the college’s own risk assessment says it."
            )
            yield Finding("no_caution", words, stops=False, step=step.position)


def _risks(step: StepData) -> list[str]:
    places = {way.at for way in step.ways} | {stay.appliance_kind or "bench" for stay in step.stays}
    risks = {RISKY_PLACES[place] for place in places if place in RISKY_PLACES}
    return sorted(risks | {RISKY_TECHNIQUES[code] for code in step.techniques if code in RISKY_TECHNIQUES})


def raw_egg(recipe: RecipeData) -> Iterator[Finding]:
    """Components with egg that no step heats, without a caution that names the egg."""
    for component in recipe.components:
        eggs = _eggs(recipe, component)
        steps = [step for step in recipe.steps if component.code in step.components]
        if not eggs or not steps or _is_heated(recipe, component):
            continue
        if not any("egg" in words.lower() for words in (recipe.caution, *(step.caution for step in steps))):
            words = (
                f"{component.name} has raw egg ({listed(eggs)}) and no step heats it. Write the step that "
                f"does, with its core temperature, take pasteurised egg, or write the caution at step "
                f"{steps[0].position}, as the college’s own risk assessment says it."
            )
            yield Finding("raw_egg", words, stops=False, component=component.code, step=steps[0].position)


def _is_heated(recipe: RecipeData, component: ComponentData) -> bool:
    """Whether a step heats it, or heats later what it was put together with (a filling in its meat)."""
    steps = {step.position for step in recipe.steps if component.code in step.components}
    mixed, size = {component.code}, 0
    while size != len(steps) + len(mixed):
        size = len(steps) + len(mixed)
        for step in recipe.steps:
            if mixed.intersection(step.components) and any(after.needs in steps for after in step.after):
                steps.add(step.position)
            if step.position in steps:
                mixed.update(step.components)
    return any(
        heats(step) or step.core_decicelsius is not None for step in recipe.steps if step.position in steps
    )


def _eggs(recipe: RecipeData, component: ComponentData) -> list[str]:
    foods = {food.code: food for food in recipe.foods}
    lines = (line.food for line in component.lines if line.enters_portion)
    return list(dict.fromkeys(foods[code].name for code in lines if code in foods and _is_raw(foods[code])))


def _is_raw(food: FoodData) -> bool:
    """Egg itself, not a food made with egg, and not heated by its maker."""
    return "egg" in food.contains and food.dough_part == "egg" and TREATED not in food.name.lower()
