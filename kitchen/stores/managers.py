"""What several actions of the stores write of kits that wait: whether the labels let them leave.

For the actions alone. A label may also be written down on the food's own page, which knows
nothing of kits; so kits are judged when a label is read here, and again when they leave.
"""

from collections.abc import Iterable

from django.db.models import QuerySet

from curriculum.recipes.queries import recipes_data
from kitchen.stores.kits import blocked_why
from kitchen.stores.models import Kit, KitSet, Movement


def waiting_kits() -> QuerySet[Kit]:
    """Kits that are accepted and have not left, with their versions."""
    return (
        Kit.objects.filter(kit_set__state=KitSet.State.ACCEPTED, kit_set__issued_at=None)
        .exclude(lines__movements__kind__in=[Movement.Kind.ISSUE, Movement.Kind.SUPPLEMENTARY])
        .select_related("version__recipe")
    )


def judge_blocks(kits: Iterable[Kit]) -> None:
    """Free the kits whose labels are all read now; stop those whose label says otherwise."""
    kits = list(kits)
    recipes = recipes_data({kit.version_id: kit.version for kit in kits}.values())
    changed = []
    for kit in kits:
        why = blocked_why(recipes[kit.version_id])[:300]
        if why != kit.blocked_why:
            kit.blocked_why = why
            changed.append(kit)
    Kit.objects.bulk_update(changed, ["blocked_why"])
