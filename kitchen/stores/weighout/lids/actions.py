"""What is demanded of lids at the scale: flour after them, and nothing under them.

For the actions of the weigh-out, within their transactions. Nothing is written here.
"""

from curriculum import wording
from curriculum.errors import RuleBroken
from curriculum.foods.queries import foods_data
from kitchen.stores.models import Kit, KitLine, KitSet, Movement
from kitchen.stores.trays import PLATE_WORDS
from kitchen.stores.weighout import queries
from kitchen.stores.weighout.order import dust_reaches, meets


def lid_is_on(kit: Kit) -> bool:
    """Whether the lid of a kit is on."""
    last = kit.lids.order_by("-number").first()
    return last is not None and last.is_on


def without_lid(kit_set: KitSet) -> list[tuple[str, list[str]]]:
    """Free-from kits of the set that stand without a lid: code and what they are free from. Two queries."""
    lids = queries.lids_of(kit_set)
    issued = Movement.objects.filter(kit_line__kit__kit_set=kit_set).values("kit_line__kit")
    rows = kit_set.kits.exclude(pk__in=issued).values_list("code", "version__sheet__free_from")
    return [(code, free_from) for code, free_from in rows if free_from and code not in lids]


def demand_lids_first(kit_set: KitSet, lines: list[KitLine]) -> None:
    """No flour, and nothing that a waiting kit is free from, is opened before that kit has its lid.

    Of another free-from kit only what makes dust counts: it is weighed whole, with scoops of its own.
    """
    waiting = without_lid(kit_set) if lines else []
    foods = foods_data({line.food.code for line in lines}) if waiting else {}
    for line in lines if waiting else ():
        reaches = dust_reaches if line.kit.version.sheet["free_from"] else meets
        food = foods[line.food.code]
        reached = [c for c, free_from in waiting if c != line.kit.code and reaches(food, free_from)]
        if reached and not queries.went_on(kit_set, [code for code, _ in waiting]):
            kits = wording.counted_words(len(reached), "free-from kit is", "free-from kits are")
            raise RuleBroken(
                "lids_first",
                f"{food.name} stays shut: {kits} not lidded yet ({_names(reached)}). "
                "Weigh those whole first and put their lids on, or write down why you go on.",
            )


def _names(codes: list[str]) -> str:
    """ "bench 6 and bench 7"."""
    kits = Kit.objects.filter(code__in=codes).select_related("place__bench", "place__shift")
    names = (f"{PLATE_WORDS[kit.kind]} {kit.place.plate if kit.place else ''}".strip() for kit in kits)
    return wording.listed(name[:1].lower() + name[1:] for name in names)


def demand_open(lines: list[KitLine]) -> None:
    """Nothing is weighed into a kit under its lid. RuleBroken "lid_is_on"."""
    kits = {line.kit_id: line.kit for line in lines if line.kit.version.sheet["free_from"]}
    if any(lid_is_on(kit) for kit in kits.values()):
        raise RuleBroken(
            "lid_is_on",
            "The lid of this kit is on. Take it off where no flour is open, weigh, and put it on again.",
        )
