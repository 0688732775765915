"""What the small forms of a mark sheet send, read and refused in words."""

from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django import forms

from assessments.marking.entry import read_value
from assessments.marking.slots import Slot
from curriculum.look.forms import EnamelForm
from curriculum.people.models import User

NO_KEY = "The mark came without its number. Open the sheet again and give it once more."


class KeyForm(EnamelForm):
    """Which slot is meant, and the number of the request."""

    place = forms.CharField(max_length=120)
    key = forms.UUIDField(error_messages=dict.fromkeys(("required", "invalid"), NO_KEY))


class MarkForm(KeyForm):
    """One mark as it was sent: a step or a figure, faults, what the device had seen."""

    value = forms.CharField(max_length=40, required=False)
    step = forms.CharField(max_length=40, required=False)
    now = forms.CharField(max_length=1, required=False)
    faults = forms.CharField(required=False, widget=forms.SelectMultiple)
    based_on = forms.IntegerField(min_value=0, max_value=1_000_000, required=False)
    device_at = forms.DateTimeField(required=False)
    words = forms.CharField(max_length=600, required=False)

    def clean_faults(self) -> list[str]:
        """All the faults ticked."""
        return [code for code in self.data.getlist("faults") if code]


@dataclass(frozen=True, slots=True)
class Sent:
    """A mark that was sent and could be read."""

    milli: int | None
    faults: list[str]
    based_on: int | None
    device_at: datetime | None
    words: str
    key: UUID


def read_mark(form: MarkForm, slot: Slot, start: datetime, now: datetime) -> Sent:
    """What a valid form says about a slot. ValueError in words when the value cannot be one."""
    typed = form.cleaned_data["step"] or form.cleaned_data["value"]
    if form.cleaned_data["now"]:
        typed = f"{now:%H:%M:%S}"
    faults = form.cleaned_data["faults"]
    only_faults = not typed and bool(slot.subject) and bool(faults or form.cleaned_data["based_on"])
    milli = None if only_faults else read_value(slot, typed, start)
    return Sent(
        milli=milli,
        faults=faults,
        based_on=form.cleaned_data["based_on"],
        device_at=form.cleaned_data["device_at"],
        words=form.cleaned_data["words"],
        key=form.cleaned_data["key"],
    )


class NameMarkerForm(EnamelForm):
    """Who marks beside the lecturer."""

    not_done = "Nobody is named yet."
    submit_words = "Name this marker"

    marker = forms.ChoiceField(
        label="Second marker or judge",
        help_text="Marks on a sheet of their own and sees no other before all are in.",
    )

    def __init__(self, *args: object, markers: list[User], **more: object) -> None:
        super().__init__(*args, **more)
        self.markers = {str(each.pk): each for each in markers}
        self.fields["marker"].choices = [(pk, each.name) for pk, each in self.markers.items()]

    def chosen(self) -> User:
        """Who was named; only after ``is_valid``."""
        return self.markers[self.cleaned_data["marker"]]


class AgreeForm(EnamelForm):
    """Which sheet stands, and why."""

    not_done = "No mark is agreed yet."
    submit_words = "Agree this mark"

    take = forms.ChoiceField(label="The mark that stands", widget=forms.RadioSelect)
    reason = forms.CharField(
        label="Reason", max_length=500, widget=forms.Textarea, help_text="It stays with the marks."
    )

    def __init__(self, *args: object, choices: list[tuple[str, str]], **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["take"].choices = choices
