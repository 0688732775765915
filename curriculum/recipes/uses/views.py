"""The page of the recipes that use a food."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from curriculum.foods.access import food_for
from curriculum.recipes.uses import queries


@require_safe
def recipes_with(request: HttpRequest, food: str) -> HttpResponse:
    """Recipes taught now with a food, and what is being written with it."""
    found = food_for(request.user, food)
    taught, written = queries.uses_of(found)
    return render(request, "recipes/uses.html", {"food": found, "taught": taught, "written": written})
