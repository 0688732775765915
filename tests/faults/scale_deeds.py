"""What two tablets at one scale do at once: weigh the same pot, and take the same weight back."""

import uuid

from curriculum.errors import RuleBroken
from curriculum.people.models import User
from kitchen.stores.models import KitLine, KitSet
from kitchen.stores.weighout.actions import take_back, weigh


def begin_scale(who):
    kit_set = KitSet.objects.get(lesson__code="LESSQN22", state=KitSet.State.ACCEPTED)
    line = KitLine.objects.select_related("kit").get(kit__kit_set=kit_set, food__code="plain_flour")
    return User.objects.get(username="stores"), kit_set, line.kit.code, who


def tap_the_scale(facts, number, key) -> str:
    """Even numbers weigh the flour, odd ones take it back; each tablet's tap has a number of its own."""
    by, kit_set, kit, who = facts
    own = uuid.uuid5(key, f"tablet {who}")
    try:
        if number % 2:
            count = take_back(kit_set=kit_set, kit=kit, food="plain_flour", by=by, key=own)
            return f"back-{count}"
        tapped = weigh(kit_set=kit_set, weights=[(kit, "plain_flour")], by=by, key=own)
    except RuleBroken as refused:
        return refused.code
    return "weighed" if tapped.weighed else "already" if tapped.before else "nothing"


SCALE_DEEDS = {"scale": (begin_scale, tap_the_scale)}
