"""The pages of a lesson's kits: what they are, their papers, the issue."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.errors import RuleBroken
from kitchen.stores import access, actions, queries
from kitchen.stores.forms import IssueForm, MakeKitsForm
from kitchen.stores.hanging.queries import hanging_on
from kitchen.stores.letting.queries import decided, to_decide
from kitchen.stores.prints.views import note_kits_read
from kitchen.stores.requisitions.queries import requisition_of
from kitchen.stores.weighout.old_trays.queries import some_old
from kitchen.stores.weighout.queries import what_is_open


@require_safe
def kits(request: HttpRequest, lesson: str) -> HttpResponse:
    """Kits per bench, exact beside issued; what is short and what is blocked before anything leaves."""
    found, acts = access.kits_for(request.user, lesson)
    page = queries.kits_page(found)
    note_kits_read(request, found, "kits")
    facts = {
        "lesson": found,
        "acts": acts,
        "page": page,
        "dish": queries.dish_of(found),
        "form": MakeKitsForm(),
        "requisition": requisition_of(found),
        "hanging": hanging_on(found),
        "some_old": acts.supply and some_old(found),
        "to_decide": to_decide(found) if acts.submit and page and page.blocked else (),
        "decided": decided(found),
    }
    return render(request, "stores/kits.html", facts)


@require_POST
def make_kits(request: HttpRequest, lesson: str) -> HttpResponse:
    """Keep the kits as they are reckoned now."""
    found = access.kits_to_supply(request.user, lesson)
    form = MakeKitsForm(request.POST)
    if form.is_valid():
        actions.accept_kits(lesson=found, by=request.user, key=form.cleaned_data["key"])
        messages.success(request, "The kits are made. Weigh them out, then issue them.")
    return redirect("stores:kits", lesson=found.code)


@require_http_methods(["GET", "HEAD", "POST"])
def issue(request: HttpRequest, lesson: str) -> HttpResponse:
    """What leaves from which lot, what is short, what stays; then issue."""
    kit_set = access.kit_set_to_supply(request.user, lesson)
    page = queries.kits_page(kit_set.lesson)
    standing = what_is_open(kit_set)
    form = IssueForm(request.POST or None, short=bool(page.shortages), unchecked=bool(standing.checks))
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        try:
            actions.issue_kits(
                lesson=kit_set.lesson,
                by=request.user,
                key=said["key"],
                short_accepted=said.get("short_accepted", False),
                unchecked_why=said.get("unchecked_why", ""),
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, "The kits have left the stores. Every line knows its lots.")
            return redirect("stores:kits", lesson=kit_set.lesson.code)
    leave = reverse("stores:kits", kwargs={"lesson": kit_set.lesson.code})
    facts = {"lesson": kit_set.lesson, "page": page, "form": form, "leave_url": leave, "standing": standing}
    return render(request, "stores/issue.html", facts)
