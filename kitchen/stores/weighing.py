"""The order of the trolley: what is weighed first, and what stands at each stop.

For the weigh-out pages. A stop is either a whole free-from kit or one food across all
benches. The order is trade practice (common practice, no source): clean bench, scale,
scoops and hands; free-from kits whole before any flour is opened; then dry by food, foods
without allergens first, flours, nuts and sesame last; chilled and frozen as late as can be.
A second person looks at raising agents, salt, sugar, gelatine and nuts.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from curriculum import wording
from curriculum.allergens import GROUPS, printed
from curriculum.foods.data import FoodData
from kitchen.stores.trays import Tray, TrayLine

STORAGE_ORDER = ("ambient", "chilled", "frozen")
DUSTY_KINDS = frozenset((*GROUPS["gluten"][1], *GROUPS["nuts"][1], "sesame", "peanuts"))
#: Scaling classes and words in a food's code that want a second person (common practice, no source).
SECOND_CLASSES = frozenset(("leavening", "gelling"))
SECOND_WORDS = ("salt", "sugar")


@dataclass(frozen=True, slots=True)
class Item:
    """One weight on the scale: for which kit, which lines of it, how much, from which lots."""

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


@dataclass(frozen=True, slots=True)
class Stop:
    """One stop of the trolley; ``code`` is a food's code or a kit's."""

    code: str
    title: str
    words: str
    items: tuple[Item, ...]
    allergens: tuple[str, ...] = ()
    free_from: str = ""
    storage: str = "ambient"
    second: bool = False

    @property
    def waiting(self) -> tuple[Item, ...]:
        """What is still to be weighed here."""
        return tuple(item for item in self.items if not item.done)

    @property
    def weighed(self) -> tuple[Item, ...]:
        """What is weighed."""
        return tuple(item for item in self.items if item.done)


def stops(trays: Iterable[Tray], foods: Mapping[str, FoodData]) -> tuple[Stop, ...]:
    """The stops in their order; kits that may not leave are not weighed."""
    ready = [tray for tray in trays if not tray.blocked_why]
    whole = [_whole_kit(tray, foods) for tray in ready if tray.free_from]
    plain = [tray for tray in ready if not tray.free_from]
    codes = dict.fromkeys(line.food for tray in plain for line in tray.lines if not line.from_tap)
    by_food = [_food_stop(foods[code], plain) for code in codes]
    return (*whole, *sorted(by_food, key=lambda stop: _rank(foods[stop.code])))


def next_stop(order: Iterable[Stop]) -> Stop | None:
    """The first stop where something is still to be weighed."""
    return next((stop for stop in order if stop.waiting), None)


def last_tap(kept: Sequence[str] | None, lesson: str, stop: Stop) -> Item | None:
    """The item that was weighed last at this stop, so that it can be taken back; None for another."""
    if not kept or tuple(kept[:2]) != (lesson, stop.code):
        return None
    return next((item for item in stop.weighed if [item.kit, item.food] == list(kept[2:])), None)


def wants_second_person(food: FoodData) -> bool:
    """Whether a second person looks at the weight of this food."""
    nuts = set(GROUPS["nuts"][1]) & set(food.contains)
    named = bool(set(SECOND_WORDS) & set(food.code.split("_")))
    return bool(nuts) or named or food.scaling_class in SECOND_CLASSES


def _rank(food: FoodData) -> tuple[int, int, str]:
    dusty = bool(DUSTY_KINDS & set(food.contains))
    return (STORAGE_ORDER.index(food.storage), 2 if dusty else int(bool(food.contains)), food.name)


def _whole_kit(tray: Tray, foods: Mapping[str, FoodData]) -> Stop:
    codes = dict.fromkeys(line.food for line in tray.lines if not line.from_tap)
    items = [
        _item(tray, [line for line in tray.lines if line.food == code], foods[code].name) for code in codes
    ]
    return Stop(
        code=tray.code,
        title=f"{tray.name}, the whole kit",
        words="Clean bench, clean scale and hands, own scoops, unopened or reserved packs. Put the lid on.",
        items=tuple(items),
        free_from=tray.free_from_words,
        second=any(wants_second_person(foods[code]) for code in codes),
    )


def _food_stop(food: FoodData, trays: list[Tray]) -> Stop:
    lines = {tray.code: [line for line in tray.lines if line.food == food.code] for tray in trays}
    words = {
        "ambient": "Dry.",
        "chilled": "Chilled: weigh late, back in the cold at once.",
        "frozen": "Frozen: weigh last.",
    }
    return Stop(
        code=food.code,
        title=food.name,
        words=words[food.storage],
        items=tuple(_item(tray, lines[tray.code], tray.name) for tray in trays if lines[tray.code]),
        allergens=tuple(printed(kind) for kind in food.contains),
        storage=food.storage,
        second=wants_second_person(food),
    )


def _item(tray: Tray, lines: list[TrayLine], name: str) -> Item:
    pieces = sum(line.pieces or 0 for line in lines)
    parts = [f"{line.amount} {line.component[:1].lower()}{line.component[1:]}" for line in lines]
    done = all(line.weighed for line in lines)
    return Item(
        kit=tray.code,
        food=lines[0].food,
        label=tray.label,
        name=name,
        who=tray.who,
        figure=wording.figure(pieces) if pieces else wording.grams(sum(line.milligrams for line in lines)),
        unit=("piece" if pieces == 1 else "pieces") if pieces else "g",
        detail=f"{', '.join(parts)}." if len(parts) > 1 else "",
        lots=", then ".join(dict.fromkeys(lot for line in lines for lot in line.lots)),
        short=", ".join(line.short for line in lines if line.short),
        done=lines[-1].weighed if done else "",
    )
