"""Taking a recipe out, and bringing one in: as schema.org JSON-LD, plain text or a table."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_safe

from curriculum.errors import RuleBroken
from curriculum.recipes import access, actions, queries
from curriculum.recipes.interchange import json_ld, plain_text, table
from curriculum.recipes.interchange.forms import ArriveForm, Review, first_review, read_again, sent_review
from curriculum.recipes.interchange.said import carried_words, steps_words, time_words
from curriculum.recipes.writing.views import form_page, where


@require_safe
def take_out_json(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """The version as a schema.org Recipe."""
    recipe = queries.recipe_data(access.version_for(request.user, code, number))
    return _file(json_ld.write(recipe), "application/ld+json", f"{code}-{number}.jsonld")


@require_safe
def take_out_text(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """The version as plain text."""
    recipe = queries.recipe_data(access.version_for(request.user, code, number))
    return _file(plain_text.write(recipe), "text/plain; charset=utf-8", f"{code}-{number}.txt")


@require_safe
def take_out_table(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """The lines of the version as CSV."""
    recipe = queries.recipe_data(access.version_for(request.user, code, number))
    return _file(table.write(recipe), "text/csv; charset=utf-8", f"{code}-{number}.csv")


@form_page
def bring_in(request: HttpRequest) -> HttpResponse:
    """A file or text first, then all that was read of it; only what a person accepts becomes a draft."""
    access.demand_writer(request.user)
    if "source" in request.POST:
        return _reviewed(request)
    form = ArriveForm(request.POST or None, request.FILES or None)
    if request.method == "POST" and form.is_valid():
        return _shown(request, first_review(form))
    context = {"form": form.to_mend() if form.is_bound else form, "leave_url": reverse("recipes:book")}
    return render(request, "recipes/bring_in.html", context)


def _reviewed(request: HttpRequest) -> HttpResponse:
    try:
        if "again" in request.POST:
            return _shown(request, read_again(request.POST))
        review = sent_review(request.POST)
    except RuleBroken as error:
        form = ArriveForm({"text": request.POST.get("source", ""), "system": request.POST.get("system", "")})
        form.is_valid()
        form.add_error(None, error.message)
        return render(request, "recipes/bring_in.html", {"form": form, "leave_url": reverse("recipes:book")})
    if review.is_valid():
        try:
            key = review.head.cleaned_data["key"]
            return redirect(where(actions.write_recipe(recipe=review.recipe(), by=request.user, key=key)))
        except RuleBroken as error:
            review.head.refuse(error)
    return _shown(request, review)


def _shown(request: HttpRequest, review: Review) -> HttpResponse:
    context = {
        "review": review,
        "summary": review.summary,
        "times": time_words(review.imported),
        "carried": carried_words(review.imported),
        "steps_words": steps_words(review.imported),
        "leave_url": reverse("recipes:book"),
    }
    return render(request, "recipes/brought_in.html", context)


def _file(text: str, kind: str, name: str) -> HttpResponse:
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return HttpResponse(text.encode(), content_type=kind, headers=headers)
