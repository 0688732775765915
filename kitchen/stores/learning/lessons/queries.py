"""Lessons that were held, food by food as the ledger has them; and lessons to come.

Each function takes a fixed number of queries, however many lessons there were.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.db.models import Count, Exists, OuterRef, Q, QuerySet, Sum
from django.db.models.functions import Coalesce

from curriculum.recipes.data import RecipeData
from curriculum.recipes.models import Version
from curriculum.recipes.queries import latest_approved, recipes_data
from kitchen.lessons.models import Dish, Lesson
from kitchen.lessons.queries import places_taken
from kitchen.stores.learning.effect import Coming
from kitchen.stores.learning.evidence import LOST, OVER_ISSUE, LessonFood
from kitchen.stores.learning.figures import over_issue_in, read
from kitchen.stores.models import Kit, KitLine, KitSet, Movement
from kitchen.stores.moves import reasons

#: Lessons of so many days back teach: methods and classes change (our own choice, no source).
DAYS_BACK = timedelta(365)
#: Of each recipe so many of the newest lessons teach; more say the same and keep a large college's page
#: waiting (our own choice, no source).
MOST_A_RECIPE = 30
#: So far ahead it is said what a figure would change (our own choice, no source).
DAYS_AHEAD = timedelta(28)
SPARE, MORE = Kit.Kind.SPARE, Kit.Kind.SUPPLEMENTARY
WORKED = (Kit.Kind.BENCH, Kit.Kind.DEMONSTRATION, Kit.Kind.STAGE_TRAY)


@dataclass(frozen=True)
class Past:
    """Foods of lessons that were held, and the recipes cooked in them, as they stand now, by code."""

    foods: tuple[LessonFood, ...]
    recipes: dict[str, RecipeData]


def past_lessons(today: date) -> Past:
    """Every food of the newest lessons whose kits have left, of the days that teach. Ten queries."""
    sets = list(_sets(today).filter(pk__in=_newest(_sets(today))))
    keys = [each.pk for each in sets]
    versions = {each.inputs["version"] for each in sets}
    rows = list(Version.objects.filter(pk__in=versions).select_related("recipe"))
    newest = list(latest_approved().filter(recipe__in={row.recipe_id for row in rows}))
    data = recipes_data([*{row.pk: row for row in [*rows, *newest]}.values()])
    planned, moved, held = _planned(keys), _moved(keys), _held(keys)
    found = [
        _food(
            each, food, data[each.inputs["version"]], planned[each.pk], moved[each.pk], held.get(each.pk, "")
        )
        for each in sets
        for food in sorted(planned[each.pk])
    ]
    recipes = {row.recipe.code: data[row.pk] for row in [*rows, *newest]}
    return Past(tuple(found), recipes)


def coming_lessons(today: date) -> tuple[Coming, ...]:
    """Lessons of the next weeks whose kits are not made yet, with their batches. Five queries at most."""
    made = KitSet.objects.filter(lesson=OuterRef("lesson"), state=KitSet.State.ACCEPTED)
    dishes = (
        Dish.objects.filter(lesson__on__range=(today, today + DAYS_AHEAD))
        .exclude(lesson__state__in=(Lesson.State.CANCELLED, Lesson.State.RUN))
        .exclude(Exists(made))
        .select_related("lesson__group")
        .order_by("lesson__on", "lesson__starts", "lesson", "pk")
    )
    first: dict[int, Dish] = {}
    for dish in dishes:
        first.setdefault(dish.lesson_id, dish)
    counts = _places(first)
    for dish in first.values():
        counts[dish.lesson_id][dish.version_id] += (
            dish.lesson.demonstration_batches + dish.lesson.spare_batches
        )
    keys = {key for count in counts.values() for key in count}
    recipes = recipes_data(Version.objects.filter(pk__in=keys).select_related("recipe"))
    return tuple(_coming(dish, counts[dish.lesson_id], recipes) for dish in first.values())


def _sets(today: date) -> QuerySet[KitSet]:
    left = Movement.objects.filter(kit_line__kit__kit_set=OuterRef("pk"), kind=Movement.Kind.ISSUE)
    rows = KitSet.objects.filter(Exists(left), state=KitSet.State.ACCEPTED, lesson__on__gte=today - DAYS_BACK)
    held = Q(lesson__on__lt=today) | Q(lesson__on=today, lesson__state=Lesson.State.RUN)
    return (
        rows.filter(held)
        .select_related("lesson__group")
        .annotate(benches=Count("kits", filter=Q(kits__kind=Kit.Kind.BENCH)))
        .order_by("lesson__on", "pk")
    )


def _newest(sets: QuerySet[KitSet]) -> list[int]:
    """The kit sets of the newest lessons of each recipe version's recipe, at most so many of each."""
    recipes = dict(Version.objects.order_by().values_list("pk", "recipe"))
    taken: Counter[int] = Counter()
    found = []
    for key, version in sets.order_by("-lesson__on", "-pk").values_list("pk", "inputs__version"):
        recipe = recipes.get(version, 0)
        taken[recipe] += 1
        if taken[recipe] <= MOST_A_RECIPE:
            found.append(key)
    return found


def _planned(sets: list[int]) -> dict[int, dict[str, dict[str, tuple[int, int]]]]:
    """By kit set, food and kind of kit: milligrams out of stock, and how many kits have the food."""
    rows = (
        KitLine.objects.filter(kit__kit_set__in=sets, stock_milligrams__gt=0)
        .exclude(kit__kind=MORE)
        .order_by()
        .values_list("kit__kit_set", "food__code", "kit__kind")
        .annotate(stock=Sum("stock_milligrams"), kits=Count("kit", distinct=True))
    )
    found: dict[int, dict[str, dict[str, tuple[int, int]]]] = defaultdict(lambda: defaultdict(dict))
    for kit_set, food, kind, stock, kits in rows:
        found[kit_set][food][kind] = (stock, kits)
    return found


def _moved(sets: list[int]) -> dict[int, dict[str, list[tuple[str, str, str, int]]]]:
    """By kit set and food: kind of kit, way, the code why, milligrams; a correction as what it corrects."""
    rows = (
        Movement.objects.filter(kit_line__kit__kit_set__in=sets)
        .annotate(
            way=Coalesce("corrects__kind", "kind"),
            why=Coalesce("corrects__reason", "reason"),
            code=Coalesce("corrects__reason_code", "reason_code"),
        )
        .order_by()
        .values_list(
            "kit_line__kit__kit_set", "kit_line__food__code", "kit_line__kit__kind", "way", "why", "code"
        )
        .annotate(moved=Sum("milligrams"))
    )
    found: dict[int, dict[str, list[tuple[str, str, str, int]]]] = defaultdict(lambda: defaultdict(list))
    for kit_set, food, kind, way, why, code, moved in rows:
        found[kit_set][food].append((kind, way, code or _code_of(way, why), moved))
    return found


def _code_of(way: str, why: str) -> str:
    """The code of a movement that was written before reasons had one: read from its words."""
    listed = {Movement.Kind.SUPPLEMENTARY: reasons.MORE, Movement.Kind.WASTE: reasons.WASTE}.get(way)
    return reasons.code_of(listed, why) if listed else ""


def _held(sets: list[int]) -> dict[int, str]:
    """By kit set: a lot that its kits took from and that is held now."""
    rows = Movement.objects.filter(kit_line__kit__kit_set__in=sets, lot__held=True)
    return dict(rows.order_by("-lot__code").values_list("kit_line__kit__kit_set", "lot__code").distinct())


def _food(
    each: KitSet,
    food: str,
    recipe: RecipeData,
    planned: Mapping[str, Mapping[str, tuple[int, int]]],
    moved: Mapping[str, list[tuple[str, str, str, int]]],
    held: str,
) -> LessonFood:
    """One food of one lesson. What was lost counts whichever kit it is written against, since
    what comes back is written against the spare kit first.
    """
    kits, moves = planned[food], moved.get(food, [])
    sums = _sums(row for row in moves if row[0] != SPARE)
    spare = _sums(row for row in moves if row[0] == SPARE)
    lost = {code: spare["thrown"][code] for code in LOST if spare["thrown"].get(code)}
    unneeded = spare["sealed"] + spare["reworked"] + sum(spare["thrown"].values()) - sum(lost.values())
    return LessonFood(
        lesson=each.lesson.code,
        title=each.lesson.title,
        on=each.lesson.on,
        group=each.lesson.group.code,
        recipe=recipe.code,
        food=food,
        benches=each.benches,
        batches=sum(count for kind, (_, count) in kits.items() if kind in WORKED),
        planned=sum(stock for kind, (stock, _) in kits.items() if kind != SPARE),
        spare_used=spare["issued"] - unneeded,
        given=_given(each.inputs, recipe, food),
        out_why=_out_why(each.lesson, moved, held),
        **{
            **sums,
            "thrown": {code: _of(sums, code) + lost.get(code, 0) for code in {*sums["thrown"], *lost}},
        },
    )


def _sums(moves: Iterable[tuple[str, str, str, int]]) -> dict[str, Any]:
    """What moved, by what it was; opened food came back before it was thrown away, that is no return."""
    by_way: dict[str, int] = defaultdict(int)
    more: dict[str, int] = defaultdict(int)
    thrown: dict[str, int] = defaultdict(int)
    for _, way, why, milligrams in moves:
        by_way[way] += milligrams
        if way == Movement.Kind.SUPPLEMENTARY:
            more[why] -= milligrams
        if way == Movement.Kind.WASTE:
            thrown[why] -= milligrams
    reworked = by_way[Movement.Kind.REWORK]
    return {
        "issued": -by_way[Movement.Kind.ISSUE],
        "sealed": by_way[Movement.Kind.RETURN] - sum(thrown.values()) - reworked,
        "reworked": reworked,
        "more": dict(more),
        "thrown": dict(thrown),
    }


def _of(sums: Mapping[str, Any], code: str) -> int:
    return sums["thrown"].get(code, 0)


def _given(inputs: Mapping[str, Any], recipe: RecipeData, food: str) -> int:
    """The over-issue of the food in each kit: learned by the time they were made, else the recipe’s."""
    learned = [each for each in read(inputs.get("learned") or ()) if each.kind == OVER_ISSUE]
    own = {each.food: each.amount for each in learned if each.of == recipe.code}
    return own.get(food, over_issue_in(recipe).get(food, 0))


def _out_why(lesson: Lesson, moved: Mapping[str, list[tuple[str, str, str, int]]], held: str) -> str:
    if lesson.state == Lesson.State.CANCELLED:
        return "The lesson was cancelled."
    if held:
        return f"Lot {held} of its kits is held."
    if all(way == Movement.Kind.ISSUE for rows in moved.values() for _, way, _, _ in rows):
        return "Nobody wrote down what came back or was given later."
    return ""


def _places(lessons: Iterable[int]) -> dict[int, dict[int, int]]:
    """By lesson and version, how many places work it."""
    found: dict[int, dict[int, int]] = {key: defaultdict(int) for key in lessons}
    rows = places_taken().filter(shift__lesson__in=found).order_by().values_list("shift__lesson", "version")
    for lesson, version, count in rows.annotate(count=Count("pk")):
        found[lesson][version] += count
    return found


def _coming(dish: Dish, counts: Mapping[int, int], recipes: Mapping[int, RecipeData]) -> Coming:
    lesson = dish.lesson
    batches = tuple((recipes[key], count) for key, count in sorted(counts.items()) if count)
    return Coming(lesson.code, lesson.title, lesson.on, lesson.group.code, dish.portions_a_bench, batches)
