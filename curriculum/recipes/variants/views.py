"""Making a variant, and a variant against the ordinary recipe."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_safe

from curriculum.errors import RuleBroken
from curriculum.recipes import access, queries
from curriculum.recipes.comparing.compared import compare
from curriculum.recipes.copying.codes import free_code
from curriculum.recipes.copying.queries import taken_codes
from curriculum.recipes.data import RecipeData
from curriculum.recipes.models import Version
from curriculum.recipes.variants.actions import make_variant
from curriculum.recipes.variants.avoided import affected, short_words, words_without
from curriculum.recipes.variants.forms import VariantForm, WithoutForm
from curriculum.recipes.variants.queries import foods_by_code
from curriculum.recipes.variants.rereading import techniques_at_stake, to_reread
from curriculum.recipes.writing.views import form_page, where


@form_page
def variant(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """What it is made without first, then what becomes of every line that has it."""
    version = access.to_vary(request.user, code, number)
    asked = WithoutForm(request.GET if "without" in request.GET else None)
    context = {"version": version, "asked": asked, "leave_url": where(version, "version")}
    if not asked.is_valid():
        return render(request, "recipes/variant.html", context)
    without = asked.cleaned_data["without"]
    recipe = queries.recipe_data(version)
    form = _form(request, recipe, without)
    if request.method == "POST" and form.is_valid():
        made = _made(request, form, version, without)
        if made is not None:
            return redirect(where(made, "against"))
    context |= {
        "form": form,
        "without": words_without(without),
        "perhaps": affected(recipe, without, "perhaps"),
    }
    return render(request, "recipes/variant.html", context)


def _form(request: HttpRequest, recipe: RecipeData, without: str) -> VariantForm:
    lines = affected(recipe, without)
    gone: dict[str, list[str]] = {}
    for each in lines:
        gone.setdefault(each.component.code, []).append(each.food.name)
    names = queries.technique_names({code for step in recipe.steps for code in step.techniques})
    at_stake = techniques_at_stake(recipe, gone, names, without)
    initial = {
        "title": f"{recipe.title} {short_words(without)}",
        "code": free_code(recipe.code, taken_codes(), short_words(without).replace("without", "no")),
        "lost": [code for code, is_lost in at_stake.items() if is_lost],
    }
    shown = {code: names.get(code, code) for code in at_stake}
    return VariantForm(lines, foods_by_code(), without, shown, request.POST or None, initial=initial)


def _made(request: HttpRequest, form: VariantForm, version: Version, without: str) -> Version | None:
    said = form.cleaned_data
    try:
        made = make_variant(
            version=version,
            without=without,
            title=said["title"],
            code=said["code"],
            changes=form.changes(),
            techniques_lost=tuple(said.get("lost", ())),
            by=request.user,
            key=said["key"],
        )
    except RuleBroken as error:
        form.refuse(error)
        return None
    messages.info(request, f"{made.recipe.title} is written as a draft. Read again what stands below.")
    return made


@require_safe
def against(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """A variant against the ordinary recipe: lines, steps, techniques lost, allergens gone and come."""
    version, ordinary = access.variant_for(request.user, code, number)
    data = queries.recipes_data([ordinary, version])
    old, new = data[ordinary.pk], data[version.pk]
    compared = compare(old, new, {}, with_cost=False)
    context = {
        "version": version,
        "ordinary": ordinary,
        "compared": compared,
        "sections": [each for each in compared.components if each.changed],
        "lost": queries.technique_names(new.techniques_lost),
        "acts": access.acts_on(request.user, version),
        "reread": to_reread(old, new) if version.state == Version.State.DRAFT else (),
    }
    return render(request, "recipes/against.html", context)
