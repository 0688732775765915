"""Pasting ingredient lines into a component: read, looked at by a person, then added."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from curriculum.errors import RuleBroken
from curriculum.foods import measures
from curriculum.foods.queries import all_foods_data, figure_sources
from curriculum.recipes import access, actions, queries
from curriculum.recipes.models import Version
from curriculum.recipes.pasting.forms import PasteForm, ReadLines, proposed
from curriculum.recipes.pasting.matching import propose
from curriculum.recipes.pasting.summary import summary_of, system_of
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
    form = PasteForm(request.POST or None, initial={"system": draft.measures})
    if request.method == "POST" and form.is_valid():
        return _as_read(request, form, draft, context)
    return render(request, "recipes/paste.html", context | {"form": form})


def _as_read(request: HttpRequest, form: PasteForm, draft: Version, context: dict) -> HttpResponse:
    said = form.cleaned_data
    foods, sources = all_foods_data(), figure_sources()
    read = measures.read_lines(said["text"], said["system"] or None)
    proposals = [propose(each, foods, sources) for each in read]
    summary = summary_of(proposals, said["text"], said["system"], draft.measures)
    shown = {"lines": proposed(proposals), "summary": summary, "again": form, "kept": _kept(said)}
    return render(request, "recipes/read_lines.html", context | shown)


def _kept(said: dict) -> PasteForm:
    """What was pasted, carried along with the lines that were read of it."""
    return PasteForm(
        initial={"text": said.get("text", ""), "system": said.get("system", "")}, auto_id="kept_%s"
    )


def _keep(request: HttpRequest, draft: Version, code: str, context: dict) -> HttpResponse:
    lines = ReadLines(request.POST)
    pasted = PasteForm(request.POST)
    system = pasted.cleaned_data["system"] if pasted.is_valid() else ""
    if lines.is_valid():
        of_recipe = draft.measures or system
        kept = tuple(form.line(system, of_recipe) for form in lines if form.cleaned_data["keep"])
        try:
            actions.put_lines(
                version=draft,
                code=code,
                lines=kept,
                measures=system_of(kept, system),
                by=request.user,
                key=key_of(request.POST),
            )
            return redirect(where(draft))
        except RuleBroken as error:
            lines.non_form_errors().append(error.message)
    again = PasteForm(initial=request.POST.dict())
    shown = {"lines": lines, "again": again, "kept": _kept(request.POST.dict())}
    return render(request, "recipes/read_lines.html", context | shown)
