"""Pasting ingredient lines into a component: read, looked at by a person, then added."""

from django.forms import BaseFormSet
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render

from curriculum.errors import RuleBroken
from curriculum.foods.queries import all_foods_data, figure_sources
from curriculum.recipes import access, actions, queries
from curriculum.recipes.interchange.proposing import proposals
from curriculum.recipes.interchange.reading import ImportedLine
from curriculum.recipes.models import Version
from curriculum.recipes.pasting.forms import PasteForm, ReadLines, filled, proposed, to_weigh
from curriculum.recipes.pasting.matching import Proposal
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
    found = _read([line for line in said["text"].splitlines() if line.strip()], said["system"])
    summary = summary_of(found, said["text"], said["system"], draft.measures)
    shown = {"lines": proposed(found), "summary": summary, "again": form, "kept": _kept(said)}
    return render(request, "recipes/read_lines.html", context | shown)


def _kept(said: dict) -> PasteForm:
    """What was pasted, carried along with the lines that were read of it."""
    return PasteForm(
        initial={"text": said.get("text", ""), "system": said.get("system", "")}, auto_id="kept_%s"
    )


def _keep(request: HttpRequest, draft: Version, code: str, context: dict) -> HttpResponse:
    pasted = PasteForm(request.POST)
    system = pasted.cleaned_data["system"] if pasted.is_valid() else ""
    lines, weighed = _weighed(request.POST, system)
    if lines.is_valid() and not weighed:
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
    if weighed:
        lines.non_form_errors().append(weighed)
    again = PasteForm(initial=request.POST.dict())
    shown = {"lines": lines, "again": again, "kept": _kept(request.POST.dict())}
    return render(request, "recipes/read_lines.html", context | shown)


def _read(lines: list[str], system: str, chosen: dict[int, str] | None = None) -> list[Proposal]:
    imported = [ImportedLine(line) for line in lines]
    return proposals(imported, system, all_foods_data(), figure_sources(), chosen)


def _weighed(post: QueryDict, system: str) -> tuple[BaseFormSet, str]:
    """The lines sent back; where only the food was missing, its amount is weighed, and a sentence says so."""
    asked = to_weigh(post)
    if not asked:
        return ReadLines(post), ""
    found = _read(
        [text for text, _ in asked.values()],
        system,
        {turn: food for turn, (_, food) in enumerate(asked.values())},
    )
    return filled(post, dict(zip(asked, found, strict=True)))
