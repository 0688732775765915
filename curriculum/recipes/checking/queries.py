"""What the check list knows besides the recipe: its techniques, and the time of a usual lesson."""

from curriculum.people.queries import the_college, usual_cooking_minutes
from curriculum.recipes.data import RecipeData
from curriculum.recipes.finding import Teaching
from curriculum.techniques.queries import techniques_known


def teaching_for(recipe: RecipeData) -> Teaching:
    """Its techniques with those needed first, and the minutes of a usual lesson. Four queries."""
    known = techniques_known(code for step in recipe.steps for code in step.techniques)
    return Teaching(known, usual_cooking_minutes(the_college()))
