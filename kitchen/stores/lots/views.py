"""The pages of the stock: lots by food, where each came from and went to, labels."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.errors import RuleBroken
from curriculum.people.queries import the_college, today_at
from kitchen.stores import access
from kitchen.stores.lots import actions, queries
from kitchen.stores.lots.forms import HoldForm, LabelForm, ReceiveForm, ReturnForm
from kitchen.stores.lots.labels.queries import unread_lots
from kitchen.stores.lots.opened.queries import opened_page


@require_safe
def stock(request: HttpRequest) -> HttpResponse:
    """Lots by food, with dates and what is on hand."""
    access.keeper_of_stock(request.user)
    rows = queries.stock_rows(today_at(the_college()))
    return render(request, "stores/stock.html", {"rows": rows})


@require_http_methods(["GET", "HEAD", "POST"])
def receive(request: HttpRequest) -> HttpResponse:
    """Take a lot in, then read its label."""
    access.keeper_of_stock(request.user)
    form = ReceiveForm(request.POST or None, initial={"received_on": today_at(the_college())})
    if request.method == "POST" and form.is_valid():
        try:
            made = actions.receive_lot(entry=form.entry(), by=request.user, key=form.cleaned_data["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(
                request, f"Lot {made.code} is taken in. Read its label before anything leaves it."
            )
            return redirect("stores:lot_label", code=made.code)
    return render(request, "stores/receive.html", {"form": form, "leave_url": reverse("stores:stock")})


@require_safe
def lot(request: HttpRequest, code: str) -> HttpResponse:
    """Where a lot came from, where it went, what is left."""
    found = access.lot_for(request.user, code)
    facts = {"page": queries.lot_page(found, today_at(the_college())), "form": HoldForm()}
    facts |= {"opened": opened_page(found)}
    return render(request, "stores/lot.html", facts)


@require_POST
def hold(request: HttpRequest, code: str) -> HttpResponse:
    """Hold a lot."""
    found = access.lot_for(request.user, code)
    form = HoldForm(request.POST)
    if form.is_valid():
        actions.hold_lot(lot=found, why=form.cleaned_data["why"], by=request.user)
        messages.success(request, f"Lot {found.code} is held: nothing leaves it.")
        return redirect("stores:lot", code=found.code)
    page = queries.lot_page(found, today_at(the_college()))
    return render(request, "stores/lot.html", {"page": page, "form": form, "opened": opened_page(found)})


@require_POST
def release(request: HttpRequest, code: str) -> HttpResponse:
    """Release a held lot."""
    found = access.lot_for(request.user, code)
    actions.release_lot(lot=found, by=request.user)
    messages.success(request, f"Lot {found.code} is released.")
    return redirect("stores:lot", code=found.code)


@require_http_methods(["GET", "HEAD", "POST"])
def give_back(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Put back what came back sealed and cold."""
    issue = access.issue_for(request.user, code, number)
    form = ReturnForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            actions.return_to_lot(
                issue=issue,
                milligrams=form.milligrams(),
                sealed_and_cold=form.cleaned_data["sealed_and_cold"],
                by=request.user,
                key=form.cleaned_data["key"],
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"It is back in lot {issue.lot.code}.")
            return redirect("stores:lot", code=issue.lot.code)
    leave = reverse("stores:lot", kwargs={"code": issue.lot.code})
    return render(request, "stores/give_back.html", {"form": form, "issue": issue, "leave_url": leave})


@require_safe
def labels(request: HttpRequest) -> HttpResponse:
    """Packs that nobody has read, lot by lot; then every food with what its label says."""
    access.keeper_of_stock(request.user)
    facts = {"rows": queries.label_rows(), "unread": unread_lots()}
    return render(request, "stores/labels.html", facts)


@require_http_methods(["GET", "HEAD", "POST"])
def label(request: HttpRequest, food: str) -> HttpResponse:
    """Read the label of a food."""
    found = access.food_for(request.user, food)
    form = LabelForm(request.POST or None, food=found)
    if request.method == "POST" and form.is_valid():
        today = today_at(the_college())
        actions.read_label(
            food=found, read=form.read(), on=today, by=request.user, key=form.cleaned_data["key"]
        )
        messages.success(request, f"The label of {found.name} is read. Each lot’s pack is read by itself.")
        return redirect("stores:labels")
    facts = {
        "food": found,
        "form": form,
        "lots": queries.lots_of(found),
        "leave_url": reverse("stores:labels"),
    }
    return render(request, "stores/label.html", facts)
