"""The requisition of a lesson: submitted by its lecturer, approved or queried by the stores."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.errors import RuleBroken
from curriculum.look.forms import KeyedForm
from kitchen.stores import access
from kitchen.stores.hanging.queries import cancelled_that_hang, hanging_on
from kitchen.stores.requisitions import actions, queries
from kitchen.stores.requisitions.access import requisition_to_answer
from kitchen.stores.requisitions.forms import ApproveForm, QueryForm, ReplyForm, WithdrawForm


@require_http_methods(["GET", "HEAD", "POST"])
def requisition(request: HttpRequest, lesson: str) -> HttpResponse:
    """What is asked of the stores, with packs and prices; the lecturer submits it, or the difference."""
    found, _ = access.kits_for(request.user, lesson)
    form = KeyedForm(request.POST or None)
    if request.method == "POST":
        access.lesson_to_ask_for(request.user, lesson)
        if form.is_valid():
            actions.submit_requisition(lesson=found, by=request.user, key=form.cleaned_data["key"])
            messages.success(request, "The requisition is with the stores.")
            return redirect("stores:requisition", lesson=found.code)
    return _page(request, lesson, form=form)


@require_POST
def approve(request: HttpRequest, lesson: str) -> HttpResponse:
    """The stores approve."""
    waiting = access.requisition_to_decide(request.user, lesson)
    form = ApproveForm(request.POST)
    if not form.is_valid() or form.cleaned_data["number"] != waiting.number:
        words = f"Number {waiting.number} is with you now. Nothing is approved yet: read it, then approve."
        messages.warning(request, words)
        return redirect("stores:requisition", lesson=lesson)
    actions.approve_requisition(requisition=waiting, by=request.user)
    messages.success(request, "The requisition is approved. Make the kits.")
    return redirect("stores:requisition", lesson=lesson)


@require_POST
def query(request: HttpRequest, lesson: str) -> HttpResponse:
    """The stores send it back with a question."""
    last = access.requisition_to_query(request.user, lesson)
    form = QueryForm(request.POST)
    if form.is_valid():
        try:
            actions.query_requisition(requisition=last, words=form.cleaned_data["query"], by=request.user)
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, "The question is with the lecturer.")
            return redirect("stores:requisition", lesson=lesson)
    return _page(request, lesson, query_form=form)


@require_POST
def reply(request: HttpRequest, lesson: str) -> HttpResponse:
    """The lecturer answers the question; the same requisition waits for the stores again."""
    queried = requisition_to_answer(request.user, lesson)
    form = ReplyForm(request.POST)
    if form.is_valid():
        actions.reply_to_query(requisition=queried, words=form.cleaned_data["reply"], by=request.user)
        messages.success(request, "Your answer is with the stores.")
        return redirect("stores:requisition", lesson=lesson)
    return _page(request, lesson, reply_form=form)


@require_POST
def withdraw(request: HttpRequest, lesson: str) -> HttpResponse:
    """The lecturer takes back what nobody has approved."""
    standing = requisition_to_answer(request.user, lesson)
    form = WithdrawForm(request.POST)
    if form.is_valid():
        actions.withdraw_requisition(requisition=standing, why=form.cleaned_data["why"], by=request.user)
        messages.success(request, "The requisition is withdrawn. Nothing of it is bought.")
        return redirect("stores:requisition", lesson=lesson)
    return _page(request, lesson, withdraw_form=form)


@require_safe
def waiting(request: HttpRequest) -> HttpResponse:
    """What waits for the stores, the earliest cut-off first."""
    access.keeper_of_stock(request.user)
    now = queries.college_now()
    facts = {"rows": queries.waiting_rows(now, now.date()), "cancelled": cancelled_that_hang(now.date())}
    return render(request, "stores/requisitions.html", facts)


def _page(request: HttpRequest, lesson: str, **forms: object) -> HttpResponse:
    found, acts = access.kits_for(request.user, lesson)
    facts = {"lesson": found, "acts": acts, "page": queries.requisition_page(found), "form": KeyedForm()}
    facts |= {"hanging": hanging_on(found)}
    facts |= {"query_form": QueryForm(), "reply_form": ReplyForm(), "withdraw_form": WithdrawForm()}
    return render(request, "stores/requisition.html", facts | forms)
