"""Writing the steps of a draft."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from curriculum.recipes import access, actions, queries
from curriculum.recipes.data import RecipeData, StepData
from curriculum.recipes.models import Version
from curriculum.recipes.opened.parts import fingerprint, step_in
from curriculum.recipes.steps.forms import NewStepForm, StepForm
from curriculum.recipes.writing.views import answered, form_page, where


@form_page
def new_step(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Add a step, last or before another."""
    draft = access.draft_for(request.user, code, number)
    recipe = queries.recipe_data(draft)
    form = NewStepForm(request.POST or None, recipe=recipe)
    if "more" in request.POST:
        form = NewStepForm(initial=form.with_one_more(), recipe=recipe)

    def do() -> str:
        step, key = form.step(StepData(0, "", ())), form.cleaned_data["key"]
        actions.add_step(version=draft, step=step, by=request.user, before=form.place(), key=key)
        return f"{where(draft)}#steps"

    return answered(request, form, do, "Add a step", draft)


@form_page
def step(request: HttpRequest, code: str, number: int, position: int) -> HttpResponse:
    """One step of the draft. What was typed of a step that is gone is kept, to be added anew."""
    draft = access.draft_for(request.user, code, number)
    recipe = queries.recipe_data(draft)
    if request.method == "POST" and step_in(recipe, position) is None:
        return _gone(request, draft, recipe, position)
    before = access.step_for(recipe, position)
    about = {"recipe": recipe, "position": position, "wrote": draft.written_by.name}
    form = StepForm(request.POST or None, initial=StepForm.initial_of(before), **about)
    if "more" in request.POST:
        form = StepForm(initial=form.with_one_more(), **about)

    def do() -> str:
        seen = fingerprint(before)
        actions.change_step(version=draft, step=form.step(before), by=request.user, seen=seen)
        return f"{where(draft)}#steps"

    return answered(request, form, do, f"Step {position}", draft)


def _gone(request: HttpRequest, draft: Version, recipe: RecipeData, position: int) -> HttpResponse:
    """The form of a new step with what was typed, and why."""
    typed = NewStepForm(request.POST, recipe=recipe).as_typed() | {"opened": ""}
    form = NewStepForm(initial=typed, recipe=recipe)
    form.helper.form_action = where(draft, "new_step")
    context = {"form": form, "heading": f"Step {position} is gone", "version": draft}
    says = f"{draft.written_by.name} took steps out after you opened this one. What you typed is kept."
    context |= {"says": (f"{says} Write it to add it as a new step.",), "leave_url": where(draft)}
    return render(request, "recipes/form.html", context)


@require_POST
def remove_step(request: HttpRequest, code: str, number: int, position: int) -> HttpResponse:
    """Take a step out; the steps behind it move up."""
    draft = access.draft_for(request.user, code, number)
    access.step_for(queries.recipe_data(draft), position)
    seen = request.POST.get("seen", "")
    actions.remove_step(version=draft, position=position, by=request.user, seen=seen)
    messages.info(request, f"Step {position} is taken out; the steps behind it have moved up.")
    return redirect(f"{where(draft)}#steps")
