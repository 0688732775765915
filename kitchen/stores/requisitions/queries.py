"""What the pages of requisitions read: what is asked for and why, what changed, who is too late."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.db.models import QuerySet

from curriculum import wording
from curriculum.foods.models import Food, Pack
from curriculum.people.queries import now_at, the_college
from kitchen.lessons.models import Lesson
from kitchen.stores.allocation import LotData, Use, barred
from kitchen.stores.changes import changes, component_names
from kitchen.stores.learning.page import learned_since, learned_words
from kitchen.stores.models import KitSet, Requisition
from kitchen.stores.orders.models import Keeping, Order, OrderLine
from kitchen.stores.orders.page import FoodWords
from kitchen.stores.orders.queries import COMING, food_words, packs_data, suppliers_data
from kitchen.stores.orders.week import Keeps
from kitchen.stores.packs import PackData, Purchase, cheapest
from kitchen.stores.proposal import Question, inputs_of
from kitchen.stores.queries import kit_question, lots_data
from kitchen.stores.requisitions.actions import ENDED
from kitchen.stores.requisitions.difference import Difference, differences, totals
from kitchen.stores.requisitions.late import Bought, Missing, bought
from kitchen.stores.requisitions.page import (
    ChangeRow,
    LateRow,
    OrderRow,
    change_rows,
    late_rows,
    moment,
    order_words,
    reason_words,
)
from kitchen.stores.requisitions.reasons import Asked, asked_for
from kitchen.stores.tools.asked import EquipmentAsked
from kitchen.stores.tools.queries import asked as equipment_asked

State = Requisition.State
#: Orders that come within so many days before the lesson may hold its food: common practice, no source.
ORDERED_DAYS_BEFORE = 7


@dataclass(frozen=True, slots=True)
class FoodRow:
    """One food asked for: how much, why, what is in stock, and the packs that would cover what is not."""

    name: str
    amount: str
    why: str
    in_stock: str
    packs: str
    pence: int


@dataclass(frozen=True, slots=True)
class RequisitionPage:
    """The requisition that stands (None before the first), or what would be asked for now.

    ``amended``: what it changes against the one that is approved; ``since``: what the lesson
    needs otherwise since it was submitted, with ``why`` in sentences; ``orders``: orders that
    hold too much or too little for either. Once the kits are ``issued`` the stock no longer
    holds what was asked for, so nothing is said of stock, packs and suppliers. ``no_second_plate``:
    the lesson is assessed and no plate is made for a second marker; ``moved``: it is on another
    day than it was submitted for. ``learned``: accepted figures that what is needed now goes by.
    """

    requisition: Requisition | None
    lines: tuple[FoodRow, ...]
    approved: Requisition | None = None
    history: tuple[Requisition, ...] = ()
    amended: tuple[ChangeRow, ...] = ()
    since: tuple[ChangeRow, ...] = ()
    why: tuple[str, ...] = ()
    orders: tuple[OrderRow, ...] = ()
    late: tuple[LateRow, ...] = ()
    issued: bool = False
    no_second_plate: bool = False
    moved: bool = False
    equipment: EquipmentAsked = EquipmentAsked()
    learned: tuple[str, ...] = ()

    @property
    def changed(self) -> bool:
        """Whether the lesson needs something else now, or on another day, than what is asked for."""
        return bool(self.since) or self.moved or self.equipment.changed

    @property
    def pence(self) -> int:
        """What the packs to buy cost together."""
        return sum(line.pence for line in self.lines)


def requisition_of(lesson: Lesson) -> Requisition | None:
    """The latest requisition of a lesson that stands, with its lines and people."""
    return _with_lines(Requisition.objects.filter(lesson=lesson)).exclude(state__in=ENDED).first()


def _with_lines(rows: QuerySet[Requisition]) -> QuerySet[Requisition]:
    """Requisitions with everything that is read of them, the latest first."""
    rows = rows.select_related("by", "approved_by", "amends").prefetch_related("lines__food")
    return rows.order_by("-number")


def requisition_page(lesson: Lesson) -> RequisitionPage:
    """What is asked for, as submitted; before that, what the kits need now. A fixed number of queries."""
    history = tuple(_with_lines(Requisition.objects.filter(lesson=lesson)))
    standing = next((row for row in history if row.state not in ENDED), None)
    approved = next((row for row in history if row.state == State.APPROVED), None)
    question = kit_question(lesson)
    needed = asked_for(question) if question is not None else ()
    asked = asked_of(standing) if standing else needed
    issued = KitSet.objects.filter(
        lesson=lesson, state=KitSet.State.ACCEPTED, issued_at__isnull=False
    ).exists()
    gone = issued or lesson.state == Lesson.State.CANCELLED
    since = differences(asked, needed) if standing and needed and not gone else ()
    moved = bool(standing and standing.inputs and not gone) and standing.inputs["use_on"] != f"{lesson.on}"
    amended = differences(asked_of(approved), asked) if approved and standing != approved else ()
    codes = {each.food for each in (*asked, *needed)} | {each.food for each in amended}
    words = {food.code: food_words(food) for food in Food.objects.filter(code__in=codes)}
    there = usable(lots_data(codes, lesson), lesson)
    lines = _food_rows(asked, words, there, lesson.on)
    late = () if gone else _late(totals(asked), words, there, lesson.on)
    touched = differences(asked_of(approved), needed) if approved and needed and not gone else ()
    return RequisitionPage(
        requisition=standing,
        lines=lines,
        approved=approved,
        history=history,
        amended=change_rows(amended, words),
        since=change_rows(since, words),
        why=_why(standing, question) if since or moved else (),
        orders=orders_touched(touched, words, lesson.on),
        late=late,
        issued=issued,
        equipment=equipment_asked(standing, lesson, gone=gone),
        moved=moved,
        learned=_learned(question),
        no_second_plate=lesson.assessed and question is not None and not question.plates[2] and not gone,
    )


def asked_of(requisition: Requisition) -> tuple[Asked, ...]:
    """The lines of a requisition as plain data; its lines are fetched."""
    return tuple(Asked(row.food.code, row.why, row.milligrams, row.pieces) for row in requisition.lines.all())


def _why(standing: Requisition, question: Question | None) -> tuple[str, ...]:
    """What changed in the lesson, in sentences; nothing where a requisition kept no inputs."""
    if question is None or not standing.inputs:
        return ()
    now = inputs_of(question)
    found = changes(standing.inputs, now, component_names(question))
    return (*found, *learned_since(standing.inputs.get("learned"), now.get("learned")))


def _learned(question: Question | None) -> tuple[str, ...]:
    """The accepted figures that the need goes by, in sentences."""
    if question is None:
        return ()
    names = {food.code: food.name for recipe in question.recipes.values() for food in recipe.foods}
    return learned_words(question.learned, names)


def usable(lots: Iterable[LotData], lesson: Lesson) -> dict[str, int]:
    """What the lesson may still use, by food: what the kits page calls in stock, no more.

    What stands weighed on other trays is not in stock for it; a substitute is where it was accepted.
    """
    there: Counter[str] = Counter()
    use = Use(lesson.on, lesson.code)
    for lot in lots:
        if not barred(lot, use, lot.reserved_free_from):
            there[lot.food] += lot.free_milligrams
    return there


def orders_touched(
    found: Iterable[Difference], foods: Mapping[str, FoodWords], use_on: date
) -> tuple[OrderRow, ...]:
    """Orders drafted or sent for the days before the lesson that hold a food of which the need changed."""
    changed = {each.food: each.milligrams for each in found}
    if not changed:
        return ()
    return tuple(
        _order_row(row, foods[row.pack.food.code], changed[row.pack.food.code])
        for row in coming_before(use_on, changed)
    )


def coming_before(use_on: date, foods: Iterable[str]) -> QuerySet[OrderLine]:
    """Lines of orders drafted or sent that bring these foods in the days before a day."""
    rows = OrderLine.objects.filter(
        pack__food__code__in=list(foods),
        order__state__in=COMING,
        order__for_on__range=(use_on - timedelta(ORDERED_DAYS_BEFORE), use_on),
    ).select_related("order__supplier", "pack__food")
    return rows.order_by("order__for_on", "order__code", "pack__food__name", "pk")


def _order_row(row: OrderLine, food: FoodWords, difference: int) -> OrderRow:
    size = f"{food.amount(row.pack.milligrams)} {wording.plain(food.name)}"
    packs = f"{wording.counted(row.count, 'pack')} of {size}"
    state = "to be sent" if row.order.state == Order.State.DRAFT else "sent"
    return OrderRow(row.order.code, row.order.supplier.name, state, order_words(packs, food, difference))


def _late(
    needed: Mapping[str, int], words: Mapping[str, FoodWords], there: Mapping[str, int], use_on: date
) -> tuple[LateRow, ...]:
    now, foods = college_now(), _foods(needed)
    found = bought_of(missing_of(needed, there, foods, use_on), now)
    return late_rows(found, words, there, now)


def college_now() -> datetime:
    """Now by the college's clock, as the calendar of suppliers counts. One query."""
    return now_at(the_college()).replace(tzinfo=None)


def missing_of(
    needed: Mapping[str, int], there: Mapping[str, int], foods: Mapping[str, Food], use_on: date
) -> list[Missing]:
    """What of a need is not in stock."""
    return [
        Missing(code, milligrams - there.get(code, 0), use_on, _keeps_days(foods[code]))
        for code, milligrams in needed.items()
        if milligrams > there.get(code, 0)
    ]


def bought_of(missing: list[Missing], now: datetime) -> tuple[Bought, ...]:
    """Who can still bring what is missing, in the order given. Two queries."""
    codes = dict.fromkeys(each.food for each in missing)
    return bought(missing, packs_data(codes, now.date()), suppliers_data(), now)


def _foods(codes: Iterable[str]) -> dict[str, Food]:
    rows = Food.objects.filter(code__in=set(codes)).select_related("keeping").order_by("name")
    return {food.code: food for food in rows}


def _keeps_days(food: Food) -> int:
    row: Keeping | None = getattr(food, "keeping", None)
    return Keeps(food.storage, delivered_days=row.delivered_days if row else None).days


@dataclass(frozen=True, slots=True)
class WaitingRow:
    """A requisition that waits for the stores: until when something must be ordered, what is too late."""

    requisition: Requisition
    send_by: datetime | None
    send_by_words: str
    late: tuple[LateRow, ...]

    @property
    def lesson(self) -> Lesson:
        """Whose it is."""
        return self.requisition.lesson


def waiting_rows(now: datetime, today: date) -> tuple[WaitingRow, ...]:
    """What waits for the stores from today on, the earliest cut-off first. A fixed number of queries."""
    rows = list(
        _with_lines(Requisition.objects.filter(state=State.SUBMITTED, lesson__on__gte=today))
        .exclude(lesson__state=Lesson.State.CANCELLED)
        .select_related("lesson__group", "lesson__lecturer")
    )
    needed = {row.pk: totals(asked_of(row)) for row in rows}
    foods = _foods(code for each in needed.values() for code in each)
    words = {code: food_words(food) for code, food in foods.items()}
    lots = lots_data(foods)
    there = {row.pk: usable(lots, row.lesson) for row in rows}
    missing = {row.pk: missing_of(needed[row.pk], there[row.pk], foods, row.lesson.on) for row in rows}
    found = iter(bought_of([each for listed in missing.values() for each in listed], now))
    made = [
        _waiting_row(row, [next(found) for _ in missing[row.pk]], words, there[row.pk], now) for row in rows
    ]
    return tuple(
        sorted(made, key=lambda each: (each.send_by or datetime.max, each.lesson.on, each.lesson.pk))
    )


def _waiting_row(
    row: Requisition,
    found: list[Bought],
    words: Mapping[str, FoodWords],
    there: Mapping[str, int],
    now: datetime,
) -> WaitingRow:
    until = min((each.send_by for each in found if each.send_by), default=None)
    return WaitingRow(row, until, moment(until) if until else "", late_rows(found, words, there, now))


def _food_rows(
    asked: tuple[Asked, ...], words: Mapping[str, FoodWords], there: Mapping[str, int], on: date
) -> tuple[FoodRow, ...]:
    shares: dict[str, list[Asked]] = defaultdict(list)
    for each in asked:
        shares[each.food].append(each)
    packs = _packs(shares)
    return tuple(
        _food_row(shares[code], words[code], there.get(code, 0), packs.get(code, []), on)
        for code in sorted(shares, key=lambda code: words[code].name)
    )


def sheet_rows(row: Requisition) -> list[tuple[str, str, str]]:
    """Food, amount and what it is for, by name, as the sheet of a requisition prints them."""
    shares: dict[str, list[Asked]] = defaultdict(list)
    words = {line.food.code: food_words(line.food) for line in row.lines.all()}
    for each in asked_of(row):
        shares[each.food].append(each)
    return [
        (
            words[code].name,
            words[code].amount(sum(each.milligrams for each in shares[code])),
            wording.sentence(reason_words(shares[code], words[code])),
        )
        for code in sorted(shares, key=lambda code: words[code].name)
    ]


def _packs(codes: Iterable[str]) -> dict[str, list[PackData]]:
    """What is sold of these foods, with suppliers by name. One query."""
    found: dict[str, list[PackData]] = {}
    for pack in Pack.objects.filter(food__code__in=list(codes)).select_related("food", "supplier"):
        data = PackData(
            pack.food.code, pack.supplier.name, pack.milligrams, pack.pence, pack.from_on, pack.until_on
        )
        found.setdefault(pack.food.code, []).append(data)
    return found


def _food_row(asked: list[Asked], food: FoodWords, there: int, packs: list[PackData], on: date) -> FoodRow:
    milligrams = sum(each.milligrams for each in asked)
    missing = max(0, milligrams - there)
    buy = cheapest(missing, packs, on) if missing else None
    return FoodRow(
        name=food.name,
        amount=food.amount(milligrams),
        why=reason_words(asked, food),
        in_stock=food.amount(there),
        packs=_pack_words(food, buy, missing),
        pence=buy.pence if buy else 0,
    )


def _pack_words(food: FoodWords, buy: Purchase | None, missing: int) -> str:
    """ "3 packs of 1,500 g from Quernstone, 260 g over"."""
    if not missing:
        return ""
    if buy is None:
        return f"{food.amount(missing)} missing, and no pack of it is on any list."
    over = f", {food.amount(buy.over_milligrams)} over" if buy.over_milligrams else ""
    size = food.amount(buy.pack.milligrams)
    return f"{wording.counted(buy.count, 'pack')} of {size} from {buy.pack.supplier}{over}"
