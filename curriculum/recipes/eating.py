"""What the labels of a recipe's foods answer for other ways of eating.

For the recipe page, and for the list of who eats what in a lesson. Every way (vegetarian,
no alcohol, …) asks facts of every food; a fact that is also an allergen is read off the
label. The answer is what was declared, or that nobody answered; it never says more.

Worked example: a bavarois asks "a by-product of slaughter" of its gelatine: yes. So it is
not vegetarian, and the food that stands against it is named.
"""

from dataclasses import dataclass

from curriculum import wording
from curriculum.allergens import KINDS, WAYS
from curriculum.recipes.data import FoodData, RecipeData

#: A food without any meat holds neither of these.
MEATS = ("pork", "beef")


@dataclass(frozen=True, slots=True)
class WayOfEating:
    """One way: its name, what stands against it, what may, and whose facts nobody has answered."""

    name: str
    against: tuple[str, ...]
    trace: tuple[str, ...]
    unanswered: tuple[str, ...]

    @property
    def words(self) -> str:
        """In a sentence or two: "Not for it: Gelatine leaf." or "Nothing declared against it."."""
        said = [f"Not for it: {wording.listed(self.against)}."] if self.against else []
        said += [f"A trace in {wording.listed(self.trace)}."] if self.trace else []
        if self.unanswered and not self.against:
            said.append(f"Not known of {wording.listed(self.unanswered)}.")
        return " ".join(said) or "Nothing declared against it."


def used_foods(recipe: RecipeData) -> list[FoodData]:
    """Foods that stand on a line, each once, and the whole pieces behind parts (their labels count)."""
    codes = dict.fromkeys(line.food for component in recipe.components for line in component.lines)
    for code in list(codes):
        made_from = recipe.food(code).made_from
        if made_from is not None:
            codes.setdefault(made_from.food)
    return [food for food in recipe.foods if food.code in codes]


def whole_of(recipe: RecipeData, food: FoodData) -> FoodData:
    """What is opened for a food: the egg behind a yolk, else the food itself."""
    return food if food.made_from is None else recipe.food(food.made_from.food)


def answer(fact: str, food: FoodData, whole: FoodData) -> str:
    """ "yes", "no", "trace" or "unknown"; a fact that is also an allergen is read off the label."""
    if fact in {*food.contains, *whole.contains}:
        return "yes"
    said = dict(whole.facts) | dict(food.facts)
    if fact in MEATS and said.get("meat") == "no":
        return "no"
    return said.get(fact, "no" if fact in KINDS else "unknown")


def ways_of_eating(recipe: RecipeData) -> tuple[WayOfEating, ...]:
    """Every way with the foods that stand against it; empty for a recipe without lines."""
    foods = [food for food in used_foods(recipe) if not food.from_tap]
    return tuple(_way(recipe, foods, *WAYS[code]) for code in WAYS) if foods else ()


def _way(recipe: RecipeData, foods: list[FoodData], name: str, facts: tuple[str, ...]) -> WayOfEating:
    of: dict[str, list[str]] = {"yes": [], "trace": [], "unknown": []}
    for food in foods:
        answers = {answer(fact, food, whole_of(recipe, food)) for fact in facts}
        worst = next((each for each in of if each in answers), None)
        if worst is not None:
            of[worst].append(food.name)
        elif answers - {"no"}:
            of["unknown"].append(food.name)
    return WayOfEating(wording.sentence(name).rstrip("."), *(tuple(of[each]) for each in of))
