"""Who may look at rooms: the staff of the college. The programme manager keeps the list for under 18s."""

from django.http import Http404

from curriculum.people.access import demand_role, demand_staff
from curriculum.people.models import User
from curriculum.people.roles import MANAGER
from kitchen.rooms.models import Room


def room_for(by: User, code: str) -> Room:
    """A room, for staff; 403 for learners and guests, 404 when there is none."""
    demand_staff(by)
    room = Room.objects.filter(code=code).first()
    if room is None:
        raise Http404("No such room.")
    return room


def reader_of_list(by: User) -> bool:
    """Whether the person, of the staff, may also change the list of machines; 403 for learners and guests."""
    return MANAGER in demand_staff(by)


def keeper_of_list(by: User) -> None:
    """403 for everybody but the programme manager."""
    demand_role(by, MANAGER)
