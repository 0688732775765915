"""The pages of what lessons teach the stores: proposals, decisions, allowances by hand."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from curriculum.errors import RuleBroken
from curriculum.foods.access import may_write
from kitchen.stores.learning import access, actions, queries
from kitchen.stores.learning.forms import AllowanceForm, DecideForm, TakeBackForm


@require_safe
def learning(request: HttpRequest) -> HttpResponse:
    """What lessons and tests propose, and what stands."""
    access.reader(request.user)
    facts = {
        "page": queries.learning_page(),
        "may_decide": access.may_decide(request.user),
        "may_weigh": may_write(request.user),
    }
    return render(request, "stores/learning.html", facts)


@require_http_methods(["GET", "HEAD", "POST"])
def learned(request: HttpRequest, kind: str, of: str, food: str) -> HttpResponse:
    """One proposal with its evidence and what it would change; accepted or declined."""
    read, proposal = access.proposal_for(request.user, kind, of, food)
    if request.method == "POST":
        access.decider(request.user)
    page = queries.proposal_page(read, proposal)
    form = DecideForm(
        request.POST or None, proposal=proposal, figure=page.line.figure, techniques=page.techniques
    )
    if request.method == "POST" and form.is_valid() and _decided(request, form, page):
        return redirect("stores:learning")
    facts = {
        "page": page,
        "form": form,
        "may_decide": access.may_decide(request.user),
        "may_open": access.may_open_lessons(request.user),
        "leave_url": reverse("stores:learning"),
    }
    return render(request, "stores/learned.html", facts)


@require_http_methods(["GET", "HEAD", "POST"])
def take_back(request: HttpRequest, number: int) -> HttpResponse:
    """A decision stands no more."""
    figure = access.figure_to_take_back(request.user, number)
    form = TakeBackForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        try:
            actions.take_back_figure(figure=figure, words=said["words"], by=request.user, key=said["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, "It is taken back. What was in use before is in use again.")
            return redirect("stores:learning")
    facts = {"form": form, "decision": queries.decision(figure), "leave_url": reverse("stores:learning")}
    return render(request, "stores/take_back_figure.html", facts)


@require_http_methods(["GET", "HEAD", "POST"])
def allowance(request: HttpRequest) -> HttpResponse:
    """Write a wastage allowance down by hand."""
    access.decider(request.user)
    form = AllowanceForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            actions.write_allowance(**form.said(), by=request.user, key=form.cleaned_data["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, "The allowance stands. Requisitions that come ask for it.")
            return redirect("stores:learning")
    return render(request, "stores/allowance.html", {"form": form, "leave_url": reverse("stores:learning")})


def _decided(request: HttpRequest, form: DecideForm, page: queries.ProposalPage) -> bool:
    """Whether the decision is written down; a refusal is shown at the form."""
    said = {
        "proposal": form.proposal,
        "words": form.cleaned_data["words"],
        "before_source": page.source,
        "by": request.user,
        "key": form.cleaned_data["key"],
    }
    try:
        if form.accepts():
            actions.accept_figure(of=form.of(), **said)
            messages.success(request, "It is accepted. Kits and requisitions that come reckon with it.")
        else:
            actions.decline_figure(**said)
            messages.success(request, "It is declined. Everything stays as it is.")
    except RuleBroken as error:
        form.refuse(error)
        return False
    return True
