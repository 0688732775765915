"""The pages of rooms: a list, and what stands in one."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from curriculum.people.access import demand_staff
from kitchen.rooms import queries
from kitchen.rooms.access import room_for


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
