"""A recipe as plain text, for a letter or another program."""

from curriculum.recipes.data import RecipeData
from curriculum.recipes.interchange.words import line_words, yield_words


def write(recipe: RecipeData) -> str:
    """Title, yield, the lines by component with grams, the numbered method; one line feed a line."""
    out = [recipe.title, f"Makes {yield_words(recipe)}."]
    for component in recipe.components:
        out += ["", component.name, *(line_words(recipe, line) for line in component.lines)]
    if recipe.steps:
        out += ["", "Method", *(f"{step.position}. {step.words}" for step in recipe.steps)]
    for heading, words in (("Caution", recipe.caution), ("Notes", recipe.notes)):
        if words:
            out += ["", heading, words]
    return "\n".join(out) + "\n"
