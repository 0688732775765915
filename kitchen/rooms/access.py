"""Who may look at rooms: the staff of the college."""

from django.http import Http404

from curriculum.people.access import demand_staff
from curriculum.people.models import User
from kitchen.rooms.models import Room


def room_for(by: User, code: str) -> Room:
    """A room, for staff; 403 for learners and guests, 404 when there is none."""
    demand_staff(by)
    room = Room.objects.filter(code=code).first()
    if room is None:
        raise Http404("No such room.")
    return room
