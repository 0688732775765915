"""The pages of the week and of orders: what is needed, what is ordered, what was sent."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.errors import RuleBroken
from kitchen.stores.orders import access, actions, queries
from kitchen.stores.orders.forms import CancelForm, KeepingForm, OrderForm, SentForm, WeekForm, refuse_order
from kitchen.stores.orders.models import Order
from kitchen.stores.orders.paper import order_pdf
from kitchen.stores.orders.sheet import table
from kitchen.stores.orders.single import queries as single
from kitchen.stores.orders.told.queries import changed_since


@require_http_methods(["GET", "HEAD", "POST"])
def week(request: HttpRequest, on: str = "") -> HttpResponse:
    """What a week needs, what lies in stock, what is proposed; the stores accept it."""
    monday = access.week_for(request.user, on)
    form = refused = None
    if request.method == "POST":
        access.keeper(request.user)
        form = WeekForm(request.POST)
        if form.is_valid():
            try:
                key = form.cleaned_data["key"]
                actions.accept_week(entry=form.entry(monday), by=request.user, key=key)
            except RuleBroken as error:
                refused, form = (error, None) if error.code.startswith("week_") else (None, form)
                if form:
                    form.refuse(error)
            else:
                messages.success(request, "The orders are drawn up. Look at each, then send it.")
                return redirect("stores:week", on=monday.isoformat())
    page = queries.week_page(monday)
    form = form.with_page(page) if form else WeekForm(page=page)
    return render(request, "stores/week.html", _week_facts(request, page, form) | {"refused": refused})


def _week_facts(request: HttpRequest, page: queries.WeekPage, form: WeekForm) -> dict:
    before, after = queries.weeks_beside(page.basis.monday)
    may = {
        "may_order": access.may_order(request.user),
        "opens": access.may_read_requisitions(request.user),
    }
    return {"page": page, "form": form, "before": before, "after": after} | may


@require_safe
def orders(request: HttpRequest) -> HttpResponse:
    """Every order, the latest first."""
    access.reader(request.user)
    return render(request, "stores/orders.html", {"rows": queries.listed_orders(request.GET.get("page"))})


@require_http_methods(["GET", "HEAD", "POST"])
def order(request: HttpRequest, code: str) -> HttpResponse:
    """One order; a draft is changed here."""
    found = access.order_for(request.user, code)
    form = OrderForm(request.POST or None, order=found)
    if request.method == "POST":
        access.keeper(request.user)
        if form.is_valid():
            try:
                key = form.cleaned_data["key"]
                seen = form.cleaned_data["seen"]
                actions.change_order(order=found, lines=form.entries(), by=request.user, key=key, seen=seen)
            except RuleBroken as error:
                form = refuse_order(form, access.order_for(request.user, code), error)
            else:
                messages.success(request, f"Order {found.code} is changed.")
                return redirect("stores:order", code=found.code)
    return _order_page(request, found, form=form)


@require_POST
def order_sent(request: HttpRequest, code: str) -> HttpResponse:
    """Note that a person has sent an order."""
    found = access.order_to_change(request.user, code)
    form = SentForm(request.POST)
    if form.is_valid():
        said = form.cleaned_data
        try:
            actions.note_sent(order=found, agreed=said["agreed"], by=request.user, key=said["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"Order {found.code} is noted as sent. It is not changed any more.")
            return redirect("stores:order", code=found.code)
    return _order_page(request, found, sent_form=form)


@require_POST
def order_cancelled(request: HttpRequest, code: str) -> HttpResponse:
    """Cancel an order."""
    found = access.order_to_change(request.user, code)
    form = CancelForm(request.POST)
    if form.is_valid():
        said = form.cleaned_data
        try:
            actions.cancel_order(order=found, why=said["why"], by=request.user, key=said["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"Order {found.code} is cancelled. The week counts it no more.")
            return redirect("stores:order", code=found.code)
    return _order_page(request, found, cancel_form=form)


def _order_page(request: HttpRequest, found: Order, **forms: object) -> HttpResponse:
    facts = {
        "page": single.order_page(found),
        "changed": changed_since(found),
        "may_order": access.may_order(request.user),
        "form": OrderForm(order=found) if "form" not in forms else None,
        "sent_form": SentForm(),
        "cancel_form": CancelForm(),
    }
    return render(request, "stores/order.html", facts | forms)


@require_safe
def order_paper(request: HttpRequest, code: str) -> HttpResponse:
    """The order as a PDF."""
    found = access.order_for(request.user, code)
    charge = 0 if found.supplements_id else found.supplier.delivery_pence
    return HttpResponse(order_pdf(single.order_sheet(found), charge), content_type="application/pdf")


@require_safe
def order_table(request: HttpRequest, code: str) -> HttpResponse:
    """The order as a table."""
    found = access.order_for(request.user, code)
    answer = HttpResponse(table(single.order_sheet(found)), content_type="text/csv; charset=utf-8")
    answer["Content-Disposition"] = f'attachment; filename="order-{found.code}.csv"'
    return answer


@require_safe
def par(request: HttpRequest) -> HttpResponse:
    """Par levels and how foods keep."""
    access.reader(request.user)
    facts = {"rows": queries.keeping_rows(), "may_order": access.may_order(request.user)}
    return render(request, "stores/par.html", facts)


@require_http_methods(["GET", "HEAD", "POST"])
def keeping(request: HttpRequest, food: str) -> HttpResponse:
    """The par level of a food, and how many days it keeps."""
    found = access.food_to_keep(request.user, food)
    form = KeepingForm(request.POST or None, food=found)
    if request.method == "POST" and form.is_valid():
        actions.set_keeping(food=found, entry=form.entry(), by=request.user, key=form.cleaned_data["key"])
        messages.success(request, f"How {found.name} is kept is written down.")
        return redirect("stores:par")
    return render(
        request, "stores/keeping.html", {"form": form, "food": found, "leave_url": reverse("stores:par")}
    )
