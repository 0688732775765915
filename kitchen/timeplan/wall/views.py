"""The plan that rules in one picture: on the projector, and on A3 or A4."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from kitchen.lessons.papers.views import hand_out
from kitchen.timeplan import access, actions
from kitchen.timeplan.calls import calls_of
from kitchen.timeplan.day.page import for_all_to_see
from kitchen.timeplan.pages import lesson_facts
from kitchen.timeplan.printed import wall_ready
from kitchen.timeplan.queries import ruling_plan
from kitchen.timeplan.wall.svg import wall_pictures


@require_safe
def wall(request: HttpRequest, lesson: str) -> HttpResponse:
    """The picture as large as the screen, bench numbers only, and the same in words under it."""
    found = access.lesson_for(request.user, lesson)
    rules = ruling_plan(found)
    facts = {"lesson": found, "rules": rules}
    if rules is not None:
        shown = for_all_to_see(rules.plan)
        facts |= {"pictures": wall_pictures(shown), "calls": calls_of(shown), "plan": shown}
    return render(request, "timeplan/wall.html", facts)


@require_safe
def wall_sheet(request: HttpRequest, lesson: str) -> HttpResponse:
    """The picture as PDF: A3 for the wall, A4 with ``?paper=A4`` for the hand."""
    found = access.lesson_for(request.user, lesson)
    rules = actions.demand_plan(plan=ruling_plan(found))
    paper = "A4" if request.GET.get("paper") == "A4" else "A3"
    ready = wall_ready(rules, lesson_facts(found), paper)
    return hand_out(request, found, ready, f"wall-{found.code}-{paper}.pdf")
