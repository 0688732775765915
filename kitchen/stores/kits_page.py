"""The kits page of a lesson in words: what stands, what is short, what comes next.

Plain data in, plain data out. The page shows a proposal until the stores accept it, and the
accepted kits after that; what is short is named before anything is issued.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from curriculum import wording
from curriculum.foods.rounding import whole_pieces
from curriculum.recipes.data import FoodData
from kitchen.stores.allocation import Allocation, Shortage
from kitchen.stores.kits import says_as_printed
from kitchen.stores.needs import Need
from kitchen.stores.proposal import Proposal, Question
from kitchen.stores.trays import SameTrays, Tray, TrayLine, lots_words, same_trays, stock_words, tray_of


@dataclass(frozen=True, slots=True)
class NeedRow:
    """One food of the class: exact beside issued, the order's pooled pieces, its lots."""

    food: str
    exact: str
    issued: str
    note: str
    lots: str
    short: str = ""


@dataclass(frozen=True, slots=True)
class KitsPage:
    """Everything the page shows. ``accepted`` once kits are kept, ``stale`` when they no longer fit.

    ``changed`` says in sentences what is different now, also when the kits have left.
    """

    trays: tuple[Tray, ...]
    groups: tuple[SameTrays, ...]
    needs: tuple[NeedRow, ...]
    shortages: tuple[str, ...]
    warnings: tuple[str, ...]
    blocked: tuple[str, ...]
    accepted: bool = False
    stale: bool = False
    changed: tuple[str, ...] = ()
    issued: bool = False

    @property
    def some_left(self) -> bool:
        """Whether a tray has left the stores."""
        return any(tray.issued for tray in self.trays)

    @property
    def lines(self) -> int:
        """How many lines are to be weighed."""
        return sum(tray.lines_to_weigh for tray in self.trays)

    @property
    def weighed(self) -> int:
        """How many of them are."""
        return sum(tray.lines_weighed for tray in self.trays)

    @property
    def lines_left_words(self) -> str:
        """ "97 lines are not weighed yet."; empty when all are."""
        left = self.lines - self.weighed
        said = wording.counted_words(left, "line is", "lines are")
        return wording.sentence(f"{said} not weighed yet") if left else ""

    @property
    def summary(self) -> str:
        """ "Twelve kits: seven benches, one demonstration, one spare, three prepared ahead."."""
        kinds = [tray.kind for tray in self.trays]
        words = {"bench": "for benches", "demonstration": "to demonstrate", "spare": "to spare"}
        words |= {"ahead": "prepared ahead", "stage_tray": "stage trays", "supplementary": "given later"}
        named = [
            f"{wording.number(kinds.count(kind))} {said}" for kind, said in words.items() if kind in kinds
        ]
        return wording.sentence(
            f"{wording.counted_words(len(kinds), 'kit', 'kits')}: {wording.listed(named)}"
        )


def proposed_page(question: Question, proposal: Proposal) -> KitsPage:
    """The page before anybody has accepted the kits."""
    cooks = {each.label: each.cooks for each in question.benches}
    drawn: dict[str, dict[int, list[tuple[str, int]]]] = defaultdict(lambda: defaultdict(list))
    for draw in proposal.allocation.draws:
        label, position = draw.key
        drawn[label][position].append((draw.lot, draw.milligrams))
    trays = tuple(
        tray_of(
            kit,
            cooks.get(kit.label, ()) if kit.kind == "bench" else (),
            drawn[kit.label],
        )
        for kit in proposal.kits
    )
    return _page(trays, proposal, proposal.allocation)


def accepted_page(
    trays: tuple[Tray, ...],
    proposal: Proposal,
    allocation: Allocation,
    *,
    stale: bool,
    changed: tuple[str, ...] = (),
) -> KitsPage:
    """The page of kits that were accepted; ``allocation`` is of what has not left yet.

    They count as issued when every tray has left and nothing more can: a line that was short
    and is in stock now opens the issue again.
    """
    issued = all(tray.issued for tray in trays) and not allocation.draws
    asked = [tray for tray in trays if tray.kind != "supplementary"]
    proposal = replace(proposal, needs=with_bowls(proposal.needs, asked))
    page = _page(trays, proposal, allocation, accepted=True, stale=stale and not issued, issued=issued)
    return replace(page, changed=changed)


def read_anew(trays: Iterable[Tray], foods: Mapping[str, FoodData]) -> tuple[str, ...]:
    """Labels that name other kinds by now than are printed on trays that have not left."""
    lines = [line for tray in trays if not tray.issued for line in tray.lines if line.food in foods]
    names = dict.fromkeys(
        line.words
        for line in lines
        if not says_as_printed(foods[line.food], line.allergens, line.may_contain)
    )
    return tuple(f"The label of {name} was read anew, and names other kinds." for name in names)


def with_bowls(needs: tuple[Need, ...], trays: Iterable[Tray]) -> tuple[Need, ...]:
    """The class's needs when some trays take from a made lot what others get in whole pieces.

    What is pooled in a bowl has a need of its own, and the pieces are counted over the trays
    that still get them. Without a bowl the needs stay as they are.
    """
    lines = [line for tray in trays for line in tray.lines if not line.from_tap]
    known = {need.food for need in needs}
    pooled = {line.food: line.words for line in lines if line.food not in known and line.pieces is None}
    if not pooled:
        return needs
    there = {line.food for line in lines}
    kept = (_counted_again(need, lines) if need.pieces is not None else need for need in needs)
    made = (_pooled(food, name, lines) for food, name in pooled.items())
    return (*(need for need in kept if need.food in there), *made)


def _counted_again(need: Need, lines: Iterable[TrayLine]) -> Need:
    counted = [line for line in lines if line.food == need.food and line.pieces is not None]
    exact = sum((line.exact for line in counted), Fraction(0))
    return replace(
        need,
        exact_milligrams=exact * need.unit_milligrams,
        milligrams=sum(line.stock_milligrams for line in counted),
        pieces=sum(line.pieces or 0 for line in counted),
        pooled_pieces=whole_pieces(exact),
    )


def _pooled(food: str, name: str, lines: Iterable[TrayLine]) -> Need:
    own = [line for line in lines if line.food == food]
    exact = sum((line.exact for line in own), Fraction(0))
    return Need(food, name, exact, sum(line.stock_milligrams for line in own))


def shortage_words(allocation: Allocation, needs: Iterable[Need]) -> tuple[str, ...]:
    """What food is short, how much is there, why lots were left out, and the way out.

    What is issued whole is counted in pieces, as it lies in the store.
    """
    known = {need.food: need for need in needs}
    return tuple(_short_of(each, known.get(each.food)) for each in allocation.shortages)


def _short_of(shortage: Shortage, need: Need | None) -> str:
    unit = _unit(need) if need else 0
    return (
        f"Short of {stock_words(shortage.short_milligrams, unit)} {need.name if need else shortage.food}: "
        f"{stock_words(shortage.needed_milligrams, unit)} needed, "
        f"{stock_words(shortage.issued_milligrams, unit)} in stock for it. "
        + " ".join((*shortage.left_out, "Take more in, or issue what is there and say so."))
    )


def _unit(need: Need) -> int:
    """Milligrams of a piece where the food is issued in pieces, else 0."""
    return (need.unit_milligrams or 0) if need.pieces is not None else 0


def _page(trays: tuple[Tray, ...], proposal: Proposal, allocation: Allocation, **state: bool) -> KitsPage:
    equipment = () if state.get("issued") else tuple(each.words for each in proposal.equipment)
    return KitsPage(
        trays=trays,
        groups=same_trays(trays),
        needs=tuple(_need_row(need, allocation) for need in proposal.needs),
        shortages=(*shortage_words(allocation, proposal.needs), *equipment),
        warnings=allocation.warnings,
        blocked=tuple(dict.fromkeys(tray.blocked_why for tray in trays if tray.blocked_why)),
        **state,
    )


def _need_row(need: Need, allocation: Allocation) -> NeedRow:
    lots = ", then ".join(lots_words(allocation.by_lot(need.food), need.unit_milligrams))
    missing = sum(each.short_milligrams for each in allocation.shortages if each.food == need.food)
    short = f"short of {stock_words(missing, _unit(need))}" if missing else ""
    if need.pieces is not None:
        note = (
            f"{need.pooled_pieces} in an order, pooled over the class"
            if need.pooled_pieces < need.pieces
            else ""
        )
        exact = (
            wording.figure(need.exact_milligrams / need.unit_milligrams, 1) if need.unit_milligrams else ""
        )
        return NeedRow(need.name, exact, wording.counted(need.pieces, "piece"), note, lots, short)
    more = need.allowance_milligrams
    note = (
        f"{wording.exact_amount(abs(more))} {'more' if more > 0 else 'less'} by the step of the scale"
        if more
        else ""
    )
    exact = wording.exact_amount(need.exact_milligrams)
    return NeedRow(need.name, exact, wording.amount(need.milligrams), note, lots, short)
