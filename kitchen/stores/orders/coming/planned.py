"""What lessons that nobody has requisitioned for yet will use: by the recipe's own weights.

For the page of a week. So many batches of a recipe as it is written; what a lesson loses to
trimming, its demonstration and its spare batch are left out, so that it is rather less than what
its requisition will ask. A lesson of a scheme of work is taken as cooked in pairs, one batch a
pair (our own choice, no source).

Worked example: fourteen learners in pairs who make quiches, 260 g of flour each: 1,820 g.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from kitchen.stores.orders.week import Need


@dataclass(frozen=True, slots=True)
class Cooking:
    """A lesson that is to come: what it is called, its day, its recipe's key, learners and portions.

    ``portions`` a bench, None: as many as the recipe states.
    """

    lesson: str
    on: date
    version: int
    learners: int
    portions: int | None = None
    alone: bool = False

    def batches(self, stated: int) -> Fraction:
        """How often the recipe is made."""
        benches = self.learners if self.alone else -(-self.learners // 2)
        return Fraction(benches * (self.portions or stated), stated)


@dataclass(frozen=True, slots=True)
class Written:
    """A recipe as it is written: the portions that it states, and (food, milligrams) of its lines."""

    portions: int
    lines: tuple[tuple[str, int], ...]


def planned_needs(lessons: Iterable[Cooking], written: Mapping[int, Written]) -> tuple[Need, ...]:
    """What each of these lessons will use at least, rounded down to whole milligrams."""
    found: dict[tuple[str, date, str], Fraction] = {}
    for each in lessons:
        recipe = written.get(each.version)
        for food, milligrams in recipe.lines if recipe else ():
            key = (each.lesson, each.on, food)
            found[key] = found.get(key, Fraction(0)) + milligrams * each.batches(recipe.portions)
    return tuple(Need(*key, int(milligrams)) for key, milligrams in found.items() if int(milligrams))
