"""Writing the book: a draft begun, its title, components and lines, and what is done with a version."""

from collections.abc import Callable, Sequence

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.errors import RuleBroken
from curriculum.look.forms import Enamel
from curriculum.recipes import access, actions, queries
from curriculum.recipes.approval.queries import waiting_words
from curriculum.recipes.checks import findings
from curriculum.recipes.data import ComponentData, LineData
from curriculum.recipes.editing import free_code
from curriculum.recipes.models import Version
from curriculum.recipes.page import page_of
from curriculum.recipes.writing.forms import ComponentForm, LineForm, NewForm, TitleForm, key_of

form_page = require_http_methods(["GET", "HEAD", "POST"])


def where(version: Version, page: str = "write", **more: object) -> str:
    """The address of a page about a version."""
    kwargs = {"code": version.recipe.code, "number": version.number, **more}
    return reverse(f"recipes:{page}", kwargs=kwargs)


def answered(
    request: HttpRequest,
    form: Enamel,
    do: Callable[[], str],
    heading: str,
    version: Version | None = None,
    facts: str = "",
    says: Sequence[str] = (),
) -> HttpResponse:
    """The page of one form: ``do`` acts and gives the address to go on to; a refusal stands in the form.

    With ``facts`` the page is about the version as it is read, and leaves to it; ``says`` are
    sentences above the form.
    """
    if request.method == "POST" and form.is_valid():
        try:
            return redirect(do())
        except RuleBroken as error:
            form.refuse(error)
    leave = reverse("recipes:book") if version is None else where(version, "version" if facts else "write")
    context = {"form": form, "heading": heading, "version": version, "leave_url": leave}
    return render(request, "recipes/form.html", context | {"facts": facts, "says": says})


@form_page
def new(request: HttpRequest) -> HttpResponse:
    """Begin a recipe."""
    access.demand_writer(request.user)
    form = NewForm(request.POST or None)

    def do() -> str:
        key = form.cleaned_data["key"]
        return where(actions.write_recipe(recipe=form.new_recipe(), by=request.user, key=key))

    return answered(request, form, do, "Write a recipe")


@require_safe
def write(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """A draft as a whole: what is written, what is still missing, and the way to every part."""
    draft = access.draft_for(request.user, code, number)
    recipe = queries.recipe_data(draft)
    names = queries.technique_names(code for step in recipe.steps for code in step.techniques)
    context = {"version": draft, "page": page_of(recipe, names, {}), "findings": findings(recipe)}
    context["waiting"] = waiting_words(draft)
    return render(request, "recipes/write.html", context)


@form_page
def title(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """What stands above the components."""
    draft = access.draft_for(request.user, code, number)
    before = queries.recipe_data(draft)
    initial = TitleForm.initial_of(before)
    form = TitleForm(request.POST) if request.method == "POST" else TitleForm(initial=initial)

    def do() -> str:
        return where(actions.write_title(version=draft, recipe=form.recipe(before), by=request.user))

    return answered(request, form, do, f"Title and portions of {draft.recipe.title}", draft)


@form_page
def new_component(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Add a component; its lines are pasted or written next."""
    draft = access.draft_for(request.user, code, number)
    form = ComponentForm(request.POST or None)

    def do() -> str:
        letter = free_code(queries.recipe_data(draft))
        component = form.component(ComponentData(letter, "", "portions", ()))
        actions.put_component(version=draft, component=component, by=request.user)
        return where(draft, "paste", component=letter)

    return answered(request, form, do, "Add a component", draft)


@form_page
def component(request: HttpRequest, code: str, number: int, component: str) -> HttpResponse:
    """Name and basis of a component."""
    draft = access.draft_for(request.user, code, number)
    before = access.component_for(queries.recipe_data(draft), component)
    initial = ComponentForm.initial_of(before)
    form = ComponentForm(request.POST) if request.method == "POST" else ComponentForm(initial=initial)

    def do() -> str:
        return where(actions.put_component(version=draft, component=form.component(before), by=request.user))

    return answered(request, form, do, before.name, draft)


@require_POST
def remove_component(request: HttpRequest, code: str, number: int, component: str) -> HttpResponse:
    """Take a component out."""
    draft = access.draft_for(request.user, code, number)
    gone = access.component_for(queries.recipe_data(draft), component)
    actions.remove_component(version=draft, code=component, by=request.user)
    messages.info(request, f"{gone.name} is taken out, with its lines.")
    return redirect(where(draft))


@form_page
def new_line(request: HttpRequest, code: str, number: int, component: str) -> HttpResponse:
    """Add one line to a component."""
    draft = access.draft_for(request.user, code, number)
    found = access.component_for(queries.recipe_data(draft), component)
    form = LineForm(request.POST or None)

    def do() -> str:
        line = form.line(LineData(0, "", 0))
        key = form.cleaned_data["key"]
        return where(
            actions.put_lines(version=draft, code=component, lines=(line,), by=request.user, key=key)
        )

    return answered(request, form, do, f"Add a line to {found.name}", draft)


@form_page
def line(request: HttpRequest, code: str, number: int, component: str, position: int) -> HttpResponse:
    """One line of a component, with all that may be said of it."""
    draft = access.draft_for(request.user, code, number)
    recipe = queries.recipe_data(draft)
    before = access.line_for(recipe, component, position)
    initial = LineForm.initial_of(before)
    form = LineForm(request.POST) if request.method == "POST" else LineForm(initial=initial)

    def do() -> str:
        changed = (form.line(before),)
        return where(actions.put_lines(version=draft, code=component, lines=changed, by=request.user))

    return answered(request, form, do, recipe.food(before.food).name, draft)


@require_POST
def remove_line(request: HttpRequest, code: str, number: int, component: str, position: int) -> HttpResponse:
    """Take a line out of a component."""
    draft = access.draft_for(request.user, code, number)
    recipe = queries.recipe_data(draft)
    gone = access.line_for(recipe, component, position)
    actions.remove_line(version=draft, code=component, position=position, by=request.user)
    messages.info(request, f"{recipe.food(gone.food).name} is taken out.")
    return redirect(where(draft))


@require_POST
def revise(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Make a new draft from a version."""
    old = access.to_write(request.user, code, number)
    return redirect(where(actions.revise(version=old, by=request.user, key=key_of(request.POST))))
