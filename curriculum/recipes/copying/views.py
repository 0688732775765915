"""Copying a recipe."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse

from curriculum.recipes import access
from curriculum.recipes.copying import actions
from curriculum.recipes.copying.codes import free_code
from curriculum.recipes.copying.forms import CopyForm
from curriculum.recipes.copying.queries import taken_codes
from curriculum.recipes.writing.views import answered, form_page, where

COPY_MEANS = (
    "The copy is a draft of its own: components, lines, steps, tins and equipment as they stand here. "
    "Changing one does not change the other. It remembers what it was copied from."
)


@form_page
def copy(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Make a recipe of its own from this version."""
    version = access.to_write(request.user, code, number)
    initial = {"title": f"{version.recipe.title}, copied", "code": free_code(code, taken_codes())}
    form = CopyForm(request.POST or None, initial=initial)

    def do() -> str:
        made = actions.copy_recipe(version=version, by=request.user, **form.cleaned_data)
        messages.info(request, f"{made.recipe.title} is a copy of {version}.")
        return where(made)

    facts = f"Made from version {number}, {version.get_state_display()}."
    return answered(
        request, form, do, f"Copy {version.recipe.title}", version, facts=facts, says=[COPY_MEANS]
    )
