"""Machines and places that a learner under 18 uses only with somebody beside: the college's list.

For the time plan and the page of rooms. Which stand on the list is a setting of the college;
what stands here is where it begins. The names are the kinds of appliance that steps use.

Source of the usual list: older British orders named mincers, slicers, choppers, chippers and
dough brakes for young people at work; they are repealed, and today risk assessment, training
and supervision take their place (a trade page on food safety, second hand). Fryer and torch:
common practice, no source. So the list never says what a law forbids.
"""

from collections.abc import Iterable
from dataclasses import dataclass

#: The name of the college's setting that holds the kinds on its list.
SETTING = "listed_for_young_people"


@dataclass(frozen=True, slots=True)
class ListedPlace:
    """One kind of machine or place: its words, and whether it is usually on the list."""

    kind: str
    words: str
    usual: bool = True


PLACES = (
    ListedPlace("food_processor", "Food processor, for its blade"),
    ListedPlace("bowl_chopper", "Bowl chopper"),
    ListedPlace("mincer", "Mincer"),
    ListedPlace("slicer", "Slicer"),
    ListedPlace("chipper", "Chipper"),
    ListedPlace("dough_brake", "Dough brake"),
    ListedPlace("fryer", "Fryer"),
    ListedPlace("torch_station", "Torch station"),
    ListedPlace("mixer", "Mixer, for stiff doughs or with a cutting attachment", usual=False),
    ListedPlace("ring", "Hob", usual=False),
)
KINDS = tuple(place.kind for place in PLACES)
USUAL = frozenset(place.kind for place in PLACES if place.usual)


def listed_kinds(kept: Iterable[str] | None) -> frozenset[str]:
    """The kinds on a college's list; the usual ones where the college has said nothing (None)."""
    return USUAL if kept is None else frozenset(kept) & frozenset(KINDS)
