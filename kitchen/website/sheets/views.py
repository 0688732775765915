"""Recipe sheets: on the phone and on paper, a learner's own and any bench's for the staff."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.views.decorators.http import require_safe

from kitchen.lessons.papers.views import hand_out
from kitchen.website.sheets import access, queries


@require_safe
def own(request: HttpRequest, lesson: str) -> HttpResponse:
    """The learner's own sheet."""
    seat = access.own_seat(request.user, lesson)
    paper = reverse("sheets:own_paper", kwargs={"lesson": lesson})
    return _page(request, seat, paper)


@require_safe
def place(request: HttpRequest, lesson: str, place: str) -> HttpResponse:
    """The sheet of a bench."""
    seat = access.seat_at(request.user, lesson, place)
    paper = reverse("sheets:place_paper", kwargs={"lesson": lesson, "place": place})
    return _page(request, seat, paper)


def _page(request: HttpRequest, seat: access.Seat, paper: str) -> HttpResponse:
    facts = {
        "lesson": seat.lesson,
        "sheet": queries.sheet_of(seat),
        "paper": paper,
        "is_own": seat.is_own,
        "not_printed": queries.not_printed([seat]),
    }
    return render(request, "website/sheets/sheet.html", facts)


@require_safe
def own_paper(request: HttpRequest, lesson: str) -> HttpResponse:
    """The learner's own sheet as PDF."""
    return _paper(request, access.own_seat(request.user, lesson))


@require_safe
def place_paper(request: HttpRequest, lesson: str, place: str) -> HttpResponse:
    """The sheet of a bench as PDF."""
    return _paper(request, access.seat_at(request.user, lesson, place))


def _paper(request: HttpRequest, seat: access.Seat) -> HttpResponse:
    large = request.GET.get("print") == "large"
    ready = queries.recipes_ready([seat], f"Recipe sheet: {seat.place.version.recipe.title}", large=large)
    return hand_out(request, seat.lesson, ready)


@require_safe
def lesson_paper(request: HttpRequest, lesson: str) -> HttpResponse:
    """The sheets of every bench of a lesson as one PDF, with a bookmark for each bench."""
    found, seats = access.seats_of(request.user, lesson)
    if not seats:
        raise Http404("Nobody stands at a bench.")
    large = request.GET.get("print") == "large"
    return hand_out(
        request, found, queries.recipes_ready(seats, f"Recipe sheets: {found.title}", large=large)
    )
