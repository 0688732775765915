"""Writing the tins of a draft."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from curriculum.recipes import access, queries
from curriculum.recipes.data import TinData
from curriculum.recipes.opened.parts import fingerprint
from curriculum.recipes.vessels.forms import TinForm
from curriculum.recipes.writing.actions import add_tin, put_tin
from curriculum.recipes.writing.views import answered, form_page, where


@form_page
def new_tin(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Add a kind of tin."""
    draft = access.draft_for(request.user, code, number)
    form = TinForm(request.POST or None, recipe=queries.recipe_data(draft))

    def do() -> str:
        tin, key = form.tin(TinData("", 1, "round")), form.cleaned_data["key"]
        return f"{where(add_tin(version=draft, tin=tin, by=request.user, key=key))}#tins"

    return answered(request, form, do, "Add a tin", draft)


@form_page
def tin(request: HttpRequest, code: str, number: int, place: int) -> HttpResponse:
    """One kind of tin of the draft."""
    draft = access.draft_for(request.user, code, number)
    recipe = queries.recipe_data(draft)
    before, wrote = access.tin_for(recipe, place), draft.written_by.name
    form = TinForm(request.POST or None, initial=TinForm.initial_of(before), recipe=recipe, wrote=wrote)

    def do() -> str:
        said = {"tin": form.tin(before), "seen": fingerprint(recipe.tins)}
        return f"{where(put_tin(version=draft, place=place, by=request.user, **said))}#tins"

    return answered(request, form, do, "The tin", draft)


@require_POST
def remove_tin(request: HttpRequest, code: str, number: int, place: int) -> HttpResponse:
    """Take a kind of tin out."""
    draft = access.draft_for(request.user, code, number)
    recipe = queries.recipe_data(draft)
    access.tin_for(recipe, place)
    seen = fingerprint(recipe.tins)
    put_tin(version=draft, place=place, tin=None, by=request.user, seen=seen)
    messages.info(request, "The tin is taken out. What it lined or filled goes by portions now.")
    return redirect(f"{where(draft)}#tins")
