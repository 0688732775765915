"""The accepted paces that a lesson is planned by."""

from collections.abc import Iterable

from django.utils.timezone import localtime

from curriculum.recipes.data import RecipeData
from kitchen.lessons.models import Lesson
from kitchen.timeplan.models import DayEvent, LearnedMinutes, PlanState, TimePlan, What
from kitchen.timeplan.paces import LearnedPace, read_paces


def paces_for(lesson: Lesson, recipes: Iterable[RecipeData]) -> tuple[LearnedPace, ...]:
    """Paces at the level of the recipes, of the techniques of their steps; two queries at most.

    A class that has begun, or was run, stays with the paces of its plan: what is learned from a
    day does not change that day's plan. None where the lesson is planned by the recipes' own
    minutes.
    """
    if lesson.state == Lesson.State.RUN:
        plans = TimePlan.objects.filter(lesson=lesson, state=PlanState.ACCEPTED)
        kept = plans.values_list("inputs__paces", flat=True)[:1]
    else:
        began = DayEvent.objects.filter(lesson=lesson, what=What.BEGAN, undone_by=None)
        kept = began.values_list("plan__inputs__paces", flat=True)[:1]
    if kept:
        return read_paces(kept[0] or ())
    if lesson.by_recipe_minutes:
        return ()
    wanted = list(recipes)
    rows = LearnedMinutes.objects.filter(
        state=PlanState.ACCEPTED,
        level__in={recipe.level for recipe in wanted},
        technique__code__in={code for recipe in wanted for step in recipe.steps for code in step.techniques},
    )
    return tuple(map(_pace, rows.select_related("technique", "by").order_by("technique__code", "level")))


def _pace(row: LearnedMinutes) -> LearnedPace:
    return LearnedPace(
        technique=row.technique.code,
        name=row.technique.name,
        level=row.level,
        per_mille=row.pace_per_mille,
        count=row.count,
        lessons=len(row.lessons),
        by=row.by.name,
        on=localtime(row.at).date(),
        timings=tuple(timing for lesson in sorted(row.timings) for timing in row.timings[lesson]),
    )
