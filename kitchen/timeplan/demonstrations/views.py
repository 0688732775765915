"""The pages of a demonstration: what fits a slot, taking it, stage by stage, the printed sheet."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.errors import RuleBroken
from kitchen.lessons.access import lesson_for, lesson_to_teach, teaches
from kitchen.timeplan.demonstration import chosen
from kitchen.timeplan.demonstration_kept import read_demonstration
from kitchen.timeplan.demonstrations import access, queries
from kitchen.timeplan.demonstrations.actions import accept_demonstration
from kitchen.timeplan.demonstrations.forms import SlotForm, StagesForm, TakeForm
from kitchen.timeplan.demonstrations.paper import demonstration_paper, tray_labels
from kitchen.timeplan.queries import appliances_of


@require_safe
def demonstration(request: HttpRequest, lesson: str) -> HttpResponse:
    """What fits the minutes that a lecturer can give: live, on trays, made before."""
    found = lesson_for(request.user, lesson)
    shows, row = access.dish_to_show(found), queries.accepted_demonstration(found)
    form = SlotForm(shows, row, request.GET if "minutes" in request.GET else None)
    facts = {"lesson": found, "teaching": teaches(request.user, found), "form": form, "row": row}
    if not form.is_bound or form.is_valid():
        slot, techniques = form.asked()
        facts["page"] = queries.page_of(shows, row, slot, techniques, form.usual, appliances_of(found))
        facts["techniques"] = techniques
    return render(request, "timeplan/demonstration.html", facts)


@require_POST
def take(request: HttpRequest, lesson: str) -> HttpResponse:
    """Accept the best plan for the minutes and techniques sent."""
    found = lesson_to_teach(request.user, lesson)
    shows = access.dish_to_show(found)
    form = TakeForm(shows, None, request.POST)
    if not form.is_valid():
        facts = {"lesson": found, "form": form, "teaching": True}
        return render(request, "timeplan/demonstration.html", facts)
    slot, techniques = form.asked()
    plan = queries.best(shows, slot, techniques)
    if plan is None:
        raise RuleBroken(
            "nothing_fits", "Not even the finished dish can be shown in that time. Give it more."
        )
    inputs, key = queries.inputs_of(shows, slot, techniques), form.cleaned_data["key"]
    follows = queries.what_follows(found, plan)
    accept_demonstration(lesson=found, plan=plan, inputs=inputs, by=request.user, key=key)
    messages.success(request, f"Taken: {plan.slot} minutes. {follows}")
    return redirect("timeplan:demonstration", lesson=found.code)


@require_http_methods(["GET", "HEAD", "POST"])
def stages(request: HttpRequest, lesson: str) -> HttpResponse:
    """Say stage by stage what is shown; what must be made before is reckoned from it."""
    found = lesson_to_teach(request.user, lesson)
    shows, row = access.dish_to_show(found), queries.accepted_demonstration(found)
    standing = read_demonstration(row.answer) if row else None
    form = StagesForm(shows.recipe, standing, request.POST or None)
    if request.method == "POST" and form.is_valid():
        slot, key = form.cleaned_data["minutes"], form.cleaned_data["key"]
        plan, inputs = chosen(shows.recipe, form.stages(), slot), queries.inputs_of(shows, slot, ())
        follows = queries.what_follows(found, plan)
        try:
            accept_demonstration(lesson=found, plan=plan, inputs=inputs, by=request.user, key=key)
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"Your stages are taken. {follows}")
            return redirect("timeplan:demonstration", lesson=found.code)
    leave = reverse("timeplan:demonstration", kwargs={"lesson": found.code})
    return render(
        request, "timeplan/demonstration_stages.html", {"lesson": found, "form": form, "leave_url": leave}
    )


@require_safe
def sheet(request: HttpRequest, lesson: str) -> HttpResponse:
    """The accepted demonstration as a printed sheet."""
    found = lesson_for(request.user, lesson)
    shows, row = access.dish_to_show(found), access.standing_plan(found)
    written = queries.written(shows, read_demonstration(row.answer), appliances_of(found))
    return HttpResponse(demonstration_paper(written), content_type="application/pdf")


@require_safe
def labels(request: HttpRequest, lesson: str) -> HttpResponse:
    """A label for each stage tray of the accepted demonstration."""
    found = lesson_for(request.user, lesson)
    shows, row = access.dish_to_show(found), access.standing_plan(found)
    written = queries.written(shows, read_demonstration(row.answer), appliances_of(found))
    return HttpResponse(tray_labels(written), content_type="application/pdf")
