"""Two versions beside each other."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from curriculum.foods.queries import prices
from curriculum.people.queries import the_college, today_at
from curriculum.recipes import access, queries
from curriculum.recipes.comparing.compared import Compared
from curriculum.recipes.comparing.compared import compare as compare_two
from curriculum.recipes.comparing.forms import CompareForm, first_two
from curriculum.recipes.models import Version


@require_safe
def compare(request: HttpRequest, code: str) -> HttpResponse:
    """Line by line, step by step; the two are chosen above and stand in the address."""
    recipe, versions = access.compared_for(request.user, code)
    asked = request.GET if "now" in request.GET else first_two(versions, recipe.pk)
    form = CompareForm(versions, recipe.pk, asked)
    context = {"recipe": recipe, "form": form, "sees_cost": access.sees_cost(request.user)}
    if form.is_valid():
        before, now = form.chosen()
        context |= {"before": before, "now": now, "compared": _compared(before, now, context["sees_cost"])}
    return render(request, "recipes/compare.html", context)


def _compared(before: Version, now: Version, with_cost: bool) -> Compared:
    data = queries.recipes_data([before, now])
    foods = {food.code for recipe in data.values() for food in recipe.foods}
    costs = prices(today_at(the_college()), foods) if with_cost else {}
    return compare_two(data[before.pk], data[now.pk], costs, with_cost)
