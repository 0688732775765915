"""What the delivery check reads: the order against what came, the college's demands, what a scan means."""

from dataclasses import dataclass, field
from datetime import date

from django.core.paginator import Page, Paginator
from django.db.models import Q, QuerySet

from curriculum import wording
from curriculum.foods.models import Food, Pack
from kitchen.stores.barcodes import Element, read
from kitchen.stores.barcodes import Reading as Scan
from kitchen.stores.deliveries.check import Rule, Tally, advice, ruling
from kitchen.stores.deliveries.labels import kinds_beyond
from kitchen.stores.deliveries.models import Delivery, DeliveryLine, DeliveryRule
from kitchen.stores.lots.managers import label_of
from kitchen.stores.made.bowls import Label
from kitchen.stores.orders.models import Order, OrderLine

Verdict = DeliveryLine.Verdict
SHAPES = {
    Verdict.TAKEN: "done",
    Verdict.REJECTED: "stopped",
    Verdict.WAITING: "cannot",
    Verdict.SENT_BACK: "stopped",
}
#: Identifiers whose value stands in the form: number, batch, dates, counts, net weights.
FILLED = frozenset(("01", "02", "03", "10", "15", "17", "37", "310", "320"))
#: How many closed deliveries one page of the list shows (our own choice, no source).
SHOWN_CLOSED = 20


@dataclass(frozen=True, slots=True)
class OrderRow:
    """One line of the order against what came."""

    line: OrderLine
    ordered: str
    tally: Tally


@dataclass(frozen=True, slots=True)
class CheckedRow:
    """One checked line in words."""

    line: DeliveryLine
    amount: str
    date: str
    reading: str
    shape: str
    unread: bool


@dataclass(frozen=True, slots=True)
class DeliveryPage:
    """A delivery whole: the order's lines, what was checked, what waits for a decision."""

    delivery: Delivery
    ordered: tuple[OrderRow, ...]
    checked: tuple[CheckedRow, ...]

    @property
    def waiting(self) -> tuple[CheckedRow, ...]:
        """Lines that wait for a decision."""
        return tuple(row for row in self.checked if row.line.verdict == Verdict.WAITING)

    @property
    def to_check(self) -> int:
        """Lines of the order of which something was not looked at yet."""
        return sum(row.tally.to_come > 0 for row in self.ordered)

    @property
    def to_come(self) -> int:
        """Lines of the order of which something has not come."""
        return sum(row.tally.short > 0 for row in self.ordered)


@dataclass(frozen=True, slots=True)
class Scanned:
    """What a scan means here: the pack, the line of the order, what the form is filled with, and words."""

    scan: Scan
    pack: Pack | None = None
    order_line: OrderLine | None = None
    filled: dict[str, object] = field(default_factory=dict)
    said: tuple[str, ...] = ()
    refused: tuple[str, ...] = ()


def deliveries_page(page: str | None) -> tuple[list[Order], list[Delivery], Page]:
    """Orders sent that no open check is for, open checks, one page of closed ones. Four queries."""
    begun = Delivery.objects.filter(closed_at=None, order__isnull=False).values("order")
    waiting = Order.objects.filter(state=Order.State.SENT).exclude(pk__in=begun).select_related("supplier")
    rows = Delivery.objects.select_related("supplier", "order", "by")
    closed = rows.exclude(closed_at=None).order_by("-closed_at", "-pk")
    return (
        list(waiting.order_by("for_on", "pk")),
        list(rows.filter(closed_at=None).order_by("on", "pk")),
        Paginator(closed, SHOWN_CLOSED).get_page(page),
    )


def orders_to_check() -> QuerySet[Order]:
    """Orders that were sent: a delivery may be begun for them."""
    return Order.objects.filter(state=Order.State.SENT).select_related("supplier").order_by("for_on", "pk")


def order_coded(code: str) -> Order | None:
    """The order that was sent with this code on its paper, or None."""
    return orders_to_check().filter(code=code).first()


def delivery_page(delivery: Delivery, today: date) -> DeliveryPage:
    """A delivery whole. Three queries at most."""
    lines = list(lines_of(delivery))
    asked = delivery.order.lines.select_related("pack__food").order_by("pk") if delivery.order_id else ()
    earlier = list(_earlier(delivery)) if delivery.order_id else []
    return DeliveryPage(
        delivery,
        tuple(_order_row(line, [*earlier, *lines]) for line in asked),
        tuple(_checked_row(line, today) for line in lines),
    )


def lines_to_come(delivery: Delivery) -> int:
    """How many lines of the order nobody has looked at whole, over all its deliveries. Three queries."""
    return sum(row.tally.to_come > 0 for row in delivery_page(delivery, delivery.on).ordered)


def lines_of(delivery: Delivery) -> QuerySet[DeliveryLine]:
    """The checked lines with what their page says. One query."""
    return delivery.lines.select_related(
        "food", "pack__food", "lot", "reading", "by", "decided_by", "order_line__pack__food"
    ).order_by("number")


def rules() -> dict[str, Rule]:
    """The college's own demands by storage class. One query."""
    found = {
        row.storage: Rule(row.warmest_decicelsius, row.least_days_left) for row in DeliveryRule.objects.all()
    }
    return {storage: found.get(storage, Rule()) for storage in Food.Storage.values}


def rule_of(storage: str) -> Rule:
    """The college's own demand of one storage class. One query."""
    return rules()[storage]


def more_of(line: DeliveryLine) -> tuple[str, ...]:
    """Kinds that the label of a line names and the book does not: of its food, or of the food ordered."""
    if line.label_read_on is None:
        return ()
    said = Label(tuple(line.label_allergens), tuple(line.label_may_contain))
    ordered = line.order_line.pack.food if line.order_line else line.food
    more = kinds_beyond(said, label_of(line.food))
    if ordered != line.food:
        more += kinds_beyond(said, label_of(ordered))
    return tuple(dict.fromkeys(more))


def pence_of(line: DeliveryLine) -> int:
    """What the line costs: the order's price of the day, or the pack's; nothing without a pack."""
    if line.order_line is not None and line.pack_id in (None, line.order_line.pack_id):
        return line.count * (line.order_line.pence_a_pack or line.order_line.pack.pence)
    return line.count * line.pack.pence if line.pack else 0


def packs_of(delivery: Delivery, asked: OrderLine | None = None) -> QuerySet[Pack]:
    """The packs that the supplier sells on the day of the delivery, and the one that was ordered."""
    standing = Q(until_on=None) | Q(until_on__gte=delivery.on)
    sold = standing & Q(supplier=delivery.supplier_id, from_on__lte=delivery.on)
    rows = Pack.objects.filter(sold | Q(pk=asked.pack_id) if asked else sold)
    return rows.select_related("food").order_by("food__name", "milligrams")


def pack_words(pack: Pack) -> str:
    """ "Unsalted butter, 5 kg", "Egg, 30 pieces"."""
    size = (
        wording.counted(pack.pieces, "piece") if pack.pieces else wording.amount(pack.milligrams, stores=True)
    )
    return f"{pack.food.name}, {size}"


def scanned(delivery: Delivery, words: str, year: int) -> Scanned:
    """What a scan means for this delivery. Three queries at most."""
    scan = read(words, year)
    refused = tuple(
        f"Place {each.at}, {each.text}: {each.why}" if each.text else each.why for each in scan.troubles
    )
    if scan.ours:
        return Scanned(scan, refused=(f"{scan.ours} is a code of ours and stands on no pack.",))
    pack = _pack_of(delivery, scan.gtin)
    line = _line_for(delivery, pack)
    sold = pack is not None and _sold(pack, delivery)
    return Scanned(
        scan, pack, line, _filled(scan, pack, line, sold=sold), (*_said(scan, pack), *scan.doubts), refused
    )


def _pack_of(delivery: Delivery, gtin: str) -> Pack | None:
    """The pack with that number: one that the supplier sells before anybody else's."""
    if not gtin:
        return None
    rows = list(Pack.objects.filter(gtin=gtin).select_related("food", "supplier"))
    rows.sort(key=lambda row: (not _sold(row, delivery), -row.pk))
    return rows[0] if rows else None


def _sold(pack: Pack, delivery: Delivery) -> bool:
    """Whether the supplier of a delivery sells the pack on its day."""
    begun = pack.from_on <= delivery.on and (pack.until_on is None or pack.until_on >= delivery.on)
    return begun and pack.supplier_id == delivery.supplier_id


def _line_for(delivery: Delivery, pack: Pack | None) -> OrderLine | None:
    """The line of the order that the pack answers: the same pack, else another pack of the same food."""
    if pack is None or not delivery.order_id:
        return None
    rows = list(
        delivery.order.lines.filter(pack__food=pack.food_id).select_related("pack__food").order_by("pk")
    )
    rows.sort(key=lambda row: row.pack_id != pack.pk)
    return rows[0] if rows else None


def _filled(scan: Scan, pack: Pack | None, line: OrderLine | None, *, sold: bool) -> dict[str, object]:
    """What the form is filled with; another supplier's pack gives its food and weight."""
    filled: dict[str, object] = {"batch": scan.batch, "count": scan.count or 1}
    if scan.use_by or scan.best_before:
        filled["date_kind"] = "use_by" if scan.use_by else "best_before"
        filled["dated_on"] = scan.use_by or scan.best_before
    if scan.milligrams:
        filled["grams"] = -(-scan.milligrams // 1000)
    if pack and sold:
        filled |= {"pack": pack.pk, "substitute": line is not None and line.pack_id != pack.pk}
    elif pack:
        grams = -(-pack.milligrams // 1000) * (scan.count or 1)
        filled = {"grams": grams, "substitute": line is not None} | filled | {"food": pack.food_id}
    elif scan.gtin:
        filled["gtin"] = scan.gtin
    return filled


def _said(scan: Scan, pack: Pack | None) -> list[str]:
    """What was read, one sentence each."""
    said = []
    if scan.gtin:
        known = pack_words(pack) if pack else "no pack of the book has this number yet; choose it once"
        said.append(f"Number {scan.gtin}: {known}.")
    said += [_words(each) for each in scan.elements if each.ai not in FILLED and each.ai[:3] not in FILLED]
    return said


def _words(each: Element) -> str:
    value = each.value if each.amount is None else wording.figure(each.amount, 3)
    return f"{each.title[0].upper()}{each.title[1:]}{f' ({each.ai})' if not each.known else ''}: {value}."


def _order_row(line: OrderLine, lines: list[DeliveryLine]) -> OrderRow:
    of_it = [each for each in lines if each.order_line_id == line.pk]

    def packs(*verdicts: str) -> int:
        return sum(each.count for each in of_it if each.verdict in verdicts)

    tally = Tally(
        line.count, packs(Verdict.TAKEN), packs(Verdict.REJECTED, Verdict.SENT_BACK), packs(Verdict.WAITING)
    )
    return OrderRow(
        line, f"{line.count} × {pack_words(line.pack).removeprefix(f'{line.pack.food.name}, ')}", tally
    )


def _earlier(delivery: Delivery) -> QuerySet[DeliveryLine]:
    """Lines of the same order that came with another delivery. One query."""
    return DeliveryLine.objects.filter(delivery__order=delivery.order_id).exclude(delivery=delivery)


def _checked_row(line: DeliveryLine, today: date) -> CheckedRow:
    dated = (
        f"{line.get_date_kind_display()} {wording.short_date(line.date, today)}" if line.date else "no date"
    )
    reading = ""
    if line.reading:
        kept = "" if line.reading.verdict == "kept" else ", above the limit"
        reading = f"{wording.temperature(line.reading.decicelsius)}{kept}"
    return CheckedRow(
        line,
        _came(line),
        dated,
        reading,
        SHAPES[line.verdict],
        bool(line.lot and line.lot.label_read_on is None),
    )


def _came(line: DeliveryLine) -> str:
    """The packs that came; with their weight where it is not what the packs say."""
    if line.pack is None:
        return f"{line.count} × {wording.amount(line.milligrams // (line.count or 1), stores=True)}"
    packs = f"{line.count} × {pack_words(line.pack).removeprefix(f'{line.pack.food.name}, ')}"
    over = line.milligrams - line.count * line.pack.milligrams
    if not over:
        return packs
    weighed, off = wording.amount(line.milligrams, stores=True), wording.amount(abs(over), stores=True)
    return f"{packs}, weighed {weighed}: {off} {'more' if over > 0 else 'less'} than the packs say"


def outcome(line: DeliveryLine) -> str:
    """What became of a line, in words."""
    if line.verdict == Verdict.REJECTED:
        return f"{line.food.name} is rejected. It stands with its reason."
    if line.verdict == Verdict.WAITING:
        return f"{line.food.name} waits for a decision. It is in no stock."
    words = [f"{line.food.name} is taken in as lot {line.lot.code}."]
    if line.lot.label_read_on is None:
        words.append("It waits for its label and goes into no kit before that is read.")
    if line.reading is not None:
        words.append(advice(line.food.storage, line.reading.decicelsius))
    return " ".join(filter(None, words))


def rule_rows() -> list[tuple[str, str, str, str]]:
    """For each storage class: its words, what rules the temperature, its source, the days asked for."""
    rows = []
    for storage, rule in rules().items():
        found = ruling(storage, rule)
        days = wording.counted(rule.least_days_left, "day") if rule.least_days_left else "none asked for"
        words = (found.words, found.source) if found else ("Nothing is demanded", "")
        rows.append((Food.Storage(storage).label, *words, days))
    return rows
