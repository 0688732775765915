"""The pages of a recall: look a lot up, see where it went, hold what is left, back from a plate."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from curriculum.wording import counted_words, sentence
from kitchen.stores.recall import access, actions, queries
from kitchen.stores.recall.forms import FindForm, HoldAllForm
from kitchen.stores.recall.page import DUTY, Recall
from kitchen.stores.recall.paper import contact_sheet, quarantine_labels


@require_safe
def find(request: HttpRequest) -> HttpResponse:
    """Look for a lot, a batch, a scan or a bench."""
    access.reader(request.user)
    form = FindForm(queries.this_year(), request.GET or None)
    if request.GET and form.is_valid():
        if form.place:
            return redirect("stores:plate", place=form.place)
        return redirect("stores:recall", lots=",".join(lot.code for lot in form.lots))
    return render(request, "stores/find_recall.html", {"form": form, "duty": DUTY})


@require_safe
def recall(request: HttpRequest, lots: str) -> HttpResponse:
    """Where these lots went, what is left, whom to ask."""
    found = access.lots_to_trace(request.user, lots)
    page = queries.recall_of(found, access.reader(request.user))
    form = HoldAllForm() if access.may_hold(request.user) else None
    return _recall(request, page, lots, form)


@require_POST
def hold(request: HttpRequest, lots: str) -> HttpResponse:
    """Hold all of these lots and what was made of them."""
    found = access.lots_to_hold(request.user, lots)
    form = HoldAllForm(request.POST)
    if form.is_valid():
        said = form.cleaned_data
        held = actions.hold_everything(lots=found, why=said["why"], by=request.user, key=said["key"])
        words = counted_words(len(held), "lot is held", "lots are held")
        messages.success(request, sentence(f"{words} now: nothing leaves them until somebody releases them"))
        return redirect("stores:recall", lots=lots)
    return _recall(request, queries.recall_of(found), lots, form)


def _recall(request: HttpRequest, page: Recall, lots: str, form: HoldAllForm | None) -> HttpResponse:
    facts = {"page": page, "asked": lots, "form": form, "duty": DUTY, "asks": access.may_ask(request.user)}
    return render(request, "stores/recall.html", facts)


@require_safe
def plate(request: HttpRequest, place: str) -> HttpResponse:
    """Back from the plate of a bench to suppliers and batches."""
    found = access.place_to_trace(request.user, place)
    return render(request, "stores/plate.html", {"page": queries.plate_of(found), "duty": DUTY})


@require_safe
def contacts_pdf(request: HttpRequest, lots: str) -> HttpResponse:
    """The contact sheet."""
    found = access.lots_to_ask_about(request.user, lots)
    page = queries.recall_of(found, access.reader(request.user))
    return HttpResponse(contact_sheet(page), content_type="application/pdf")


@require_safe
def labels_pdf(request: HttpRequest, lots: str) -> HttpResponse:
    """The labels for what is left."""
    found = access.lots_to_hold(request.user, lots)
    return HttpResponse(quarantine_labels(queries.recall_of(found)), content_type="application/pdf")
