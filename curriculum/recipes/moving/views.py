"""A step, a component or a line of a draft read one place earlier (``places`` −1) or later (1)."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from curriculum.recipes import access, queries
from curriculum.recipes.actions import move_step
from curriculum.recipes.writing.actions import move_component, move_line
from curriculum.recipes.writing.forms import key_of
from curriculum.recipes.writing.views import where


@require_POST
def step(request: HttpRequest, code: str, number: int, position: int, places: int) -> HttpResponse:
    """Read a step one place earlier or later."""
    draft = access.draft_for(request.user, code, number)
    access.step_for(queries.recipe_data(draft), position)
    sent = {"seen": request.POST.get("seen", ""), "key": key_of(request.POST)}
    move_step(version=draft, position=position, places=places, by=request.user, **sent)
    return redirect(f"{where(draft)}#steps")


@require_POST
def component(request: HttpRequest, code: str, number: int, component: str, places: int) -> HttpResponse:
    """Read a component one place earlier or later."""
    draft = access.draft_for(request.user, code, number)
    access.component_for(queries.recipe_data(draft), component)
    sent = {"seen": request.POST.get("seen", ""), "key": key_of(request.POST)}
    move_component(version=draft, code=component, places=places, by=request.user, **sent)
    return redirect(f"{where(draft)}#component-{component}")


@require_POST
def line(
    request: HttpRequest, code: str, number: int, component: str, position: int, places: int
) -> HttpResponse:
    """Read a line one place earlier or later in its component."""
    draft = access.draft_for(request.user, code, number)
    access.line_for(queries.recipe_data(draft), component, position)
    sent = {"seen": request.POST.get("seen", ""), "key": key_of(request.POST)}
    move_line(version=draft, code=component, position=position, places=places, by=request.user, **sent)
    return redirect(f"{where(draft)}#component-{component}")
