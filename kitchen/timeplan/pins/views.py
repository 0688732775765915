"""The page "Fix by hand": fix a start, an oven or an order, see the plan round it, let go."""

from collections.abc import Callable

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from curriculum.errors import RuleBroken
from kitchen.lessons.models import Lesson
from kitchen.timeplan.lesson_problem import RoomLacks
from kitchen.timeplan.pages import lesson_facts
from kitchen.timeplan.pins import access, actions
from kitchen.timeplan.pins.choices import choices_of
from kitchen.timeplan.pins.data import ORDER, OVEN, START
from kitchen.timeplan.pins.forms import FORMS, LetGoForm
from kitchen.timeplan.pins.pages import fix_page
from kitchen.timeplan.queries import PlanPage, plan_page
from kitchen.timeplan.words import progress_words


@require_safe
def fix(request: HttpRequest, lesson: str) -> HttpResponse:
    """What is fixed, the plan round it or what breaks, and the forms to fix more."""
    return _page(request, access.lesson_to_read(request.user, lesson))


@require_POST
def fix_start(request: HttpRequest, lesson: str) -> HttpResponse:
    """Fix a start by the clock."""
    return _fixed(request, access.lesson_to_fix(request.user, lesson), START, actions.fix_start)


@require_POST
def fix_oven(request: HttpRequest, lesson: str) -> HttpResponse:
    """Fix the oven of a bake."""
    return _fixed(request, access.lesson_to_fix(request.user, lesson), OVEN, actions.fix_oven)


@require_POST
def fix_order(request: HttpRequest, lesson: str) -> HttpResponse:
    """Fix what goes first."""
    return _fixed(request, access.lesson_to_fix(request.user, lesson), ORDER, actions.fix_order)


@require_POST
def let_go(request: HttpRequest, lesson: str) -> HttpResponse:
    """Let go of what was fixed."""
    found = access.lesson_to_fix(request.user, lesson)
    sent = LetGoForm(request.POST)
    sent.demand_valid()
    actions.let_go(lesson=found, pins=access.pins_to_let_go(found, sent.found()), by=request.user)
    messages.success(request, "Let go. The plan below is the one without it.")
    return redirect("timeplan:fix", lesson=found.code)


def _fixed(request: HttpRequest, lesson: Lesson, kind: str, action: Callable) -> HttpResponse:
    """Fix what was sent, or show the page with what is wrong at its field and what was typed."""
    page = _plan(lesson)
    form = FORMS[kind](choices_of(page.data, _waves(page)), request.POST)
    if form.is_valid():
        try:
            action(lesson=lesson, pins=form.pins(), by=request.user)
        except RuleBroken as refused:
            form.refuse(refused)
        else:
            messages.success(request, "Fixed. See below what becomes of the plan.")
            return redirect("timeplan:fix", lesson=lesson.code)
    return _page(request, lesson, {kind: form})


def _page(request: HttpRequest, lesson: Lesson, sent: dict | None = None) -> HttpResponse:
    facts = {"lesson": lesson, "may_fix": access.teaches(request.user, lesson), "facts": lesson_facts(lesson)}
    try:
        page = _plan(lesson)
        choices = choices_of(page.data, _waves(page))
    except RuleBroken as nothing:
        return render(request, "timeplan/nothing.html", facts | {"words": nothing.message})
    forms = {kind: (sent or {}).get(kind) or made(choices) for kind, made in FORMS.items()}
    facts |= {"forms": forms, "page": page, **fix_page(page.data, page.draft)}
    facts["progress"] = progress_words(page.running.progress) if page.running else ""
    return render(request, "timeplan/fix.html", facts)


def _plan(lesson: Lesson) -> PlanPage:
    """The page's plan. RuleBroken where nothing can be fixed, since nothing can be planned."""
    page = plan_page(lesson)
    try:
        choices_of(page.data, 1)
    except RoomLacks as lacking:
        raise RuleBroken("room_lacks", " ".join(page.draft.reasons)) from lacking
    return page


def _waves(page: PlanPage) -> int:
    return page.draft.plan.waves if page.draft.plan else 1
