"""The page of the college's reasons."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from curriculum.errors import RuleBroken
from kitchen.stores.moves.listed import access, actions, queries
from kitchen.stores.moves.listed.forms import AddReasonForm


@require_http_methods(["GET", "HEAD", "POST"])
def reasons(request: HttpRequest) -> HttpResponse:
    """All lists of reasons; the stores put their own words on them."""
    access.reader(request.user)
    form = AddReasonForm(request.POST or None)
    if request.method == "POST":
        access.keeper(request.user)
        if form.is_valid():
            said = form.cleaned_data
            try:
                row = actions.add_reason(
                    which=said["which"], words=said["words"], by=request.user, key=said["key"]
                )
            except RuleBroken as error:
                form.refuse(error)
            else:
                messages.success(request, f"“{row.words}” is on the list.")
                return redirect("stores:reasons")
    facts = {"lists": queries.all_lists(), "form": form if access.may_keep(request.user) else None}
    return render(request, "stores/reasons.html", facts)


@require_POST
def retire(request: HttpRequest, which: str, code: str) -> HttpResponse:
    """Nobody chooses this reason any more."""
    which, code = access.reason_to_keep(request.user, which, code)
    try:
        row = actions.retire_reason(which=which, code=code, by=request.user)
    except RuleBroken as error:
        messages.error(request, error.message)
    else:
        messages.success(request, f"“{row.words}” is retired. What was written with it stays readable.")
    return redirect("stores:reasons")


@require_POST
def again(request: HttpRequest, which: str, code: str) -> HttpResponse:
    """A retired reason is offered again."""
    which, code = access.reason_to_keep(request.user, which, code)
    row = actions.take_up_again(which=which, code=code, by=request.user)
    messages.success(request, f"“{row.words}” is offered again.")
    return redirect("stores:reasons")
