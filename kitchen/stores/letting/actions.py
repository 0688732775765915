"""A lecturer writes down why kits go although a label may contain what they are made without.

The rules of every action of the stores hold here too (``kitchen.stores.actions``). What a label
says that it *contains* is let go by nobody. Kits made again ask again.
"""

from uuid import UUID

from django.db import transaction

from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.records.actions import once
from kitchen.stores.letting.models import LetGo
from kitchen.stores.letting.queries import ToDecide, to_decide
from kitchen.stores.managers import judge_blocks, kits_to_come
from kitchen.stores.models import KitSet


@transaction.atomic
def let_go(*, kit_set: KitSet, recipe: str, why: str, by: User, key: UUID | None = None) -> int:
    """Let every kit of a recipe that has not left go all the same; returns how many.

    RuleBroken "kits_made_again"; "nothing_to_decide" when no label may contain what they are made
    without, or something else stops them as well.
    """

    def do() -> dict:
        row = KitSet.objects.select_for_update().get(pk=kit_set.pk)
        if row.state != KitSet.State.ACCEPTED:
            raise RuleBroken(
                "kits_made_again", "The kits of this lesson were made again meanwhile. Look at them again."
            )
        found = _demanded(row, recipe)
        for kit in found.kits:
            LetGo.objects.create(kit=kit, what=found.what, why=why, by=by)
        judge_blocks(kits_to_come().filter(kit_set=row))
        return {"kits": len(found.kits)}

    said = {"kit_set": kit_set.pk, "recipe": recipe, "why": why}
    return once(key=key, action="let_go", by=by, said=said, do=do)["kits"]


def _demanded(kit_set: KitSet, recipe: str) -> ToDecide:
    found = next((each for each in to_decide(kit_set.lesson) if each.recipe == recipe), None)
    if found is None:
        words = "Nothing waits for a decision here: no label of these kits says that it may contain it."
        raise RuleBroken("nothing_to_decide", words)
    if found.stopped:
        raise RuleBroken("nothing_to_decide", found.stopped)
    return found
