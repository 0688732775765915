"""The page of what orders keep to: closed days, and for how many weeks one is filled up."""

from datetime import date

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from curriculum.errors import RuleBroken
from kitchen.stores.orders import access
from kitchen.stores.orders.closed import actions, queries
from kitchen.stores.orders.closed.forms import ClosedForm, FillWeeksForm
from kitchen.stores.orders.coming.queries import fill_weeks
from kitchen.stores.orders.week import FILL_WEEKS


@require_safe
def kept_to(request: HttpRequest) -> HttpResponse:
    """What orders keep to, for who reads orders."""
    access.reader(request.user)
    return _page(request)


@require_POST
def close(request: HttpRequest) -> HttpResponse:
    """Close a day."""
    access.keeper(request.user)
    form = ClosedForm(request.POST)
    if form.is_valid():
        try:
            actions.close_day(by=request.user, **form.cleaned_data)
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, "The day is closed. The weeks propose no delivery on it.")
            return redirect("stores:kept_to")
    return _page(request, closed_form=form)


@require_POST
def weeks(request: HttpRequest) -> HttpResponse:
    """Set for how many weeks an order may be filled up."""
    access.keeper(request.user)
    form = FillWeeksForm(request.POST)
    if form.is_valid():
        actions.set_fill_weeks(weeks=form.cleaned_data["weeks"], by=request.user)
        messages.success(request, "The weeks are written down.")
        return redirect("stores:kept_to")
    return _page(request, weeks_form=form)


@require_POST
def reopen(request: HttpRequest, on: str) -> HttpResponse:
    """Take in on that day again."""
    access.keeper(request.user)
    try:
        day = date.fromisoformat(on)
    except ValueError as error:
        raise Http404("No such day.") from error
    actions.open_day(on=day, by=request.user)
    messages.success(request, "The stores take in on that day again.")
    return redirect("stores:kept_to")


def _page(request: HttpRequest, **forms: object) -> HttpResponse:
    facts = {
        "rows": queries.closed_rows(),
        "may_order": access.may_order(request.user),
        "closed_form": ClosedForm(),
        "weeks_form": FillWeeksForm(initial={"weeks": fill_weeks()}),
        "usual_weeks": FILL_WEEKS,
    }
    return render(request, "stores/kept_to.html", facts | forms)
