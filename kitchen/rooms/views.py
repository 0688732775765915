"""The pages of rooms: a list, what stands in one, and the list of machines for learners under 18."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from curriculum.limits import DEFER
from curriculum.people.access import demand_staff
from curriculum.people.queries import the_college
from kitchen.rooms import actions, queries
from kitchen.rooms.access import keeper_of_list, reader_of_list, room_for
from kitchen.rooms.forms import ListedForm
from kitchen.rooms.listed import PLACES


@require_safe
def rooms(request: HttpRequest) -> HttpResponse:
    """Every room of the college."""
    demand_staff(request.user)
    return render(request, "rooms/list.html", {"rooms": queries.rooms()})


@require_safe
def room(request: HttpRequest, room: str) -> HttpResponse:
    """One room: benches, appliances, small equipment, closures."""
    page = queries.room_page(room_for(request.user, room))
    return render(request, "rooms/room.html", {"page": page})


@require_http_methods(["GET", "HEAD", "POST"])
def listed(request: HttpRequest) -> HttpResponse:
    """Which machines a learner under 18 uses only with somebody beside; the programme manager keeps it."""
    may_keep = reader_of_list(request.user)
    kept = queries.listed_of(the_college())
    form = ListedForm(request.POST or None, initial={"kinds": sorted(kept)})
    if request.method == "POST":
        keeper_of_list(request.user)
        form = ListedForm(request.POST)
        if form.is_valid():
            actions.keep_listed(kinds=form.cleaned_data["kinds"], by=request.user)
            messages.success(request, "The list is kept. Time plans that follow from it are made anew.")
            return redirect("rooms:listed")
    places = [(place, place.kind in kept) for place in PLACES]
    facts = {"form": form, "may_keep": may_keep, "defer": DEFER, "leave_url": reverse("rooms:list")}
    return render(request, "rooms/listed.html", facts | {"places": places})
