"""The span of days of which waste is added up."""

from collections.abc import Mapping
from datetime import date, timedelta

from django import forms

from curriculum.look.fields import DayField
from curriculum.look.forms import EnamelForm

#: Without days written, four weeks are shown; a span is at most two years (our own figures, no source).
DAYS, MOST_DAYS = 28, 731


class SpanForm(EnamelForm):
    """From a day to a day, both counted."""

    not_done = "Nothing is added up."
    first = DayField(label="From")
    last = DayField(label="Until")

    def __init__(self, data: Mapping | None, today: date) -> None:
        self.today = today
        super().__init__(data, initial={"first": today - timedelta(DAYS - 1), "last": today})

    def clean(self) -> dict:
        """The last day is not before the first, and the span is not too long."""
        said = super().clean()
        first, last = said.get("first"), said.get("last")
        if first and last and last < first:
            self.add_error("last", "This day lies before the first. Write the same day or a later one.")
        if first and last and (last - first).days >= MOST_DAYS:
            raise forms.ValidationError("These are more than two years. Write fewer days.")
        return said

    def span(self) -> tuple[date, date] | None:
        """The days asked for; the proposed ones when nothing was sent; None when they cannot be read."""
        if not self.is_bound:
            return self.initial["first"], self.initial["last"]
        return (self.cleaned_data["first"], self.cleaned_data["last"]) if self.is_valid() else None
