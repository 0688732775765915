"""The diet table of a lesson: one row a learner, with what was found and what happens at the bench.

For the diets page and its print. Plain data in, sentences out; what is found comes from
``diets``. Nothing here says that a dish may be eaten: it says what is declared on labels
that somebody read.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from curriculum.recipes.data import RecipeData
from curriculum.wording import listed
from kitchen.lessons.diets import Avoids, Check, DietFinding, Finding, Mark, find, other_dishes, workable

#: The shape that each finding is shown with.
SHAPES = {
    Finding.NOTHING: "todo",
    Finding.VARIANT: "swap",
    Finding.CANNOT: "cannot",
    Finding.UNREAD: "cannot",
}


@dataclass(frozen=True, slots=True)
class Eater:
    """One learner with something on file: where they stand and which recipe is worked there."""

    name: str
    avoids: tuple[Avoids, ...]
    bench: int | None = None
    works: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class OtherDish:
    """Another dish of the book for whoever cannot work this one."""

    code: str
    title: str
    in_common: int


@dataclass(frozen=True, slots=True)
class DietRow:
    """One row: who, where, what is on file, what was found, what happens. ``hand`` when somebody must act."""

    name: str
    bench: int | None
    on_file: tuple[tuple[str, bool], ...]
    shape: str
    found: str
    why: tuple[str, ...]
    happens: str
    hand: bool
    note: str
    may_contain: tuple[Mark, ...]
    not_answered: tuple[Mark, ...]
    others: tuple[OtherDish, ...] = field(default=())


def diet_table(
    eaters: Sequence[Eater],
    dishes: Sequence[tuple[RecipeData, Sequence[RecipeData]]],
    book: Sequence[RecipeData] = (),
) -> list[DietRow]:
    """A row for each learner; ``dishes`` are (ordinary recipe, variants) of the lesson, the main one first.

    A learner is held against the dish worked at their bench, else against the main one.
    """
    return [_row(eater, dishes, book) for eater in eaters]


def _row(
    eater: Eater, dishes: Sequence[tuple[RecipeData, Sequence[RecipeData]]], book: Sequence[RecipeData]
) -> DietRow:
    recipe, variants = _dish_of(eater, dishes)
    found = find(eater.avoids, recipe, variants)
    check = _check_of(eater, found, recipe)
    others = ()
    if found.finding is Finding.CANNOT:
        others = tuple(
            OtherDish(each.code, each.title, shared)
            for each, shared in other_dishes(eater.avoids, recipe, book)
        )
    happens, hand = _happens(eater, found, recipe, variants)
    return DietRow(
        name=eater.name,
        bench=eater.bench,
        on_file=tuple((each.words, bool(each.kind)) for each in eater.avoids),
        shape=SHAPES[found.finding],
        found=_found_words(found, recipe),
        why=tuple(mark.words for mark in found.ordinary.declared),
        happens=happens,
        hand=hand,
        note=eater.note,
        may_contain=check.may_contain,
        not_answered=check.not_answered,
        others=others,
    )


def _dish_of(
    eater: Eater, dishes: Sequence[tuple[RecipeData, Sequence[RecipeData]]]
) -> tuple[RecipeData, Sequence[RecipeData]]:
    for recipe, variants in dishes:
        if eater.works and eater.works in (recipe.code, *(each.code for each in variants)):
            return recipe, variants
    return dishes[0]


def _check_of(eater: Eater, found: DietFinding, recipe: RecipeData) -> Check:
    return found.ordinary if eater.works == recipe.code else found.check


def _found_words(found: DietFinding, recipe: RecipeData) -> str:
    if found.finding is Finding.CANNOT:
        return f"Cannot work {recipe.title}"
    return found.finding.value[0].upper() + found.finding.value[1:]


def _happens(
    eater: Eater, found: DietFinding, recipe: RecipeData, variants: Sequence[RecipeData]
) -> tuple[str, bool]:
    """What happens at the bench, and whether somebody must act."""
    if found.finding is Finding.CANNOT:
        return "Not placed for this dish. Choose another dish for them.", True
    if found.finding is Finding.UNREAD:
        names = listed(dict.fromkeys(mark.food for mark in found.check.unread))
        which = f" of {found.variant.title}" if found.variant else ""
        return f"The kit{which} waits until somebody has read the label of {names}.", True
    if eater.bench is None:
        return "Not at a bench yet.", True
    if eater.works not in workable(eater.avoids, recipe, variants):
        return f"Bench {eater.bench} is put to {_title(eater.works, recipe, variants)}. Change it.", True
    if eater.works == recipe.code:
        return f"Bench {eater.bench} has the ordinary kit.", False
    return (
        f"Bench {eater.bench} works {_title(eater.works, recipe, variants)}; its kit is a kit of its own.",
        False,
    )


def _title(code: str, recipe: RecipeData, variants: Sequence[RecipeData]) -> str:
    return next((each.title for each in (recipe, *variants) if each.code == code), "another dish")
