"""The page of a lesson's time plan: look, plan longer, accept, take a way out, print."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from curriculum.errors import RuleBroken
from curriculum.paper import LARGE, NORMAL
from curriculum.records.models import Job
from curriculum.records.tasks import ask_to_stop
from kitchen.lessons.papers.views import hand_out
from kitchen.timeplan import access, actions
from kitchen.timeplan.drafts import with_ways
from kitchen.timeplan.own_order.actions import demand_plan_open
from kitchen.timeplan.own_order.pages import hidden_words
from kitchen.timeplan.own_order.queries import hidden_from, plan_hidden_now
from kitchen.timeplan.pages import page_of, strip_page
from kitchen.timeplan.printed import lecturer_ready, strips_ready
from kitchen.timeplan.queries import jobs_of, lesson_moved_on, plan_page, ruling_plan
from kitchen.timeplan.words import progress_words

OPEN = (Job.State.WAITING, Job.State.RUNNING)


@require_safe
def plan(request: HttpRequest, lesson: str) -> HttpResponse:
    """The plan that stands, or the best that was found: fits or not, drawn, in words, ways out."""
    found = access.lesson_for(request.user, lesson)
    facts = {"lesson": found, "may": access.may(request.user, found)}
    try:
        page = plan_page(found)
    except RuleBroken as nothing:
        return render(request, "timeplan/nothing.html", facts | {"words": nothing.message})
    draft = with_ways(page.data, page.draft) if "ways" in request.GET else page.draft
    facts["hidden"] = hidden_words(hidden_from(found)) if facts["may"]["plan"] else ""
    return render(request, "timeplan/plan.html", facts | page_of(found, page, draft))


@require_POST
def plan_longer(request: HttpRequest, lesson: str) -> HttpResponse:
    """Ask for a longer search outside the request."""
    found = access.lesson_to_plan(request.user, lesson)
    actions.plan_longer(lesson=found, by=request.user)
    return redirect("timeplan:plan", lesson=found.code)


@require_safe
def progress(request: HttpRequest, lesson: str) -> HttpResponse:
    """How far the longer search is; a page that asked by script is told to load again at the end."""
    found = access.lesson_for(request.user, lesson)
    running = next((job for job in jobs_of(found) if job.state in OPEN), None)
    if running is None:
        answer = redirect("timeplan:plan", lesson=found.code)
        if getattr(request, "htmx", False):
            answer = HttpResponse(headers={"HX-Refresh": "true"})
        return answer
    facts = {"lesson": found, "job": running, "words": progress_words(running.progress)}
    facts["may"] = access.may(request.user, found)
    return render(request, "timeplan/progress.html", facts)


@require_POST
def stop(request: HttpRequest, lesson: str) -> HttpResponse:
    """Stop the longer search and keep the best it has."""
    found = access.lesson_to_plan(request.user, lesson)
    ask_to_stop(job=access.job_of(found, request.POST.get("job", "")))
    return redirect("timeplan:plan", lesson=found.code)


@require_POST
def accept(request: HttpRequest, lesson: str) -> HttpResponse:
    """Accept the plan that the page shows; refused when the lesson has changed meanwhile."""
    found = access.lesson_to_plan(request.user, lesson)
    draft = plan_page(found).draft
    actions.demand_seen(draft=draft, mark=request.POST.get("draft", ""))
    row = actions.accept_draft(lesson=found, draft=draft, by=request.user)
    messages.success(request, f"The time plan is accepted as plan {row.number}.")
    return redirect("timeplan:plan", lesson=found.code)


@require_POST
def way_out(request: HttpRequest, lesson: str) -> HttpResponse:
    """Change the lesson to a way out that was found for it."""
    found = access.lesson_to_change(request.user, lesson)
    page = plan_page(found)
    draft = page.draft if page.draft.ways is not None else with_ways(page.data, page.draft)
    way = actions.way_named(draft=draft, kind=request.POST.get("kind", ""))
    actions.take_way_out(lesson=found, way=way, by=request.user)
    messages.success(request, "The lesson was changed. Look at its benches, then at this plan.")
    return redirect("timeplan:plan", lesson=found.code)


@require_safe
def lecturer_paper(request: HttpRequest, lesson: str) -> HttpResponse:
    """The lecturer's sheet of the accepted plan, as PDF; a draft is never carried into a kitchen."""
    found = access.lesson_for(request.user, lesson)
    rules = actions.demand_plan(plan=ruling_plan(found))
    ready = lecturer_ready(rules, strip_page(found)["facts"])
    return hand_out(request, found, ready, f"time-plan-{found.code}.pdf")


@require_safe
def strips_paper(request: HttpRequest, lesson: str) -> HttpResponse:
    """One strip for each bench of the accepted plan, as PDF."""
    found = access.lesson_for(request.user, lesson)
    rules = actions.demand_plan(plan=ruling_plan(found))
    size = LARGE if request.GET.get("print") == "large" else NORMAL
    ready = strips_ready(rules, strip_page(found)["facts"], size)
    return hand_out(request, found, ready, f"strips-{found.code}.pdf")


@require_safe
def own_strip(request: HttpRequest, lesson: str) -> HttpResponse:
    """A learner's own bench in the accepted plan."""
    place = access.own_place(request.user, lesson)
    found = place.shift.lesson
    if plan_hidden_now(place):
        return render(request, "timeplan/strip.html", strip_page(found) | {"lesson": found, "hidden": True})
    facts = strip_page(found, ruling_plan(found), str(place.place.bench.number))
    facts |= {"lesson": found, "moved_on": lesson_moved_on(found)}
    return render(request, "timeplan/strip.html", facts)


@require_safe
def own_strip_paper(request: HttpRequest, lesson: str) -> HttpResponse:
    """A learner's own strip as PDF, in large letters where that is agreed."""
    place = access.own_place(request.user, lesson)
    found = place.shift.lesson
    demand_plan_open(hidden=plan_hidden_now(place))
    facts = strip_page(found, ruling_plan(found), str(place.place.bench.number))
    rules = actions.demand_plan(plan=facts["rules"] if facts["bench"] else None)
    size = LARGE if request.user.large_print else NORMAL
    ready = strips_ready(rules, facts["facts"], size).only((facts["bench"].name,))
    return hand_out(request, found, ready, f"strip-{found.code}.pdf")
