"""The page of a plan's chances: how likely it is to come out, where benches wait, what would help."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from curriculum.errors import RuleBroken
from kitchen.timeplan import access
from kitchen.timeplan.pages import lesson_facts
from kitchen.timeplan.queries import plan_page
from kitchen.timeplan.slips.facts import group_words, slips_of
from kitchen.timeplan.slips.forms import GroupForm


@require_safe
def chances(request: HttpRequest, lesson: str) -> HttpResponse:
    """The plan on the time plan's page, run by a class of learners who vary."""
    found = access.lesson_for(request.user, lesson)
    facts = {"lesson": found, "may": access.may(request.user, found)}
    try:
        page = plan_page(found)
    except RuleBroken as nothing:
        return render(request, "timeplan/nothing.html", facts | {"words": nothing.message})
    if page.shown is None:
        return render(request, "timeplan/nothing.html", facts | {"words": " ".join(page.draft.reasons)})
    form = GroupForm(request.GET)
    facts |= {
        "form": form,
        "facts": lesson_facts(found),
        "slips": slips_of(page.data, page.shown, form.pace()),
    }
    return render(request, "timeplan/slips.html", facts | {"page": page, "what": group_words(page.shown)})
