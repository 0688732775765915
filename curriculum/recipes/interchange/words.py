"""The lines of a recipe as text with exact grams, for every form in which it is taken out."""

from decimal import Decimal

from curriculum.recipes.data import ComponentData, LineData, RecipeData


def exact_grams(milligrams: int) -> str:
    """Grams to the last milligram, without a trailing nought: 91670 is "91.67"."""
    return f"{(Decimal(milligrams) / 1000).normalize():f}"


def line_words(recipe: RecipeData, line: LineData) -> str:
    """One line: "250 g soft wheat flour (2 cups), sifted"."""
    said = f"{exact_grams(line.milligrams)} g {recipe.food(line.food).name}"
    if line.written:
        said += f" ({line.written})"
    return f"{said}, {line.note}" if line.note else said


def all_lines(recipe: RecipeData) -> list[tuple[ComponentData, LineData]]:
    """Every line of the recipe beside the component that it stands in."""
    return [(component, line) for component in recipe.components for line in component.lines]
