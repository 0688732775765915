"""Weights and figures as people write them, and the form of a new food.

The fields keep what was typed and say what to write; they give whole numbers in the
smallest unit (milligrams, tenths).
"""

import re
from fractions import Fraction

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Fieldset, Layout, Row
from django import forms
from django.core.exceptions import ValidationError
from django.db.models import QuerySet

from curriculum import wording
from curriculum.allergens import GROUPS
from curriculum.foods import measures
from curriculum.foods.entries import FoodEntry
from curriculum.foods.listing import CLASS_WORDS
from curriculum.foods.models import Food
from curriculum.foods.queries import free_food_code
from curriculum.look.forms import EnamelForm, KeyedForm
from curriculum.look.reading import quoted


class WeightField(forms.Field):
    """A weight: "260", "0.5 g", "1.2 kg", "1 lb 3 oz"; a figure alone is grams. Whole milligrams."""

    def __init__(self, *, least: int = 1, **more: object) -> None:
        self.least = least
        more.setdefault("widget", forms.TextInput(attrs={"class": "short", "inputmode": "decimal"}))
        super().__init__(**more)

    def prepare_value(self, value: object) -> object:
        """Milligrams as grams; what was typed stays as it was typed.

        "56.699" could be read as thousands by this very field, so it is shown as "56.6990".
        """
        if not isinstance(value, int):
            return value
        shown = wording.figure(Fraction(value, 1000), 3).replace(",", "")
        return f"{shown}0" if value % 10 else shown

    def to_python(self, value: object) -> int | None:
        """Milligrams, or None when nothing was written."""
        text = str(value or "").strip()
        if not text:
            return None
        try:
            milligrams = _milligrams(text)
        except measures.Unreadable as error:
            raise ValidationError(f"{error} A figure alone is grams.", code="invalid") from error
        if milligrams < self.least:
            raise ValidationError(f"You wrote {quoted(text)}. Write a weight above 0 g.", code="invalid")
        if milligrams > 1_000_000_000:
            raise ValidationError(f"You wrote {quoted(text)}. Write at most 1,000 kg.", code="invalid")
        return milligrams


def _milligrams(text: str) -> int:
    amount = measures.read_amount(text)
    if amount.least != amount.most:
        raise measures.Unreadable(
            f"{quoted(text)} is a range. Write one weight; the range has fields of its own."
        )
    if amount.unit.name == "piece":
        return round(amount.most * 1000)
    if amount.milligrams is None:
        raise measures.Unreadable(f"{quoted(text)} is no weight. Write grams, such as 250.")
    return round(Fraction(amount.milligrams))


class _FigureField(forms.Field):
    """A figure with at most one decimal, kept in tenths; ``sign`` stands behind it."""

    sign, least, most, such_as = "", 0, 0, ""

    def __init__(self, **more: object) -> None:
        self.unit = self.sign
        more.setdefault("widget", forms.TextInput(attrs={"class": "short", "inputmode": "decimal"}))
        super().__init__(**more)

    def prepare_value(self, value: object) -> object:
        """Tenths as a figure; what was typed stays as it was typed."""
        return wording.figure(Fraction(value, 10), 1) if isinstance(value, int) else value

    def to_python(self, value: object) -> int | None:
        """Tenths, or None when nothing was written."""
        text = str(value or "").strip().removesuffix(self.sign).strip()
        if not text:
            return None
        plain = text.replace("\u2212", "-").replace(",", ".")
        if not re.fullmatch(r"-?\d{1,4}(\.\d)?", plain):
            raise ValidationError(f"You wrote {quoted(str(value))}. Write a figure such as {self.such_as}.")
        tenths = int(Fraction(plain) * 10)
        if not self.least <= tenths <= self.most:
            low, high = (wording.figure(Fraction(each, 10), 1) for each in (self.least, self.most))
            raise ValidationError(f"You wrote {quoted(str(value))}. Write a figure from {low} to {high}.")
        return tenths


class DegreesField(_FigureField):
    """Degrees Celsius, in tenths."""

    sign, least, most, such_as = "°C", -400, 3000, "180"


class PerCentField(_FigureField):
    """A share in per cent, kept in per mille."""

    sign, least, most, such_as = "%", 1, 1000, "75"


class LengthField(_FigureField):
    """Centimetres, kept in millimetres.

    At most 80 cm, the long side of a baker's sheet (common practice, no source): a ring of 24 cm
    typed in millimetres is refused, and not made a hundred times larger.
    """

    sign, least, most, such_as = "cm", 1, 800, "24"


class ThicknessField(_FigureField):
    """Millimetres, kept in tenths."""

    sign, least, most, such_as = "mm", 1, 500, "3"


class DensityField(_FigureField):
    """The weight of 100 ml in grams, kept in milligrams a millilitre: 103 g are 1,030 mg a ml."""

    sign, least, most, such_as = "g in 100 ml", 10, 3000, "103"


class FoodFilter(EnamelForm):
    """What the foods are searched by."""

    q = forms.CharField(label="Words", required=False, max_length=200)
    storage = forms.ChoiceField(
        label="Kept", required=False, choices=[("", "anywhere"), *Food.Storage.choices]
    )
    kind = forms.ChoiceField(
        label="Label says",
        required=False,
        choices=[("", "anything"), *((code, words) for code, (words, _) in GROUPS.items())],
    )
    lacks = forms.ChoiceField(
        label="Show",
        required=False,
        choices=[
            ("", "every food"),
            ("label", "no label read"),
            ("price", "no price"),
            ("retired", "retired"),
        ],
    )


#: Figures of the form, each with the field that says where it is from.
SOURCED = (
    ("usable_per_mille", "usable_source"),
    ("density", "density_source"),
    ("piece_milligrams", "piece_source"),
)


class FoodForm(KeyedForm):
    """A food new to the book. What it contains is written down when its label is read."""

    not_done = "Not added yet."
    submit_words = "Add the food"
    leave_words = "Leave without adding"

    name = forms.CharField(
        label="Name", max_length=120, help_text="As the kitchen calls it: soft wheat flour."
    )
    storage = forms.ChoiceField(
        label="Kept", choices=Food.Storage.choices, widget=forms.RadioSelect, initial="ambient"
    )
    counted_in = forms.ChoiceField(
        label="Handed out in", choices=Food.CountedIn.choices, widget=forms.RadioSelect, initial="grams"
    )
    piece_milligrams = WeightField(
        label="One piece weighs", required=False, help_text="As bought. Empty: it is not counted."
    )
    edible_piece_milligrams = WeightField(
        label="Of it is eaten", required=False, help_text="Without shell, stone, peel."
    )
    piece_source = forms.CharField(label="Where these weights are from", required=False, max_length=200)
    usable_per_mille = PerCentField(
        label="Usable share", required=False, help_text="After trimming and peeling. Empty: all of it."
    )
    usable_source = forms.CharField(
        label="Where that figure is from",
        required=False,
        max_length=200,
        help_text="Own test and date, or the table.",
    )
    increment_milligrams = WeightField(
        label="Weighed to", initial=1000, help_text="The step of the scale it goes on: 1, 5 or 0.1."
    )
    rounding = forms.ChoiceField(
        label="Rounded",
        choices=[("up", "up, for bulk"), ("nearest", "to the nearest, for salt, raising agent, gel, spice")],
        widget=forms.RadioSelect,
        initial="up",
    )
    scaling_class = forms.ChoiceField(
        label="In a larger batch", choices=list(CLASS_WORDS.items()), initial="linear"
    )
    dough_part = forms.ChoiceField(
        label="In a dough or a mix it is", choices=Food.DoughPart.choices, required=False
    )
    density = DensityField(
        label="Weight of 100 ml",
        required=False,
        help_text="Empty: volumes of it are not turned into weights.",
    )
    density_source = forms.CharField(label="Where that figure is from", required=False, max_length=200)
    note = forms.CharField(label="Note", required=False, max_length=300)

    def __init__(self, *args: object, **more: object) -> None:
        super().__init__(*args, **more)
        self.helper = FormHelper(self)
        self.helper.layout = Layout(
            *("name", "storage", "key"),
            Fieldset(
                "Pieces", "counted_in", Row("piece_milligrams", "edible_piece_milligrams"), "piece_source"
            ),
            Fieldset("Trim", Row("usable_per_mille", "usable_source")),
            Fieldset("Weighing", "increment_milligrams", "rounding", "scaling_class", "dough_part"),
            Fieldset("Volume", Row("density", "density_source")),
            "note",
        )

    def others(self) -> QuerySet[Food]:
        """The foods that have their names already."""
        return Food.objects.all()

    def clean_name(self) -> str:
        """A name that no food has."""
        name = " ".join(self.cleaned_data["name"].split())
        if self.others().filter(name__iexact=name).exists():
            raise ValidationError(f"{quoted(name)} is in the book already. Write another name.")
        return name

    def clean(self) -> dict:
        """Figures with their sources; a piece that holds what is eaten of it."""
        said = super().clean()
        for figure, source in SOURCED:
            if said.get(figure) and not said.get(source):
                self.add_error(source, "A figure has a source. Write whose it is, or “own estimate”.")
        whole, eaten = said.get("piece_milligrams"), said.get("edible_piece_milligrams")
        if said.get("counted_in") == "pieces" and not whole and "piece_milligrams" not in self.errors:
            self.add_error("piece_milligrams", "What is handed out in pieces has a weight a piece. Write it.")
        if whole and eaten and eaten > whole:
            self.add_error("edible_piece_milligrams", "This is more than the piece weighs. Write less.")
        return said

    def entry(self) -> FoodEntry:
        """The food, with no label read: nothing is known of what it contains."""
        of_form = ("key", "seen", "density")
        said = {name: value for name, value in self.cleaned_data.items() if name not in of_form}
        density = self.cleaned_data["density"]
        said["usable_per_mille"] = said["usable_per_mille"] or 1000
        code = re.sub(r"[^a-z0-9]+", "_", wording.plain(said["name"])).strip("_")[:50]
        return FoodEntry(
            code=free_food_code(code or "food"),
            contains=(),
            may_contain=(),
            facts=(),
            milligrams_per_ml=density,
            **said,
        )
