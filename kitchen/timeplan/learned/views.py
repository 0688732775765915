"""Choosing by which minutes a lesson is planned."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from kitchen.lessons.actions import plan_by_recipe
from kitchen.timeplan import access
from kitchen.timeplan.learned.forms import MinutesForm


@require_POST
def minutes(request: HttpRequest, lesson: str) -> HttpResponse:
    """Plan the lesson by the learned paces, or by the recipes' own minutes."""
    found = access.lesson_to_plan(request.user, lesson)
    by_recipe = MinutesForm(request.POST).by_recipe()
    plan_by_recipe(lesson=found, by_recipe=by_recipe, by=request.user)
    words = "the recipes’ own minutes" if by_recipe else "the paces that were learned"
    messages.success(request, f"The lesson is planned by {words}.")
    return redirect("timeplan:plan", lesson=found.code)
