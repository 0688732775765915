"""The clock of a demonstration: its own, or the class's.

For the demonstration's page and papers. The minutes of a stage come from the demonstration, its
clock from one place only:

- a lesson that is only shown has its own clock: one stage follows the other;
- in a lesson that is cooked each stage stands before the step that it shows, where the accepted
  time plan of the class has put it. Until one is accepted, or when it shows other stages, there is
  no clock yet, and none is invented.

What must be made before follows from that clock: where the class's plan leaves time between two
stages, a piece made in front of the class has rested when it is taken up, and no finished one is
made for it; where it leaves too much, the piece is past its time and a second one is made.

Worked example: two stages of 6 and 4 minutes are shown at 09:15 and 09:50. A shell that comes in
with the second and keeps 15 minutes is finished from 09:35 on, not from 09:06 on.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from curriculum.recipes.data import RecipeData
from kitchen.timeplan.demonstration import moved
from kitchen.timeplan.demonstration_data import Demonstration

OWN, CLASS, OPEN = "own", "class", "open"


@dataclass(frozen=True, slots=True)
class OnTheClock:
    """A demonstration with its clock: ``kind`` is own, class or open.

    ``at`` is the minute of the day from which its minutes count. With an open clock the stages keep
    the minutes of the demonstration and no time of day is said.
    """

    kind: str
    at: int
    plan: Demonstration

    @property
    def is_open(self) -> bool:
        """Whether nobody knows yet at what time it is."""
        return self.kind == OPEN


def on_the_clock(
    recipe: RecipeData, plan: Demonstration, begins: int, shows: Sequence[tuple[int, int, int]] | None
) -> OnTheClock:
    """The demonstration on its clock; ``begins`` is the minute of the day at which the class may begin.

    ``shows`` are (step, minutes, minute of the day) of the class's accepted time plan, empty when
    none is accepted; None for a lesson that is only shown.
    """
    if shows is None:
        return OnTheClock(OWN, begins, plan)
    minutes = {step: lasts for step, lasts, _ in shows}
    if not plan.stages or minutes_by_step(plan) != minutes:
        return OnTheClock(OPEN, begins, plan)
    starts = {step: start - begins for step, _, start in shows}
    return OnTheClock(CLASS, begins, moved(recipe, plan, starts))


def minutes_by_step(plan: Demonstration) -> dict[int, int]:
    """Minutes of the class that each step takes, in the order shown; stages of one step together."""
    taken: dict[int, int] = {}
    for stage in plan.stages:
        taken[stage.step] = taken.get(stage.step, 0) + stage.minutes
    return taken
