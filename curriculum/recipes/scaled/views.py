""" "Scale it": one recipe for a class, with everything that follows from it. Nothing is kept."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from curriculum.errors import RuleBroken
from curriculum.people.queries import the_college, today_at
from curriculum.recipes import access
from curriculum.recipes.queries import recipe_data
from curriculum.recipes.scaled.forms import ScaleItForm
from curriculum.recipes.scaled.page import page_of
from curriculum.recipes.scaled.queries import the_book


@require_safe
def scale(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """A version scaled as the address asks; a form that is refused comes back with what was typed."""
    version = access.version_for(request.user, code, number)
    recipe = recipe_data(version)
    sees_cost = access.sees_cost(request.user)
    form = ScaleItForm(request.GET or None, recipe=recipe, costs=sees_cost)
    context = {"version": version, "form": form, "sees_cost": sees_cost}
    if not form.is_bound or form.is_valid():
        try:
            book = the_book(recipe, today_at(the_college()))
            context["page"] = page_of(recipe, form.asked(), book)
        except RuleBroken as error:
            form.refuse(error)
    return render(request, "recipes/scaled.html", context)
