"""The page of the label on one lot's own pack."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from curriculum.errors import RuleBroken
from curriculum.people.queries import the_college, today_at
from kitchen.stores import access
from kitchen.stores.lots.labels import actions, queries
from kitchen.stores.lots.labels.forms import LotLabelForm, SameLabelForm
from kitchen.stores.models import Lot


@require_http_methods(["GET", "HEAD", "POST"])
def lot_label(request: HttpRequest, code: str) -> HttpResponse:
    """Read the pack of one lot, kind by kind."""
    lot = access.lot_for(request.user, code)
    form = LotLabelForm(request.POST or None, lot=lot)
    if request.method == "POST" and form.is_valid():
        try:
            read = actions.read_lot_label(
                lot=lot,
                read=form.read(),
                on=today_at(the_college()),
                by=request.user,
                key=form.cleaned_data["key"],
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            return _read(request, read)
    return _page(request, lot, form, _same(lot))


@require_POST
def same(request: HttpRequest, code: str) -> HttpResponse:
    """This pack was read too, and says what another lot's label said."""
    lot = access.lot_for(request.user, code)
    form = SameLabelForm(request.POST, lot=lot, others=queries.same_choices(lot))
    if form.is_valid():
        try:
            read = actions.read_lot_label(
                lot=lot,
                read=form.read(),
                on=today_at(the_college()),
                by=request.user,
                same_as=form.other(),
                key=form.cleaned_data["key"],
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            return _read(request, read)
    return _page(request, lot, LotLabelForm(lot=lot), form)


@require_POST
def widen(request: HttpRequest, code: str) -> HttpResponse:
    """Let the label of the food name what this pack names."""
    lot = access.lot_for(request.user, code)
    try:
        food = actions.let_food_name_it_too(lot=lot, by=request.user)
    except RuleBroken as error:
        messages.error(request, error.message)
    else:
        messages.success(request, f"The label of {food.name} names it too. Kits and diets are judged by it.")
    return redirect("stores:lot_label", code=lot.code)


def _same(lot: Lot) -> SameLabelForm | None:
    others = queries.same_choices(lot)
    return SameLabelForm(lot=lot, others=others) if others and not lot.label_read_on else None


def _page(
    request: HttpRequest, lot: Lot, form: LotLabelForm, same_form: SameLabelForm | None
) -> HttpResponse:
    facts = {"lot": lot, "form": form, "same": same_form, "more": queries.beyond_food(lot)}
    facts |= {
        "readings": queries.readings(lot),
        "leave_url": reverse("stores:lot", kwargs={"code": lot.code}),
    }
    return render(request, "stores/lot_label.html", facts)


def _read(request: HttpRequest, lot: Lot) -> HttpResponse:
    more = queries.beyond_food(lot)
    if more:
        messages.warning(
            request,
            f"The pack of lot {lot.code} is read. It names {more}, and the label of its food does not.",
        )
        return redirect("stores:lot_label", code=lot.code)
    messages.success(request, f"The pack of lot {lot.code} is read. Kits that waited for it may leave.")
    return redirect("stores:labels")
