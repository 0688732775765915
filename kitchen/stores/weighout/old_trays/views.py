"""The page of weighed trays that nobody wants as they are."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from curriculum.errors import RuleBroken
from kitchen.stores.weighout import access
from kitchen.stores.weighout.forms import OldTrayForm
from kitchen.stores.weighout.old_trays import actions, queries


@require_http_methods(["GET", "HEAD", "POST"])
def old_trays(request: HttpRequest, lesson: str) -> HttpResponse:
    """What is taken apart and what goes back where; a tap says that it is done."""
    found = access.lesson_of_old_trays(request.user, lesson)
    if request.method == "POST":
        form = OldTrayForm(request.POST)
        if form.is_valid():
            _do(request, lesson, form)
        return redirect("stores:old_trays", lesson=lesson)
    return render(request, "stores/old_trays.html", {"lesson": found, "page": queries.old_trays(found)})


def _do(request: HttpRequest, lesson: str, form: OldTrayForm) -> None:
    said = form.cleaned_data
    tray = access.tray_to_clear(request.user, lesson, said["kit"])
    try:
        if said["same_as"]:
            new = access.kit_for_tray(request.user, lesson, said["same_as"])
            actions.keep_tray(old=tray, new=new, by=request.user, key=said["key"])
            messages.success(request, "The tray stands for the new kit. Put the new label on it.")
        else:
            actions.take_apart(kit=tray, by=request.user, key=said["key"])
            messages.success(request, "The tray is taken apart. Nothing of it stands weighed any more.")
    except RuleBroken as refused:
        messages.warning(request, refused.message)
