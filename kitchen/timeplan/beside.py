"""Steps with somebody beside: which they are at which bench, why, and how they are said.

For the question of a lesson, its plan and its page. A step is done with somebody beside when
the recipe says so, or when a learner of the bench is under 18 on the day of the lesson and the
way it is done uses a machine or place of the college's list. One bench at a time for each who
may stand beside: the lecturer alone, or one of several. A demonstration takes every hand of
the class, so nobody is stood beside during it, whoever shows it.

Only a flag of the bench is read here and kept in a plan, never an age; pages of learners and
of the projector say that somebody stands beside, and not why.

Worked example: two benches of seven have a learner under 18, and step 3 takes 8 minutes at
the food processor. The lecturer is beside these two in turn, 16 minutes; with a second person
who may stand beside, both work at once, while there are two machines.
"""

from collections.abc import Iterable

from curriculum.recipes.data import StepData, WayData
from curriculum.wording import listed, number
from kitchen.timeplan.class_data import BenchData, LessonData

#: The supply of those who may stand beside, where there are several.
BESIDE = "beside"
#: Why somebody stands beside: the recipe says so, or a learner under 18 at a listed machine.
STEP, LISTED = "step", "listed"
#: What a learner's own strip says.
WAIT_FOR = "Begin when somebody stands beside you."


def why_beside(lesson: LessonData, bench: BenchData, step: StepData, way: WayData) -> str:
    """Why somebody stands beside the hands of a step done this way; empty when nobody does."""
    if step.supervised:
        return STEP
    return LISTED if bench.under_18 and way.at in lesson.listed else ""


def any_beside(lesson: LessonData) -> bool:
    """Whether any step of the lesson, done in any of its ways, is one with somebody beside."""
    return any(
        why_beside(lesson, bench, step, way)
        for bench in lesson.benches
        for step in lesson.steps_of(bench)
        for way in step.ways
    )


def who_words(supervisors: int) -> str:
    """ "the lecturer", "one of the two who may stand beside"."""
    if supervisors < 2:
        return "the lecturer"
    return f"one of the {number(supervisors)} who may stand beside"


def beside_words(found: Iterable[tuple[int, str, str, str]], supervisors: int) -> tuple[str, ...]:
    """One sentence for each step with somebody beside, from (step, why, place, bench)."""
    steps: dict[tuple[int, str, str], list[str]] = {}
    for step, why, place, bench in found:
        steps.setdefault((step, why, place), []).append(bench)
    return tuple(_sentence(*key, benches, supervisors) for key, benches in sorted(steps.items()))


def _sentence(step: int, why: str, place: str, benches: list[str], supervisors: int) -> str:
    which = f"Step {step} at bench{'es' if len(benches) > 1 else ''} {listed(benches)}"
    beside = f"{who_words(supervisors)} stands beside, one bench at a time"
    if why == STEP:
        return f"{which}: the recipe asks for somebody beside; {beside}."
    return (
        f"{which} uses the {place}, which is on the college’s list, with a learner under 18; {beside}."
        " The college’s risk assessment decides about training and supervision."
    )
