"""What each learner avoids, held against every line of a recipe and of its variants.

For the diet table of a lesson, the proposal of places, and the kits. Plain data in,
plain data out. Every line counts: over-issue, greasing and every wash as well, and the
whole piece behind a part (the egg behind the yolk).

There are four findings and no fifth: nothing declared against it, needs the variant,
cannot, no label read. None of them says that anything may be eaten without thought: they
say what was declared on labels that somebody read. What a label *may* contain is listed
apart with the day it was read; a question that nobody has answered ("animal rennet") is
listed as not answered.

Worked example: a learner avoids gluten. The quiche has wheat in two lines, so its variant
without gluten is looked at; nothing is declared against it, but nobody has read the label
of its flour blend. The finding is "no label read", with the variant named.

Sources: the groups and kinds are those of ``curriculum.allergens`` (Regulation (EU) No
1169/2011, Annex II). That whoever shares a bench works the same variant, and that an
unread label stops a kit, is common practice, no source.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from curriculum.allergens import KINDS, WAYS, kinds_of, words_of
from curriculum.recipes.data import FoodData, RecipeData
from curriculum.recipes.eating import answer, whole_of


class Finding(StrEnum):
    """What was found for one learner and one dish; the value is how it is said."""

    NOTHING = "nothing declared against it"
    VARIANT = "needs the variant"
    CANNOT = "cannot"
    UNREAD = "no label read"


@dataclass(frozen=True, slots=True)
class Avoids:
    """One thing a learner avoids: exactly one of a kind or group, a food, a way of eating.

    ``food`` is a food's code, ``food_name`` its name for the words. ValueError otherwise.
    """

    kind: str = ""
    food: str = ""
    way: str = ""
    food_name: str = ""

    def __post_init__(self) -> None:
        if sum(map(bool, (self.kind, self.food, self.way))) != 1:
            raise ValueError("An avoidance names exactly one of a kind, a food and a way of eating.")

    @property
    def words(self) -> str:
        """As it stands on file: "nuts", "Leek", "vegetarian"."""
        if self.kind:
            return words_of(self.kind)
        return WAYS[self.way][0] if self.way else (self.food_name or self.food)


@dataclass(frozen=True, slots=True)
class Mark:
    """One line that an avoidance meets: in which component, which food, why, label read when."""

    avoids: str
    component: str
    food: str
    why: str
    label_read_on: date | None

    @property
    def words(self) -> str:
        """One clause: "Unsalted butter (Shortcrust paste): contains milk"."""
        return f"{self.food} ({self.component}): {self.why}"


@dataclass(frozen=True, slots=True)
class Check:
    """One learner's avoidances against one recipe, line by line; nothing is decided yet."""

    recipe: str
    declared: tuple[Mark, ...]
    may_contain: tuple[Mark, ...]
    not_answered: tuple[Mark, ...]
    unread: tuple[Mark, ...]
    labels_read_on: date | None

    @property
    def clear(self) -> bool:
        """Whether nothing is declared against it and every label was read."""
        return not self.declared and not self.unread


@dataclass(frozen=True, slots=True)
class DietFinding:
    """The finding for one learner: what was found, why, and which recipe it would be.

    ``check`` is of the recipe the learner would work (the variant where one is needed);
    ``ordinary`` is of the ordinary recipe. ``variant`` is None where none is needed or
    none exists.
    """

    finding: Finding
    ordinary: Check
    check: Check
    variant: RecipeData | None

    @property
    def words(self) -> str:
        """The finding as one sentence, with the variant and the reason."""
        return _sentence(self)


def check_recipe(avoids: Iterable[Avoids], recipe: RecipeData) -> Check:
    """Hold all avoidances of one learner against every line of one recipe."""
    wanted = tuple(avoids)
    declared: list[Mark] = []
    may_contain: list[Mark] = []
    not_answered: list[Mark] = []
    unread: list[Mark] = []
    for component, food in _lines(recipe):
        if wanted and label_missing(recipe, food):
            unread.append(_mark(recipe, "", component, food, "nobody has read the label"))
        for each in wanted:
            for bucket, why in _judged(each, food, whole_of(recipe, food)):
                target = {"declared": declared, "may": may_contain, "open": not_answered}[bucket]
                target.append(_mark(recipe, each.words, component, food, why))
    return Check(
        recipe.code,
        _once(declared),
        _once(may_contain),
        _once(not_answered),
        _once(unread),
        _oldest_label(recipe),
    )


def find(avoids: Iterable[Avoids], recipe: RecipeData, variants: Iterable[RecipeData] = ()) -> DietFinding:
    """The finding for one learner, one dish and the variants of it.

    Of the variants with nothing declared against them, the one that loses the fewest
    techniques is named, one whose labels were all read before one whose were not.
    """
    wanted = tuple(avoids)
    ordinary = check_recipe(wanted, recipe)
    if not ordinary.declared:
        finding = Finding.UNREAD if ordinary.unread else Finding.NOTHING
        return DietFinding(finding, ordinary, ordinary, None)
    fitting = [(each, check) for each in variants if not (check := check_recipe(wanted, each)).declared]
    if not fitting:
        return DietFinding(Finding.CANNOT, ordinary, ordinary, None)
    variant, check = min(fitting, key=_preference)
    return DietFinding(Finding.UNREAD if check.unread else Finding.VARIANT, ordinary, check, variant)


def workable(
    avoids: Iterable[Avoids], recipe: RecipeData, variants: Iterable[RecipeData] = ()
) -> tuple[str, ...]:
    """Codes of the recipes a learner can be put to, the ordinary one first where it fits.

    A recipe whose label is still unread counts: it is the kit that waits, not the place.
    """
    wanted = tuple(avoids)
    return tuple(each.code for each in (recipe, *variants) if not check_recipe(wanted, each).declared)


def unread_foods(recipe: RecipeData) -> tuple[str, ...]:
    """Names of the foods of a recipe whose label nobody has read, in the order of the lines."""
    names = (whole_of(recipe, food).name for _, food in _lines(recipe) if label_missing(recipe, food))
    return tuple(dict.fromkeys(names))


def blocked_words(recipe: RecipeData) -> str:
    """Why a kit of this recipe may not leave yet; empty when nothing stops it."""
    names = unread_foods(recipe)
    return f"No label read: {', '.join(names)}. Read the label before this kit leaves." if names else ""


def other_dishes(
    avoids: Iterable[Avoids], recipe: RecipeData, book: Iterable[RecipeData], at_most: int = 3
) -> tuple[tuple[RecipeData, int], ...]:
    """Dishes of the book that train the same techniques and have nothing declared against them.

    Pairs of recipe and number of techniques in common, most first; dishes that share none
    are left out, and so are the dish itself and its variants.
    """
    wanted = tuple(avoids)
    trained = techniques_of(recipe)
    shared = [
        (each, len(trained & techniques_of(each)))
        for each in book
        if recipe.code not in (each.code, each.variant_of) and check_recipe(wanted, each).clear
    ]
    ranked = sorted((pair for pair in shared if pair[1]), key=lambda pair: (-pair[1], pair[0].title))
    return tuple(ranked[:at_most])


def techniques_of(recipe: RecipeData) -> frozenset[str]:
    """Codes of every technique that the steps of a recipe use."""
    return frozenset(code for step in recipe.steps for code in step.techniques)


def label_missing(recipe: RecipeData, food: FoodData) -> bool:
    """Whether nobody has read a label of what is issued for this food; the tap has none."""
    issued = whole_of(recipe, food)
    return not issued.from_tap and issued.label_read_on is None


def _lines(recipe: RecipeData) -> list[tuple[str, FoodData]]:
    return [
        (component.name, recipe.food(line.food))
        for component in recipe.components
        for line in component.lines
    ]


def declared_of(avoids: Avoids, food: FoodData, whole: FoodData) -> tuple[str, ...]:
    """Why one food, or the whole piece behind it, is declared against an avoidance; empty when it is not."""
    return tuple(why for bucket, why in _judged(avoids, food, whole) if bucket == "declared")


def _judged(avoids: Avoids, food: FoodData, whole: FoodData) -> list[tuple[str, str]]:
    """What one avoidance says of one food: pairs of ("declared" | "may" | "open") and why."""
    if avoids.food:
        return [("declared", "it is the food itself")] if avoids.food in (food.code, whole.code) else []
    if avoids.kind:
        return _by_kind(kinds_of(avoids.kind), food, whole)
    return _by_way(avoids.way, food, whole)


def _by_kind(kinds: frozenset[str], food: FoodData, whole: FoodData) -> list[tuple[str, str]]:
    contains = [kind for kind in KINDS if kind in kinds & {*food.contains, *whole.contains}]
    may = [kind for kind in KINDS if kind in kinds & {*food.may_contain, *whole.may_contain}]
    found = [("declared", f"contains {words_of(kind)}") for kind in contains]
    return found + [("may", f"may contain {words_of(kind)}") for kind in may if kind not in contains]


def _by_way(way: str, food: FoodData, whole: FoodData) -> list[tuple[str, str]]:
    if food.from_tap:
        return []
    found: list[tuple[str, str]] = []
    for fact in WAYS[way][1]:
        said = answer(fact, food, whole)
        words = fact.replace("_", " ")
        if said == "yes":
            found.append(("declared", f"{words}: yes"))
        elif said == "trace":
            found.append(("may", f"{words}: a trace"))
        elif said != "no":
            found.append(("open", f"{words}: not answered"))
    return found


def _mark(recipe: RecipeData, avoids: str, component: str, food: FoodData, why: str) -> Mark:
    return Mark(avoids, component, food.name, why, whole_of(recipe, food).label_read_on)


def _once(marks: list[Mark]) -> tuple[Mark, ...]:
    return tuple(dict.fromkeys(marks))


def _oldest_label(recipe: RecipeData) -> date | None:
    read = [whole_of(recipe, food).label_read_on for _, food in _lines(recipe) if not food.from_tap]
    return None if None in read else min(read, default=None)


def _preference(pair: tuple[RecipeData, Check]) -> tuple[bool, int, str]:
    recipe, check = pair
    return (bool(check.unread), len(recipe.techniques_lost), recipe.code)


def _sentence(found: DietFinding) -> str:
    first = found.finding.value[0].upper() + found.finding.value[1:]
    if found.finding is Finding.VARIANT:
        return f"{first}: {found.variant.title}. {_reasons(found.ordinary.declared)}."
    if found.finding is Finding.CANNOT:
        return f"{first}: {_reasons(found.ordinary.declared)}, and no variant leaves it out."
    if found.finding is Finding.UNREAD:
        foods = ", ".join(dict.fromkeys(mark.food for mark in found.check.unread))
        which = f" of {found.variant.title}" if found.variant else ""
        return f"{first}{which}: {foods}. Somebody reads it before this kit leaves."
    return f"{first}."


def _reasons(marks: tuple[Mark, ...]) -> str:
    return "; ".join(mark.words for mark in marks)
