"""The pages of a lesson's stores after the kits have left: give more, take back, what it took and cost."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from curriculum.errors import RuleBroken
from kitchen.stores import access
from kitchen.stores.moves.lesson import actions, queries
from kitchen.stores.moves.lesson.forms import BackForm, MoreForm, refuse_back
from kitchen.stores.tools.queries import counts


@require_http_methods(["GET", "HEAD", "POST"])
def more(request: HttpRequest, lesson: str) -> HttpResponse:
    """Give a bench more during the lesson, and see what was given."""
    found = access.kits_to_supply(request.user, lesson)
    form = MoreForm(request.POST or None, lesson=found)
    if request.method == "POST" and form.is_valid():
        try:
            actions.give_more(
                lesson=found,
                place=form.where(),
                food=form.cleaned_data["food"],
                milligrams=form.milligrams(),
                reason=form.why(),
                reason_code=form.cleaned_data["reason"],
                by=request.user,
                key=form.cleaned_data["key"],
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, "It is given out. The kit and its lots know it.")
            return redirect("stores:more", lesson=found.code)
    leave = reverse("stores:kits", kwargs={"lesson": found.code})
    facts = {"lesson": found, "form": form, "given": queries.given_rows(found), "leave_url": leave}
    return render(request, "stores/more.html", facts)


@require_http_methods(["GET", "HEAD", "POST"])
def back(request: HttpRequest, lesson: str) -> HttpResponse:
    """What came back of all kits of a lesson."""
    found = access.kits_to_supply(request.user, lesson)
    form = BackForm(request.POST if request.method == "POST" else None, lesson=found)
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        try:
            actions.take_back_from_lesson(
                lesson=found,
                rows=form.rows(),
                sealed_and_cold=said["sealed_and_cold"],
                rework_until=said["rework_until"],
                why=form.why(),
                by=request.user,
                key=said["key"],
                seen=said["seen"],
            )
        except RuleBroken as error:
            form = refuse_back(form, found, error)
        else:
            messages.success(request, "What came back is in the book.")
            return redirect("stores:lesson_stores", lesson=found.code)
    return render(request, "stores/back.html", {"lesson": found, "form": form})


@require_safe
def lesson_stores(request: HttpRequest, lesson: str) -> HttpResponse:
    """Issued, used and returned of a lesson, and what it costs before and after."""
    found, acts = access.stores_of_lesson(request.user, lesson)
    facts = {"lesson": found, "acts": acts, "page": queries.lesson_page(found), "counts": counts(found)}
    return render(request, "stores/lesson_stores.html", facts)
