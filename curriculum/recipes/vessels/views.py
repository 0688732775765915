"""Writing the tins of a draft."""

from dataclasses import replace

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from curriculum.recipes import access, actions, queries
from curriculum.recipes.data import TinData
from curriculum.recipes.vessels.forms import TinForm
from curriculum.recipes.writing.views import answered, form_page, where


@form_page
def new_tin(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Add a kind of tin."""
    draft = access.draft_for(request.user, code, number)
    before = queries.recipe_data(draft)
    form = TinForm(request.POST or None, recipe=before)

    def do() -> str:
        tins = (*before.tins, form.tin(TinData("", 1, "round")))
        return where(actions.write_title(version=draft, recipe=replace(before, tins=tins), by=request.user))

    return answered(request, form, do, "Add a tin", draft)


@form_page
def tin(request: HttpRequest, code: str, number: int, place: int) -> HttpResponse:
    """One kind of tin of the draft."""
    draft = access.draft_for(request.user, code, number)
    before = queries.recipe_data(draft)
    old = access.tin_for(before, place)
    written = request.method == "POST"
    initial = TinForm.initial_of(old)
    form = TinForm(request.POST, recipe=before) if written else TinForm(initial=initial, recipe=before)

    def do() -> str:
        tins = tuple(form.tin(old) if n == place else each for n, each in enumerate(before.tins, start=1))
        return where(actions.write_title(version=draft, recipe=replace(before, tins=tins), by=request.user))

    return answered(request, form, do, "The tin", draft)


@require_POST
def remove_tin(request: HttpRequest, code: str, number: int, place: int) -> HttpResponse:
    """Take a kind of tin out."""
    draft = access.draft_for(request.user, code, number)
    before = queries.recipe_data(draft)
    access.tin_for(before, place)
    tins = tuple(each for n, each in enumerate(before.tins, start=1) if n != place)
    actions.write_title(version=draft, recipe=replace(before, tins=tins), by=request.user)
    messages.info(request, "The tin is taken out. What it lined or filled goes by portions now.")
    return redirect(where(draft))
