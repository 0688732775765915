"""A lesson whose kits have left the stores: two benches, one of them a variant."""

from dataclasses import dataclass

from curriculum.foods.models import Food
from kitchen.lessons.models import Place
from kitchen.stores.actions import issue_kits
from tests.builders.stores import Stage, a_lot, college_lots, kits_made, quiche_stage


@dataclass
class LeftStage(Stage):
    """A stage whose kits have left, with its places by bench."""

    def place(self, number: int) -> Place:
        """The place at that bench."""
        return Place.objects.get(shift__lesson=self.lesson, bench__number=number)


def left_stage(benches: tuple[str, ...] = ("R01", "V1")) -> LeftStage:
    """Benches make quiches, the second of them without gluten; their kits have left."""
    made = quiche_stage(benches=benches)
    college_lots()
    a_lot("unsalted_butter", "MORE-1", 20_000)
    kits_made(made)
    issue_kits(lesson=made.lesson, by=made.stores, short_accepted=True)
    return LeftStage(made.lesson, made.stores, made.lecturer, made.versions)


def given_to(stage: LeftStage, number: int, food: str = "unsalted_butter", milligrams: int = 100_000) -> dict:
    """What ``give_more`` is asked for a bench (0: the demonstration)."""
    return {
        "lesson": stage.lesson,
        "place": stage.place(number) if number else None,
        "food": Food.objects.get(code=food),
        "milligrams": milligrams,
        "reason": "Dropped",
        "by": stage.stores,
    }
