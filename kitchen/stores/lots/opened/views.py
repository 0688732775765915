"""The pages on which a lot is opened or thawed, and on which that is taken back."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods

from curriculum.errors import RuleBroken
from curriculum.people.queries import the_college, today_at
from kitchen.stores import access
from kitchen.stores.lots.opened import actions
from kitchen.stores.lots.opened.forms import OpenedForm, UndoForm
from kitchen.stores.lots.opened.queries import opened_page


@require_http_methods(["GET", "HEAD", "POST"])
def opened(request: HttpRequest, code: str) -> HttpResponse:
    """Say that a lot was opened or thawed."""
    lot = access.lot_for(request.user, code)
    form = OpenedForm(request.POST or None, lot=lot, today=today_at(the_college()))
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        try:
            actions.open_lot(lot=lot, kind=said["kind"], on=said["on"], by=request.user, key=said["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"The book says that lot {lot.code} is {said['kind']}.")
            return redirect("stores:lot", code=lot.code)
    leave = reverse("stores:lot", kwargs={"code": lot.code})
    facts = {"lot": lot, "form": form, "page": opened_page(lot), "leave_url": leave}
    return render(request, "stores/opened.html", facts)


@require_http_methods(["GET", "HEAD", "POST"])
def undo(request: HttpRequest, code: str) -> HttpResponse:
    """Take the last opening or thawing back."""
    lot = access.lot_for(request.user, code)
    form = UndoForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        try:
            actions.undo_opening(lot=lot, why=said["why"], by=request.user, key=said["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"It is taken back; both stand in the book of lot {lot.code}.")
            return redirect("stores:lot", code=lot.code)
    leave = reverse("stores:lot", kwargs={"code": lot.code})
    return render(request, "stores/opened_undo.html", {"lot": lot, "form": form, "leave_url": leave})
