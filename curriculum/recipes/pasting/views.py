"""Pasting ingredient lines into a component: read, looked at by a person, then added."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from curriculum.errors import RuleBroken
from curriculum.foods import measures
from curriculum.foods.queries import all_foods_data
from curriculum.recipes import access, actions, queries
from curriculum.recipes.models import Version
from curriculum.recipes.pasting.forms import PasteForm, ReadLines, proposed
from curriculum.recipes.pasting.matching import propose
from curriculum.recipes.writing.forms import key_of
from curriculum.recipes.writing.views import form_page, where


@form_page
def paste(request: HttpRequest, code: str, number: int, component: str) -> HttpResponse:
    """The text first, then every line as it was read; only what a person keeps is added."""
    draft = access.draft_for(request.user, code, number)
    found = access.component_for(queries.recipe_data(draft), component)
    context = {"version": draft, "component": found, "leave_url": where(draft)}
    if "form-TOTAL_FORMS" in request.POST:
        return _keep(request, draft, component, context)
    form = PasteForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        foods = all_foods_data()
        read = measures.read_lines(said["text"], said["system"] or None)
        lines = proposed([propose(each, foods) for each in read])
        return render(request, "recipes/read_lines.html", context | {"lines": lines})
    return render(request, "recipes/paste.html", context | {"form": form})


def _keep(request: HttpRequest, draft: Version, code: str, context: dict) -> HttpResponse:
    lines = ReadLines(request.POST)
    if lines.is_valid():
        kept = tuple(form.line() for form in lines if form.cleaned_data["keep"])
        try:
            actions.put_lines(version=draft, code=code, lines=kept, by=request.user, key=key_of(request.POST))
            return redirect(where(draft))
        except RuleBroken as error:
            lines.non_form_errors().append(error.message)
    return render(request, "recipes/read_lines.html", context | {"lines": lines})
