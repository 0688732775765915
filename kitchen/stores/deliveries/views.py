"""The pages of a delivery: the list, the check, one line, a substitute to decide on, the college's rules."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.errors import RuleBroken
from curriculum.people.queries import the_college, today_at
from curriculum.records.actions import note_health_read
from kitchen.stores.access import keeper_of_stock
from kitchen.stores.deliveries import access, actions, queries
from kitchen.stores.deliveries.forms import (
    BeginForm,
    DecideForm,
    OrderCodeForm,
    RuleForm,
    ScanForm,
    WaitingLabelForm,
    line_page,
    refuse_line,
)
from kitchen.stores.deliveries.models import DeliveryLine
from kitchen.stores.deliveries.substitutes.queries import decide_page


@require_safe
def deliveries(request: HttpRequest) -> HttpResponse:
    """Orders that wait, open checks, closed ones; an order's own code begins its check."""
    keeper_of_stock(request.user)
    order = queries.order_coded(request.GET.get("scan", "").strip().upper())
    if order is not None:
        return redirect(f"{reverse('stores:begin_delivery')}?order={order.pk}")
    orders, begun, closed = queries.deliveries_page(request.GET.get("page"))
    form = OrderCodeForm(initial={"scan": request.GET.get("scan", "")})
    facts = {"orders": orders, "rows": [*begun, *closed], "page": closed, "form": form}
    return render(request, "stores/deliveries.html", facts)


@require_http_methods(["GET", "HEAD", "POST"])
def begin(request: HttpRequest) -> HttpResponse:
    """Begin a check; the second tablet is led to the one that is begun."""
    keeper_of_stock(request.user)
    first = {"order": request.GET.get("order"), "on": today_at(the_college())}
    form = BeginForm(request.POST or None, initial=first)
    if request.method == "POST" and form.is_valid():
        try:
            made = actions.begin_delivery(by=request.user, **form.cleaned_data)
        except RuleBroken as error:
            if "delivery" in error.facts:
                messages.warning(request, error.message)
                return redirect("stores:delivery", code=error.facts["delivery"])
            form.refuse(error)
        else:
            return redirect("stores:delivery", code=made.code)
    return render(
        request, "stores/begin_delivery.html", {"form": form, "leave_url": reverse("stores:deliveries")}
    )


@require_safe
def delivery(request: HttpRequest, code: str) -> HttpResponse:
    """The order against what came, line by line, with the scan box."""
    found = access.delivery_for(request.user, code)
    page = queries.delivery_page(found, today_at(the_college()))
    return render(
        request, "stores/delivery.html", {"page": page, "delivery": found, "scan": ScanForm.ready()}
    )


@require_http_methods(["GET", "HEAD", "POST"])
def line(request: HttpRequest, code: str) -> HttpResponse:
    """One line: filled by a scan or from the order, then taken in or rejected."""
    found = access.delivery_for(request.user, code)
    asked = access.order_line_of(found, request.GET.get("order_line", ""))
    today = today_at(the_college())
    page = line_page(found, asked, request.GET.get("scan", ""), today, request.POST or None)
    if request.method == "POST" and page.form.is_valid():
        key = page.form.cleaned_data["key"]
        try:
            made = actions.check_line(
                delivery=found, entry=page.form.entry(), on=today, by=request.user, key=key
            )
        except RuleBroken as error:
            refuse_line(page, found, error)
        else:
            messages.success(request, queries.outcome(made))
            if made.verdict == DeliveryLine.Verdict.WAITING:
                return redirect("stores:decide_line", code=found.code, number=made.number)
            return redirect("stores:delivery", code=found.code)
    return render(request, "stores/delivery_line.html", {"page": page, "delivery": found, "scan": ScanForm()})


@require_http_methods(["GET", "HEAD", "POST"])
def decide(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Which lessons and learners a substitute touches; a person decides."""
    found = access.line_for(request.user, code, number)
    today = today_at(the_college())
    page = decide_page(found, today)
    form = DecideForm(request.POST or None, lessons=page.choices)
    if request.method == "POST" and form.is_valid():
        try:
            said = form.cleaned_data
            lessons = said["lessons"] if said["what"] == "accept" else None
            actions.decide_line(
                line=found, lessons=lessons, why=said["why"], by=request.user, key=said["key"]
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, "It is decided, and written down with your name.")
            return redirect("stores:delivery", code=code)
    note_health_read(reader=request.user, students=page.students, page="substitute", day=today)
    facts = {"page": page, "form": form, "line": found, "label_form": WaitingLabelForm()}
    return render(request, "stores/decide_line.html", facts)


@require_POST
def read_label(request: HttpRequest, code: str, number: int) -> HttpResponse:
    """Read the label of a substitute that waits."""
    found = access.line_for(request.user, code, number)
    today = today_at(the_college())
    form = WaitingLabelForm(request.POST)
    if form.is_valid():
        try:
            made = actions.read_line_label(
                line=found, label=form.ticked(), on=today, by=request.user, key=form.cleaned_data["key"]
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, queries.outcome(made))
            return redirect("stores:decide_line", code=code, number=number)
    page = decide_page(found, today)
    facts = {"page": page, "form": DecideForm(lessons=page.choices), "line": found, "label_form": form}
    return render(request, "stores/decide_line.html", facts)


@require_POST
def close(request: HttpRequest, code: str) -> HttpResponse:
    """Say that the check is done."""
    found = access.delivery_for(request.user, code)
    try:
        actions.close_delivery(delivery=found, by=request.user)
    except RuleBroken as error:
        messages.error(request, error.message)
    else:
        messages.success(request, "The check is closed.")
    return redirect("stores:delivery", code=code)


@require_http_methods(["GET", "HEAD", "POST"])
def rules(request: HttpRequest) -> HttpResponse:
    """What is demanded of each storage class: the published limit, and the college's own."""
    keeper_of_stock(request.user)
    form = RuleForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        actions.set_rule(storage=form.cleaned_data["storage"], rule=form.rule(), by=request.user)
        messages.success(request, "The rule is kept.")
        return redirect("stores:delivery_rules")
    return render(request, "stores/delivery_rules.html", {"form": form, "rows": queries.rule_rows()})
