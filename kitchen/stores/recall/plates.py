"""Whose plate a kit may have reached, and which kits may have reached a plate.

For a recall, forward and back. A kit with a bench reached that bench. A kit without one
(demonstration, tray, spare, prepared ahead) is shared: it may have reached every bench of its
lesson, so all of them are named, to name too many is the careful side; unless a person said to
which benches it was given, then those are. Both ways use the same rule, so that what goes forward
comes back to its start.
"""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class KitAt:
    """One kit: its lesson, and its bench's place or None when it is shared.

    ``given`` are the places that a shared kit was given to, None when nobody said.
    """

    kit: int
    lesson: int
    place: int | None
    given: frozenset[int] | None = None


@dataclass(frozen=True, slots=True)
class PlaceAt:
    """One bench of one lesson."""

    place: int
    lesson: int


def reached(kit: KitAt, place: PlaceAt) -> bool:
    """Whether food of the kit may have reached the bench."""
    if kit.lesson != place.lesson:
        return False
    if kit.place is None and kit.given is not None:
        return place.place in kit.given
    return kit.place in (None, place.place)


def plates_of(kits: Iterable[KitAt], places: Iterable[PlaceAt]) -> dict[int, tuple[int, ...]]:
    """For each bench that food of these kits may have reached, those kits."""
    of_lesson: dict[int, list[KitAt]] = {}
    for kit in kits:
        of_lesson.setdefault(kit.lesson, []).append(kit)
    found = {
        place.place: tuple(kit.kit for kit in of_lesson.get(place.lesson, ()) if reached(kit, place))
        for place in places
    }
    return {place: kits for place, kits in found.items() if kits}
