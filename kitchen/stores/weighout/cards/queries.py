"""What each label says beside its tray: until when it stays in the cold, and whose hands and eyes it had."""

from collections.abc import Iterable, Mapping

from curriculum import wording
from kitchen.stores.models import Kit, KitSet
from kitchen.stores.printing import CardFacts
from kitchen.stores.trays import Tray
from kitchen.stores.weighout.moments import COLD, cold_until, storage_words
from kitchen.stores.weighout.order import Looked
from kitchen.stores.weighout.queries import lids_of, looked_at, moments_of, taps_of
from kitchen.timeplan.queries import ruling_plan


def cards_of(kit_set: KitSet, trays: Iterable[Tray]) -> dict[str, CardFacts]:
    """What the label of each kit says of the weigh-out and of the clock, by the kit's code. Nine queries."""
    trays = tuple(trays)
    found, taps = moments_of(kit_set, trays), taps_of(kit_set)
    looked, lids = looked_at(kit_set, taps.standing), lids_of(kit_set)
    has_plan = ruling_plan(kit_set.lesson) is not None
    return {
        tray.code: CardFacts(
            cold_until=cold_until(found[tray.code, line.food] for line in tray.lines if line.storage in COLD),
            storage=storage_words(line.storage for line in tray.lines),
            weighed=_initials(tray, {weight: tap.who for weight, tap in taps.standing.items()}),
            second=wording.listed(dict.fromkeys(_second(tray, looked))),
            lid=lids.get(tray.code, ""),
            bench=tray.label if has_plan and tray.kind == Kit.Kind.BENCH and tray.label.isdigit() else "",
        )
        for tray in trays
    }


def _initials(tray: Tray, who: Mapping[tuple[str, str], str]) -> str:
    """Whose hands weighed a tray, once all of it is weighed."""
    wanted = [who.get((tray.code, line.food), "") for line in tray.lines if not line.from_tap]
    return wording.listed(dict.fromkeys(wanted)) if all(wanted) else ""


def _second(tray: Tray, looked: Mapping[tuple[str, str], Looked]) -> list[str]:
    """Whose eyes looked at weights of a tray: the last word of "10:52, DF"."""
    return [each.passed.split()[-1] for (kit, _), each in looked.items() if kit == tray.code and each.passed]
