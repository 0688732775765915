"""What the requisition page reads: what is asked for, what is in stock, what packs cost."""

from collections import Counter
from dataclasses import dataclass, replace
from datetime import date

from curriculum import wording
from curriculum.foods.models import Food, Pack
from kitchen.lessons.models import Lesson
from kitchen.stores.allocation import barred
from kitchen.stores.models import KitSet, Requisition
from kitchen.stores.packs import PackData, Purchase, cheapest
from kitchen.stores.proposal import for_trays, prepare
from kitchen.stores.queries import kit_question, lots_data
from kitchen.stores.requisitions.actions import FOR_TRAYS


@dataclass(frozen=True, slots=True)
class Asked:
    """One food asked for: how much, what is in stock, and the packs that would cover what is not."""

    name: str
    amount: str
    in_stock: str
    packs: str
    pence: int
    for_trays: str = ""


@dataclass(frozen=True, slots=True)
class RequisitionPage:
    """The requisition that stands (None before the first), or what would be asked for now.

    Once the kits are ``issued`` the stock no longer holds what was asked for, so nothing is
    said of stock and packs.
    """

    requisition: Requisition | None
    lines: tuple[Asked, ...]
    changed: bool = False
    issued: bool = False

    @property
    def pence(self) -> int:
        """What the packs to buy cost together."""
        return sum(line.pence for line in self.lines)


def requisition_of(lesson: Lesson) -> Requisition | None:
    """The latest requisition of a lesson that stands, with its lines and people."""
    return (
        Requisition.objects.filter(lesson=lesson)
        .exclude(state=Requisition.State.SUPERSEDED)
        .select_related("by", "approved_by")
        .prefetch_related("lines__food")
        .order_by("-number")
        .first()
    )


def requisition_page(lesson: Lesson) -> RequisitionPage:
    """What is asked for, as submitted; before that, what the kits need now."""
    standing = requisition_of(lesson)
    needed, wanted = _needed_now(lesson)
    asked, trays = _asked_for(standing) if standing else (needed, wanted)
    foods = {food.code: food for food in Food.objects.filter(code__in=asked)}
    stock, packs = _stock(asked, lesson.on), _packs(asked)
    lines = tuple(
        replace(
            _asked(foods[code], milligrams, stock.get(code, 0), packs.get(code, []), lesson),
            for_trays=_words(foods[code], trays[code]) if code in trays else "",
        )
        for code, milligrams in sorted(asked.items(), key=lambda pair: foods[pair[0]].name)
    )
    issued = KitSet.objects.filter(lesson=lesson, issued_at__isnull=False).exists()
    changed = bool(standing) and bool(needed) and asked != needed and not issued
    return RequisitionPage(standing, lines, changed, issued)


def _asked_for(standing: Requisition) -> tuple[dict[str, int], dict[str, int]]:
    """What a requisition asks for by food, and how much of it is for stage trays."""
    asked: Counter[str] = Counter()
    trays: Counter[str] = Counter()
    for row in standing.lines.all():
        asked[row.food.code] += row.milligrams
        if row.why == FOR_TRAYS:
            trays[row.food.code] += row.milligrams
    return dict(asked), dict(trays)


def _needed_now(lesson: Lesson) -> tuple[dict[str, int], dict[str, int]]:
    """The same, as the kits would need it today."""
    question = kit_question(lesson)
    if question is None:
        return {}, {}
    needs = {need.food: need.ordered_milligrams for need in prepare(question).needs}
    return needs, {food: milligrams for food, (milligrams, _) in for_trays(question).items()}


def _stock(codes: dict[str, int], use_on: date) -> dict[str, int]:
    """What may still be used on that day, by food: what the kits page calls in stock, no more."""
    there: Counter[str] = Counter()
    for lot in lots_data(codes):
        if not barred(lot, use_on, free_from=True):
            there[lot.food] += lot.on_hand_milligrams
    return there


def _packs(codes: dict[str, int]) -> dict[str, list[PackData]]:
    found: dict[str, list[PackData]] = {}
    for pack in Pack.objects.filter(food__code__in=codes).select_related("food", "supplier"):
        data = PackData(
            pack.food.code, pack.supplier.name, pack.milligrams, pack.pence, pack.from_on, pack.until_on
        )
        found.setdefault(pack.food.code, []).append(data)
    return found


def _asked(food: Food, milligrams: int, there: int, packs: list[PackData], lesson: Lesson) -> Asked:
    missing = max(0, milligrams - there)
    bought = cheapest(missing, packs, lesson.on) if missing else None
    return Asked(
        name=food.name,
        amount=_words(food, milligrams),
        in_stock=_words(food, there),
        packs=_pack_words(food, bought, missing),
        pence=bought.pence if bought else 0,
    )


def _words(food: Food, milligrams: int) -> str:
    if food.counted_in == Food.CountedIn.PIECES and food.piece_milligrams:
        return wording.counted(milligrams // food.piece_milligrams, "piece")
    return wording.amount(milligrams, stores=True)


def _pack_words(food: Food, bought: Purchase | None, missing: int) -> str:
    """ "3 packs of 1,500 g from Quernstone, 260 g over"."""
    if not missing:
        return ""
    if bought is None:
        return f"{_words(food, missing)} missing, and no pack of it is on any list."
    size = _words(food, bought.pack.milligrams)
    over = f", {_words(food, bought.over_milligrams)} over" if bought.over_milligrams else ""
    return f"{wording.counted(bought.count, 'pack')} of {size} from {bought.pack.supplier}{over}"
