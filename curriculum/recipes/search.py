"""The words that a recipe of the book is found by.

A recipe is found by its title, code, level, the names of its components, foods and
techniques, its unit and its presentation. Words are compared without case and without
marks over letters ("éclair" is found by "eclair"), each word anywhere.
"""

import re
from collections.abc import Mapping

from curriculum.recipes.data import RecipeData
from curriculum.wording import plain

_WORD = re.compile(r"[^\W_]+")


def wanted_words(words: str, most: int = 12) -> list[str]:
    """The words that somebody searches for, plain, at most so many of them."""
    return _WORD.findall(plain(words))[:most]


def words_of(recipe: RecipeData, techniques: Mapping[str, str], foods: Mapping[str, str]) -> str:
    """What a recipe is found by, as one plain text; techniques and foods give the name of each code."""
    parts = [recipe.title, recipe.code, recipe.level, recipe.unit, recipe.presentation]
    parts += [component.name for component in recipe.components]
    used = [line.food for component in recipe.components for line in component.lines]
    parts += [foods.get(code, code) for code in used]
    parts += [techniques.get(code, code) for code in techniques_of(recipe)]
    return " ".join(dict.fromkeys(_WORD.findall(plain(" ".join(parts)))))


def techniques_of(recipe: RecipeData) -> list[str]:
    """Codes of the techniques that the steps train, each once, in the order of the steps."""
    return list(dict.fromkeys(code for step in recipe.steps for code in step.techniques))
