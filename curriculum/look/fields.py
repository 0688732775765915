"""Form fields that keep what was typed and say what to write: a day, a time, a whole number.

They are text boxes on purpose: the browser's own number and date boxes throw away
what they cannot read before anybody sees it.
"""

from datetime import date, time
from fractions import Fraction

from django import forms
from django.core.exceptions import ValidationError

from curriculum.look.reading import (
    clock_from,
    day_from,
    minutes_from,
    pence_from,
    tenths_from,
    whole_number_from,
)
from curriculum.wording import figure


class WholeNumberField(forms.Field):
    """A whole number within bounds; ``unit`` stands behind the box."""

    def __init__(
        self, *, least: int = 0, most: int = 10_000, such_as: int = 12, unit: str = "", **more: object
    ) -> None:
        self.least, self.most, self.such_as, self.unit = least, most, such_as, unit
        more.setdefault("widget", forms.TextInput(attrs={"inputmode": "numeric", "class": "short"}))
        super().__init__(**more)

    def to_python(self, value: object) -> int | None:
        """The number, or None when nothing was written."""
        if value is None or str(value).strip() == "":
            return None
        return _read(
            str(value),
            lambda words: whole_number_from(words, least=self.least, most=self.most, such_as=self.such_as),
        )


class TenthsField(forms.Field):
    """A number down to a tenth, as a fine scale shows it; ``unit`` stands behind the box. A Fraction.

    "2.7" and "2,7" are the same. What counts in pieces is told to be whole by the form that knows the food.
    """

    def __init__(
        self,
        *,
        least: Fraction = Fraction(1, 10),
        most: int = 10_000,
        such_as: str = "2.7",
        unit: str = "",
        **more: object,
    ) -> None:
        self.least, self.most, self.such_as, self.unit = Fraction(least), most, such_as, unit
        more.setdefault("widget", forms.TextInput(attrs={"inputmode": "decimal", "class": "short"}))
        super().__init__(**more)

    def prepare_value(self, value: object) -> object:
        """A number as it is written; what was typed stays as it was typed."""
        return figure(value, 1).replace(",", "") if isinstance(value, int | Fraction) else value

    def to_python(self, value: object) -> Fraction | None:
        """The number, or None when nothing was written."""
        if isinstance(value, int | Fraction):
            return Fraction(value)
        if value is None or str(value).strip() == "":
            return None
        return _read(
            str(value),
            lambda words: tenths_from(words, least=self.least, most=self.most, such_as=self.such_as),
        )


class _ReadField(forms.Field):
    """A short box whose words are read into a whole number; ``unit`` stands behind it."""

    unit = ""
    reader = staticmethod(minutes_from)

    def __init__(self, **more: object) -> None:
        more.setdefault("widget", forms.TextInput(attrs={"class": "short", "autocomplete": "off"}))
        super().__init__(**more)

    def to_python(self, value: object) -> int | None:
        """The number, or None when nothing was written."""
        return _read(str(value), self.reader) if value and str(value).strip() else None


class MinutesField(_ReadField):
    """Minutes, written "90" or "1 h 30"."""

    unit = "min"


class PenceField(_ReadField):
    """Pence, written "90" or "£2.50"."""

    unit = "p"
    reader = staticmethod(pence_from)


class DayField(forms.Field):
    """A day, written "16 Feb 2027" or in figures."""

    def __init__(self, **more: object) -> None:
        more.setdefault("widget", forms.TextInput(attrs={"class": "short", "autocomplete": "off"}))
        more.setdefault("help_text", "Such as 16 Feb 2027.")
        super().__init__(**more)

    def prepare_value(self, value: object) -> object:
        """A date as it is written; what was typed stays as it was typed."""
        return f"{value.day} {value:%b %Y}" if isinstance(value, date) else value

    def to_python(self, value: object) -> date | None:
        """The day, or None when nothing was written."""
        if isinstance(value, date):
            return value
        return _read(str(value), day_from) if value and str(value).strip() else None


class ClockField(forms.Field):
    """A time of day on the 24-hour clock."""

    def __init__(self, **more: object) -> None:
        more.setdefault("widget", forms.TextInput(attrs={"class": "short", "inputmode": "text"}))
        super().__init__(**more)

    def prepare_value(self, value: object) -> object:
        """A time as it is written; what was typed stays as it was typed."""
        return f"{value:%H:%M}" if isinstance(value, time) else value

    def to_python(self, value: object) -> time | None:
        """The time, or None when nothing was written."""
        if isinstance(value, time):
            return value
        return _read(str(value), clock_from) if value and str(value).strip() else None


def _read(words: str, reader: object) -> object:
    try:
        return reader(words)
    except ValueError as error:
        raise ValidationError(str(error), code="invalid") from error
