"""One line of the list of foods, in words."""

from dataclasses import dataclass
from fractions import Fraction

from curriculum import wording
from curriculum.allergens import printed
from curriculum.foods.data import FoodData

#: What a scaling class means in a larger batch, in words.
CLASS_WORDS = {
    "linear": "grows with the batch",
    "seasoning": "grows less than the batch: taste and add",
    "leavening": "raising agent: grows less than a large batch",
    "gelling": "setting agent: by strength and weight of liquid",
    "piece": "by whole pieces",
    "minimum_mass": "not below the least that a machine or bath takes",
    "frying_fat": "by the pan: fills the vessel to its depth",
    "evaporating": "reduced to a weight, not by the clock",
    "vessel": "by the vessel: poaching or boiling liquid",
    "range": "a range: added until the cue is seen",
}


@dataclass(frozen=True, slots=True)
class FoodLine:
    """A food: the step it is weighed to, its facts, what its label declares."""

    code: str
    name: str
    step: str
    facts: str
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    is_read: bool


def line_of(food: FoodData) -> FoodLine:
    """The line of a food."""
    facts = [food.storage]
    if food.counted_in == "pieces" and food.piece_milligrams:
        facts.append(f"handed out in pieces of {wording.amount(food.piece_milligrams)}")
    if food.usable_per_mille < 1000:
        facts.append(f"{wording.per_cent(Fraction(food.usable_per_mille, 1000), 1)} usable")
    if food.scaling_class != "linear":
        facts.append(CLASS_WORDS[food.scaling_class])
    return FoodLine(
        food.code,
        food.name,
        wording.grams(food.increment_milligrams),
        wording.sentence(", ".join(facts)),
        tuple(printed(kind) for kind in food.contains),
        tuple(printed(kind) for kind in food.may_contain),
        food.label_read_on is not None or food.from_tap,
    )
