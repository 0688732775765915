"""The forms of the week and of orders: counts of packs, what was agreed, why it is cancelled, par levels."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from django import forms
from django.core.exceptions import ValidationError
from django.forms import BoundField

from curriculum.errors import RuleBroken
from curriculum.foods.forms import WeightField
from curriculum.foods.models import Food, Pack
from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import KeyedForm
from kitchen.stores.orders.changed import as_it_stands
from kitchen.stores.orders.entries import KeepingEntry, LineEntry, OrderEntry, WeekEntry
from kitchen.stores.orders.models import Order, OrderLine
from kitchen.stores.orders.page import DropRow, PackRow, RefusedRow
from kitchen.stores.orders.queries import WeekPage, food_words
from kitchen.stores.orders.sheet import SheetLine
from kitchen.stores.orders.single.queries import packs_to_add, sheet_line

BOX = re.compile(r"n_(\d{1,12})_(\d{8})_(\d{1,5})(?:_(\d{1,5})_(\d{8})_(\d{8}))?")
MOST_PACKS = 9_999


def _count(label: str, initial: int | None = None) -> WholeNumberField:
    return WholeNumberField(label=label, initial=initial, most=MOST_PACKS, such_as=3)


class WeekForm(KeyedForm):
    """The counts of the proposed packs, and what the page had shown.

    Sent back, its boxes are those that were sent, so that the same form means the same whatever
    the page would propose by now.
    """

    not_done = "Nothing is ordered yet."
    submit_words = "Accept these orders"
    number = forms.IntegerField(widget=forms.HiddenInput, min_value=0)
    seen = forms.CharField(widget=forms.HiddenInput, max_length=64)

    def __init__(self, data: Mapping | None = None, *, page: WeekPage | None = None) -> None:
        self.drops, self.refused = (page.drops, page.refused) if page else ((), ())
        initial = {"number": page.number, "seen": page.inputs_hash} if page else {}
        super().__init__(data, initial=initial)
        rows = {line.box: line for drop in (*self.drops, *self.refused) for line in drop.lines}
        names = [name for name in data if _box(name)] if data is not None else list(rows)
        self.add_fields({name: _count(_label(rows.get(name)), _box(name).proposed) for name in names})

    def with_page(self, page: WeekPage) -> "WeekForm":
        """The same form with the rows it is shown in."""
        self.drops, self.refused = page.drops, page.refused
        for drop in (*page.drops, *page.refused):
            for line in drop.lines:
                if line.box in self.fields:
                    self.fields[line.box].label = _label(line)
        return self

    def rows(self) -> list[tuple[DropRow, list[tuple[PackRow, BoundField]]]]:
        """The proposed orders, each line with its box."""
        return [(drop, self._boxes(drop)) for drop in self.drops]

    def refused_rows(self) -> list[tuple[RefusedRow, list[tuple[PackRow, BoundField]]]]:
        """The orders that cannot be placed, each line with its box."""
        return [(drop, self._boxes(drop)) for drop in self.refused]

    def _boxes(self, drop: DropRow | RefusedRow) -> list[tuple[PackRow, BoundField]]:
        return [(line, self[line.box]) for line in drop.lines if line.box in self.fields]

    def entry(self, monday: date) -> WeekEntry:
        """What is accepted."""
        by_day: dict[date, list[LineEntry]] = {}
        for name in self.fields:
            box = _box(name)
            if box:
                by_day.setdefault(box.on, []).append(box.entry(self.cleaned_data[name] or 0))
        orders = tuple(OrderEntry(on, tuple(lines)) for on, lines in sorted(by_day.items()))
        return WeekEntry(monday, orders, self.cleaned_data["number"], self.cleaned_data["seen"])


@dataclass(frozen=True, slots=True)
class Box:
    """What the name of a box says: pack, day, what was proposed, and what of it fills up for which weeks."""

    pack: int
    on: date
    proposed: int
    fills: int = 0
    fills_from: date | None = None
    fills_until: date | None = None

    def entry(self, count: int) -> LineEntry:
        """The line that is ordered."""
        return LineEntry(self.pack, count, self.proposed, self.fills, self.fills_from, self.fills_until)


def _box(name: str) -> Box | None:
    """What the name of a box says; None for every other name."""
    found = BOX.fullmatch(name)
    if found is None:
        return None
    try:
        box = Box(int(found[1]), _day(found[2]), int(found[3]))
        if found[4] is None:
            return box
        first, last = _day(found[5]), _day(found[6])
        return Box(box.pack, box.on, box.proposed, int(found[4]), first, last) if first <= last else None
    except ValueError:
        return None


def _day(figures: str) -> date:
    return datetime.strptime(figures, "%Y%m%d").date()


def _label(line: PackRow | None) -> str:
    return f"Packs of {line.food}, {line.pack}" if line else "Packs"


class OrderForm(KeyedForm):
    """The counts of a draft order, and one more pack of its supplier."""

    not_done = "The order is not changed yet."
    submit_words = "Keep these counts"
    add_pack = forms.ModelChoiceField(
        Pack.objects.none(), required=False, label="Add a pack", empty_label="None"
    )
    add_count = WholeNumberField(label="How many of it", required=False, most=MOST_PACKS, such_as=3)
    seen = forms.CharField(widget=forms.HiddenInput, max_length=64)

    def __init__(self, data: Mapping | None = None, *, order: Order) -> None:
        self.lines = list(order.lines.all())
        super().__init__(data, initial={"seen": _mark(self.lines)})
        self.fields["add_pack"].queryset = packs_to_add(order)
        self.fields["add_pack"].label_from_instance = _pack_words
        self.add_fields(
            {
                f"n_{line.pack_id}": _count(f"Packs of {_pack_words(line.pack)}", line.count)
                for line in self.lines
            }
        )

    def rows(self) -> list[tuple[SheetLine, BoundField]]:
        """Each line with its box."""
        return [(line, self[f"n_{line.key}"]) for line in map(sheet_line, self.lines)]

    def clean(self) -> dict:
        """A pack is added with its count, and a count with its pack."""
        cleaned = super().clean()
        if cleaned.get("add_pack") and not cleaned.get("add_count") and "add_count" not in self.errors:
            self.add_error("add_count", "Write how many of this pack are ordered.")
        if cleaned.get("add_count") and not cleaned.get("add_pack") and "add_pack" not in self.errors:
            self.add_error("add_pack", "Choose the pack that is added.")
        return cleaned

    def entries(self) -> tuple[LineEntry, ...]:
        """What is ordered now."""
        said = self.cleaned_data
        lines = [LineEntry(line.pack_id, said[f"n_{line.pack_id}"]) for line in self.lines]
        if said["add_pack"]:
            lines.append(LineEntry(said["add_pack"].pk, said["add_count"]))
        return tuple(lines)


def refuse_order(form: OrderForm, order: Order, error: RuleBroken) -> OrderForm:
    """The refusal with what was typed, over the lines as they stand; who was told has seen them now."""
    if error.code != "changed_meanwhile":
        form.refuse(error)
        return form
    lines = list(order.lines.all())
    data = form.data.copy()
    data["seen"] = _mark(lines)
    for line in lines:
        data.setdefault(f"n_{line.pack_id}", str(line.count))
    again = OrderForm(data, order=order)
    again.is_valid()
    again.refuse(error)
    return again


def _mark(lines: Iterable[OrderLine]) -> str:
    return as_it_stands((line.pack_id, line.count) for line in lines)


def _pack_words(pack: Pack) -> str:
    return f"{pack.food.name}, {food_words(pack.food).amount(pack.milligrams)}"


class SentForm(KeyedForm):
    """One button: a person has sent it."""

    not_done = "Not noted as sent yet."
    submit_words = "I have sent this order"
    agreed = forms.CharField(
        max_length=200,
        required=False,
        label="Agreed with the supplier",
        help_text="Only for an order that is late or below their least: with whom, and what.",
    )


class CancelForm(KeyedForm):
    """Cancel an order, with the reason."""

    not_done = "The order still stands."
    submit_words = "Cancel this order"
    why = forms.CharField(max_length=200, label="Why it is cancelled")


class KeepingForm(KeyedForm):
    """The par level of a food, and how many days it keeps; what nobody knows stays empty."""

    not_done = "Not written down yet."
    submit_words = "Write it down"
    leave_words = "Leave without writing"
    par_milligrams = WeightField(
        label="Par level", required=False, help_text="What is always to be in stock. Empty: none."
    )
    delivered_days = WholeNumberField(
        label="Days it keeps after delivery", required=False, most=1000, such_as=5, unit="days"
    )
    opened_days = WholeNumberField(
        label="Days it keeps after opening", required=False, most=1000, such_as=3, unit="days"
    )
    thawed_days = WholeNumberField(
        label="Days it keeps after thawing", required=False, most=1000, such_as=1, unit="days"
    )
    source = forms.CharField(
        max_length=200,
        required=False,
        label="Where these days are from",
        help_text="The words on the label, the college’s own rule, or “common practice, no source”.",
    )

    def __init__(self, data: Mapping | None = None, *, food: Food) -> None:
        row = getattr(food, "keeping", None)
        names = ("delivered_days", "opened_days", "thawed_days", "source")
        initial = {name: getattr(row, name) for name in names} if row else {}
        par = row.par_milligrams if row else 0
        super().__init__(data, initial=initial | {"par_milligrams": par or None})

    def clean(self) -> dict:
        """Days stand with where they are from."""
        cleaned = super().clean()
        days: Iterable = (cleaned.get(name) for name in ("delivered_days", "opened_days", "thawed_days"))
        if any(each is not None for each in days) and not cleaned.get("source", "").strip():
            self.add_error("source", ValidationError("Say where the days are from; a label comes first."))
        return cleaned

    def entry(self) -> KeepingEntry:
        """What was written."""
        said = {name: value for name, value in self.cleaned_data.items() if name != "key"}
        return KeepingEntry(**said | {"par_milligrams": said["par_milligrams"] or 0})
