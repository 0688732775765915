"""Asking for plates: for tasting, for the photograph, for the second marker."""

from dataclasses import astuple, dataclass
from uuid import UUID

from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.records.actions import once
from kitchen.lessons.models import Dish, Lesson


@dataclass(frozen=True, slots=True)
class Plates:
    """Portions of a bench that are plates, by what they are for."""

    tasting: int = 0
    photograph: int = 0
    second_marker: int = 0

    @property
    def together(self) -> int:
        """All of them."""
        return self.tasting + self.photograph + self.second_marker


def plates_of(dish: Dish) -> Plates:
    """The plates of a dish as they stand."""
    return Plates(dish.tasting_plates, dish.photograph_plates, dish.second_marker_plates)


def keep_plates(
    *, lesson: Lesson, plates: Plates, by: User, key: UUID | None = None, beside: bool = True
) -> Dish:
    """Keep the plates of a lesson's dish; each bench makes so many whole portions more, or fewer.

    Not ``beside``: they are among the portions that a bench makes already, wedges of one quiche
    such as. RuleBroken "lesson_cancelled", "lesson_run", "no_dish", "no_portion_left".
    """

    def do() -> dict:
        current = Lesson.objects.select_for_update().get(pk=lesson.pk)
        _demand_open(current)
        dish = current.dishes.select_for_update().order_by("pk").first()
        if dish is None:
            raise RuleBroken("no_dish", "No dish is chosen for this lesson. Choose the dish first.")
        if beside:
            dish.portions_a_bench += plates.together - dish.plates
        _demand_a_portion(dish, plates)
        dish.tasting_plates, dish.photograph_plates = plates.tasting, plates.photograph
        dish.second_marker_plates = plates.second_marker
        dish.full_clean()
        dish.save()
        return {"dish": dish.pk}

    said = {"lesson": lesson.pk, "plates": list(astuple(plates)), "beside": beside}
    return Dish.objects.get(pk=once(key=key, action="keep_plates", by=by, said=said, do=do)["dish"])


def _demand_open(lesson: Lesson) -> None:
    if lesson.state == Lesson.State.CANCELLED:
        raise RuleBroken("lesson_cancelled", "This lesson is cancelled. Nobody makes a plate in it.")
    if lesson.state == Lesson.State.RUN:
        raise RuleBroken("lesson_run", "This lesson has been run: its register is begun. It stays as it was.")


def _demand_a_portion(dish: Dish, plates: Plates) -> None:
    if plates.together >= dish.portions_a_bench:
        raise RuleBroken(
            "no_portion_left",
            f"A bench makes {dish.portions_a_bench} portions, and {plates.together} of them would be plates. "
            "Leave at least one for the learners, or let the bench make more.",
            field="within",
        )
