"""The forms of a delivery: beginning it, one line, a decision, the college's own demands."""

import re
from dataclasses import dataclass
from datetime import date

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food, Supplier
from curriculum.look.fields import DayField, WholeNumberField
from curriculum.look.forms import EnamelForm, KeyedForm
from curriculum.look.reading import quoted
from curriculum.wording import temperature
from kitchen.stores.deliveries import queries
from kitchen.stores.deliveries.check import Rule, ruling
from kitchen.stores.deliveries.entries import LineEntry
from kitchen.stores.deliveries.models import Delivery
from kitchen.stores.lots.forms import KIND_CHOICES
from kitchen.stores.lots.managers import label_of
from kitchen.stores.made.bowls import Label
from kitchen.stores.models import Lot
from kitchen.stores.moves.queries import foods_kept
from kitchen.stores.orders.models import OrderLine

CELSIUS = re.compile(r"^([-\u2212]?)(\d{1,2})(?:[.,](\d))?(?: ?°?C)?$", re.I)
NOT_READ, AS_BOOK, OTHERWISE, NOTHING = "not_read", "as_book", "otherwise", "nothing"


class CelsiusField(forms.Field):
    """A temperature with at most one decimal, kept in tenths of a degree."""

    unit = "°C"

    def __init__(self, **more: object) -> None:
        more.setdefault("widget", forms.TextInput(attrs={"class": "short", "autocomplete": "off"}))
        super().__init__(**more)

    def prepare_value(self, value: object) -> object:
        """Tenths as they are written; what was typed stays as it was typed."""
        return temperature(value).removesuffix("°C").strip() if isinstance(value, int) else value

    def to_python(self, value: object) -> int | None:
        """Tenths of a degree, or None when nothing was written."""
        words = " ".join(str(value or "").split())
        if not words:
            return None
        match = CELSIUS.match(words)
        if match is None:
            raise ValidationError(f"You wrote {quoted(words)}. Write a temperature such as 4.5 or -18.")
        tenths = int(match[2]) * 10 + int(match[3] or 0)
        return -tenths if match[1] else tenths


class ScanForm(EnamelForm):
    """The scan box: a scanner types into it and ends with Enter."""

    scan = forms.CharField(
        max_length=1000,
        required=False,
        label="Scan or type the code of a pack",
        help_text="The figures under the bars do as well.",
        widget=forms.TextInput(attrs={"autocomplete": "off", "spellcheck": "false"}),
    )

    @classmethod
    def ready(cls) -> "ScanForm":
        """The box that the next scan goes into when the page opens."""
        form = cls()
        form.fields["scan"].widget.attrs["autofocus"] = True
        return form


class OrderCodeForm(EnamelForm):
    """The code on our own order, scanned or typed: it begins the check of that order."""

    scan = forms.CharField(
        max_length=40,
        required=False,
        label="Scan or type the code on our order",
        widget=forms.TextInput(attrs={"autocomplete": "off", "spellcheck": "false", "class": "short"}),
    )


class BeginForm(KeyedForm):
    """Begin a check: for an order that was sent, or for what a supplier brings without one."""

    not_done = "The check is not begun yet."
    submit_words = "Begin the check"
    leave_words = "Leave without beginning"
    order = forms.ModelChoiceField(
        queries.orders_to_check(), required=False, empty_label="Without an order", label="Order"
    )
    supplier = forms.ModelChoiceField(
        Supplier.objects.order_by("name"),
        required=False,
        empty_label="As the order says",
        label="Supplier",
        help_text="Only when there is no order.",
    )
    note_number = forms.CharField(max_length=40, required=False, label="Number of the delivery note")
    on = DayField(label="Delivered on")

    def __init__(self, *args: object, **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["order"].label_from_instance = lambda row: (
            f"{row.supplier.name}, {row.code}, for {row.for_on.day} {row.for_on:%b}"
        )

    def clean(self) -> dict:
        """An order has its supplier; without one it is said who brings it."""
        cleaned = super().clean()
        order, supplier = cleaned.get("order"), cleaned.get("supplier")
        if order is None and supplier is None and not self.errors:
            self.add_error("supplier", "Nothing is chosen. Choose an order, or who brings it.")
        if order and supplier and order.supplier_id != supplier.pk:
            self.add_error("supplier", f"The order is from {order.supplier.name}. Take one of the two away.")
        return cleaned


class LabelFields(KeyedForm):
    """Kinds that a label names, contained or perhaps; what is contained is not listed again."""

    contains = forms.MultipleChoiceField(
        choices=KIND_CHOICES, required=False, widget=forms.CheckboxSelectMultiple, label="Contains"
    )
    may_contain = forms.MultipleChoiceField(
        choices=KIND_CHOICES, required=False, widget=forms.CheckboxSelectMultiple, label="May contain"
    )

    def ticked(self) -> Label:
        """The label as it was ticked."""
        contains = tuple(self.cleaned_data["contains"])
        return Label(contains, tuple(k for k in self.cleaned_data["may_contain"] if k not in contains))


class LineForm(LabelFields):
    """One line at the door. Two buttons send it: taken in, or rejected."""

    not_done = "The line is not written down yet."
    pack = forms.ModelChoiceField(
        queryset=None, required=False, empty_label="None of these packs", label="Pack that came"
    )
    food = forms.ModelChoiceField(
        foods_kept(),
        required=False,
        empty_label="As the pack says",
        label="Food it is taken in as",
        help_text="When it is none of the packs, or stands in for another food.",
    )
    substitute = forms.BooleanField(required=False, label="It is not what was ordered")
    count = WholeNumberField(least=1, most=10_000, such_as=4, label="How many packs")
    grams = WholeNumberField(
        least=1,
        most=10_000_000,
        such_as=4850,
        unit="g",
        required=False,
        label="Weight of all of it",
        help_text="When it was weighed, or is no pack of the book.",
    )
    celsius = CelsiusField(required=False, label="Temperature between two packs")
    date_kind = forms.ChoiceField(choices=Lot.DateKind.choices, label="The date on it is a")
    dated_on = DayField(required=False, label="That date")
    short_date_why = forms.CharField(
        max_length=200,
        required=False,
        label="Why it is taken in with that date",
        help_text="Only when its date is short or comes before a lesson it is for.",
    )
    batch = forms.CharField(max_length=40, required=False, label="Supplier’s batch")
    code = forms.RegexField(
        r"^[A-Za-z0-9-]{2,20}$",
        required=False,
        label="Our lot",
        help_text="Empty: a new code is drawn.",
        error_messages={"invalid": "Write letters, figures and dashes, 2 to 20 of them, such as MP-0741."},
    )
    reserved_free_from = forms.BooleanField(required=False, label="Kept unopened for free-from kits")
    label = forms.ChoiceField(
        choices=(
            (NOT_READ, "not read yet; it waits for that"),
            (AS_BOOK, "read: it names what the book names"),
            (OTHERWISE, "read: it names what is ticked below"),
            (NOTHING, "read: it names none of the declarable kinds"),
        ),
        initial=NOT_READ,
        widget=forms.RadioSelect,
        label="The label of this pack",
    )
    why = forms.CharField(
        max_length=200, required=False, label="Why it is rejected, or what came in place of what was ordered"
    )
    taken = forms.ChoiceField(choices=(("yes", "yes"), ("no", "no")), widget=forms.HiddenInput)
    gtin = forms.RegexField(r"^[0-9]{14}$", required=False, widget=forms.HiddenInput)
    seen = forms.IntegerField(min_value=0, max_value=100_000, widget=forms.HiddenInput)

    def __init__(
        self, *args: object, delivery: Delivery, order_line: OrderLine | None, **more: object
    ) -> None:
        self.order_line = order_line
        super().__init__(*args, **more)
        self.fields["pack"].queryset = queries.packs_of(delivery, order_line)
        self.fields["pack"].label_from_instance = queries.pack_words

    def clean(self) -> dict:
        """What it is, how much it is and its date must be plain; a refusal lies with the action."""
        cleaned = super().clean()
        pack, food = cleaned.get("pack"), cleaned.get("food")
        if pack is None and food is None and not {"pack", "food"} & set(self.errors):
            self.add_error("pack", "Nothing is chosen. Choose the pack, or the food it is taken in as.")
        if pack is None and not cleaned.get("grams") and "grams" not in self.errors:
            self.add_error(
                "grams", "This is empty. Write what all of it weighs; no pack of the book says it."
            )
        none = cleaned.get("date_kind") == Lot.DateKind.NONE
        if none and cleaned.get("dated_on"):
            self.add_error("dated_on", "Say which kind of date it is, or leave this empty.")
        if not none and not cleaned.get("dated_on") and "dated_on" not in self.errors:
            self.add_error("dated_on", "This is empty. Write the date, such as 5 Mar 2027.")
        self._label_said(cleaned)
        return cleaned

    def _label_said(self, cleaned: dict) -> None:
        ticked, label = cleaned.get("contains") or cleaned.get("may_contain"), cleaned.get("label")
        food = cleaned.get("food") or (cleaned["pack"].food if cleaned.get("pack") else None)
        if ticked and label != OTHERWISE:
            self.add_error(
                "label", "Kinds are ticked below. Say that they were read, or take the ticks away."
            )
        elif label == OTHERWISE and not ticked:
            self.add_error("label", "Nothing is ticked below. Tick what the label names.")
        elif label == AS_BOOK and food is not None and food.label_read_on is None:
            self.add_error("label", "Nobody has read a label of this food yet. Tick below what it names.")

    @property
    def food_taken(self) -> Food:
        """The food that the line is taken in as."""
        return self.cleaned_data["food"] or self.cleaned_data["pack"].food

    def entry(self) -> LineEntry:
        """The line as the action takes it."""
        said = self.cleaned_data
        pack, food, line = said["pack"], self.food_taken, self.order_line
        book = label_of(food) if said["label"] == AS_BOOK else self.ticked()
        other = line is not None and (
            food.pk != line.pack.food_id or (pack is not None and pack.pk != line.pack_id)
        )
        return LineEntry(
            food=food.code,
            count=said["count"],
            milligrams=said["grams"] * 1000 if said["grams"] else said["count"] * pack.milligrams,
            taken=said["taken"] == "yes",
            substitute=said["substitute"] or other,
            why=said["why"],
            order_line=line.pk if line else None,
            pack=pack.pk if pack else None,
            decicelsius=said["celsius"],
            batch=said["batch"],
            date_kind=said["date_kind"],
            dated_on=said["dated_on"],
            short_date_why=said["short_date_why"],
            label_read=said["label"] != NOT_READ,
            contains=book.contains,
            may_contain=book.may_contain,
            lot_code=said["code"],
            reserved_free_from=said["reserved_free_from"],
            gtin=said["gtin"],
            seen=said["seen"],
        )


@dataclass(frozen=True, slots=True)
class LinePage:
    """One line's page: the form, the line of the order that it answers, what a scan said, what rules."""

    form: LineForm
    order_line: OrderLine | None
    scanned: queries.Scanned | None
    rulings: tuple[tuple[str, str, str], ...]


def line_page(
    delivery: Delivery, asked: OrderLine | None, scan: str, today: date, typed: QueryDict | None
) -> LinePage:
    """The form of one line, filled from a scan or from the order, or with what was typed."""
    found = queries.scanned(delivery, scan, today.year) if scan else None
    line = found.order_line if found and found.order_line else asked
    first = {"date_kind": Lot.DateKind.NONE, "seen": delivery.lines.count()}
    if line is not None:
        first |= {"pack": line.pack_id, "count": line.count}
    form = LineForm(
        typed, initial=first | (found.filled if found else {}), delivery=delivery, order_line=line
    )
    food = line.pack.food if line else found.pack.food if found and found.pack else None
    rulings = tuple(
        (Food.Storage(storage).label, ruled.words, ruled.source)
        for storage, rule in queries.rules().items()
        if (ruled := ruling(storage, rule)) and storage == (food.storage if food else storage)
    )
    return LinePage(form, line, found, rulings)


def refuse_line(page: LinePage, delivery: Delivery, error: RuleBroken) -> None:
    """Show a refusal with what was typed; who was told of other lines has seen them now."""
    page.form.refuse(error)
    if error.code == "checked_meanwhile":
        page.form.data = page.form.data.copy()
        page.form.data["seen"] = str(delivery.lines.count())


class WaitingLabelForm(LabelFields):
    """Read the label of a substitute that waits."""

    not_done = "The label is not written down yet."
    submit_words = "I have read this label"
    none_named = forms.BooleanField(required=False, label="The label names none of these")

    def clean(self) -> dict:
        """A label that names nothing is said to name nothing."""
        cleaned = super().clean()
        ticked = cleaned.get("contains") or cleaned.get("may_contain")
        if bool(ticked) == bool(cleaned.get("none_named")):
            raise ValidationError("Tick what the label names, or that it names none of these.")
        return cleaned


class DecideForm(KeyedForm):
    """What becomes of a substitute: taken in for the lessons that are ticked, or sent back."""

    not_done = "Nothing is decided yet."
    lessons = forms.MultipleChoiceField(
        required=False, widget=forms.CheckboxSelectMultiple, label="It may be used in"
    )
    what = forms.ChoiceField(
        choices=(("accept", "accept"), ("send_back", "send back")), widget=forms.HiddenInput
    )
    why = forms.CharField(max_length=80, required=False, label="Why it goes back")

    def __init__(self, *args: object, lessons: dict[str, str], **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["lessons"].choices = list(lessons.items())

    def clean(self) -> dict:
        """What goes back has its reason, as what is rejected has."""
        cleaned = super().clean()
        if cleaned.get("what") == "send_back" and not cleaned.get("why"):
            self.add_error("why", "This is empty. Write why it goes back.")
        return cleaned


class RuleForm(EnamelForm):
    """What the college itself demands of one storage class."""

    not_done = "The rule is not kept yet."
    submit_words = "Keep this rule"
    storage = forms.ChoiceField(choices=Food.Storage.choices, label="Food that is kept")
    warmest = CelsiusField(
        required=False,
        label="Arrives at this or colder",
        help_text="Counts where it is stricter than the limit.",
    )
    least_days = WholeNumberField(
        most=365, such_as=3, required=False, unit="days", label="Days left at least"
    )

    def rule(self) -> Rule:
        """The rule as the action takes it."""
        return Rule(self.cleaned_data["warmest"], self.cleaned_data["least_days"])
