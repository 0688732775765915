"""Deciding on kits whose labels may contain what they are made without."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from curriculum.errors import RuleBroken
from curriculum.wording import counted
from kitchen.stores.letting import access, actions, queries
from kitchen.stores.letting.forms import LetGoForm


@require_http_methods(["GET", "HEAD", "POST"])
def let_go(request: HttpRequest, lesson: str, recipe: str) -> HttpResponse:
    """What the labels say, which kits it is about, and the lecturer's word."""
    kit_set = access.kits_to_let_go(request.user, lesson)
    found = next((each for each in queries.to_decide(kit_set.lesson) if each.recipe == recipe), None)
    if found is None:
        raise Http404("Nothing waits for a decision.")
    form = LetGoForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        try:
            count = actions.let_go(
                kit_set=kit_set, recipe=recipe, why=said["why"], by=request.user, key=said["key"]
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(
                request, f"It is written down: {counted(count, 'kit')} may be weighed and issued."
            )
            return redirect("stores:kits", lesson=kit_set.lesson.code)
    facts = {"lesson": kit_set.lesson, "found": found, "form": form}
    return render(request, "stores/let_go.html", facts)
