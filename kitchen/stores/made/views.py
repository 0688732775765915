"""The pages of made lots: what was made for a lesson, making one, giving it out, its label."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from curriculum.errors import RuleBroken
from curriculum.people.queries import now_at, the_college
from curriculum.wording import amount, counted_words, sentence
from kitchen.stores import access
from kitchen.stores.made import actions, queries
from kitchen.stores.made.bowls import LIMIT
from kitchen.stores.made.forms import GiveForm, MakeForm
from kitchen.stores.made.paper import made_label


@require_safe
def made(request: HttpRequest, lesson: str) -> HttpResponse:
    """What was made for a lesson, with times and lots, and what can be made."""
    found = access.kits_to_supply(request.user, lesson)
    facts = {"lesson": found, "rows": queries.made_lots(found), "makeable": queries.makeable(found)}
    return render(request, "stores/made.html", facts)


@require_http_methods(["GET", "HEAD", "POST"])
def make_lot(request: HttpRequest, lesson: str, food: str) -> HttpResponse:
    """Write a bowl down: what went in, what it weighs, when it is thrown away."""
    found, what = access.food_to_make(request.user, lesson, food)
    waits = queries.waits_for(found, what)
    choices = queries.lot_choices(what, waits.pieces)
    form = MakeForm(what, choices, now_at(the_college()), request.POST or None)
    leave = reverse("stores:made", kwargs={"lesson": found.code})
    if request.method == "POST" and form.is_valid():
        try:
            lot = actions.make_lot(
                lesson=found, entry=form.entry(), by=request.user, key=form.cleaned_data["key"]
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"Made lot {lot.code} is in the book. Print its label for the bowl.")
            return redirect(leave)
    facts = {"lesson": found, "food": what, "form": form, "limit": LIMIT, "waits": waits}
    return render(request, "stores/make_lot.html", facts | {"leave_url": leave})


@require_http_methods(["GET", "HEAD", "POST"])
def give_from_made(request: HttpRequest, lesson: str, code: str) -> HttpResponse:
    """Choose the kits that take from a bowl instead of whole pieces."""
    lot = access.made_lot_for(request.user, lesson, code)
    takers = queries.takers(lot.made_in, lot.food)
    free = queries.free_milligrams(lot.made_in, lot.food, now_at(the_college()))
    form = GiveForm(takers, free, request.POST or None)
    leave = reverse("stores:made", kwargs={"lesson": lesson})
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        try:
            count = actions.give_from_made(lot=lot, lines=said["lines"], by=request.user, key=said["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            taken = counted_words(count, "kit takes", "kits take")
            messages.success(request, sentence(f"{taken} {lot.food.name} by weight, out of a bowl"))
            return redirect(leave)
    facts = {"lesson": lot.made_in, "row": queries.made_row(lot), "takers": takers, "free": amount(free)}
    return render(request, "stores/give_from_made.html", facts | {"form": form, "leave_url": leave})


@require_safe
def label_pdf(request: HttpRequest, lesson: str, code: str) -> HttpResponse:
    """The label of the bowl."""
    lot = access.made_lot_for(request.user, lesson, code)
    return HttpResponse(made_label(queries.label_of(lot)), content_type="application/pdf")
