"""What a variant leaves out, and on which lines it stands.

A code is a group or kind of allergens ("gluten", "almond") or another way of eating
("vegan"). A food has it when its own label or that of the whole piece it is part of says
so; over-issue, dusting and washes are lines like any other.

Worked example: without gluten, a quiche has flour in its paste and flour for dusting: two
lines. Without egg, beaten egg, yolk and the wash have it, because each is a part of an egg.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from curriculum.allergens import GROUPS, KINDS, WAYS, kinds_of, printed
from curriculum.recipes.data import ComponentData, FoodData, LineData, RecipeData
from curriculum.recipes.eating import answer, whole_of

CODES = (*GROUPS, *(kind for kind in KINDS if kind not in GROUPS), *WAYS)


@dataclass(frozen=True, slots=True)
class Affected:
    """One line that has what is left out."""

    component: ComponentData
    line: LineData
    food: FoodData

    @property
    def name(self) -> str:
        """What the line is called in a form: "A_3"."""
        return f"{self.component.code}_{self.line.position}"


def words_without(code: str) -> str:
    """ "without cereals containing gluten", "without almond", "vegan"."""
    if code in WAYS:
        return WAYS[code][0]
    return f"without {GROUPS[code][0] if code in GROUPS else printed(code)}"


def short_words(code: str) -> str:
    """For a title and a code: "without gluten", "vegan"."""
    return WAYS[code][0] if code in WAYS else f"without {code.replace('_', ' ')}"


def free_from(code: str) -> tuple[str, ...]:
    """The groups or kinds that a variant is written without; a way gives those that it excludes."""
    return (code,) if code not in WAYS else tuple(fact for fact in WAYS[code][1] if fact in GROUPS)


def has(code: str, food: FoodData, whole: FoodData) -> str:
    """Whether a food has it: "yes", "perhaps" (may contain, a trace, nobody has answered), "no"."""
    if code in WAYS:
        said = {answer(fact, food, whole) for fact in WAYS[code][1]}
        if "yes" in said:
            return "yes"
        return "no" if said <= {"no"} or food.from_tap else "perhaps"
    kinds = kinds_of(code)
    if kinds & {*food.contains, *whole.contains}:
        return "yes"
    unread = food.label_read_on is None and not food.from_tap
    return "perhaps" if unread or kinds & {*food.may_contain, *whole.may_contain} else "no"


def affected(recipe: RecipeData, code: str, answer_is: str = "yes") -> tuple[Affected, ...]:
    """Every line whose food has it, in the order of the recipe; or perhaps has it."""
    return tuple(
        Affected(component, line, recipe.food(line.food))
        for component in recipe.components
        for line in component.lines
        if has(code, recipe.food(line.food), whole_of(recipe, recipe.food(line.food))) == answer_is
    )


def foods_without(code: str, foods: Mapping[str, FoodData]) -> list[FoodData]:
    """Foods of the book that do not have it for sure; those that perhaps have it come last."""
    found: dict[str, list[FoodData]] = {"no": [], "perhaps": [], "yes": []}
    for food in foods.values():
        whole = foods.get(food.made_from.food, food) if food.made_from else food
        found[has(code, food, whole)].append(food)
    return [*found["no"], *found["perhaps"]]
