"""The page of a week as it is shown: needs by storage and day, proposed orders, what changed.

Words are made here from plain data, so that the page, the tests and the order sheet say the same.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from itertools import groupby

from curriculum import wording
from kitchen.stores.orders.calendar import SupplierData
from kitchen.stores.orders.changed import Changed
from kitchen.stores.orders.filling import Filling, fillings
from kitchen.stores.orders.problem import Buy, Wanted
from kitchen.stores.orders.proposal import Proposal
from kitchen.stores.orders.week import PAR, Served, Stock

STORAGES = ("chilled", "frozen", "ambient")


@dataclass(frozen=True, slots=True)
class FoodWords:
    """A food as it is written: its name, storage class, and the weight of a piece where it is counted."""

    name: str
    storage: str = "ambient"
    piece_milligrams: int = 0

    def amount(self, milligrams: int) -> str:
        """ "12 pieces" or "1,440 g"; pieces are rounded up, since half of one is not bought."""
        if self.piece_milligrams:
            return wording.counted(-(-milligrams // self.piece_milligrams), "piece")
        return wording.amount(milligrams, stores=True)


@dataclass(frozen=True, slots=True)
class Asking:
    """A lesson that needs a food: its code (empty for the par level), title and amount."""

    lesson: str
    title: str
    amount: str


@dataclass(frozen=True, slots=True)
class NeedRow:
    """One food on one day of use."""

    food: str
    on: date
    asking: tuple[Asking, ...]
    needed: str
    in_stock: str
    usable: str
    coming: str
    to_buy: str


@dataclass(frozen=True, slots=True)
class PackRow:
    """One proposed line: the name of its box in the form, the pack in words, how many, the price."""

    box: str
    food: str
    pack: str
    count: int
    pence_a_pack: int
    pence: int
    fills: int = 0
    fills_words: str = ""


@dataclass(frozen=True, slots=True)
class DropRow:
    """One proposed order: who, when it comes, until when it is sent, its lines, charge and least order."""

    supplier: str
    on: date
    send_by: str
    lines: tuple[PackRow, ...]
    charge_pence: int
    least_pence: int
    #: The last moment to send it, as ``send_by`` says it.
    until: datetime
    #: Why it comes no later, where a closed day is in the way; and that nobody is there to send it.
    earlier: tuple[str, ...] = ()

    @property
    def fills_pence(self) -> int:
        """The packs that only fill up the least order."""
        return sum(line.fills * line.pence_a_pack for line in self.lines)

    @property
    def goods_pence(self) -> int:
        """The packs."""
        return sum(line.pence for line in self.lines)


@dataclass(frozen=True, slots=True)
class RefusedRow:
    """An order that reaches no least order: who, when, what is short of what, and the packs it is about."""

    supplier: str
    on: date
    send_by: str
    lines: tuple[PackRow, ...]
    least_pence: int
    reached_pence: int
    short_pence: int


@dataclass(frozen=True, slots=True)
class ChangedRow:
    """A line that is another one now: what, in which lesson, before and now."""

    food: str
    title: str
    on: date
    before: str
    now: str


def box_of(pack: int, on: date, proposed: int, filling: Filling | None = None) -> str:
    """The name of the box for the count of a pack on a delivery day, what was proposed, what fills up."""
    name = f"n_{pack}_{on:%Y%m%d}_{proposed}"
    if filling is None:
        return name
    return f"{name}_{filling.packs}_{filling.first:%Y%m%d}_{filling.last:%Y%m%d}"


def need_rows(
    served: Iterable[Served],
    stock: Iterable[Stock],
    foods: Mapping[str, FoodWords],
    titles: Mapping[str, str],
) -> tuple[tuple[str, tuple[NeedRow, ...]], ...]:
    """The rows by storage class, each class by food and day; classes without a row are left out."""
    shelf: dict[str, int] = {}
    for each in stock:
        if not each.ordered:
            shelf[each.lot.food] = shelf.get(each.lot.food, 0) + each.lot.on_hand_milligrams
    ordered = sorted(served, key=lambda each: (foods[each.need.food].name, each.need.food, each.need.on))
    rows = [
        (foods[food].storage, _need_row(foods[food], on, list(same), shelf.get(food, 0), titles))
        for (food, on), same in groupby(ordered, key=lambda each: (each.need.food, each.need.on))
    ]
    by_storage = ((each, tuple(row for storage, row in rows if storage == each)) for each in STORAGES)
    return tuple((storage, found) for storage, found in by_storage if found)


def _need_row(
    food: FoodWords, on: date, same: Sequence[Served], shelf: int, titles: Mapping[str, str]
) -> NeedRow:
    missing = sum(each.missing_milligrams for each in same)
    coming = sum(each.ordered_milligrams for each in same)
    return NeedRow(
        food=food.name,
        on=on,
        asking=tuple(
            Asking(
                each.need.lesson,
                "Par level" if each.need.lesson == PAR else titles.get(each.need.lesson, each.need.lesson),
                food.amount(each.need.milligrams),
            )
            for each in same
        ),
        needed=food.amount(sum(each.need.milligrams for each in same)),
        in_stock=food.amount(shelf),
        usable=food.amount(max(each.usable_milligrams for each in same)),
        coming=food.amount(coming) if coming else "",
        to_buy=food.amount(missing) if missing else "",
    )


def drop_rows(
    proposal: Proposal, foods: Mapping[str, FoodWords], suppliers: Mapping[str, SupplierData]
) -> tuple[DropRow, ...]:
    """The proposed orders by the moment at which each has to be sent."""
    rows, found = [], fillings(proposal.ask, proposal.answer, proposal.uses)
    for drop in proposal.answer.drops:
        buys = [buy for buy in proposal.answer.buys if buy.drop == drop]
        supplier = suppliers[drop.supplier]
        until, send_by = supplier.send_by(drop.on), send_words(supplier, drop.on)
        lines = _pack_rows(buys, foods, found)
        earlier = _earlier(supplier, drop.on, [proposal.ask.wanted[buy.wanted] for buy in buys])
        row = DropRow(
            supplier.name, drop.on, send_by, lines, drop.charge_pence, drop.least_pence, until, earlier
        )
        rows.append((until, row))
    return tuple(row for _, row in sorted(rows, key=lambda pair: (pair[0], pair[1].supplier)))


def send_words(supplier: SupplierData, on: date) -> str:
    """ "12:00 on Monday 22 February", and that nobody is there then, where that day is closed."""
    until = supplier.send_by(on)
    words = f"{wording.clock(until.time())} on {wording.long_date(until.date(), on)}"
    why = supplier.why_closed(until.date())
    return f"{words}; {why} that day, so send it before" if why else words


def _earlier(supplier: SupplierData, on: date, wants: Iterable[Wanted]) -> tuple[str, ...]:
    """The closed days on which it would come fresher."""
    last = max((want.by_on for want in wants if want.milligrams), default=on)
    return tuple(
        f"{supplier.name} would come on {wording.long_date(day, on)} too, but {why}: this comes before."
        for day, why in supplier.kept_away(on, last)
    )


def refused_rows(
    proposal: Proposal, foods: Mapping[str, FoodWords], suppliers: Mapping[str, SupplierData]
) -> tuple[RefusedRow, ...]:
    """The orders that cannot be placed, with the packs of what is left out."""
    return tuple(
        RefusedRow(
            suppliers[each.drop.supplier].name,
            each.drop.on,
            send_words(suppliers[each.drop.supplier], each.drop.on),
            _pack_rows(each.buys, foods, {}, proposed=False),
            each.drop.least_pence,
            each.reached_pence,
            each.short_pence,
        )
        for each in proposal.refused
    )


def late_rows(proposal: Proposal, foods: Mapping[str, FoodWords]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Why nobody can bring something in time, and what: "1,440 g Unsalted butter"."""
    found: dict[str, list[str]] = {}
    for each in proposal.too_late:
        food = foods[each.wanted.food]
        found.setdefault(each.why, []).append(f"{food.amount(each.wanted.milligrams)} {food.name}")
    return tuple((why, tuple(words)) for why, words in found.items())


def _pack_rows(
    buys: Iterable[Buy],
    foods: Mapping[str, FoodWords],
    found: Mapping[tuple[date, int], Filling],
    *,
    proposed: bool = True,
) -> tuple[PackRow, ...]:
    """One line a pack: what is bought of it for several stretches of days is one count."""
    counts: dict[int, list[Buy]] = {}
    for buy in buys:
        counts.setdefault(buy.pack.key, []).append(buy)
    rows = []
    for same in counts.values():
        pack, count = same[0].pack, sum(buy.count for buy in same)
        food, on = foods[pack.food], same[0].drop.on
        filling = found.get((on, pack.key))
        rows.append(
            PackRow(
                box_of(pack.key, on, count if proposed else 0, filling),
                food.name,
                food.amount(pack.milligrams),
                count,
                pack.pence,
                count * pack.pence,
                filling.packs if filling else 0,
                filling.words if filling else "",
            )
        )
    return tuple(sorted(rows, key=lambda row: (row.food, row.pack)))


def changed_rows(
    changed: Iterable[Changed], foods: Mapping[str, FoodWords], titles: Mapping[str, str]
) -> tuple[ChangedRow, ...]:
    """What changed, in words."""
    found = []
    for each in changed:
        lesson, on, code = each.line
        food = foods.get(code, FoodWords(code))
        title = "Par level" if lesson == PAR else titles.get(lesson, lesson)
        found.append(
            ChangedRow(
                food.name, title, on, food.amount(each.before_milligrams), food.amount(each.now_milligrams)
            )
        )
    return tuple(found)
