"""The order of the weigh-out: what is weighed first, and what stands at each stop.

For the weigh-out pages. A stop is either a whole free-from kit or one food across all
benches. The order is trade practice (common practice, no source): clean bench, scale,
scoops and hands; free-from kits whole, dry before chilled, and lidded before any flour is opened,
one whose flour or nuts would reach another after that one;
then dry by food, foods without allergens first, flours, nuts and sesame last; then chilled and
frozen, as late as the time plan allows, what is needed first before the rest, as a second round.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from curriculum import wording
from curriculum.allergens import GROUPS, kinds_of, printed
from curriculum.foods.data import FoodData
from kitchen.stores.trays import Tray, TrayLine
from kitchen.stores.weighout.checks import WeighOutRule, way_for
from kitchen.stores.weighout.moments import COLD, Moment, not_before, when_words

STORAGE_ORDER = ("ambient", "chilled", "frozen")
DUSTY_KINDS = frozenset((*GROUPS["gluten"][1], *GROUPS["nuts"][1], "sesame", "peanuts"))
STORAGE_WORDS = {
    "ambient": "Dry.",
    "chilled": "Chilled: weigh late, back in the cold at once.",
    "frozen": "Frozen: weigh last, back in the cold at once.",
}
#: How the pack of a lot stands, for a free-from kit.
PACK_WORDS = {"reserved": "reserved for free-from kits", "unopened": "open it for this kit first"}


@dataclass(frozen=True, slots=True)
class Looked:
    """What came of the second look at a weight: who and when if it passed, else what was wrong."""

    passed: str = ""
    failed: str = ""


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known beside the trays, by the code of a kit and of a food.

    ``lids`` say when and by whom ("10:55, HB"); ``packs`` say of a lot "reserved", "unopened" or
    "open"; ``sample`` are kits drawn for a check weight.
    """

    rule: WeighOutRule = field(default_factory=WeighOutRule)
    sample: frozenset[str] = frozenset()
    lids: Mapping[str, str] = field(default_factory=dict)
    looked: Mapping[tuple[str, str], Looked] = field(default_factory=dict)
    moments: Mapping[tuple[str, str], Moment] = field(default_factory=dict)
    packs: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Item:
    """One weight on the scale: for which kit, how much, from which lots, and the second look at it.

    ``way`` is how it must be looked at once more ("initials", "check_weight", or empty).
    """

    kit: str
    food: str
    label: str
    name: str
    who: str
    figure: str
    unit: str
    detail: str
    lots: str
    short: str
    done: str
    milligrams: int
    when: str = ""
    unit_milligrams: int = 0
    issued: bool = False
    way: str = ""
    looked: Looked = field(default_factory=Looked)

    @property
    def check_open(self) -> bool:
        """Whether it stands weighed and the second look at it is still to come."""
        return bool(self.done and self.way and not self.looked.passed)


@dataclass(frozen=True, slots=True)
class Stop:
    """One stop of the weigh-out; ``code`` is a food's code or a kit's."""

    code: str
    title: str
    words: str
    items: tuple[Item, ...]
    allergens: tuple[str, ...] = ()
    free_from: str = ""
    storage: str = "ambient"
    times: str = ""
    begin: int = 0
    lid: str = ""
    is_kit: bool = False
    issued: bool = False

    @property
    def waiting(self) -> tuple[Item, ...]:
        """What is still to be weighed here."""
        return tuple(item for item in self.items if not item.done)

    @property
    def weighed(self) -> tuple[Item, ...]:
        """What is weighed."""
        return tuple(item for item in self.items if item.done)

    @property
    def unchecked(self) -> tuple[Item, ...]:
        """Weights that wait for a second look."""
        return tuple(item for item in self.items if item.check_open)

    @property
    def second(self) -> bool:
        """Whether it can be said now that its weights are looked at twice; who is sampled is said later."""
        return any(item.way == "initials" or item.check_open for item in self.items)

    @property
    def wants_lid(self) -> bool:
        """Whether it is a whole kit that has every weight that the stores can give, and no lid yet."""
        whole = all(item.short for item in self.waiting) and bool(self.weighed)
        return self.is_kit and not self.issued and not self.lid and whole

    @property
    def to_do(self) -> bool:
        """Whether a hand is still needed at the scale here."""
        return bool(self.waiting) or self.wants_lid

    @property
    def late(self) -> bool:
        """Whether it belongs to the second round, weighed as late as the plan allows."""
        return not self.is_kit and self.storage in COLD

    @property
    def state(self) -> tuple[str, str]:
        """Shape and word of how far it is."""
        if self.wants_lid:
            return "doing", "Lid to come"
        if not self.waiting:
            return ("swap", "Second check open") if self.unchecked else ("done", "Weighed")
        return ("doing", "At work") if self.weighed else ("todo", "To weigh")


def stops(trays: Iterable[Tray], foods: Mapping[str, FoodData], facts: Facts) -> tuple[Stop, ...]:
    """The stops in their order; kits that may not leave are not weighed."""
    ready = [tray for tray in trays if not tray.blocked_why and tray.kind != "supplementary"]
    whole = [_whole_kit(tray, foods, facts) for tray in _no_dust_first(ready, foods)]
    plain = [tray for tray in ready if not tray.free_from]
    codes = dict.fromkeys(line.food for tray in plain for line in tray.lines if not line.from_tap)
    by_food = [_food_stop(foods[code], plain, facts) for code in codes]
    return (*whole, *sorted(by_food, key=lambda stop: _rank(stop, foods[stop.code])))


def _no_dust_first(trays: Iterable[Tray], foods: Mapping[str, FoodData]) -> list[Tray]:
    """Free-from kits in an order in which no kit's flour or nuts reach one that is weighed later.

    In the order of the trays where that leaves it open, and where two reach each other.
    """
    left, done = [tray for tray in trays if tray.free_from], []
    while left:
        found = next((tray for tray in left if not _reaches_another(tray, left, foods)), left[0])
        left.remove(found)
        done.append(found)
    return done


def _reaches_another(tray: Tray, trays: Iterable[Tray], foods: Mapping[str, FoodData]) -> bool:
    codes = {line.food for line in tray.lines if not line.from_tap}
    others = [each.free_from for each in trays if each is not tray]
    return any(dust_reaches(foods[code], free_from) for code in codes for free_from in others)


def next_stop(order: Iterable[Stop], after: str = "") -> Stop | None:
    """The first stop where a hand is needed; after the stop named, and only then from the beginning."""
    open_stops = list(order)
    at = next((index + 1 for index, stop in enumerate(open_stops) if stop.code == after), 0)
    turned = (*open_stops[at:], *open_stops[:at])
    return next((stop for stop in turned if stop.to_do), None)


def dusty(food: FoodData) -> bool:
    """Whether a food is one of flours, nuts and sesame, whose dust reaches what stands open."""
    return bool(DUSTY_KINDS & set(food.contains))


def meets(food: FoodData, free_from: Iterable[str]) -> bool:
    """Whether a food must not be opened before kits free from these are lidded."""
    left_out = {kind for code in free_from for kind in kinds_of(code)}
    return dusty(food) or bool(left_out & {*food.contains, *food.may_contain})


def dust_reaches(food: FoodData, free_from: Iterable[str]) -> bool:
    """Whether the dust of a food is what kits free from these are made without.

    Between two free-from kits this counts, not ``meets``: each has scoops of its own, and two kits may
    each hold what the other leaves out.
    """
    left_out = {kind for code in free_from for kind in kinds_of(code)}
    return bool(DUSTY_KINDS & left_out & {*food.contains, *food.may_contain})


def _rank(stop: Stop, food: FoodData) -> tuple[bool, int, int, int, str]:
    """Dry before cold; of the cold what is needed first; else what has no allergen, then what has no dust."""
    cold = STORAGE_ORDER.index(food.storage)
    return (bool(cold), stop.begin if cold else 0, cold, 2 if dusty(food) else bool(food.contains), food.name)


def _whole_kit(tray: Tray, foods: Mapping[str, FoodData], facts: Facts) -> Stop:
    codes = dict.fromkeys(line.food for line in tray.lines if not line.from_tap)
    in_order = sorted(codes, key=lambda code: STORAGE_ORDER.index(foods[code].storage))
    by_food = {code: [line for line in tray.lines if line.food == code] for code in in_order}
    items = [_item(tray, lines, foods[code], facts, foods[code].name) for code, lines in by_food.items()]
    cold = any(foods[code].storage in COLD for code in codes)
    return Stop(
        code=tray.code,
        title=f"{tray.name}, the whole kit",
        words="Own scoops, unopened or reserved packs. Weigh it whole, then put the lid on."
        + (" Into the cold at once: chilled food is in it." if cold else ""),
        items=tuple(items),
        free_from=tray.free_from_box,
        lid=facts.lids.get(tray.code, ""),
        is_kit=True,
        issued=tray.issued,
    )


def _food_stop(food: FoodData, trays: list[Tray], facts: Facts) -> Stop:
    lines = {tray.code: [line for line in tray.lines if line.food == food.code] for tray in trays}
    there = [tray for tray in trays if lines[tray.code]]
    moments = [
        facts.moments[tray.code, food.code] for tray in there if (tray.code, food.code) in facts.moments
    ]
    cold = (moments, len(there), facts.rule.cold_minutes)
    times = when_words(*cold) if food.storage in COLD else ""
    return Stop(
        code=food.code,
        title=food.name,
        words=STORAGE_WORDS[food.storage],
        items=tuple(_item(tray, lines[tray.code], food, facts, tray.name) for tray in there),
        allergens=tuple(printed(kind) for kind in food.contains),
        storage=food.storage,
        times=times,
        begin=not_before(*cold) or 0,
        issued=bool(there) and all(tray.issued for tray in there),
    )


def _item(tray: Tray, lines: list[TrayLine], food: FoodData, facts: Facts, name: str) -> Item:
    pieces = sum(line.pieces or 0 for line in lines)
    parts = [f"{line.amount} {line.component[:1].lower()}{line.component[1:]}" for line in lines]
    done = all(line.weighed for line in lines)
    milligrams = sum(line.milligrams for line in lines)
    moment = facts.moments.get((tray.code, food.code))
    return Item(
        kit=tray.code,
        food=food.code,
        label=tray.label,
        name=name,
        who=tray.who,
        figure=wording.figure(pieces) if pieces else wording.grams(milligrams),
        unit=("piece" if pieces == 1 else "pieces") if pieces else "g",
        detail=f"{', '.join(parts)}." if len(parts) > 1 else "",
        lots=_lots(tray, lines, facts),
        short=", ".join(line.short for line in lines if line.short),
        done=lines[-1].weighed if done else "",
        milligrams=milligrams,
        when=moment.said if moment and food.storage in COLD and not tray.free_from else "",
        unit_milligrams=milligrams // pieces if pieces else 0,
        issued=tray.issued,
        way="" if tray.issued else way_for(facts.rule, food, tray.code, facts.sample),
        looked=facts.looked.get((tray.code, food.code), Looked()),
    )


def _lots(tray: Tray, lines: list[TrayLine], facts: Facts) -> str:
    """Its lots; for a free-from kit with how their packs stand, since only some may be used."""
    said = ", then ".join(dict.fromkeys(lot for line in lines for lot in line.lots))
    if not tray.free_from or all(line.weighed for line in lines):
        return said
    packs = dict.fromkeys(facts.packs.get(lot, "") for line in lines for lot, _ in line.draws)
    words = wording.listed(PACK_WORDS[each] for each in packs if each in PACK_WORDS)
    return f"{said}, {words}" if words else said


# Lids before flour


@dataclass(frozen=True, slots=True)
class WithoutLid:
    """A free-from kit that has no lid yet: its name, what it is free from, and why it waits."""

    kit: str
    name: str
    free_from: tuple[str, ...]
    box: str = ""
    blocked_why: str = ""

    @property
    def words(self) -> str:
        """ "Bench 6, FREE FROM GLUTEN, Otto, is not lidded yet."; with the label it waits for."""
        named = f"{self.name}{f' ({self.box})' if self.box else ''}"
        if self.blocked_why:
            return f"{named} waits for its label and is not weighed: {self.blocked_why}"
        return f"{named} is not weighed whole and lidded yet."


def without_lid(trays: Iterable[Tray], lids: Mapping[str, str]) -> tuple[WithoutLid, ...]:
    """The free-from kits that stand in the stores without a lid, those that wait for a label too."""
    return tuple(
        WithoutLid(tray.code, tray.name, tray.free_from, tray.free_from_box, tray.blocked_why)
        for tray in trays
        if tray.free_from and not tray.issued and tray.code not in lids
    )


def in_the_way(food: FoodData, waiting: Iterable[WithoutLid]) -> tuple[WithoutLid, ...]:
    """Those of the waiting kits before which this food must not be opened."""
    return tuple(each for each in waiting if meets(food, each.free_from))


def kits_in_the_way(
    stop: Stop, foods: Mapping[str, FoodData], waiting: Iterable[WithoutLid]
) -> tuple[WithoutLid, ...]:
    """Those of the waiting kits that the dust of another whole kit would reach."""
    there = [foods[item.food] for item in stop.waiting]
    others = (each for each in waiting if each.kit != stop.code)
    return tuple(each for each in others if any(dust_reaches(food, each.free_from) for food in there))
