"""The running class: the lecturer's page, the projector's, the re-plan, and what came of the day."""

from django.contrib import messages
from django.core import signing
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from curriculum.errors import RuleBroken
from kitchen.timeplan.day import access, actions, pages
from kitchen.timeplan.day.forms import AcceptForm, LearnForm, TapForm
from kitchen.timeplan.day.proposal import read_proposal
from kitchen.timeplan.day.queries import in_progress

#: A proposal is sealed for one lesson: with its code behind this.
SEAL = "kitchen.timeplan.day/"


@require_safe
def day(request: HttpRequest, lesson: str) -> HttpResponse:
    """The class on the clock; a script asks for the part that changes."""
    found = access.lesson_on_the_day(request.user, lesson)
    facts = {"lesson": found, "may": access.may(request.user, found)}
    try:
        progress = in_progress(found, timezone.now())
    except RuleBroken as nothing:
        return render(request, "timeplan/day/nothing.html", facts | {"words": nothing.message})
    template = "timeplan/day/now.html" if request.htmx else "timeplan/day/day.html"
    return render(request, template, facts | pages.day_page(progress))


@require_safe
def bench(request: HttpRequest, lesson: str, bench: str) -> HttpResponse:
    """One bench: every step with its buttons, and what goes wrong."""
    found = access.lesson_on_the_day(request.user, lesson)
    progress = in_progress(found, timezone.now())
    access.demand_bench(progress, bench)
    facts = {"lesson": found, "may": access.may(request.user, found)}
    return render(request, "timeplan/day/bench.html", facts | pages.bench_page(progress, bench))


@require_POST
def tap(request: HttpRequest, lesson: str) -> HttpResponse:
    """One tap, sent at once or later by the page's own queue."""
    found = access.lesson_to_teach(request.user, lesson)
    form = TapForm(request.POST)
    form.demand_valid()
    said = {name: form.cleaned_data[name] for name in actions.Said.__dataclass_fields__}
    actions.tap(lesson=found, said=actions.Said(**said), by=request.user, key=form.cleaned_data["key"])
    if request.headers.get("X-Tap"):
        return HttpResponse(status=204)
    return redirect("timeplan:day", lesson=found.code)


@require_safe
def replan(request: HttpRequest, lesson: str) -> HttpResponse:
    """What would move, in words, with the button that accepts it."""
    found = access.lesson_to_teach(request.user, lesson)
    progress = in_progress(found, timezone.now())
    page = pages.replan_page(progress)
    sealed = signing.dumps(page["kept"], salt=SEAL + found.code, compress=True) if page["kept"] else ""
    return render(request, "timeplan/day/replan.html", {"lesson": found, "sealed": sealed} | page)


@require_POST
def accept(request: HttpRequest, lesson: str) -> HttpResponse:
    """Accept the re-plan that the page showed."""
    found = access.lesson_to_teach(request.user, lesson)
    form = AcceptForm(request.POST)
    form.demand_valid()
    try:
        kept = signing.loads(
            form.cleaned_data["proposal"], salt=SEAL + found.code, max_age=actions.LONGEST_OFFLINE
        )
    except signing.BadSignature:
        raise RuleBroken("not_from_this_page", "That plan is not one of this page. Open it again.") from None
    row = actions.accept_replan(lesson=found, proposal=read_proposal(kept), by=request.user)
    messages.success(request, f"The class now runs by plan {row.number}.")
    return redirect("timeplan:day", lesson=found.code)


@require_safe
def board(request: HttpRequest, lesson: str) -> HttpResponse:
    """For the projector: bench numbers, steps, minutes."""
    found = access.lesson_for(request.user, lesson)
    try:
        progress = in_progress(found, timezone.now())
    except RuleBroken as nothing:
        return render(request, "timeplan/day/nothing.html", {"lesson": found, "words": nothing.message})
    template = "timeplan/day/board_now.html" if request.htmx else "timeplan/day/board.html"
    return render(request, template, {"lesson": found} | pages.board_page(progress))


@require_safe
def after(request: HttpRequest, lesson: str) -> HttpResponse:
    """The day beside its plan, and the paces that it teaches."""
    found = access.lesson_on_the_day(request.user, lesson)
    progress = in_progress(found, timezone.now())
    facts = {"lesson": found, "may": access.may(request.user, found)}
    return render(request, "timeplan/day/after.html", facts | pages.after_page(progress))


@require_POST
def learn(request: HttpRequest, lesson: str) -> HttpResponse:
    """Accept the pace of one technique."""
    found = access.lesson_to_teach(request.user, lesson)
    form = LearnForm(request.POST)
    form.demand_valid()
    pace = pages.pace_named(in_progress(found, timezone.now()), form.cleaned_data["technique"])
    row = actions.learn(lesson=found, pace=pace, by=request.user)
    messages.success(request, f"The pace of {row.technique.name.lower()} is kept.")
    return redirect("timeplan:day_after", lesson=found.code)
