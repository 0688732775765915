"""The pages that show several topics: the day, a lesson as a whole, and the error pages."""

from pathlib import Path

from django.contrib.auth.decorators import login_not_required
from django.contrib.staticfiles import finders
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.templatetags.static import static
from django.views.decorators.http import require_safe

from curriculum.people.access import roles_of
from curriculum.people.queries import the_college, today_at
from curriculum.people.roles import KITCHEN_HANDS
from curriculum.wording import long_date
from kitchen.lessons.access import lesson_for, teaches
from kitchen.stores.hanging.queries import hanging_on
from kitchen.website.day import day_page
from kitchen.website.hub import hub_of


@require_safe
def the_day(request: HttpRequest) -> HttpResponse:
    """The first page of each role: what to do next."""
    today = today_at(the_college())
    page = day_page(request.user, roles_of(request.user), today)
    return render(request, "website/the_day.html", {"day": page, "heading": long_date(today)})


@require_safe
def lesson(request: HttpRequest, lesson: str) -> HttpResponse:
    """One lesson as a whole: how far it has come, who stands where, what to print."""
    found = lesson_for(request.user, lesson)
    shown = hub_of(
        found,
        today_at(the_college()),
        teaching=teaches(request.user, found),
        supplying=bool(roles_of(request.user) & KITCHEN_HANDS),
    )
    facts = {"lesson": found, "may_change": found.lecturer_id == request.user.pk}
    facts["hanging"] = hanging_on(found)
    return render(request, "website/lesson.html", shown | facts)


@require_safe
@login_not_required
def healthz(request: HttpRequest) -> JsonResponse:
    """Answers without a database: the process is up."""
    return JsonResponse({"up": True})


@require_safe
@login_not_required
def favicon(request: HttpRequest) -> HttpResponse:
    """Browsers ask for this address whatever the page says."""
    return redirect(static("look/favicon.svg"))


@require_safe
@login_not_required
def without_network(request: HttpRequest) -> HttpResponse:
    """The script that shows the day without a network: at the root, since it sees only what is below it."""
    script = Path(finders.find("look/without_network.js")).read_bytes()
    return HttpResponse(script, content_type="text/javascript", headers={"Cache-Control": "no-cache"})


def bad_request(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """400: what was sent could not be read."""
    return render(request, "look/400.html", status=400)


def forbidden(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """403: this role may not do this."""
    return render(request, "look/403.html", status=403)


def csrf_failure(request: HttpRequest, reason: str = "") -> HttpResponse:
    """403: the form was too old, or another page sent it."""
    return render(request, "look/403_form.html", status=403)


def not_found(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """404: not there, or not yours."""
    return render(request, "look/404.html", status=404)


def broken(request: HttpRequest) -> HttpResponse:
    """500: a fault of ours, without any context that could fail again."""
    return render(None, "look/500.html", status=500)
