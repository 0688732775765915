"""Kits that are weighed out: weight by weight, or everything in its order."""

from curriculum.people.models import User
from kitchen.stores.models import KitSet
from kitchen.stores.weighout.actions import initial, put_lid, weigh
from kitchen.stores.weighout.order import Stop
from kitchen.stores.weighout.queries import weigh_out
from tests.builders.book import a_person


def stop_at(kit_set: KitSet, code: str) -> Stop:
    """One stop of the weigh-out as it stands."""
    return weigh_out(kit_set).stop(code)


def weights_of(stops: list[Stop]) -> list[tuple[str, str]]:
    """Kit and food of everything at these stops."""
    return [(item.kit, item.food) for stop in stops for item in stop.items]


def whole_kits_lidded(kit_set: KitSet, by: User) -> None:
    """The free-from kits that may be weighed stand weighed, with their lids on."""
    kits = [stop for stop in weigh_out(kit_set).order if stop.is_kit]
    for stop in kits:
        weigh(kit_set=kit_set, weights=weights_of([stop]), by=by)
        put_lid(kit_set=kit_set, kit=stop.code, is_on=True, by=by)


def weighed_at(kit_set: KitSet, code: str, by: User, count: int | None = None) -> Stop:
    """Some or all weights of one stop are taken; gives the stop as it stands then."""
    weights = weights_of([stop_at(kit_set, code)])
    weigh(kit_set=kit_set, weights=weights[:count], by=by)
    return stop_at(kit_set, code)


def all_weighed(kit_set: KitSet, by: User, second: User | None = None) -> None:
    """Everything is weighed in its order, lidded, and looked at by a second person."""
    whole_kits_lidded(kit_set, by)
    order = list(weigh_out(kit_set).order)
    weigh(kit_set=kit_set, weights=weights_of(order), by=by)
    seen = [(item.kit, item.food) for stop in order for item in stop.items if item.way]
    initial(kit_set=kit_set, weights=seen, second=second or a_person("desmond", "technician"), by=by)
