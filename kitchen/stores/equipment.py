"""Small equipment: what the benches need against what the room has.

For the kits page and the requisition: tins, knives and nozzles are short like food. Each
bench needs what its recipe lists; the demonstrator needs one set too; a thing that is
``shared_by_room`` is counted once for the room, however many benches use it. A spare kit is
food only: it needs no tin until a bench starts again.

Worked example: seven pairs and one demonstration make a quiche with one flan tin each:
eight tins. A torch shared by the room is one torch.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from curriculum.recipes.data import RecipeData


@dataclass(frozen=True, slots=True)
class EquipmentNeed:
    """One thing: how many are needed, how many the room has."""

    item: str
    needed: int
    there: int

    @property
    def short(self) -> int:
        """How many are missing; 0 when there are enough."""
        return max(0, self.needed - self.there)

    @property
    def words(self) -> str:
        """The thing in words: "flan tin fluted 24"."""
        return self.item.replace("_", " ")


def equipment_needs(recipes: Iterable[RecipeData], there: Mapping[str, int]) -> tuple[EquipmentNeed, ...]:
    """Needs of so many working places (one recipe each) against the counts of the room, by item."""
    needed: dict[str, int] = {}
    for recipe in recipes:
        for each in recipe.equipment:
            before = needed.get(each.item, 0)
            needed[each.item] = max(before, each.count) if each.shared_by_room else before + each.count
    return tuple(EquipmentNeed(item, count, there.get(item, 0)) for item, count in sorted(needed.items()))


def equipment_short(
    recipes: Iterable[RecipeData], there: Mapping[str, int], other_rooms: Mapping[str, int] | None = None
) -> tuple[tuple[EquipmentNeed, int], ...]:
    """What is short, and how many of it stand in other rooms or in the stores to be borrowed."""
    elsewhere = other_rooms or {}
    return tuple(
        (need, elsewhere.get(need.item, 0)) for need in equipment_needs(recipes, there) if need.short
    )
