"""Two versions of a recipe, or a recipe and its copy or variant, beside each other as a page.

Plain data in, plain data out: figures of the whole, every component line by line, every
step, and what stands around them.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from curriculum import wording
from curriculum.foods.costs import PackPrice
from curriculum.recipes.comparing import lines, steps
from curriculum.recipes.comparing.rows import (
    CHANGED,
    SAME,
    Row,
    Section,
    list_row,
    minutes_change,
    pence_change,
    text_row,
    weight_change,
)
from curriculum.recipes.data import RecipeData
from curriculum.recipes.figures import figures_of
from curriculum.recipes.page import RecipePage, page_of, totals
from curriculum.wording import counted_words


@dataclass(frozen=True, slots=True)
class Compared:
    """The page: the whole, the components, the steps, and how much is different in words."""

    whole: Section
    components: tuple[Section, ...]
    steps: Section
    words: str

    @property
    def sections(self) -> tuple[Section, ...]:
        """All of them, in the order of the page."""
        return (self.whole, *self.components, self.steps)

    @property
    def different(self) -> tuple[Section, ...]:
        """Those in which something is different."""
        return tuple(section for section in self.sections if section.changed)

    @property
    def alike(self) -> tuple[Section, ...]:
        """Those in which nothing is, but which have something to show."""
        return tuple(section for section in self.sections if section.rows and not section.changed)


def compare(
    old: RecipeData, new: RecipeData, prices: Mapping[str, PackPrice], with_cost: bool = True
) -> Compared:
    """Everything of the two; the numbers of the versions are not compared."""
    before, after = page_of(old, {}, {}), page_of(replace(new, number=old.number), {}, {})
    whole = Section("The whole", tuple(_whole(old, before, new, after, prices if with_cost else None)))
    components = lines.sections(old, before, new, after)
    method = steps.section(old, before, new, after)
    changed = [sum(map(lines.changed_lines, components)), len(method.changed), len(whole.changed)]
    return Compared(whole, components, method, _words(*changed))


def _words(in_lines: int, in_steps: int, in_whole: int) -> str:
    if not in_lines + in_steps + in_whole:
        return "Nothing is different."
    said = [
        counted_words(count, one)
        for count, one in ((in_lines, "line"), (in_steps, "step"), (in_whole, "other thing"))
        if count
    ]
    verb = "is" if in_lines + in_steps + in_whole == 1 else "are"
    return f"{wording.listed(said).capitalize()} {verb} different."


def _whole(
    old: RecipeData,
    before: RecipePage,
    new: RecipeData,
    after: RecipePage,
    prices: Mapping[str, PackPrice] | None,
) -> list[Row]:
    was, now = figures_of(old, prices or {}), figures_of(new, prices or {})
    rows = [
        text_row("Name", before.title, after.title),
        text_row("Portions", before.facts, after.facts),
        _weight("All lines together", old, new),
        _minutes("One cook, waiting filled", was.one_cook_minutes, now.one_cook_minutes),
        _minutes("At work", was.work_minutes, now.work_minutes),
        _minutes("In an oven", was.oven_minutes, now.oven_minutes),
    ]
    if prices is not None:
        rows.append(_pence("Cost of a portion today", was.portion_pence, now.portion_pence))
    rows += [
        list_row("Contains", before.contains, after.contains),
        list_row("May contain", before.may_contain, after.may_contain),
        list_row("Made without", before.free_from, after.free_from),
        list_row("Equipment", before.equipment, after.equipment),
        list_row("Tins", before.tins, after.tins),
    ]
    texts = (("Presentation", "presentation"), ("Caution", "caution"), ("Notes", "notes"))
    words = [text_row(where, getattr(old, name), getattr(new, name)) for where, name in texts]
    return rows + [row for row in words if not row.is_same]


def _weight(where: str, old: RecipeData, new: RecipeData) -> Row:
    was, now = totals(old), totals(new)
    state = SAME if was == now else CHANGED
    return Row(where, wording.amount(was), wording.amount(now), weight_change(was, now), state)


def _minutes(where: str, was: int | None, now: int | None) -> Row:
    row = text_row(where, _duration(was), _duration(now))
    return replace(row, change=minutes_change(was, now))


def _duration(minutes: int | None) -> str:
    return "not known" if minutes is None else wording.duration(minutes)


def _pence(where: str, was: int | None, now: int | None) -> Row:
    before, after = ("not known" if each is None else wording.money(each) for each in (was, now))
    return replace(text_row(where, before, after), change=pence_change(was, now))
