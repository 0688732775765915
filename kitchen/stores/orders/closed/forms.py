"""The forms of what orders keep to: a closed day, and the weeks of filling up."""

from django import forms

from curriculum.look.fields import DayField, WholeNumberField
from curriculum.look.forms import EnamelForm, KeyedForm
from curriculum.people.queries import the_college, today_at

#: The most weeks an order may be filled up for (our own choice, no source).
MOST_WEEKS = 26


class ClosedForm(KeyedForm):
    """A day on which the stores take nothing in."""

    not_done = "The day is not closed yet."
    submit_words = "Close this day"
    on = DayField(label="Day on which nothing is taken in")
    words = forms.CharField(
        max_length=120, label="Why", help_text="Stock count, staff day, works in the yard."
    )

    def clean_on(self) -> object:
        """A day that has gone is not closed."""
        on = self.cleaned_data["on"]
        if on < today_at(the_college()):
            raise forms.ValidationError("This day has gone. Write today or a later day.")
        return on


class FillWeeksForm(EnamelForm):
    """For how many weeks after its own an order may be filled up."""

    not_done = "Not written down yet."
    submit_words = "Keep these weeks"
    weeks = WholeNumberField(
        label="Weeks for which an order may be filled up",
        most=MOST_WEEKS,
        such_as=4,
        unit="weeks",
        help_text="0: never. Only food that lessons of these weeks use, and that keeps until then.",
    )
