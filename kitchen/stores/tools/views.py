"""The pages of a lesson's small equipment: what it needs, counting out and in, what is not back."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from curriculum.errors import RuleBroken
from curriculum.wording import clock, counted, short_date
from kitchen.stores.tools import access, actions, queries
from kitchen.stores.tools.forms import InForm, OutForm, WriteOffForm
from kitchen.stores.tools.kinds import counted as counted_things
from kitchen.stores.tools.paper import count_sheet


@require_safe
def lesson_equipment(request: HttpRequest, lesson: str) -> HttpResponse:
    """Knives first: what is out and in, what is not back; then what the lesson needs and where it is."""
    found = access.lesson_to_count(request.user, lesson)
    facts = {"lesson": found, "things": queries.lesson_day(found).standing(), "counts": queries.counts(found)}
    return render(request, "stores/equipment_lesson.html", facts | {"keeps": access.may_keep(request.user)})


@require_http_methods(["GET", "HEAD", "POST"])
def count_out(request: HttpRequest, lesson: str) -> HttpResponse:
    """Count things out to the class, or bench by bench."""
    found = access.lesson_to_count(request.user, lesson)
    form = OutForm(request.POST if request.method == "POST" else None, lesson=found)
    if request.method == "POST" and form.is_valid():
        said, seen = form.cleaned_data, form.what_was_seen()
        try:
            many = actions.count_out(
                lesson=found, counts=form.counts(), seen=seen, by=request.user, key=said["key"]
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"{counted(many, 'thing')} counted out.")
            return redirect("stores:lesson_equipment", lesson=found.code)
    return render(request, "stores/equipment_out.html", {"lesson": found, "form": form})


@require_http_methods(["GET", "HEAD", "POST"])
def count_in(request: HttpRequest, lesson: str) -> HttpResponse:
    """Count in what came back, also what is found later."""
    found = access.lesson_to_count(request.user, lesson)
    form = InForm(request.POST if request.method == "POST" else None, lesson=found)
    if request.method == "POST" and form.is_valid():
        said, seen = form.cleaned_data, form.what_was_seen()
        try:
            many = actions.count_in(
                lesson=found, counts=form.counts(), seen=seen, by=request.user, key=said["key"]
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"{counted(many, 'thing')} counted in.")
            return redirect("stores:lesson_equipment", lesson=found.code)
    return render(request, "stores/equipment_in.html", {"lesson": found, "form": form})


@require_http_methods(["GET", "HEAD", "POST"])
def write_off(request: HttpRequest, lesson: str, thing: int, place: int) -> HttpResponse:
    """Write off what is not back, with a reason."""
    found, line = access.line_to_write_off(request.user, lesson, thing, place)
    form = WriteOffForm(request.POST or None, line=line)
    if request.method == "POST" and form.is_valid():
        said = form.cleaned_data
        gone = {"thing": thing, "place": place, "count": said["count"], "reason": form.why()}
        try:
            actions.write_off(lesson=found, **gone, by=request.user, key=said["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"{counted_things(said['count'], line.item)} written off.")
            return redirect("stores:lesson_equipment", lesson=found.code)
    leave = reverse("stores:lesson_equipment", kwargs={"lesson": found.code})
    facts = {"lesson": found, "line": line, "form": form, "leave_url": leave}
    return render(request, "stores/equipment_write_off.html", facts)


@require_safe
def sheet(request: HttpRequest, lesson: str) -> HttpResponse:
    """The sheet for counting by hand."""
    found = access.lesson_to_count(request.user, lesson)
    facts = f"{found.group.code}, {found.room.name}, {short_date(found.on)}, {clock(found.starts)}."
    made = count_sheet(found.title, facts, queries.lesson_day(found).standing(), queries.counts(found))
    return HttpResponse(made, content_type="application/pdf")
