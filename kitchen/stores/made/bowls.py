"""A pooled bowl: what is proposed for it, and why it may not be made as it was written.

For the page and the action that make a lot in the kitchen out of whole pieces: eggs beaten
for several benches, yolks, the juice of lemons. Plain data in, plain data out; amounts are
whole milligrams, times are those on the college's wall.

The sum, in this order
----------------------
1. **How many pieces.** The exact need of the kits that can take from the bowl is added first
   and rounded up once: 215 g and 215 g of beaten egg at 50 g an egg are 8.6, so nine eggs,
   where two kits in their shells take ten.
2. **Which lots.** The earliest date first, as for kits; a lot is refused when it is held, when
   nobody has read its label, when it is past its use-by on the day the bowl is thrown away,
   or when it is itself a made lot.
3. **How long.** Thrown away four hours after it was made; the figure and whose it is stand in
   ``curriculum.limits``. The college's own procedure may say another time; nothing is said
   about the food by it.

Sources: trade practice as the stores give it (common practice, no source).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from fractions import Fraction

from curriculum import wording
from curriculum.allergens import KINDS
from curriculum.errors import RuleBroken
from curriculum.foods.rounding import whole_pieces
from curriculum.limits import BY_CODE
from kitchen.stores.allocation import LineNeed, LotData, Use, allocate, barred

LIMIT = BY_CODE["egg_out_of_shell"]


@dataclass(frozen=True, slots=True)
class MadeEntry:
    """A made lot as somebody wrote it: food and lots by code, pieces a lot, its weight and times.

    ``made_at`` and ``discard_at`` are aware. ValueError for nonsense.
    """

    food: str
    pieces: tuple[tuple[str, int], ...]
    milligrams: int
    made_at: datetime
    discard_at: datetime
    kept_where: str = ""

    def __post_init__(self) -> None:
        if self.milligrams <= 0 or not self.pieces or any(count <= 0 for _, count in self.pieces):
            raise ValueError("A made lot holds something, and something went into it.")
        if self.made_at.tzinfo is None or self.discard_at.tzinfo is None:
            raise ValueError("The times of a made lot know their zone.")


@dataclass(frozen=True, slots=True)
class Label:
    """What the labels of the lots in a bowl say together, and whether somebody read all of them."""

    contains: tuple[str, ...]
    may_contain: tuple[str, ...]


def pieces_for(exact_milligrams: Fraction, milligrams_per_piece: int) -> int:
    """Whole pieces that give so much: added first, rounded up once."""
    return whole_pieces(exact_milligrams / milligrams_per_piece)


def lots_for(pieces: int, unit_milligrams: int, lots: Iterable[LotData], on: date) -> dict[str, int]:
    """How many pieces of which lot (code) for a bowl made on that day; fewer where stock runs out."""
    stock = tuple(lot for lot in lots if not lot.made_in)
    needs = [LineNeed("bowl", food, pieces * unit_milligrams, unit_milligrams) for food in _foods(stock)]
    return {draw.lot: draw.milligrams // unit_milligrams for draw in allocate(needs, stock, on).draws}


def discard_proposed(made_at: datetime) -> datetime:
    """When a bowl is thrown away, unless the college's procedure says another time."""
    return made_at + timedelta(seconds=LIMIT.seconds or 0)


def together(labels: Iterable[tuple[Iterable[str], Iterable[str]]]) -> Label:
    """The labels of several lots as one: what any contains, then what any may contain besides."""
    said = [(set(contains), set(may)) for contains, may in labels]
    contains = set().union(*(each for each, _ in said))
    may = set().union(*(each for _, each in said)) - contains
    return Label(_in_order(contains), _in_order(may))


def demand(
    entry: MadeEntry, lots: Mapping[str, LotData], unread: Iterable[str], unit: int, now: datetime
) -> None:
    """Refuse, in words, a bowl that may not be made so.

    ``lots`` are the chosen ones by code, ``unread`` those whose label nobody has read, ``unit``
    the milligrams of one whole piece. RuleBroken "made_later", "discard_before_made",
    "discard_passed", "label_not_read", "lot_barred", "lot_too_small", "weighs_more".
    """
    _demand_times(entry, now)
    not_read = sorted(set(unread))
    if not_read:
        raise RuleBroken(
            "label_not_read", f"Nobody has read the label of lot {wording.listed(not_read)}. Read it first."
        )
    last = max(entry.made_at, entry.discard_at).date()
    for lot in lots.values():
        why = "A made lot does not go into another one." if lot.made_in else barred(lot, Use(last))
        if why:
            raise RuleBroken("lot_barred", f"{why} Take another lot.", field=field_of(lot.code))
    for code, count in entry.pieces:
        _demand_free(lots[code], count, unit)
    into = sum(count * unit for _, count in entry.pieces)
    if entry.milligrams > into:
        raise RuleBroken(
            "weighs_more",
            f"The bowl weighs {wording.amount(entry.milligrams)} and {wording.amount(into)} went into it. "
            "Weigh it again without the bowl, or write down every piece.",
            field="grams",
        )


def _demand_free(lot: LotData, count: int, unit: int) -> None:
    """Refuse more pieces than lie free in the lot: what stands weighed on trays is not."""
    free = lot.on_hand_milligrams - lot.aside_milligrams
    if count * unit > free:
        aside = wording.amount(lot.aside_milligrams)
        on_trays = f" {aside} of it stand weighed on trays." if lot.aside_milligrams else ""
        raise RuleBroken(
            "lot_too_small",
            f"Lot {lot.code} has {wording.counted(max(0, free) // unit, 'piece')} to take from.{on_trays} "
            "Write fewer, or take those weights back first.",
            field=field_of(lot.code),
        )


def _demand_times(entry: MadeEntry, now: datetime) -> None:
    if entry.made_at > now + timedelta(minutes=1):
        raise RuleBroken(
            "made_later", "It cannot have been made later than now. Write when it was made.", field="made_at"
        )
    if entry.discard_at <= entry.made_at:
        raise RuleBroken(
            "discard_before_made",
            "It is thrown away after it was made. Write a later time, with its day.",
            field="discard_at",
        )
    if entry.discard_at <= now:
        raise RuleBroken(
            "discard_passed",
            "That time has passed already: this bowl is waste, and nothing can be given out of it.",
            field="discard_at",
        )


def fitting(amounts: Iterable[tuple[int, int]], free_milligrams: int) -> list[int]:
    """Keys of those (key, milligrams), in their order, that what is free is enough for."""
    chosen = []
    for key, milligrams in amounts:
        if milligrams <= free_milligrams:
            chosen.append(key)
            free_milligrams -= milligrams
    return chosen


def field_of(lot: str) -> str:
    """The name of the field that holds the pieces of a lot."""
    return f"lot_{lot}"


def _foods(stock: Iterable[LotData]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(lot.food for lot in stock))[:1]


def _in_order(kinds: set[str]) -> tuple[str, ...]:
    listed = [kind for kind in KINDS if kind in kinds]
    return (*listed, *sorted(kinds - set(listed)))
