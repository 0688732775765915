"""The recipe book read: versions as calculations need them, and the lists of the book.

One function turns rows into each dataclass. A version that was approved is read from its
frozen sheet; only what the labels of its foods say (contains, may contain, read on which
day, facts for other diets) is read as it stands today, because a label may change after
the approval and a kit must know it.
"""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import fields, replace

from django.db.models import Count, Exists, F, OuterRef, Prefetch, Q, QuerySet

from curriculum.allergens import kinds_of
from curriculum.foods.data import FoodData
from curriculum.foods.queries import foods_data
from curriculum.recipes.data import (
    AfterData,
    ComponentData,
    EquipmentData,
    FinishedData,
    LineData,
    RecipeData,
    StayData,
    StepData,
    TinData,
    WayData,
)
from curriculum.recipes.figures import Figures
from curriculum.recipes.models import After, Component, Line, Recipe, Step, Version
from curriculum.recipes.search import wanted_words
from curriculum.recipes.sheets import read_sheet
from curriculum.techniques.models import Prerequisite, Technique

#: What is the same in a row and in its dataclass.
COMPONENT_FIELDS = ["code", "name", "basis", "target_milligrams", "note", "piece_count", "piece_milligrams"]
LINE_FIELDS = [
    "position",
    "milligrams",
    "pieces",
    "weight_is",
    "issued",
    "yield_per_mille",
    "least_milligrams",
    "most_milligrams",
    "held_back_milligrams",
    "target_milligrams",
    "part",
    "purpose",
    "note",
    "minimum_milligrams",
    "returned_milligrams",
    "milligrams_per_litre",
    "vessel_ml",
    "enters_portion",
    "written",
]
STEP_FIELDS = [
    "position",
    "words",
    "cue",
    "caution",
    "wait_first",
    "shown_first",
    "checked_by_lecturer",
    "supervised",
    "core_decicelsius",
    "core_most_decicelsius",
    "core_seconds",
    "target_low_decicelsius",
    "target_high_decicelsius",
    "target_of",
    "kept",
    "ahead_possible",
]
WAY_FIELDS = [
    "name",
    "active_minutes",
    "at",
    "words",
    "least_milligrams",
    "most_milligrams",
    "portion_seconds",
]
STAY_FIELDS = ["minutes", "decicelsius", "heat", "door", "shelves"]
AFTER_FIELDS = ["least_minutes", "longest_minutes"]
VERSION_FIELDS = [
    "portions_stated",
    "portions_obtainable",
    "portion_milligrams",
    "unit",
    "presentation",
    "notes",
    "caution",
    "reject_per_mille",
    "serve_low_decicelsius",
    "serve_high_decicelsius",
    "plate_decicelsius",
    "measures",
]
LIST_FIELDS = ["techniques_lost", "may_be_cut_for", "not_served"]
#: What a label says: read today, never from the sheet.
LABEL_FIELDS = ["contains", "may_contain", "label_read_on", "facts"]


def recipe_data(version: Version) -> RecipeData:
    """One version with its foods, as their labels stand today. RecipeData of a draft is its rows."""
    return recipes_data([version])[version.pk]


def recipes_data(versions: Iterable[Version]) -> dict[int, RecipeData]:
    """Versions by key, in a fixed number of queries: two when all have a sheet, three from a list."""
    versions = list(versions)
    frozen = {pk: read_sheet(sheet) for pk, sheet in _sheets(versions).items() if sheet is not None}
    rows = _with_parts(Version.objects.filter(pk__in=[v.pk for v in versions if v.pk not in frozen]))
    drafts = {version.pk: version for version in rows} if len(frozen) < len(versions) else {}
    codes = [food.code for recipe in frozen.values() for food in recipe.foods]
    codes += [line.food.code for draft in drafts.values() for line in _lines(draft)]
    foods = foods_data(codes)
    made = {pk: _with_labels(recipe, foods) for pk, recipe in frozen.items()}
    made |= {pk: _from_rows(draft, foods) for pk, draft in drafts.items()}
    return {version.pk: made[version.pk] for version in versions}


def _sheets(versions: list[Version]) -> dict[int, dict | None]:
    """The sheet of each version; those of a long list were left behind and are fetched together."""
    behind = [version.pk for version in versions if "sheet" in version.get_deferred_fields()]
    fetched = dict(Version.objects.filter(pk__in=behind).values_list("pk", "sheet")) if behind else {}
    return fetched | {version.pk: version.sheet for version in versions if version.pk not in fetched}


def latest_approved() -> QuerySet[Version]:
    """The newest version approved to teach of each recipe, with its recipe, by title."""
    approved = Version.objects.filter(state=Version.State.APPROVED)
    newer = approved.filter(recipe=OuterRef("recipe"), number__gt=OuterRef("number"))
    return approved.exclude(Exists(newer)).select_related("recipe").order_by("recipe__title")


def _with_parts(versions: QuerySet[Version]) -> QuerySet[Version]:
    lines = Line.objects.select_related("food").order_by("position")
    steps = Step.objects.order_by("position").prefetch_related(
        "components",
        "ways",
        "stays",
        Prefetch("after", After.objects.select_related("needs").order_by("needs__position")),
        "steptechnique_set__technique",
    )
    return versions.select_related("recipe__variant_of").prefetch_related(
        "recipe__free_from",
        Prefetch(
            "components", Component.objects.order_by("position").prefetch_related(Prefetch("lines", lines))
        ),
        Prefetch("steps", steps),
    )


def _lines(draft: Version) -> list[Line]:
    return [line for component in draft.components.all() for line in component.lines.all()]


def _same(row: object, fields: Collection[str]) -> dict[str, object]:
    return {name: getattr(row, name) for name in fields}


def _with_labels(recipe: RecipeData, foods: Mapping[str, FoodData]) -> RecipeData:
    def today(food: FoodData) -> FoodData:
        return replace(food, **_same(foods[food.code], LABEL_FIELDS)) if food.code in foods else food

    return replace(recipe, foods=tuple(today(food) for food in recipe.foods))


def _from_rows(version: Version, foods: Mapping[str, FoodData]) -> RecipeData:
    recipe = version.recipe
    codes = dict.fromkeys(line.food.code for line in _lines(version))
    wholes = [foods[code].made_from.food for code in codes if foods[code].made_from is not None]
    return RecipeData(
        code=recipe.code,
        title=recipe.title,
        level=recipe.level,
        number=version.number,
        **_same(version, VERSION_FIELDS),
        **{name: tuple(getattr(version, name)) for name in LIST_FIELDS},
        carried=tuple((name, text) for name, text in version.carried),
        components=tuple(_component(row) for row in version.components.all()),
        steps=tuple(_step(row) for row in version.steps.all()),
        foods=tuple(foods[code] for code in dict.fromkeys([*codes, *wholes])),
        tins=whole_of(TinData, "tins", version),
        finished=whole_of(FinishedData, "finished", version),
        equipment=whole_of(EquipmentData, "equipment", version),
        variant_of=recipe.variant_of.code if recipe.variant_of_id else None,
        free_from=tuple(row.kind for row in recipe.free_from.all()),
    )


def whole_of(kind: type, name: str, version: Version) -> tuple:
    """Tins, finished weights, equipment: kept as JSON lists of their dataclass’s fields. No query."""
    return tuple(
        kind(**{key: tuple(value) if isinstance(value, list) else value for key, value in each.items()})
        for each in getattr(version, name)
    )


def _component(row: Component) -> ComponentData:
    lines = tuple(
        LineData(food=line.food.code, scaling_class=line.scaling_class or None, **_same(line, LINE_FIELDS))
        for line in row.lines.all()
    )
    return ComponentData(lines=lines, **_same(row, COMPONENT_FIELDS))


def _step(row: Step) -> StepData:
    return StepData(
        **_same(row, STEP_FIELDS),
        ways=tuple(WayData(**_same(way, WAY_FIELDS)) for way in row.ways.all()),
        stays=tuple(
            StayData(appliance_kind=stay.appliance_kind or None, **_same(stay, STAY_FIELDS))
            for stay in row.stays.all()
        ),
        after=tuple(
            AfterData(needs=after.needs.position, **_same(after, AFTER_FIELDS)) for after in row.after.all()
        ),
        components=tuple(component.code for component in row.components.all()),
        techniques=tuple(link.technique.code for link in row.steptechnique_set.all()),
    )


# The book


def variants_of(version: Version) -> list[Version]:
    """The newest approved version of every variant of this version's recipe."""
    return list(latest_approved().filter(recipe__variant_of=version.recipe_id))


def book_data() -> list[RecipeData]:
    """Every recipe of the book as it is approved to teach now. Four queries."""
    return list(recipes_data(latest_approved()).values())


def alternatives(version: Version, without: Iterable[str]) -> list[Version]:
    """Other approved recipes that train techniques of this one and contain none of ``without``.

    ``without`` are codes of kinds or groups of allergens. Most techniques in common first;
    each has ``in_common``. A variant of the same dish is not among them. Three queries.
    """
    kinds = [kind for code in without for kind in kinds_of(code)]
    trained = version.steps.values_list("techniques", flat=True)
    family = version.recipe.variant_of_id or version.recipe_id
    return list(
        latest_approved()
        .exclude(Q(recipe=family) | Q(recipe__variant_of=family))
        .exclude(pk__in=containing(kinds))
        .annotate(in_common=Count("steps__techniques", Q(steps__techniques__in=list(trained)), distinct=True))
        .filter(in_common__gt=0)
        .order_by("-in_common", "recipe__title")
    )


def containing(kinds: Iterable[str]) -> QuerySet[Version]:
    """Versions with a line whose food, or the whole piece it is part of, contains one of these kinds."""
    wanted = list(kinds)
    foods = Q(food__allergens__kind__in=wanted, food__allergens__presence="contains") | Q(
        food__made_from__allergens__kind__in=wanted, food__made_from__allergens__presence="contains"
    )
    return Version.objects.filter(components__lines__in=Line.objects.filter(foods)).values("pk")


def approved(code: str) -> Version | None:
    """The newest approved version of a recipe, or None."""
    return latest_approved().filter(recipe__code=code).first()


def found(
    words: str = "",
    techniques: Collection[str] = (),
    without: str = "",
    level: str = "",
    drafts: bool = False,
    food: str = "",
    most: Mapping[str, int] | None = None,
    sort: str = "",
) -> QuerySet[Version]:
    """Versions of the book: all words found, training every technique, without a kind or group of allergens.

    Approved versions, or those being written when ``drafts``. One query. ``most`` bounds figures
    of the version by their names; one whose figure is not known is not found. ``sort`` is the
    figure to sort by, unknown ones last; otherwise by title without marks over letters, since
    the searched words begin with it: éclairs stand under E.
    """
    book = (in_writing() if drafts else latest_approved()).defer("sheet")
    for word in wanted_words(words):
        book = book.filter(search_words__contains=word)
    for code in techniques:
        book = book.filter(pk__in=Version.objects.filter(steps__techniques__code=code).values("pk"))
    if without:
        book = book.exclude(pk__in=containing(kinds_of(without)))
    if food:
        book = book.filter(pk__in=Version.objects.filter(components__lines__food__code=food).values("pk"))
    book = book.filter(**{f"{figure}__lte": bound for figure, bound in (most or {}).items()})
    book = book.filter(recipe__level=level) if level else book
    first = [F(sort).asc(nulls_last=True)] if sort else []
    return book.order_by(*first, "search_words", "number")


def figures_kept(version: Version) -> Figures:
    """What the book keeps of a version."""
    return Figures(**{each.name: getattr(version, each.name) for each in fields(Figures)})


def finding(searches: Mapping[str, Mapping[str, object]]) -> list[str]:
    """Names of those searches (what ``found`` takes) that find a recipe. One query each."""
    return [name for name, search in searches.items() if found(**search).order_by().exists()]


def in_writing() -> QuerySet[Version]:
    """Drafts and versions that wait for their approval, with writers and history, by title. Two queries."""
    return (
        Version.objects.filter(state__in=[Version.State.DRAFT, Version.State.CHECKED])
        .select_related("recipe", "written_by", "checked_by")
        .prefetch_related("said__by")
        .order_by("recipe__title", "number")
    )


def versions_of(recipe: Recipe) -> list[Version]:
    """Every version of a recipe, newest first, with who wrote and checked it."""
    return list(recipe.versions.select_related("written_by", "checked_by").order_by("-number"))


# Techniques, with the recipes that train them


def techniques(words: str = "", level: str = "") -> QuerySet[Technique]:
    """Techniques in use, each with the number of approved recipes that train it (``recipe_count``)."""
    trained = Count("steps__version__recipe", Q(steps__version__state=Version.State.APPROVED), distinct=True)
    rows = Technique.objects.filter(retired_at=None).annotate(recipe_count=trained)
    for word in words.split()[:12]:
        rows = rows.filter(Q(name__icontains=word) | Q(cue__icontains=word))
    return rows.filter(level=level) if level else rows


def technique(code: str) -> Technique | None:
    """One technique with its faults, what it needs first and what needs it, by name. Four queries."""
    first = Prerequisite.objects.select_related("needs").order_by("needs__name", "needs")
    after = Prerequisite.objects.select_related("technique").order_by("technique__name", "technique")
    rows = Technique.objects.filter(code=code)
    return rows.prefetch_related(
        "faults", Prefetch("prerequisites", first), Prefetch("unlocks", after)
    ).first()


def technique_names(codes: Iterable[str] | None = None) -> dict[str, str]:
    """Names of techniques by code."""
    rows = Technique.objects.all() if codes is None else Technique.objects.filter(code__in=list(codes))
    return dict(rows.values_list("code", "name"))
