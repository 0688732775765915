"""What must be right at the scale before kits leave the stores; for the action that issues."""

from curriculum.errors import RuleBroken
from curriculum.people.models import User
from kitchen.stores.models import Kit, KitSet, Weighing
from kitchen.stores.weighout import queries
from kitchen.stores.weighout.models import AllTheSame
from kitchen.stores.weighout.page import WeighOut, gate_words


def demand_checked(*, kit_set: KitSet, kits: set[int], why: str, by: User) -> None:
    """Refuse kits that leave with a lid or a second look missing, unless somebody says why they leave.

    For the action that issues, once the lots are locked: ``kits`` are the keys of those that leave
    now. The reason is kept with what stood open. RuleBroken "check_open", and "lot_may_not_leave",
    which no reason opens: the book would take another lot than stands on the tray.
    """
    if not Weighing.objects.filter(kit_line__kit__kit_set=kit_set).exists():
        return
    found = queries.weigh_out(kit_set)
    codes = list(Kit.objects.filter(pk__in=kits).values_list("code", flat=True))
    _demand_lots_may_leave(kit_set, found, codes)
    standing = gate_words(found.order, codes, found.waiting)
    if not standing:
        return
    if not why:
        raise RuleBroken(
            "check_open",
            f"{' '.join(standing)} Put it right at the scale, or write why the kits leave all the same.",
            field="unchecked_why",
        )
    what = AllTheSame.What.OPEN_CHECKS
    AllTheSame.objects.create(kit_set=kit_set, what=what, reason=why[:200], standing=standing, by=by)


def _demand_lots_may_leave(kit_set: KitSet, page: WeighOut, kits: list[str]) -> None:
    """Refuse kits on which food stands that was weighed out of a lot which may not leave any more."""
    trays = [tray for tray in page.trays if tray.code in kits] if page.spoiled else []
    words = queries.spoiled(kit_set, trays)
    if words:
        raise RuleBroken("lot_may_not_leave", " ".join(words))
