"""The requisition of a lesson: submitted by its lecturer, approved or queried by the stores."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from curriculum.look.forms import KeyedForm
from kitchen.stores import access
from kitchen.stores.forms import QueryForm
from kitchen.stores.requisitions import actions, queries


@require_http_methods(["GET", "HEAD", "POST"])
def requisition(request: HttpRequest, lesson: str) -> HttpResponse:
    """What is asked of the stores, with packs and prices; the lecturer submits it."""
    found, acts = access.kits_for(request.user, lesson)
    form = KeyedForm(request.POST or None)
    if request.method == "POST":
        access.lesson_to_ask_for(request.user, lesson)
        if form.is_valid():
            actions.submit_requisition(lesson=found, by=request.user, key=form.cleaned_data["key"])
            messages.success(request, "The requisition is with the stores.")
            return redirect("stores:requisition", lesson=found.code)
    page = queries.requisition_page(found)
    facts = {"lesson": found, "acts": acts, "page": page, "form": form, "query_form": QueryForm()}
    return render(request, "stores/requisition.html", facts)


@require_POST
def approve(request: HttpRequest, lesson: str) -> HttpResponse:
    """The stores approve."""
    waiting = access.requisition_to_decide(request.user, lesson)
    actions.approve_requisition(requisition=waiting, by=request.user)
    messages.success(request, "The requisition is approved. Make the kits.")
    return redirect("stores:requisition", lesson=lesson)


@require_POST
def query(request: HttpRequest, lesson: str) -> HttpResponse:
    """The stores send it back with a question."""
    waiting = access.requisition_to_decide(request.user, lesson)
    form = QueryForm(request.POST)
    if form.is_valid():
        actions.query_requisition(requisition=waiting, words=form.cleaned_data["query"], by=request.user)
        messages.success(request, "The question is with the lecturer.")
        return redirect("stores:requisition", lesson=lesson)
    found, acts = access.kits_for(request.user, lesson)
    facts = {"lesson": found, "acts": acts, "page": queries.requisition_page(found), "form": KeyedForm()}
    return render(request, "stores/requisition.html", facts | {"query_form": form})
