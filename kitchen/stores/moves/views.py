"""The pages of stock outside the kits: waste, count, count in, correct."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from curriculum.errors import RuleBroken
from curriculum.wording import counted_words, listed, sentence
from kitchen.stores import access
from kitchen.stores.moves import actions
from kitchen.stores.moves.forms import CorrectForm, CountForm, FoundForm, WasteForm


@require_http_methods(["GET", "HEAD", "POST"])
def waste(request: HttpRequest, code: str) -> HttpResponse:
    """Throw away a lot or a part of it, by reason."""
    lot = access.lot_for(request.user, code)
    form = WasteForm(request.POST or None, lot=lot, reason=request.GET.get("why", ""))
    if request.method == "POST" and form.is_valid():
        try:
            actions.waste_from_lot(
                lot=lot,
                milligrams=form.milligrams(),
                reason=form.why(),
                reason_code=form.cleaned_data["reason"],
                by=request.user,
                key=form.cleaned_data["key"],
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"It is out of lot {lot.code} as waste.")
            return redirect("stores:lot", code=lot.code)
    leave = reverse("stores:lot", kwargs={"code": lot.code})
    return render(request, "stores/waste.html", {"form": form, "lot": lot, "leave_url": leave})


@require_http_methods(["GET", "HEAD", "POST"])
def count(request: HttpRequest) -> HttpResponse:
    """Count the stores against the book."""
    access.keeper_of_stock(request.user)
    form = CountForm(request.POST if request.method == "POST" else None)
    if request.method == "POST" and form.is_valid():
        counts = form.counts()
        try:
            differ = actions.count_lots(counts=counts, by=request.user, key=form.cleaned_data["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, _counted_words(len(counts), list(differ)))
            return redirect("stores:stock")
    return render(request, "stores/count.html", {"form": form})


@require_http_methods(["GET", "HEAD", "POST"])
def found(request: HttpRequest) -> HttpResponse:
    """Count in food that lies there and that the book lacks."""
    access.keeper_of_stock(request.user)
    form = FoundForm(request.POST or None, initial={"food": request.GET.get("food", "")})
    if request.method == "POST" and form.is_valid():
        try:
            lot = actions.count_in_food(entry=form.entry(), by=request.user, key=form.cleaned_data["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(
                request, f"Lot {lot.code} is counted in. Read its label before anything leaves it."
            )
            return redirect("stores:lot", code=lot.code)
    return render(request, "stores/found.html", {"form": form, "leave_url": reverse("stores:stock")})


@require_http_methods(["GET", "HEAD", "POST"])
def correct(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Correct a movement by another one."""
    movement = access.movement_for(request.user, code, number)
    form = CorrectForm(request.POST or None, movement=movement)
    if request.method == "POST" and form.is_valid():
        try:
            actions.correct_movement(
                movement=movement,
                should_be_milligrams=form.milligrams(),
                reason=form.cleaned_data["why"],
                by=request.user,
                key=form.cleaned_data["key"],
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"Movement {number} is corrected; both stand in the book.")
            return redirect("stores:lot", code=code)
    leave = reverse("stores:lot", kwargs={"code": code})
    return render(request, "stores/correct.html", {"form": form, "movement": movement, "leave_url": leave})


def _counted_words(counted: int, differ: list[str]) -> str:
    said = counted_words(counted, "lot is", "lots are")
    if not differ:
        return sentence(f"{said} counted, as the book has it")
    return sentence(f"{said} counted. The book is set right for lot {listed(differ)}")
