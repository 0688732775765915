"""Reading the book: the list, a recipe, the techniques and what trains them."""

from django.core.paginator import Page, Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from curriculum.foods.queries import prices
from curriculum.people.queries import the_college, today_at
from curriculum.recipes import access, queries
from curriculum.recipes.approval.forms import SendForm
from curriculum.recipes.approval.queries import history_of, stands, waiting_words
from curriculum.recipes.book import BookLine, count_words, line_of
from curriculum.recipes.checking.queries import teaching_for
from curriculum.recipes.checks import findings
from curriculum.recipes.copying.queries import copied_from
from curriculum.recipes.differences import differences
from curriculum.recipes.forms import BookFilter, ScaleForm, TechniqueFilter, state_words
from curriculum.recipes.models import Version
from curriculum.recipes.page import page_known

A_PAGE = 25


@require_safe
def book(request: HttpRequest) -> HttpResponse:
    """The recipes approved to teach, searched; below them what is being written."""
    access.demand_reader(request.user)
    staff = access.reads_drafts(request.user)
    form = BookFilter(request.GET, sees_cost=access.sees_cost(request.user))
    form.is_valid()
    search, asked = form.search(), form.asked()
    found = Paginator(queries.found(**search), A_PAGE).get_page(request.GET.get("page"))
    drafts = queries.found(**search, drafts=True)
    every = queries.latest_approved().count() if asked else found.paginator.count
    context = {
        "form": form,
        "page": found,
        "lines": _lines(found),
        "drafts": [(each, waiting_words(each), *stands(each)) for each in (drafts if staff else ())],
        "every": count_words(every, every, ()),
        "counted": count_words(found.paginator.count, every, asked.values(), form.sorted_words()),
        "asked": asked or form.sorted_words(),
        "loosen": [(asked[name], form.address_leaving(name)) for name in _loosening(form, found)],
        "staff": staff,
        "may_write": access.may_write(request.user),
        "sees_cost": access.sees_cost(request.user),
    }
    return render(request, "recipes/book.html", context)


def _lines(found: Page) -> list[BookLine]:
    recipes, names = queries.recipes_data(found), queries.technique_names()
    return [line_of(recipes[each.pk], names, queries.figures_kept(each), each.costed_on) for each in found]


def _loosening(form: BookFilter, found: Page) -> list[str]:
    """Fields of a search that found nothing, each of which alone stands in the way."""
    return [] if found else queries.finding({name: form.search(leaving=name) for name in form.asked()})


@require_safe
def recipe(request: HttpRequest, code: str) -> HttpResponse:
    """A recipe as it is taught now."""
    return _show(request, access.recipe_for(request.user, code))


@require_safe
def version(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """One version of a recipe."""
    return _show(request, access.version_for(request.user, code, number))


def _show(request: HttpRequest, shown: Version) -> HttpResponse:
    data = queries.recipe_data(shown)
    costs = prices(today_at(the_college()), [food.code for food in data.foods])
    teaching = teaching_for(data)
    context = {
        "version": shown,
        "page": page_known(data, teaching.techniques, costs),
        "form": ScaleForm(),
        "state": state_words(shown),
        "acts": access.acts_on(request.user, shown),
        "variants": queries.variants_of(shown),
        "copied_from": copied_from(shown),
        "versions": queries.versions_of(shown.recipe) if access.reads_drafts(request.user) else [],
        "sees_cost": access.sees_cost(request.user),
    }
    if access.reads_drafts(request.user):
        context |= {"history": history_of(shown), "waiting": waiting_words(shown), "sending": SendForm()}
    if shown.state == Version.State.DRAFT:
        context["findings"] = findings(data, teaching)
        context["stops"] = any(finding.stops for finding in context["findings"])
    if shown.made_from is not None and access.reads_drafts(request.user):
        context["differences"] = differences(queries.recipe_data(shown.made_from), data)
    return render(request, "recipes/recipe.html", context)


@require_safe
def techniques(request: HttpRequest) -> HttpResponse:
    """Every technique in use, searched, with how many recipes train it."""
    access.demand_reader(request.user)
    form = TechniqueFilter(request.GET)
    said = form.cleaned_data if form.is_valid() else {}
    found = queries.techniques(said.get("q", ""), said.get("level", ""))
    context = {"form": form, "techniques": found, "asked": bool(said.get("q") or said.get("level"))}
    return render(request, "recipes/techniques.html", context)


@require_safe
def technique(request: HttpRequest, code: str) -> HttpResponse:
    """One technique: its cue, its faults with cause and remedy, and the recipes that train it."""
    found = access.technique_for(request.user, code)
    trains = queries.found(techniques=[found.code])
    return render(request, "recipes/technique.html", {"technique": found, "trains": trains})
