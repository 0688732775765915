"""The words of the pages about what was learned. Plain data in, sentences out."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from curriculum import wording
from kitchen.stores.learning import wastage
from kitchen.stores.learning.effect import Change
from kitchen.stores.learning.evidence import OVER_ISSUE, USABLE, WASTAGE, Proposal, Row
from kitchen.stores.learning.figures import Figure
from kitchen.stores.learning.robust import ENOUGH_LESSONS, ENOUGH_TESTS

#: How each kind stands in an address.
SLUGS = {OVER_ISSUE: "over-issue", WASTAGE: "wastage", USABLE: "usable"}
WHAT = {OVER_ISSUE: "over-issue", WASTAGE: "allowance", USABLE: "usable"}
#: What stands in an address where a figure is of nothing but its food.
OF_NOTHING = "all"


@dataclass(frozen=True, slots=True)
class Names:
    """The names of foods, recipes and techniques, and how foods are stored, by code."""

    foods: Mapping[str, str]
    storage: Mapping[str, str]
    recipes: Mapping[str, str]
    techniques: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Line:
    """One proposal in the list: its address, its words, its figures."""

    slug: str
    of: str
    food: str
    title: str
    figure: str
    in_use: str
    words: str


@dataclass(frozen=True, slots=True)
class EvidenceLine:
    """One lesson or test of a proposal in words."""

    row: Row
    cells: tuple[tuple[str, str], ...]
    value: str


def line(each: Proposal, names: Names) -> Line:
    """A proposal as it stands in the list."""
    return Line(
        SLUGS[each.kind],
        each.of or OF_NOTHING,
        each.food,
        title(each, names),
        amount_words(each.kind, each.amount),
        amount_words(each.kind, each.in_use),
        evidence_words(each),
    )


def title(each: Proposal, names: Names) -> str:
    """ "Leek: usable share", "Soft wheat flour: over-issue in Leek and Cheddar quiche"."""
    food = names.foods[each.food]
    if each.kind == USABLE:
        return f"{food}: usable share"
    if each.kind == OVER_ISSUE:
        return f"{food}: over-issue in {names.recipes[each.of]}"
    return f"{food}: allowance for {techniques_words((each.of, *each.others), names)}"


def techniques_words(codes: Iterable[str], names: Names) -> str:
    """ "rubbing in", or "rubbing in, lining or blind baking" where the lessons cannot tell."""
    said = [small(names.techniques.get(code, code)) for code in codes]
    return wording.listed(said, "or") if len(said) <= 3 else f"{said[0]} or {len(said) - 1} others"


def amount_words(kind: str, amount: int) -> str:
    """ "30 g" for a bench, or a share as "7 %"."""
    return wording.amount(amount) if kind == OVER_ISSUE else wording.per_cent(Fraction(amount, 1000), 1)


def evidence_words(each: Proposal) -> str:
    """How many lessons, how many benches, from where to where, and the middle; or how many are missing."""
    if each.kind == USABLE:
        tests = wording.counted_words(len(each.rows), "yield test")
        said = f"{tests}: {_spread(each)}, together by weight {amount_words(USABLE, each.amount)}"
        needed = f"{wording.number(ENOUGH_TESTS)} tests"
    else:
        lessons = wording.counted_words(len(each.rows), "lesson")
        benches = wording.counted(each.benches, "bench", "benches")
        what = "taken a bench" if each.kind == OVER_ISSUE else "of what was planned lost"
        middle = amount_words(each.kind, each.middle)
        said = f"{lessons} with {benches}: {_spread(each)} {what}, the middle {middle}"
        needed = f"{wording.number(ENOUGH_LESSONS)} lessons"
    missing = "" if each.enough else f"; {needed} are needed"
    return wording.sentence(said + missing) + _far_words(each)


def _spread(each: Proposal) -> str:
    least, most = (amount_words(each.kind, end) for end in (min(each.values), max(each.values)))
    return least if least == most else f"{least} to {most}"


def _far_words(each: Proposal) -> str:
    far = sum(row.far for row in each.rows)
    return (
        f" {wording.sentence(wording.counted_words(far, 'lesson lies', 'lessons lie') + ' far off')}"
        * bool(far)
    )


def evidence_lines(each: Proposal) -> tuple[EvidenceLine, ...]:
    """Every lesson or test with its figures; columns in which nothing ever stands are left out."""
    shown = [
        name
        for place, (name, _) in enumerate(each.rows[0].figures)
        if any(row.figures[place][1] for row in each.rows)
    ]
    return tuple(
        EvidenceLine(
            row,
            tuple((name, wording.amount(figure)) for name, figure in row.figures if name in shown),
            amount_words(each.kind, row.value),
        )
        for row in each.rows
    )


def caveats(each: Proposal, names: Names) -> tuple[str, ...]:
    """What the figure cannot know, in full sentences."""
    said = []
    if each.kind == OVER_ISSUE and each.same_food_in:
        said.append(
            f"{names.foods[each.food]} also stands in {wording.listed(each.same_food_in)}: what was left of "
            "it there and what lay on the table come back in one tub, and nobody can tell them apart."
        )
    if each.kind == WASTAGE and each.others:
        codes = (each.of, *each.others)
        said.append(
            "No movement says at which step food was lost. Whoever accepts says which technique of these "
            f"lessons loses it: {'; '.join(small(names.techniques.get(code, code)) for code in codes)}."
        )
    if each.kind == WASTAGE:
        said.append(f"Commonly allowed: {wastage.common_words(names.storage[each.food])}.")
    if any(row.far for row in each.rows):
        said.append(
            "A lesson far off counts like the others; the middle does not move with it. Look at what "
            "happened there."
        )
    return tuple(said)


def learned_words(figures: Iterable[Figure], names: Mapping[str, str]) -> tuple[str, ...]:
    """ "Leek: usable 70.5 %, learned from three yield tests." for each figure of these foods."""
    return tuple(
        wording.sentence(
            f"{names.get(each.food, 'every food')}: {WHAT[each.kind]} "
            f"{amount_words(each.kind, each.amount)}, {each.source}"
        )
        for each in figures
        if each.food in names or not each.food
    )


def learned_since(before: object, now: object) -> tuple[str, ...]:
    """A sentence when other figures stand than those that were kept as JSON."""
    changed = (before or []) != (now or [])
    return ("Figures learned from lessons were accepted or taken back since.",) if changed else ()


@dataclass(frozen=True, slots=True)
class ChangeLine:
    """What a lesson to come would take more or less, in words."""

    change: Change
    amount: str
    money: str


def change_lines(changes: Iterable[Change]) -> tuple[ChangeLine, ...]:
    """ "90 g more", "£0.08 more"."""
    return tuple(
        ChangeLine(
            each,
            _more(wording.amount(abs(each.milligrams)), each.milligrams),
            _more(wording.money(abs(each.pence)), each.milligrams),
        )
        for each in changes
    )


def change_sum(changes: Iterable[Change]) -> str:
    """All lessons together: "1,260 g more and £1.13 more in three lessons"; empty of none."""
    rows = list(changes)
    if not rows:
        return ""
    milligrams, pence = sum(row.milligrams for row in rows), sum(row.pence for row in rows)
    lessons = wording.counted_words(len(rows), "lesson")
    amount = _more(wording.amount(abs(milligrams)), milligrams)
    return wording.sentence(
        f"together {amount}, {_more(wording.money(abs(pence)), milligrams)}, in {lessons}"
    )


def _more(words: str, sign: int) -> str:
    return f"{words} {'more' if sign > 0 else 'less'}"


def small(name: str) -> str:
    """A name inside a sentence: its first letter small."""
    return name[:1].lower() + name[1:]
