"""Writing the steps of a draft."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from curriculum.recipes import access, actions, queries
from curriculum.recipes.data import StepData
from curriculum.recipes.steps.forms import NewStepForm, StepForm
from curriculum.recipes.writing.views import answered, form_page, where


@form_page
def new_step(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Add a step, last or before another."""
    draft = access.draft_for(request.user, code, number)
    form = NewStepForm(request.POST or None, recipe=queries.recipe_data(draft))

    def do() -> str:
        step = form.step(StepData(0, "", ()))
        key = form.cleaned_data["key"]
        actions.add_step(version=draft, step=step, by=request.user, before=form.place(), key=key)
        return where(draft)

    return answered(request, form, do, "Add a step", draft)


@form_page
def step(request: HttpRequest, code: str, number: int, position: int) -> HttpResponse:
    """One step of the draft."""
    draft = access.draft_for(request.user, code, number)
    recipe = queries.recipe_data(draft)
    before = access.step_for(recipe, position)
    about = {"recipe": recipe, "position": position}
    written = request.method == "POST"
    form = (
        StepForm(request.POST, **about) if written else StepForm(initial=StepForm.initial_of(before), **about)
    )

    def do() -> str:
        return where(actions.change_step(version=draft, step=form.step(before), by=request.user))

    return answered(request, form, do, f"Step {position}", draft)


@require_POST
def remove_step(request: HttpRequest, code: str, number: int, position: int) -> HttpResponse:
    """Take a step out; the steps behind it move up."""
    draft = access.draft_for(request.user, code, number)
    access.step_for(queries.recipe_data(draft), position)
    actions.remove_step(version=draft, position=position, by=request.user)
    messages.info(request, f"Step {position} is taken out; the steps behind it have moved up.")
    return redirect(where(draft))


@require_POST
def earlier(request: HttpRequest, code: str, number: int, position: int) -> HttpResponse:
    """Read a step one place earlier."""
    draft = access.draft_for(request.user, code, number)
    access.step_for(queries.recipe_data(draft), position)
    actions.move_earlier(version=draft, position=position, by=request.user)
    return redirect(where(draft))
