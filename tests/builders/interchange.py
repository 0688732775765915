"""Recipes as they come from elsewhere, and what a person accepts of them, for tests of bringing in."""

import json
from dataclasses import replace

from curriculum.recipes.data import LineData, RecipeData
from curriculum.recipes.interchange import drafting, proposing
from curriculum.recipes.writing.equipment import equipment_from
from tests.builders.recipes import college_foods

#: A recipe within the standard, with things that have no place here. Invented.
ROUNDS = {
    "@context": "https://schema.org",
    "@type": ["Recipe", "NewsArticle"],
    "name": "Oat &amp; butter rounds",
    "author": {"@type": "Person", "name": "Ida Marlpit"},
    "recipeYield": ["12", "12 rounds"],
    "prepTime": "PT20M",
    "cookTime": "PT15M",
    "recipeCuisine": "Marches",
    "aggregateRating": None,
    "recipeIngredient": ["250 g unsalted butter, soft", "500 g soft wheat flour", "150 g caster sugar"],
    "tool": [{"@type": "HowToTool", "name": "mixing bowl", "url": "#bowl"}],
    "recipeInstructions": [
        {"@type": "HowToStep", "text": "<p>Rub the butter into the flour.</p>", "image": "a.jpg"},
        {"@type": "HowToStep", "text": "Mix the sugar in."},
        "Bake until gold.",
    ],
}


def rounds(**changes):
    """The recipe as JSON text, with some properties changed."""
    return json.dumps(ROUNDS | changes)


def accepted(imported, system="us", leave_lines=(), leave_steps=(), change=()):
    """The draft of an import of which a person accepts all but some places; ``change`` doubles lines."""
    foods = college_foods()
    found = proposing.proposals(imported.lines, system, foods.values(), {})
    lines = []
    for place, each in enumerate(found):
        weight = each.milligrams or 1000
        line = LineData(0, each.food or "fine_salt", weight, each.pieces, note=each.note[:300])
        if place not in leave_lines:
            lines.append(drafting.Accepted(place, place in change, line))
    steps = [
        drafting.Accepted(place, False, words=step.words)
        for place, step in enumerate(imported.steps)
        if place not in leave_steps
    ]
    return drafting.draft_of(imported, head_of(imported), lines, steps, foods)


def head_of(imported):
    """What stands above the components, as it was read."""
    count = imported.portions or 1
    things = equipment_from("\n".join(imported.tools))
    head = RecipeData("x", imported.title, 1, "foundation", count, count, 0, (), (), ())
    return replace(head, unit=imported.unit, equipment=things)
