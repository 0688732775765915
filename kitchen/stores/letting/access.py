"""Whose word lets a kit go: fetch or refuse."""

from django.http import Http404

from curriculum.people.models import User
from kitchen.stores.access import lesson_to_ask_for
from kitchen.stores.models import KitSet


def kits_to_let_go(by: User, code: str) -> KitSet:
    """The accepted kits of one's own lesson; 404 when none are made. Lecturer or cover, nobody else."""
    lesson = lesson_to_ask_for(by, code)
    row = KitSet.objects.filter(lesson=lesson, state=KitSet.State.ACCEPTED).select_related("lesson").first()
    if row is None:
        raise Http404("No kits are made.")
    return row
