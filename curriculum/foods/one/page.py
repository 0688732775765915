"""One food as its page shows it: every figure in words, with whose it is.

For lecturers and the stores. From plain data; nothing is looked up here.
"""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from curriculum import wording
from curriculum.allergens import printed
from curriculum.foods import costs, yields
from curriculum.foods.data import FoodData
from curriculum.foods.listing import CLASS_WORDS
from curriculum.foods.one.said import FACTS

#: What a food is in a dough, where the word of the table is too short.
DOUGH_WORDS = {"raising": "raising agent", "gel": "setting agent"}
ANSWERS = {"yes": "yes", "no": "no"}


@dataclass(frozen=True, slots=True)
class TableFigure:
    """A usable share that a table prints, its row in the database, and whose it is."""

    number: int
    per_mille: int
    source: str


@dataclass(frozen=True, slots=True)
class OwnTest:
    """A yield test of the college's own and who did it."""

    test: yields.TestedYield
    by: str


@dataclass(frozen=True, slots=True)
class PackKnown:
    """A pack of a supplier with its price and its days."""

    supplier: str
    price: costs.PackPrice
    from_on: date
    until_on: date | None
    costed_by: bool


@dataclass(frozen=True, slots=True)
class Known:
    """All that is known of a food besides ``FoodData``: sources, figures of tables, own tests, packs."""

    food: FoodData
    usable_source: str
    density_source: str
    piece_source: str
    label_read_by: str
    note: str
    retired: bool
    pieces: tuple[tuple[str, int, str], ...]
    tables: tuple[TableFigure, ...]
    tests: tuple[OwnTest, ...]
    packs: tuple[PackKnown, ...]
    made_from: tuple[str, str] | None
    whole_is_costed: bool
    parts: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class FigureLine:
    """A usable share, whose it is, whether it is in use; ``number`` of the table's row, 0 for own tests."""

    figure: str
    source: str
    in_use: bool
    number: int = 0


@dataclass(frozen=True, slots=True)
class TestLine:
    """An own test in words."""

    figure: str
    words: str


@dataclass(frozen=True, slots=True)
class PriceLine:
    """A price in words; ``kind`` is "now", "to come" or "ended"."""

    supplier: str
    pack: str
    price: str
    as_bought: str
    as_used: str
    days: str
    kind: str
    costed_by: bool


@dataclass(frozen=True, slots=True)
class FoodPage:
    """The page of one food."""

    facts: str
    about: tuple[tuple[str, str], ...]
    contains: tuple[str, ...]
    may_contain: tuple[str, ...]
    is_read: bool
    read: str
    ways: tuple[tuple[str, str], ...]
    used_share: str
    figures: tuple[FigureLine, ...]
    spread: str
    tests: tuple[TestLine, ...]
    prices: tuple[PriceLine, ...]
    has_price: bool


def page_of(known: Known, today: date) -> FoodPage:
    """The page of a food on a day of the college."""
    food = known.food
    prices = tuple(_price(pack, food.usable_per_mille, today) for pack in known.packs)
    return FoodPage(
        facts=wording.sentence(
            f"Kept {food.storage}, weighed to {wording.amount(food.increment_milligrams)}"
        ),
        about=_about(known),
        contains=tuple(printed(kind) for kind in food.contains),
        may_contain=tuple(printed(kind) for kind in food.may_contain),
        is_read=food.label_read_on is not None or food.from_tap,
        read=_read(known),
        ways=_ways(food),
        used_share=_used(known),
        figures=_figures(known),
        spread=_spread(known),
        tests=tuple(_test(each) for each in known.tests),
        prices=prices,
        has_price=food.from_tap
        or known.whole_is_costed
        or any(line.kind == "now" and line.costed_by for line in prices),
    )


def _about(known: Known) -> tuple[tuple[str, str], ...]:
    food = known.food
    rows = [
        ("Kept", food.storage),
        ("Weighed to", f"{wording.amount(food.increment_milligrams)}, rounded {_rounding(food)}"),
        ("In a larger batch", CLASS_WORDS[food.scaling_class]),
        ("In a dough", DOUGH_WORDS.get(food.dough_part, food.dough_part)),
        ("Strength", f"{food.gelatine_bloom} bloom" if food.gelatine_bloom else ""),
        ("100 ml weighs", _sourced(_grams_of_100(food), known.density_source)),
        ("One piece", _sourced(_piece(food), known.piece_source)),
        *((f"One {name}", _sourced(wording.amount(mg), source)) for name, mg, source in known.pieces),
        ("Note", known.note),
    ]
    return tuple((term, wording.sentence(words)) for term, words in rows if words)


def _rounding(food: FoodData) -> str:
    return "up" if food.rounding == "up" else "to the nearest"


def _grams_of_100(food: FoodData) -> str:
    return wording.amount(food.milligrams_per_ml * 100) if food.milligrams_per_ml else ""


def _piece(food: FoodData) -> str:
    if not food.piece_milligrams:
        return ""
    words = f"{wording.amount(food.piece_milligrams)} as bought"
    eaten = food.edible_piece_milligrams
    return f"{words}, {wording.amount(eaten)} of it eaten" if eaten else words


def _sourced(words: str, source: str) -> str:
    if not words:
        return ""
    return f"{words} ({source})" if source else f"{words} (no source written down)"


def _read(known: Known) -> str:
    food = known.food
    if food.from_tap:
        return "It comes from the tap and has no label."
    if food.label_read_on is None:
        return "Nobody has read a label yet: what it contains is not known, and no kit with it leaves."
    by = f" by {known.label_read_by}" if known.label_read_by else ""
    return f"Label read on {wording.long_date(food.label_read_on)}{by}."


def _ways(food: FoodData) -> tuple[tuple[str, str], ...]:
    """What it is, what it is not, and what nobody knows, each in one sentence."""
    said = dict(food.facts)
    of: dict[str, list[str]] = {"yes": [], "no": [], "not known": []}
    for code, words in FACTS.items():
        of[ANSWERS.get(said.get(code, ""), "not known")].append(words)
    heads = {"yes": "Is or holds", "no": "Without", "not known": "Not known"}
    return tuple(
        (heads[answer], wording.sentence(wording.listed(words))) for answer, words in of.items() if words
    )


def _used(known: Known) -> str:
    share = _share(known.food.usable_per_mille)
    if known.usable_source:
        return f"{share}. Source: {wording.sentence(known.usable_source)}"
    lost = ": nothing is said to be lost" if known.food.usable_per_mille == 1000 else ""
    return f"{share}{lost}. No source is written down."


def _figures(known: Known) -> tuple[FigureLine, ...]:
    """The figure in use when it is none of the others, the college's own tests, then the tables."""
    used = (known.food.usable_per_mille, known.usable_source)
    known_ones = [(0, *own) for own in _own(known)]
    known_ones += [(each.number, each.per_mille, each.source) for each in known.tables]
    lines = [FigureLine(_share(mille), source, (mille, source) == used, n) for n, mille, source in known_ones]
    if known.usable_source and not any(line.in_use for line in lines):
        lines.insert(0, FigureLine(_share(used[0]), used[1], True))
    return tuple(lines)


def _own(known: Known) -> list[tuple[int, str]]:
    """The share of the college's own tests by weight, with its source; empty without a test."""
    tests = tuple(each.test for each in known.tests)
    per_mille = yields.tested_per_mille(tests)
    return [] if per_mille is None else [(per_mille, yields.own_source(tests))]


def _spread(known: Known) -> str:
    figures = [each.per_mille for each in known.tables] + [per_mille for per_mille, _ in _own(known)]
    figures += [known.food.usable_per_mille] if known.usable_source else []
    ends = yields.spread(figures)
    if ends is None or ends[0] == ends[1]:
        return ""
    least, most = ends
    return (
        f"The figures lie between {_share(least)} and {_share(most)}: for 1,000 g usable buy "
        f"{_whole_grams(most)} or {_whole_grams(least)}. A person chooses; "
        "a line of a recipe may have its own."
    )


def _whole_grams(per_mille: int) -> str:
    """What to buy for a kilogram usable, to a whole gram."""
    return f"{wording.figure(yields.as_bought(1000, per_mille))} g"


def _test(each: OwnTest) -> TestLine:
    test = each.test
    share = yields.share(test.purchased_milligrams, test.usable_milligrams)
    bought, left = wording.amount(test.purchased_milligrams), wording.amount(test.usable_milligrams)
    return TestLine(
        wording.per_cent(share, 1),
        f"{wording.long_date(test.on)}: {left} usable of {bought} bought, by {each.by}.",
    )


def _price(pack: PackKnown, per_mille: int, today: date) -> PriceLine:
    kilogram = costs.a_kilogram(pack.price)
    size = wording.amount(pack.price.milligrams, stores=True)
    return PriceLine(
        supplier=pack.supplier,
        pack=f"{pack.price.pieces} pieces, {size}" if pack.price.pieces else size,
        price=wording.money(pack.price.pence),
        as_bought=wording.money(costs.pence(kilogram)),
        as_used=wording.money(costs.pence(costs.usable_price(kilogram, Fraction(per_mille, 1000)))),
        days=_days(pack, today),
        kind=_kind(pack, today),
        costed_by=pack.costed_by,
    )


def _days(pack: PackKnown, today: date) -> str:
    begun = f"from {wording.short_date(pack.from_on, today)}"
    return f"{begun} to {wording.short_date(pack.until_on, today)}" if pack.until_on else begun


def _kind(pack: PackKnown, today: date) -> str:
    if pack.from_on > today:
        return "to come"
    return "ended" if pack.until_on is not None and pack.until_on < today else "now"


def _share(per_mille: int) -> str:
    return wording.per_cent(Fraction(per_mille, 1000), 1)
