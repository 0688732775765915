"""Writing the book: a draft begun, its title, components and lines, and what is done with a version."""

from collections.abc import Callable, Sequence

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.errors import RuleBroken
from curriculum.look.forms import Enamel
from curriculum.recipes import access, actions, queries, steps_graph
from curriculum.recipes.approval.queries import waiting_words
from curriculum.recipes.data import ComponentData, LineData, RecipeData
from curriculum.recipes.editing import with_component, with_lines
from curriculum.recipes.finished.words import finished_words, reckoned
from curriculum.recipes.models import Version
from curriculum.recipes.opened.parts import fingerprint, head, whole
from curriculum.recipes.page import page_of
from curriculum.recipes.writing.actions import add_component
from curriculum.recipes.writing.forms import (
    ComponentForm,
    LineForm,
    NewComponentForm,
    NewForm,
    TitleForm,
    key_of,
)
from curriculum.recipes.writing.queries import so_far_of

#: A draft as it stands, and what gives the draft as it would be with what is typed.
Sums = tuple[RecipeData, Callable[[], RecipeData]]

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
    sums: Sums | None = None,
) -> HttpResponse:
    """The page of one form: ``do`` acts and gives the address to go on to; a refusal stands in the form.

    With ``facts`` the page is about the version as it is read, and leaves to it; ``says`` are
    sentences above the form. ``sums`` are the draft as it stands and as it would be: what it
    comes to stands beside the form, and follows what is typed where the browser asks for that part.
    """
    if sums and request.headers.get("HX-Target") == "so-far":
        return render(request, "recipes/so_far.html", _sums(form, sums))
    if request.method == "POST" and form.is_valid():
        try:
            return redirect(do())
        except RuleBroken as error:
            form.refuse(error)
    leave = reverse("recipes:book") if version is None else where(version, "version" if facts else "write")
    context = {"form": form, "heading": heading, "version": version, "leave_url": leave}
    context |= {"facts": facts, "says": says} | (_sums(form, sums) if sums else {})
    return render(request, "recipes/form.html", context)


def _sums(form: Enamel, sums: Sums) -> dict:
    """What the draft comes to: with what is typed, when that can be read and may be written."""
    stands, would = sums
    try:
        typed = would() if form.is_bound and form.is_valid() else None
    except RuleBroken:
        typed = None
    return {"so_far": so_far_of(typed or stands), "as_typed": typed is not None}


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
    context = {"version": draft, "page": page_of(recipe, names, {}), "so_far": so_far_of(recipe)}
    context |= {"graph": steps_graph.draw(recipe), "ring": steps_graph.loop_words(recipe)}
    context |= {"waiting": waiting_words(draft), "seen": fingerprint(whole(recipe))}
    context |= {"finished": finished_words(recipe)}
    return render(request, "recipes/write.html", context)


@form_page
def title(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """What stands above the components."""
    draft = access.draft_for(request.user, code, number)
    before = queries.recipe_data(draft)
    form = TitleForm(request.POST or None, initial=TitleForm.initial_of(before), wrote=draft.written_by.name)

    def do() -> str:
        seen, recipe = fingerprint(head(before)), form.recipe(before)
        return where(actions.write_title(version=draft, recipe=recipe, by=request.user, seen=seen))

    sums, says = (before, lambda: form.recipe(before)), reckoned(before)
    return answered(request, form, do, f"Title and portions of {before.title}", draft, says=says, sums=sums)


@form_page
def new_component(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Add a component; its lines are pasted or written next."""
    draft = access.draft_for(request.user, code, number)
    recipe = queries.recipe_data(draft)
    form = NewComponentForm(request.POST or None)

    def do() -> str:
        component, key = form.component(ComponentData("", "", "portions", ())), form.cleaned_data["key"]
        letter = add_component(version=draft, component=component, by=request.user, key=key)
        return where(draft, "paste", component=letter)

    return answered(request, form, do, "Add a component", draft, sums=(recipe, lambda: recipe))


@form_page
def component(request: HttpRequest, code: str, number: int, component: str) -> HttpResponse:
    """Name and basis of a component."""
    draft = access.draft_for(request.user, code, number)
    recipe = queries.recipe_data(draft)
    before = access.component_for(recipe, component)
    initial, wrote = ComponentForm.initial_of(before), draft.written_by.name
    form = ComponentForm(request.POST or None, initial=initial, wrote=wrote)

    def do() -> str:
        said = {"component": form.component(before), "seen": fingerprint(before)}
        return where(actions.put_component(version=draft, by=request.user, **said))

    sums = (recipe, lambda: with_component(recipe, form.component(before)))
    return answered(request, form, do, before.name, draft, sums=sums)


@require_POST
def remove_component(request: HttpRequest, code: str, number: int, component: str) -> HttpResponse:
    """Take a component out."""
    draft = access.draft_for(request.user, code, number)
    gone = access.component_for(queries.recipe_data(draft), component)
    seen = request.POST.get("seen", "")
    actions.remove_component(version=draft, code=component, by=request.user, seen=seen)
    messages.info(request, f"{gone.name} is taken out, with its lines.")
    return redirect(where(draft))


@form_page
def new_line(request: HttpRequest, code: str, number: int, component: str) -> HttpResponse:
    """Add one line to a component."""
    draft = access.draft_for(request.user, code, number)
    recipe = queries.recipe_data(draft)
    found = access.component_for(recipe, component)
    form = LineForm(request.POST or None)

    def do() -> str:
        said = {"lines": (form.line(LineData(0, "", 0)),), "key": form.cleaned_data["key"]}
        done = actions.put_lines(version=draft, code=component, by=request.user, **said)
        return f"{where(done)}#component-{component}"

    sums = (recipe, lambda: with_lines(recipe, component, (form.line(LineData(0, "", 0)),)))
    return answered(request, form, do, f"Add a line to {found.name}", draft, sums=sums)


@form_page
def line(request: HttpRequest, code: str, number: int, component: str, position: int) -> HttpResponse:
    """One line of a component, with all that may be said of it."""
    draft = access.draft_for(request.user, code, number)
    recipe = queries.recipe_data(draft)
    before = access.line_for(recipe, component, position)
    form = LineForm(request.POST or None, initial=LineForm.initial_of(before), wrote=draft.written_by.name)

    def do() -> str:
        said = {"lines": (form.line(before),), "seen": fingerprint((before,))}
        done = actions.put_lines(version=draft, code=component, by=request.user, **said)
        return f"{where(done)}#component-{component}"

    sums = (recipe, lambda: with_lines(recipe, component, (form.line(before),)))
    return answered(request, form, do, recipe.food(before.food).name, draft, sums=sums)


@require_POST
def remove_line(request: HttpRequest, code: str, number: int, component: str, position: int) -> HttpResponse:
    """Take a line out of a component."""
    draft = access.draft_for(request.user, code, number)
    recipe = queries.recipe_data(draft)
    gone, seen = access.line_for(recipe, component, position), request.POST.get("seen", "")
    actions.remove_line(version=draft, code=component, position=position, by=request.user, seen=seen)
    messages.info(request, f"{recipe.food(gone.food).name} is taken out.")
    return redirect(f"{where(draft)}#component-{component}")


@require_POST
def revise(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Make a new draft from a version."""
    old = access.to_write(request.user, code, number)
    return redirect(where(actions.revise(version=old, by=request.user, key=key_of(request.POST))))
