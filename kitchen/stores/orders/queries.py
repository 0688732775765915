"""What the pages of the week and of orders read: needs, stock, packs, orders.

Each function takes a fixed number of queries, however many lessons a week has.
"""

from collections import defaultdict
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from django.core.paginator import Page, Paginator
from django.db.models import Exists, F, Min, OuterRef, Prefetch, Q, QuerySet, Sum
from django.db.models.functions import Coalesce
from django.urls import reverse

from curriculum.foods.models import Food, Pack, Supplier
from curriculum.people.queries import now_at, the_college
from kitchen.lessons.models import Lesson
from kitchen.stores.allocation import LotData
from kitchen.stores.models import KitSet, Lot, Requisition, RequisitionLine
from kitchen.stores.orders.calendar import SupplierData
from kitchen.stores.orders.changed import changes, hash_of, inputs_of
from kitchen.stores.orders.closed.queries import Closed, closed_days
from kitchen.stores.orders.coming.queries import fill_weeks, later_needs
from kitchen.stores.orders.kits.queries import issued_of, on_other_trays, still_to_come, takes_reserved
from kitchen.stores.orders.models import Keeping, Order, OrderLine, WeekPlan
from kitchen.stores.orders.page import (
    ChangedRow,
    DropRow,
    FoodWords,
    NeedRow,
    RefusedRow,
    changed_rows,
    drop_rows,
    late_rows,
    need_rows,
    refused_rows,
)
from kitchen.stores.orders.problem import MISSING
from kitchen.stores.orders.proposal import Proposal, propose
from kitchen.stores.orders.todo import Draft, Todo, send_first, then_accept
from kitchen.stores.orders.week import Keeps, Need, Served, Stock, serve, uses_of, wanted, with_par
from kitchen.stores.packs import MICRO, PackData
from kitchen.stores.queries import lot_data, with_labels

WEEK = timedelta(6)
#: So many rows of needs are read at one look; more are folded by storage class (our own choice).
MOST_OPEN = 40
COMING = (Order.State.DRAFT, Order.State.SENT)
LINES = Prefetch(
    "lines", OrderLine.objects.select_related("pack__food").order_by("pack__food__name", "pack__milligrams")
)


@dataclass(frozen=True)
class WeekBasis:
    """Everything that the plan of a week is computed from, as rows and as plain data."""

    monday: date
    now: datetime
    served: tuple[Served, ...]
    stock: tuple[Stock, ...]
    keeps: dict[str, Keeps]
    next_use: dict[str, date]
    foods: dict[str, Food]
    lessons: dict[str, Lesson]
    waiting: tuple[Lesson, ...]
    later: tuple[Served, ...] = ()
    fill_weeks: int = 0


def monday_of(day: date) -> date:
    """The Monday of its week."""
    return day - timedelta(day.weekday())


def weeks_beside(monday: date) -> tuple[str, str]:
    """The week before and the week after, as addresses write them."""
    return (monday - timedelta(7)).isoformat(), (monday + timedelta(7)).isoformat()


def week_basis(monday: date) -> WeekBasis:
    """Needs, stock and orders of a week, served day by day. Twenty-three queries."""
    now = now_at(the_college()).replace(tzinfo=None)
    sunday, today = monday + WEEK, now.date()
    keepings = {row.food.code: row for row in Keeping.objects.select_related("food")}
    rows = list(_approved_lines(min(today, monday), sunday))
    asking = {row.requisition.lesson_id for row in rows}
    issued, reserved = issued_of(asking), takes_reserved(asking)
    left_short = still_to_come(min(today, monday), sunday)
    short = [need for needs in left_short.values() for need in needs]
    foods = {row.food.code: row.food for row in rows} | _foods({need.food for need in short})
    foods |= {code: row.food for code, row in keepings.items() if row.par_milligrams}
    weeks = fill_weeks()
    coming = later_needs(sunday, weeks)
    foods |= _foods({need.food for need in coming} - foods.keys())
    keeps = {code: _keeps(food, keepings.get(code)) for code, food in foods.items()}
    stock = (*_lots(foods, asking | left_short.keys()), *_on_order(foods, keeps, today))
    needs = with_par((*_needs(rows, issued, reserved), *short), keeps, sunday)
    served = serve(needs, stock, coming)
    served, later = served[: len(needs)], served[len(needs) :]
    lessons = list(_lessons(monday, sunday))
    return WeekBasis(
        monday,
        now,
        tuple(each for each in served if each.need.on >= monday),
        stock,
        keeps,
        _next_use(foods, sunday),
        foods,
        {lesson.code: lesson for lesson in lessons},
        tuple(lesson for lesson in lessons if not lesson.approved),
        later,
        weeks,
    )


def _lessons(first: date, last: date) -> QuerySet[Lesson]:
    """The lessons of these days, each with whether its requisition is approved."""
    approved = Requisition.objects.filter(lesson=OuterRef("pk"), state=Requisition.State.APPROVED)
    rows = Lesson.objects.filter(on__range=(first, last)).exclude(state=Lesson.State.CANCELLED)
    return rows.select_related("group").annotate(approved=Exists(approved))


def _approved_lines(first: date, last: date) -> QuerySet[RequisitionLine]:
    """What approved requisitions ask for; of a lesson whose kits have left see ``still_to_come``."""
    issued = KitSet.objects.filter(state=KitSet.State.ACCEPTED, issued_at__isnull=False).values("lesson")
    return (
        RequisitionLine.objects.filter(
            requisition__state=Requisition.State.APPROVED, requisition__lesson__on__range=(first, last)
        )
        .exclude(requisition__lesson__state=Lesson.State.CANCELLED)
        .exclude(requisition__lesson__in=issued)
        .select_related("food", "requisition__lesson")
        .order_by("requisition__lesson__on", "pk")
    )


def _needs(
    rows: list[RequisitionLine], issued: dict[tuple[int, str], int], reserved: set[tuple[int, str]]
) -> tuple[Need, ...]:
    asked: dict[tuple[int, str], int] = defaultdict(int)
    lessons = {}
    for row in rows:
        lessons[row.requisition.lesson_id] = row.requisition.lesson
        asked[row.requisition.lesson_id, row.food.code] += row.milligrams
    return tuple(
        Need(lessons[lesson].code, lessons[lesson].on, food, left, (lesson, food) in reserved)
        for (lesson, food), milligrams in asked.items()
        if (left := milligrams - issued.get((lesson, food), 0)) > 0
    )


def _keeps(food: Food, row: Keeping | None) -> Keeps:
    if row is None:
        return Keeps(food.storage)
    return Keeps(food.storage, row.par_milligrams, row.delivered_days, row.opened_days, row.thawed_days)


def _lots(foods: dict[str, Food], asking: set[int]) -> tuple[Stock, ...]:
    """The lots of these foods, less bowls and what stands on trays of lessons that ask for nothing."""
    rows = list(
        with_labels(Lot.objects.filter(food__code__in=foods, on_hand_milligrams__gt=0, made_in__isnull=True))
    )
    aside = on_other_trays([row.pk for row in rows], asking)
    return tuple(
        Stock(replace(lot, on_hand_milligrams=lot.on_hand_milligrams - aside.get(row.pk, 0)))
        for row in rows
        for lot in (lot_data(row),)
    )


def _on_order(foods: dict[str, Food], keeps: dict[str, Keeps], today: date) -> tuple[Stock, ...]:
    """What is written down to be ordered or was sent, as lots that come in on their day.

    What the delivery check has looked at comes no more: taken in it is a lot, rejected it went back.
    """
    looked_at = Sum("delivered__count", filter=~Q(delivered__verdict="waiting"))
    rows = (
        OrderLine.objects.filter(
            order__state__in=COMING, order__for_on__gte=today, pack__food__code__in=foods
        )
        .annotate(to_come=F("count") - Coalesce(looked_at, 0))
        .filter(to_come__gt=0)
        .select_related("order", "pack__food")
    )
    return tuple(
        Stock(
            LotData(
                code=f"order {row.order.code}, line {row.pk}",
                food=row.pack.food.code,
                on_hand_milligrams=row.to_come * row.pack.milligrams,
                received_on=row.order.for_on,
                date_kind="use_by",
                dated_on=row.order.for_on + timedelta(keeps[row.pack.food.code].days),
            ),
            ordered=True,
        )
        for row in rows
    )


def _next_use(foods: dict[str, Food], sunday: date) -> dict[str, date]:
    """The first day after the week for which a lesson has asked for each food."""
    rows = (
        RequisitionLine.objects.filter(food__code__in=foods, requisition__lesson__on__gt=sunday)
        .exclude(requisition__state__in=(Requisition.State.SUPERSEDED, Requisition.State.WITHDRAWN))
        .exclude(requisition__lesson__state=Lesson.State.CANCELLED)
        .order_by()
    )
    return dict(rows.values_list("food__code").annotate(first=Min("requisition__lesson__on")))


@dataclass(frozen=True)
class WeekPage:
    """The page of a week: what is needed, what is proposed, what was accepted and has changed since."""

    basis: WeekBasis
    needs: tuple[tuple[str, tuple[NeedRow, ...]], ...]
    proposal: Proposal
    drops: tuple[DropRow, ...]
    refused: tuple[RefusedRow, ...]
    too_late: tuple[tuple[str, tuple[str, ...]], ...]
    changed: tuple[ChangedRow, ...]
    plan: WeekPlan | None
    orders: list[Order]
    inputs_hash: str

    @property
    def number(self) -> int:
        """The number of the plan accepted last; none is 0."""
        return self.plan.number if self.plan else 0

    @property
    def fill_weeks(self) -> int:
        """For how many weeks after its own an order may be filled up."""
        return self.basis.fill_weeks

    @property
    def few(self) -> bool:
        """Whether all needs are shown at once; more are opened by storage class."""
        return sum(len(rows) for _, rows in self.needs) <= MOST_OPEN

    @property
    def todo(self) -> tuple[Todo, ...]:
        """What is to be done next, the most urgent first."""
        drafts = [_draft(order) for order in self.orders if order.state == Order.State.DRAFT]
        drops = [(drop.until, len(drop.lines)) for drop in self.drops]
        refused = [(each.supplier, each.short_pence) for each in self.refused]
        late = sum(len(foods) for _, foods in self.too_late)
        rest = then_accept(drops, refused, late, len(self.basis.waiting), self.basis.monday)
        return (*send_first(drafts, self.basis.now), *rest)

    @property
    def gap_pence(self) -> int:
        """What the proposal may cost too much at most, rounded up; 0 also where more might come at all."""
        answer = self.proposal.answer
        gap = answer.micro - answer.bound_micro
        return -(-gap // MICRO) if gap < MISSING else 0


def week_page(monday: date) -> WeekPage:
    """Everything that the page of a week shows. Twenty-six queries at most."""
    basis = week_basis(monday)
    closed = closed_days(basis.now.date() - timedelta(31), monday + timedelta(13))
    suppliers, packs = suppliers_data(closed), packs_data(basis.foods, basis.now.date())
    plan, orders = next(iter(plans_of(monday)), None), orders_of(monday)
    foods = {code: food_words(food) for code, food in basis.foods.items()}
    inputs = inputs_of(basis.served)
    changed = changes(plan.inputs, inputs) if plan else ()
    foods |= _others({each.line[2] for each in changed} - foods.keys())
    titles = {code: lesson.title for code, lesson in basis.lessons.items()}
    paid = [(order.supplier.code, order.for_on) for order in orders]
    lines = [want for each in basis.served for want in wanted([each], basis.keeps, basis.next_use)]
    pooled = wanted(basis.served, basis.keeps, basis.next_use)
    keeps_days = {food: keeps.days for food, keeps in basis.keeps.items()}
    uses = uses_of(basis.later)
    proposal = propose(pooled, lines, packs, suppliers, basis.now, paid, uses, keeps_days)
    return WeekPage(
        basis,
        need_rows(basis.served, basis.stock, foods, titles),
        proposal,
        drop_rows(proposal, foods, suppliers),
        refused_rows(proposal, foods, suppliers),
        late_rows(proposal, foods),
        changed_rows(changed, foods, titles),
        plan,
        orders,
        hash_of(inputs),
    )


def orders_under_way(until: date) -> tuple[list[Draft], list[Order]]:
    """Every draft as a thing to send, and what was sent for a day up to ``until``. One query."""
    rows = Order.objects.filter(state__in=COMING).select_related("supplier").order_by("for_on", "pk")
    drafts = [_draft(row) for row in rows if row.state == Order.State.DRAFT]
    return drafts, [row for row in rows if row.state == Order.State.SENT and row.for_on <= until]


def _draft(order: Order) -> Draft:
    until = supplier_data(order.supplier).send_by(order.for_on)
    return Draft(order.code, order.supplier.name, until, reverse("stores:order", args=[order.code]))


def food_words(food: Food) -> FoodWords:
    """A food as the pages of orders write it."""
    counted = food.counted_in == Food.CountedIn.PIECES
    return FoodWords(food.name, food.storage, (food.piece_milligrams or 0) if counted else 0)


def _foods(codes: set[str]) -> dict[str, Food]:
    return {food.code: food for food in Food.objects.filter(code__in=codes)}


def _others(codes: set[str]) -> dict[str, FoodWords]:
    """Foods that were needed before and are not any more."""
    return {food.code: food_words(food) for food in Food.objects.filter(code__in=codes)} if codes else {}


def packs_data(foods: dict[str, Food], today: date) -> tuple[PackData, ...]:
    """What is sold of these foods from today on. One query."""
    rows = Pack.objects.filter(Q(until_on=None) | Q(until_on__gte=today), food__code__in=foods)
    return tuple(
        PackData(food, supplier, milligrams, pence, from_on, until_on, key)
        for food, supplier, milligrams, pence, from_on, until_on, key in rows.order_by("pk").values_list(
            "food__code", "supplier__code", "milligrams", "pence", "from_on", "until_on", "pk"
        )
    )


def suppliers_data(closed: Closed = ()) -> dict[str, SupplierData]:
    """Who delivers, by code; not on the closed days. One query."""
    return {row.code: supplier_data(row, closed) for row in Supplier.objects.order_by("code")}


def supplier_data(row: Supplier, closed: Closed = ()) -> SupplierData:
    """One supplier, as the calendar needs it."""
    return SupplierData(
        row.code,
        row.name,
        row.lead_days,
        row.cut_off,
        tuple(row.delivery_weekdays),
        row.delivery_pence,
        row.least_order_pence,
        closed,
    )


def plans_of(monday: date) -> list[WeekPlan]:
    """What was accepted for a week, the latest first. One query."""
    return list(WeekPlan.objects.filter(monday=monday).select_related("by").order_by("-number"))


def orders_of(monday: date) -> list[Order]:
    """The orders of a week with their lines, cancelled ones left out. Two queries."""
    rows = Order.objects.filter(plan__monday=monday).exclude(state=Order.State.CANCELLED)
    return list(orders_with_lines(rows).order_by("for_on", "supplier__name", "pk"))


def orders_with_lines(rows: QuerySet[Order]) -> QuerySet[Order]:
    """Orders with everything that their pages show."""
    return rows.select_related(
        "supplier", "plan", "supplements", "by", "sent_by", "ended_by"
    ).prefetch_related(LINES)


#: Orders on one page of the list (our own choice, no source).
A_PAGE = 50


def listed_orders(page: str | None) -> Page:
    """One page of the orders with what they come to, the latest day first. Two queries."""
    rows = Order.objects.select_related("supplier", "plan", "sent_by").annotate(
        pence=Sum(F("lines__count") * F("lines__pence_a_pack"))
    )
    return Paginator(rows.order_by("-for_on", "supplier__name", "-pk"), A_PAGE).get_page(page)


def keeping_rows() -> list[Food]:
    """Every food with how the stores keep it; those somebody has written something of come first."""
    rows = Food.objects.filter(from_tap=False, made_from=None, retired_at=None).select_related("keeping")
    return sorted(rows, key=lambda food: (not hasattr(food, "keeping"), food.name))
