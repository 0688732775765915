"""Schemes and briefs read: the list, one version, the briefs of a lesson."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from django.db.models import Prefetch

from assessments.schemes.card import Subject
from assessments.schemes.content import SchemeContent, read_scheme
from assessments.schemes.models import Brief, Scheme, SchemeVersion
from curriculum.recipes.data import RecipeData
from curriculum.recipes.models import Version
from curriculum.recipes.queries import recipes_data
from curriculum.techniques.models import Technique
from kitchen.lessons.models import Dish, Lesson, Place


@dataclass(frozen=True, slots=True)
class Cooked:
    """One version cooked in a lesson: the dish itself or a variant, with portions a bench."""

    version: Version
    recipe: RecipeData
    portions: int
    learners: int


def all_schemes() -> list[Scheme]:
    """Every scheme with its versions, the newest first, by name."""
    newest = SchemeVersion.objects.order_by("-number")
    return list(Scheme.objects.order_by("name").prefetch_related(Prefetch("versions", newest)))


def usable_versions() -> list[SchemeVersion]:
    """The newest approved version of each scheme, by name."""
    found: dict[int, SchemeVersion] = {}
    rows = SchemeVersion.objects.filter(state=SchemeVersion.State.APPROVED).select_related("scheme")
    for version in rows.order_by("scheme__name", "number"):
        found[version.scheme_id] = version
    return list(found.values())


def version_of(code: str) -> SchemeVersion | None:
    """The newest version of a scheme, or None."""
    rows = SchemeVersion.objects.filter(scheme__code=code).select_related("scheme", "written_by")
    return rows.order_by("-number").first()


def content_of(version: SchemeVersion) -> SchemeContent:
    """The scheme of a version as calculations read it."""
    return read_scheme(version.content)


def briefs_of(lesson: Lesson) -> list[Brief]:
    """The briefs of a lesson with what they name, by dish."""
    rows = lesson.briefs.select_related(
        "version__recipe", "scheme_version__scheme", "written_by", "checked_by"
    )
    return list(rows.order_by("version__recipe__title"))


def cooked_in(lesson: Lesson) -> list[Cooked]:
    """Every version that somebody cooks in a lesson; before places are given, its dishes.

    The method is what the learners work themselves: steps done ahead for them are left out.
    """
    places = (
        Place.objects.filter(shift__lesson=lesson, learners__isnull=False)
        .select_related("version__recipe", "dish")
        .order_by("version__recipe__title", "pk")
    )
    counts: dict[int, int] = {}
    found: dict[int, tuple[Version, Dish]] = {}
    for place in places:
        found.setdefault(place.version_id, (place.version, place.dish))
        counts[place.version_id] = counts.get(place.version_id, 0) + 1
    if not found:
        dishes = lesson.dishes.select_related("version__recipe")
        found = {dish.version_id: (dish.version, dish) for dish in dishes}
    recipes = recipes_data(version for version, _ in found.values())
    return [
        Cooked(version, _taught(recipes[key], dish), dish.portions_a_bench, counts.get(key, 0))
        for key, (version, dish) in found.items()
    ]


def _taught(recipe: RecipeData, dish: Dish) -> RecipeData:
    """The recipe with the steps that this lesson's learners work."""
    taught = tuple(
        step
        for step in recipe.steps
        if step.position not in dish.ahead_steps
        and (not dish.taught_steps or step.position in dish.taught_steps)
    )
    return replace(recipe, steps=taught)


def subjects_of(codes: Iterable[str]) -> tuple[Subject, ...]:
    """Techniques by code as subjects of a card, in the order given; one query."""
    codes = list(codes)
    names = dict(Technique.objects.filter(code__in=codes).values_list("code", "name"))
    return tuple(Subject(code, names.get(code, code)) for code in codes)


def levels_of(codes: Iterable[str]) -> dict[str, str]:
    """The level of each technique by code."""
    return dict(Technique.objects.filter(code__in=list(codes)).values_list("code", "level"))


def marking_has_begun(lesson: Lesson) -> bool:
    """Whether mark sheets are open, so that the brief stays as it is."""
    return lesson.briefs.filter(sittings__isnull=False).exists()
