"""What a person asks of "Scale it", as plain data."""

from dataclasses import dataclass
from fractions import Fraction

from curriculum.recipes.bases import AS_WRITTEN, Filled
from curriculum.recipes.data import RecipeData, TinData
from curriculum.recipes.water import TAP_DECICELSIUS
from curriculum.recipes.weighing import OF_THE_BOOK, Scales


@dataclass(frozen=True, slots=True)
class Temperatures:
    """Of a dough, in tenths of a degree; ``preferment`` None without one."""

    wanted: int
    flour: int
    room: int
    friction: int
    preferment: int | None = None
    tap: int = TAP_DECICELSIUS


@dataclass(frozen=True, slots=True)
class Asked:
    """Benches, portions a bench and what else was said; None is as the recipe has it.

    Weights are milligrams, money is pence. ``dough_milligrams`` is a whole dough to make;
    ``known_food`` with ``known_milligrams`` the one food of a dough that is there.
    """

    portions: int
    benches: int = 1
    learners: int | None = None
    portion_milligrams: int | None = None
    tins: tuple[TinData, ...] | None = None
    filled: Filled = AS_WRITTEN
    shell_milligrams: int | None = None
    scales: Scales = OF_THE_BOOK
    pool: bool = False
    bloom: int | None = None
    leaf_milligrams: int | None = None
    dough_milligrams: int | None = None
    known_food: str = ""
    known_milligrams: int | None = None
    temperatures: Temperatures | None = None
    selling_pence: int | None = None
    share_per_mille: int | None = None

    def size(self, recipe: RecipeData) -> Fraction:
        """The wanted over the written weight of a portion; 1 where one of them is not known."""
        if not self.portion_milligrams or not recipe.portion_milligrams:
            return Fraction(1)
        return Fraction(self.portion_milligrams, recipe.portion_milligrams)
