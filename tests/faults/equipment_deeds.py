"""What hands do with small equipment: count a knife out under one number, or each as a tablet of its own."""

from curriculum.errors import RuleBroken
from curriculum.people.models import User
from kitchen.lessons.models import Lesson
from kitchen.rooms.models import Equipment
from kitchen.stores.tools.actions import Count, count_in, count_out
from kitchen.stores.tools.queries import moves_seen


def begin_knives(who):
    thing = Equipment.objects.get(item="chef_knife").pk
    return User.objects.get(username="technician"), Lesson.objects.get(code="LESSQN22"), thing


def count_a_knife(facts, number, key) -> str:
    """One knife goes out; whoever sends it again is told the same, and none goes out that is not there."""
    by, lesson, thing = facts
    said = {"lesson": lesson, "counts": [Count(thing, 1)], "seen": moves_seen(lesson)}
    try:
        return f"out-{count_out(**said, by=by, key=key)}"
    except RuleBroken as refused:
        return refused.code


def count_from_a_tablet(facts, number, key) -> str:
    """Tablets that saw the same page count at once, out and in by turns: only one may for each page."""
    by, lesson, thing = facts
    action = count_in if number % 2 else count_out
    said = {"lesson": lesson, "counts": [Count(thing, 2)], "seen": {thing: number}}
    try:
        return f"counted-{action(**said, by=by)}"
    except RuleBroken as refused:
        return refused.code


EQUIPMENT_DEEDS = {
    "knife": (begin_knives, count_a_knife),
    "tablet": (begin_knives, count_from_a_tablet),
}
