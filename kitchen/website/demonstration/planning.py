"""Finds whether a lesson fits, takes the way out that was found, accepts what is shown and the time plan.

Every search here has a fixed amount of work, so that the same lesson gets the same plan on
every machine.
"""

from collections.abc import Iterator
from dataclasses import replace

from kitchen.lessons.models import Lesson
from kitchen.timeplan.actions import accept_plan, take_way_out
from kitchen.timeplan.class_data import BenchData, LessonData
from kitchen.timeplan.demonstration import chosen
from kitchen.timeplan.demonstration_data import Shown
from kitchen.timeplan.demonstration_kept import kept_question, question_hash, read_demonstration
from kitchen.timeplan.demonstration_words import summary
from kitchen.timeplan.demonstrations.actions import accept_demonstration
from kitchen.timeplan.demonstrations.queries import accepted_demonstration, shows_of
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.fits import judge
from kitchen.timeplan.models import PlanState, TimePlan
from kitchen.timeplan.queries import lesson_data
from kitchen.timeplan.ways_out import ways_out
from kitchen.website.demonstration.people import person
from kitchen.website.demonstration.stages import answer_of, key

PLANNING = Effort(work=2.0)
LOOKING = Effort(work=0.5)


def find_what_fits(lesson: Lesson, said: dict) -> Lesson:
    """Judge the lesson as it is wished; where it does not fit, take the first way out on one day."""
    if answer_of(said["code"], "way out") is not None:
        return Lesson.objects.get(pk=lesson.pk)
    data = lesson_data(lesson)
    if judge(data, LOOKING).fits:
        return lesson
    way = next(each for each in ways_out(data, LOOKING) if each.sittings == 1)
    lecturer = person(said["lecturer"])
    return take_way_out(lesson=lesson, way=way, by=lecturer, key=key(said["code"], "way out"))


def show(lesson: Lesson, said: dict) -> None:
    """Accept the demonstration of the files: which stages are live, which come in on a tray."""
    if answer_of(said["code"], "demonstration") is not None:
        return
    recipe = shows_of(lesson).recipe
    stages = [Shown(each["step"], each["way"], each["minutes"]) for each in said["demonstration_stages"]]
    shown = chosen(recipe, stages, sum(stage.minutes for stage in stages))
    question = kept_question(recipe, shown.slot, ())
    accept_demonstration(
        lesson=lesson,
        plan=shown,
        inputs=(question, question_hash(question)),
        by=person(said["lecturer"]),
        key=key(said["code"], "demonstration"),
    )


def plan(lesson: Lesson, said: dict) -> None:
    """Solve the lesson and accept its plan, unless a plan stands."""
    if TimePlan.objects.filter(lesson=lesson, state=PlanState.ACCEPTED).exists():
        return
    verdict = judge(lesson_data(lesson), PLANNING)
    accept_plan(lesson=lesson, planned=verdict.planned, by=person(said["lecturer"]))


def wish_words(lesson: Lesson, said: dict) -> Iterator[str]:
    """What was in the way of the first wish, and what would fit, reckoned again by our own rule."""
    if "first_wish" not in said:
        return
    wished = _as_wished(lesson_data(lesson))
    verdict = judge(wished, None)
    yield f"First wish: {len(wished.benches)} benches, one learner each, everything in the lesson."
    for reason in verdict.reasons:
        yield f"In the way: {reason.words}"
    for way in ways_out(wished, None):
        yield f"Would fit: {way.words}"


def _as_wished(lesson: LessonData) -> LessonData:
    """The lesson with one bench a learner, the ordinary recipe, nothing ahead and nothing shown."""
    ordinary = next(bench.recipe for bench in lesson.benches if bench.recipe.variant_of is None)
    names = sorted(name for bench in lesson.benches for name in bench.learners)
    benches = tuple(BenchData(str(number), ordinary, (name,), 1) for number, name in enumerate(names, 1))
    return replace(lesson, benches=benches, ahead=(), shown=())


def show_words(lesson: Lesson) -> str:
    """The accepted demonstration in one sentence."""
    row = accepted_demonstration(lesson)
    return summary(read_demonstration(row.answer)) if row else "Nothing is shown."
