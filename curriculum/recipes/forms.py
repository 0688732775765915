"""The filters of the book and of the techniques, and the field of weights."""

import re
from fractions import Fraction

from django import forms
from django.core.exceptions import ValidationError

from curriculum import wording
from curriculum.allergens import GROUPS, KINDS, printed
from curriculum.foods import measures
from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import EnamelForm
from curriculum.look.reading import quoted
from curriculum.recipes.models import Version
from curriculum.techniques.models import Level, Technique

ALL_LEVELS = [("", "every level"), *Level.choices]
NOTHING = ("", "nothing in particular")


def allergen_choices() -> list[tuple[str, object]]:
    """Groups, and under the groups of several kinds each kind."""
    single = [(code, words) for code, (words, kinds) in GROUPS.items()]
    kinds = [(kind, printed(kind)) for kind in KINDS if kind not in GROUPS]
    return [NOTHING, ("Groups", single), ("One kind", kinds)]


class BookFilter(EnamelForm):
    """What the book is searched by; every field may stay empty."""

    q = forms.CharField(label="Words", required=False, max_length=200)
    technique = forms.ModelChoiceField(
        label="Technique", queryset=None, required=False, to_field_name="code", empty_label="any technique"
    )
    without = forms.ChoiceField(label="Without", choices=allergen_choices, required=False)
    level = forms.ChoiceField(label="Level", choices=ALL_LEVELS, required=False)

    def __init__(self, *args: object, **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["technique"].queryset = Technique.objects.filter(retired_at=None)

    def asked(self) -> list[str]:
        """What was asked, in words, for the sentence above the list."""
        said = self.cleaned_data
        words = [f"with the words {quoted(said['q'])}"] if said.get("q", "").strip() else []
        if said.get("technique"):
            words.append(f"with {said['technique'].name.lower()}")
        if said.get("without"):
            code = said["without"]
            words.append(f"without {GROUPS[code][0] if code in GROUPS else printed(code)} as an ingredient")
        return [*words, said["level"]] if said.get("level") else words


class TechniqueFilter(EnamelForm):
    """What the techniques are searched by."""

    q = forms.CharField(label="Words", required=False, max_length=200)
    level = forms.ChoiceField(label="Level", choices=ALL_LEVELS, required=False)


class WeightField(forms.Field):
    """A weight: "260", "0.5 g", "1.2 kg", "1 lb 3 oz"; a figure alone is grams. Whole milligrams."""

    def __init__(self, *, least: int = 1, **more: object) -> None:
        self.least = least
        more.setdefault("widget", forms.TextInput(attrs={"class": "short", "inputmode": "decimal"}))
        super().__init__(**more)

    def prepare_value(self, value: object) -> object:
        """Milligrams as grams; what was typed stays as it was typed."""
        return wording.grams(value).replace(",", "") if isinstance(value, int) else value

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
            low, high = wording.figure(Fraction(self.least, 10)), wording.figure(Fraction(self.most, 10))
            raise ValidationError(f"You wrote {quoted(str(value))}. Write a figure from {low} to {high}.")
        return tenths


class DegreesField(_FigureField):
    """Degrees Celsius, in tenths."""

    sign, least, most, such_as = "°C", -400, 3000, "180"


class PerCentField(_FigureField):
    """A share in per cent, kept in per mille."""

    sign, least, most, such_as = "%", 1, 1000, "75"


class LengthField(_FigureField):
    """Centimetres, kept in millimetres."""

    sign, least, most, such_as = "cm", 1, 9999, "24"


class ThicknessField(_FigureField):
    """Millimetres, kept in tenths."""

    sign, least, most, such_as = "mm", 1, 500, "3"


class ScaleForm(EnamelForm):
    """For how many portions the page shows the recipe."""

    portions = WholeNumberField(label="Portions", least=1, most=1000, such_as=16, required=False)


def state_words(version: Version) -> tuple[str, str]:
    """(shape, words) of a version's state."""
    shapes = {"draft": "todo", "checked": "doing", "approved": "done", "withdrawn": "cannot"}
    return shapes[version.state], version.get_state_display()
