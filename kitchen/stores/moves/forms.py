"""The forms of stock outside the kits: waste, count, count in, correct."""

from collections.abc import Mapping
from fractions import Fraction
from itertools import groupby

from django import forms
from django.forms import BoundField

from curriculum.foods.models import Food
from curriculum.foods.rounding import FINEST_STEP_MILLIGRAMS
from curriculum.look.fields import DayField, TenthsField, WholeNumberField
from curriculum.look.forms import KeyedForm
from curriculum.wording import figure
from kitchen.stores.lots.queries import on_hand_words
from kitchen.stores.models import Lot, Movement
from kitchen.stores.moves import reasons
from kitchen.stores.moves.counting import Counted
from kitchen.stores.moves.entries import FoundEntry
from kitchen.stores.moves.listed.queries import choices
from kitchen.stores.moves.queries import (
    GRAM,
    foods_kept,
    lots_to_count,
    milligrams_of,
    piece_of,
    unit_of,
    unit_words,
)
from kitchen.stores.weighout.managers import set_aside

MOST = 1_000_000
CHOOSE = (("", "Choose one"),)
#: The finest step of the scales in the stores (``curriculum.foods.rounding``): 0.1 g.
STEP = Fraction(FINEST_STEP_MILLIGRAMS, GRAM)
STEP_WORDS = f"Grams, in steps of {figure(STEP, 1)} g"


def amount_field(food: Food, *, least: Fraction = STEP, **more: object) -> forms.Field:
    """The box for so much of a food: whole pieces, or grams as the finest scale shows them."""
    if piece_of(food):
        least = 0 if least == 0 else 1
        return WholeNumberField(least=least, most=MOST, such_as=3, unit=unit_words(food), **more)
    more.setdefault("help_text", f"{STEP_WORDS}.")
    return TenthsField(least=least, most=MOST, such_as="2.7", unit=unit_words(food), **more)


class ByFoodForm(KeyedForm):
    """A form whose food decides what its box counts: a part of a piece is refused at the box."""

    def measure(self, cleaned: dict) -> None:
        """Turn the amount into milligrams of the food, where both were read."""
        if isinstance(cleaned.get("food"), Food) and cleaned.get("amount") is not None:
            try:
                cleaned["milligrams"] = milligrams_of(cleaned["amount"], cleaned["food"])
            except ValueError as error:
                self.add_error("amount", str(error))

    def milligrams(self) -> int:
        """How much, in milligrams."""
        return self.cleaned_data["milligrams"]


class ReasonForm(KeyedForm):
    """A reason out of a list, with a note that "something else" must have.

    ``which`` names a list of the college; a form whose list is fixed says ``listed`` instead.
    """

    which = ""
    listed = reasons.WASTE
    reason = forms.ChoiceField(label="Why")
    note = forms.CharField(max_length=150, required=False, label="Note")

    def __init__(self, *args: object, **more: object) -> None:
        super().__init__(*args, **more)
        if self.which:
            self.listed = choices(self.which)
        self.fields["reason"].choices = [*CHOOSE, *self.listed]

    def clean(self) -> dict:
        """Something else is said in words."""
        cleaned = super().clean()
        if reasons.unsaid(cleaned.get("reason", ""), cleaned.get("note", "")) and "note" not in self.errors:
            self.add_error("note", "Something else is chosen. Write in a few words what it was.")
        return cleaned

    def why(self) -> str:
        """The words that the movement keeps."""
        return reasons.words_of(self.listed, self.cleaned_data["reason"], self.cleaned_data["note"])


class WasteForm(ReasonForm):
    """So much of a lot is thrown away."""

    which = "waste"
    not_done = "Nothing is thrown away in the book yet."
    submit_words = "Write it down as waste"
    leave_words = "Leave without waste"
    field_order = ("amount", "reason", "note")

    def __init__(self, *args: object, lot: Lot, reason: str = "", **more: object) -> None:
        self.unit = unit_of(lot.food)
        whole = piece_of(lot.food)
        there = lot.on_hand_milligrams // whole if whole else Fraction(lot.on_hand_milligrams, GRAM)
        self.there_words = on_hand_words(lot.food, lot.on_hand_milligrams)
        super().__init__(*args, initial={"amount": there, "reason": reason}, **more)
        self.add_fields({"amount": amount_field(lot.food, label="How much is thrown away")})
        self.order_fields(self.field_order)

    def milligrams(self) -> int:
        """What is thrown away, in milligrams."""
        return int(self.cleaned_data["amount"] * self.unit)


class FoundForm(ReasonForm, ByFoodForm):
    """Food in the hand that the book lacks is counted in."""

    which = "found"
    not_done = "Nothing is counted in yet."
    submit_words = "Count it in"
    leave_words = "Leave without counting in"
    field_order = ("food", "amount", "reason", "note", "date_kind", "dated_on")
    food = forms.ModelChoiceField(
        foods_kept(), to_field_name="code", empty_label="Choose a food", label="Food"
    )
    amount = TenthsField(
        most=MOST, label="How much", help_text=f"{STEP_WORDS}; whole pieces for eggs and whole fruit."
    )
    date_kind = forms.ChoiceField(
        choices=Lot.DateKind.choices, initial=Lot.DateKind.NONE, label="The date on it is a"
    )
    dated_on = DayField(required=False, label="That date")

    def clean(self) -> dict:
        """The kind of date and the date go together."""
        cleaned = super().clean()
        none = cleaned.get("date_kind") == Lot.DateKind.NONE
        if none and cleaned.get("dated_on"):
            self.add_error("dated_on", "A date is written. Say which date it is, or leave this empty.")
        if not none and not cleaned.get("dated_on") and "dated_on" not in self.errors:
            self.add_error("dated_on", "This is empty. Write the date, such as 5 Mar 2027.")
        self.measure(cleaned)
        return cleaned

    def entry(self) -> FoundEntry:
        """What is counted in, as the action takes it."""
        said = self.cleaned_data
        return FoundEntry(
            said["food"].code, self.milligrams(), self.why(), said["date_kind"], said["dated_on"]
        )


class CorrectForm(KeyedForm):
    """What a movement should have been."""

    not_done = "Nothing is corrected yet."
    submit_words = "Write the correction"
    leave_words = "Leave it as it is"

    def __init__(self, *args: object, movement: Movement, **more: object) -> None:
        super().__init__(*args, **more)
        food = movement.lot.food
        self.unit = unit_of(food)
        told = "" if piece_of(food) else f"{STEP_WORDS}. "
        amount = amount_field(
            food,
            least=Fraction(0),
            label="What it really was",
            help_text=f"{told}0 when nothing moved at all.",
        )
        why = forms.CharField(max_length=150, label="Why it is corrected")
        self.add_fields({"amount": amount, "why": why})

    def milligrams(self) -> int:
        """What it really was, in milligrams, without its sign."""
        return int(self.cleaned_data["amount"] * self.unit)


class CountForm(KeyedForm):
    """What lies there, lot by lot; an empty box is a lot that nobody counted.

    ``seen`` says which lots the page showed, how many movements each had, and how many milligrams
    of it stood weighed on trays.
    """

    not_done = "The count is not in the book yet."
    submit_words = "Write the count down"
    seen = forms.CharField(widget=forms.HiddenInput, max_length=100_000)

    def __init__(self, data: Mapping | None = None) -> None:
        shown = _seen(data.get("seen", "")) if data is not None else None
        self.lots = lots_to_count(shown)
        weighed = set_aside(lot.pk for lot in self.lots) if shown is None else {}
        self.shown = shown or {lot.pk: (lot.moves, weighed.get(lot.pk, 0)) for lot in self.lots}
        told = " ".join(f"{key}:{moves}:{trays}" for key, (moves, trays) in self.shown.items())
        super().__init__(data, initial={"seen": told})
        self.reasons = choices("difference")
        fields: dict[str, forms.Field] = {}
        for lot in self.lots:
            name = f"{lot.food.name}, lot {lot.code}"
            box = {"least": Fraction(0), "required": False, "help_text": ""}
            fields[f"n_{lot.pk}"] = amount_field(lot.food, label=f"Counted: {name}", **box)
            fields[f"why_{lot.pk}"] = forms.ChoiceField(
                choices=(("", "No reason"), *self.reasons), required=False, label=f"Why: {name}"
            )
        self.add_fields(fields)

    def clean(self) -> dict:
        """At least one lot is counted."""
        cleaned = super().clean()
        if not self.errors and not self.counts():
            raise forms.ValidationError("No lot is counted. Write what lies there beside one lot at least.")
        return cleaned

    def rows(self) -> list[tuple[str, list[tuple[Lot, str, str, BoundField, BoundField]]]]:
        """By storage: each lot, what the book says, what of it is on trays, and its two boxes."""
        told = [
            (
                lot,
                on_hand_words(lot.food, lot.on_hand_milligrams),
                on_hand_words(lot.food, trays) if (trays := self.shown[lot.pk][1]) else "",
                self[f"n_{lot.pk}"],
                self[f"why_{lot.pk}"],
            )
            for lot in self.lots
        ]
        groups = groupby(told, key=lambda row: row[0].food.get_storage_display())
        return [(storage, list(rows)) for storage, rows in groups]

    def counts(self) -> list[Counted]:
        """The lots that somebody counted."""
        said, why = self.cleaned_data, dict(self.reasons)
        return [
            Counted(
                lot.code,
                int(said[f"n_{lot.pk}"] * unit_of(lot.food)),
                self.shown[lot.pk][0],
                why.get(said[f"why_{lot.pk}"], ""),
                said[f"why_{lot.pk}"] or None,
                self.shown[lot.pk][1],
            )
            for lot in self.lots
            if said.get(f"n_{lot.pk}") is not None
        ]


def _seen(told: str) -> dict[int, tuple[int, int]]:
    """Which lots a page had shown, with movements and what stood on trays; all else is left out."""
    rows = (each.split(":") for each in told.split()[:5000])
    return {
        int(row[0]): (int(row[1]), int(row[2]))
        for row in rows
        if len(row) == 3 and all(each.isascii() and each.isdigit() and len(each) < 16 for each in row)
    }
