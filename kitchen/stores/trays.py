"""A tray as a page, a slip or a label shows it: words already written, nothing left to reckon.

For the kits page, the weigh-out and the printed sheets. Trays come from the proposal
(``tray_of``) or from the rows of an accepted kit set (``kitchen.stores.queries``); both
look the same to whoever shows them.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from curriculum import wording
from curriculum.allergens import kinds_of, printed
from curriculum.foods.rounding import WORTH_NAMING, relative_error
from kitchen.stores.kits import KitLinePlan, KitPlan

PLATE_WORDS = {
    "bench": "Bench",
    "demonstration": "Demonstration",
    "stage_tray": "Stage tray",
    "spare": "Spare kit",
    "ahead": "Prepared ahead",
    "supplementary": "Supplementary",
}


@dataclass(frozen=True, slots=True)
class TrayLine:
    """One line of a tray.

    ``key`` is the key of its row, None for a proposal; ``weighed`` says when and by whom
    ("10:51, HB"), empty while it is not; ``draws`` are its lots with milligrams, which together
    give ``stock_milligrams`` where nothing is short; ``inside`` are the lots that went into
    those of them which were made here.
    """

    position: int
    component: str
    food: str
    words: str
    exact: Fraction
    milligrams: int
    pieces: int | None = None
    note: str = ""
    allergens: tuple[str, ...] = ()
    may_contain: tuple[str, ...] = ()
    label_read_on: date | None = None
    from_tap: bool = False
    key: int | None = None
    draws: tuple[tuple[str, int], ...] = ()
    weighed: str = ""
    stock_milligrams: int = 0
    inside: tuple[str, ...] = ()
    storage: str = "ambient"

    @property
    def short_milligrams(self) -> int:
        """What no lot gives of this line; 0 when it is covered, and from the tap."""
        return max(0, self.stock_milligrams - sum(milligrams for _, milligrams in self.draws))

    @property
    def short(self) -> str:
        """ "short of 300 g", "short of 6 pieces"; empty when the line is covered."""
        unit = self.milligrams // self.pieces if self.pieces else 0
        return f"short of {stock_words(self.short_milligrams, unit)}" if self.short_milligrams else ""

    @property
    def lot_codes(self) -> tuple[str, ...]:
        """Codes of the lots it comes from, and of those inside a made lot."""
        return (*(lot for lot, _ in self.draws), *self.inside)

    @property
    def lots(self) -> tuple[str, ...]:
        """The same in words: "lot LS-2207"; with weights when there are several."""
        words = lots_words(self.draws, self.milligrams // self.pieces if self.pieces else 0)
        return (*words, f"made of lot {wording.listed(self.inside)}") if self.inside else words

    @property
    def figure(self) -> str:
        """The figure of ``amount`` alone: "104", "5"."""
        return wording.figure(self.pieces) if self.pieces is not None else wording.grams(self.milligrams)

    @property
    def unit(self) -> str:
        """The unit of ``amount``: "g", "piece", "pieces"."""
        if self.pieces is None:
            return "g"
        return "piece" if self.pieces == 1 else "pieces"

    @property
    def amount(self) -> str:
        """What the bench is given: "104 g", "5 pieces"."""
        return f"{self.figure} {self.unit}"

    @property
    def exact_words(self) -> str:
        """ "exact", or what it would be unrounded: "exact 91.67 g"."""
        if self.from_tap or self.exact == (self.milligrams if self.pieces is None else self.pieces):
            return "exact"
        if self.pieces is not None:
            return f"exact {wording.figure(self.exact, 2)}"
        return f"exact {wording.exact_amount(self.exact)}"

    @property
    def far_off(self) -> str:
        """How far the scale is off where that is more than 3 %: "+4.2 %"; empty otherwise."""
        off = relative_error(self.exact, self.milligrams)
        if self.pieces is not None or self.from_tap or abs(off) <= WORTH_NAMING:
            return ""
        return f"{'+' if off > 0 else ''}{wording.per_cent(off, 1)}"


@dataclass(frozen=True, slots=True)
class Tray:
    """One kit: its plate, who works it, what it is free from and for whom, and why it may not leave."""

    kind: str
    label: str
    title: str
    lines: tuple[TrayLine, ...]
    cooks: tuple[str, ...] = ()
    free_from: tuple[str, ...] = ()
    free_for: tuple[str, ...] = ()
    batches: int = 1
    blocked_why: str = ""
    code: str = ""
    issued: bool = False

    @property
    def name(self) -> str:
        """ "Bench 5", "Stage tray T2", "Spare kit", "Prepared ahead, 7 batches"."""
        words = PLATE_WORDS[self.kind]
        if self.kind == "bench" or (self.kind == "stage_tray" and self.label != "T"):
            return f"{words} {self.label}"
        return f"{words}, {self.batches} batches" if self.batches > 1 else words

    @property
    def who(self) -> str:
        """ "Clio and Edgar"; empty for a kit of nobody."""
        return wording.listed(self.cooks)

    @property
    def free_from_words(self) -> str:
        """ "Free from gluten"; empty for an ordinary kit.

        Where a label in it may contain what is left out: "Made without nuts, may contain nuts (almond)".
        """
        named = wording.listed(code.replace("_", " ") for code in self.free_from)
        if not named:
            return ""
        may = wording.listed(self.may_contain_of_it)
        return f"Made without {named}, may contain {may}" if may else f"Free from {named}"

    @property
    def may_contain_of_it(self) -> tuple[str, ...]:
        """What labels in it may contain of what it is made without, as printed."""
        left_out = {printed(kind) for code in self.free_from for kind in kinds_of(code)}
        said = (words for line in self.lines for words in line.may_contain)
        return tuple(dict.fromkeys(words for words in said if words in left_out))

    @property
    def free_from_box(self) -> str:
        """As its label is boxed: "FREE FROM GLUTEN, Otto"; empty for an ordinary kit."""
        return ", ".join(
            part for part in (self.free_from_words.upper(), wording.listed(self.free_for)) if part
        )

    @property
    def components(self) -> tuple[tuple[str, tuple[TrayLine, ...]], ...]:
        """Its lines by component, in tray order: pairs of the component's name and its lines."""
        names = dict.fromkeys(line.component for line in self.lines)
        return tuple((name, tuple(line for line in self.lines if line.component == name)) for name in names)

    @property
    def short(self) -> bool:
        """Whether a line of it is not covered by any lot."""
        return any(line.short_milligrams for line in self.lines)

    @property
    def lines_weighed(self) -> int:
        """How many of its lines are weighed; the tap is not weighed."""
        return sum(bool(line.weighed) for line in self.lines if not line.from_tap)

    @property
    def lines_to_weigh(self) -> int:
        """How many lines have to be weighed at all."""
        return sum(not line.from_tap for line in self.lines)


@dataclass(frozen=True, slots=True)
class SameTrays:
    """Trays with the same lines: shown once, with all their plates."""

    trays: tuple[Tray, ...]

    @property
    def heading(self) -> str:
        """ "Benches 1, 2 and 3, demonstration and spare kit"."""
        labels = [tray.label for tray in self.trays if tray.kind == "bench"]
        names = [f"{'Bench' if len(labels) == 1 else 'Benches'} {wording.listed(labels)}"] if labels else []
        names += [
            tray.name if not names else f"{tray.name[:1].lower()}{tray.name[1:]}"
            for tray in self.trays
            if tray.kind != "bench"
        ]
        return wording.listed(names) if len(names) < 3 else f"{', '.join(names[:-1])} and {names[-1]}"

    @property
    def first(self) -> Tray:
        """The tray whose lines stand for all."""
        return self.trays[0]


def tray_of(
    kit: KitPlan, cooks: tuple[str, ...] = (), draws: Mapping[int, Sequence[tuple[str, int]]] | None = None
) -> Tray:
    """A planned kit as it is shown; ``draws`` are (lot, milligrams) of each line by its position."""
    return Tray(
        kind=kit.kind,
        label=kit.label,
        title=kit.title,
        lines=tuple(_line(line, (draws or {}).get(line.position, ())) for line in kit.lines),
        cooks=cooks,
        free_from=kit.free_from,
        batches=kit.batches,
        blocked_why=kit.blocked_why,
    )


def same_trays(trays: Iterable[Tray]) -> tuple[SameTrays, ...]:
    """Trays that hold the same thing, together; in the order in which they first come."""
    groups: dict[object, list[Tray]] = {}
    for tray in trays:
        what = (
            tray.title,
            tray.batches,
            tuple((line.food, line.amount, line.component) for line in tray.lines),
        )
        groups.setdefault(what, []).append(tray)
    return tuple(SameTrays(tuple(group)) for group in groups.values())


def initials(name: str) -> str:
    """ "HB" for "Hana Bellweather"; the first letter of each word, three at most."""
    return "".join(word[0] for word in name.split()[:3]).upper()


def lots_words(draws: Iterable[tuple[str, int]], unit_milligrams: int = 0) -> tuple[str, ...]:
    """Lots of one line: ("lot LS-2207",), with weights for several: ("110 g from lot LS-2207", …).

    ``unit_milligrams`` is the weight of a whole piece of what is counted, 0 for weights.
    """
    drawn = list(draws)
    if len(drawn) == 1:
        return (f"lot {drawn[0][0]}",)
    return tuple(f"{stock_words(milligrams, unit_milligrams)} from lot {lot}" for lot, milligrams in drawn)


def stock_words(milligrams: int, unit: int) -> str:
    """An amount as the store counts it: "104 g", "6 pieces"; ``unit``: milligrams of a piece, or 0."""
    return wording.counted(milligrams // unit, "piece") if unit else wording.amount(milligrams)


def _line(line: KitLinePlan, draws: Sequence[tuple[str, int]]) -> TrayLine:
    return TrayLine(
        position=line.position,
        component=line.component,
        food=line.food,
        words=line.words,
        exact=line.exact,
        milligrams=line.milligrams,
        pieces=line.pieces,
        note=line.note,
        allergens=line.contains_words,
        may_contain=line.may_contain_words,
        label_read_on=line.label_read_on,
        from_tap=line.from_tap,
        draws=tuple(draws),
        stock_milligrams=line.stock_milligrams,
        storage=line.storage,
    )
