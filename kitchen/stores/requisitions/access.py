"""Which requisition its lecturer answers for or withdraws: fetch or refuse."""

from django.http import Http404

from curriculum.people.models import User
from kitchen.stores.access import lesson_to_ask_for
from kitchen.stores.models import Requisition


def requisition_to_answer(by: User, code: str) -> Requisition:
    """The latest requisition of one's own lesson that was submitted or queried; 404 when there is none."""
    lesson = lesson_to_ask_for(by, code)
    open_states = (Requisition.State.SUBMITTED, Requisition.State.QUERIED)
    row = Requisition.objects.filter(lesson=lesson, state__in=open_states).order_by("-number").first()
    if row is None:
        raise Http404("No requisition waits.")
    return row
