"""The forms of the stock of small equipment: correct, move, add, minutes for washing."""

from django import forms

from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import EnamelForm
from kitchen.rooms.models import Equipment, Room
from kitchen.stores.moves.forms import ReasonForm
from kitchen.stores.tools import reasons

MOST = 10_000


class CorrectForm(ReasonForm):
    """How many there are, those that are out among them. ``seen`` is how often it was changed so far."""

    listed = reasons.CORRECTED
    not_done = "Nothing is corrected yet."
    submit_words = "Correct the book"
    leave_words = "Leave it as it is"
    field_order = ("count", "reason", "note")
    seen = forms.IntegerField(widget=forms.HiddenInput, min_value=0)

    def __init__(self, *args: object, thing: Equipment, **more: object) -> None:
        super().__init__(*args, initial={"seen": thing.moves}, **more)
        out = f" {thing.out} of them are out with lessons." if thing.out else ""
        count = WholeNumberField(
            most=MOST, such_as=14, label="How many there are", help_text=f"The book says {thing.count}.{out}"
        )
        self.add_fields({"count": count})
        self.order_fields(self.field_order)


class MoveForm(ReasonForm):
    """So many go to another place."""

    listed = reasons.MOVED
    not_done = "Nothing is moved yet."
    submit_words = "Move them"
    leave_words = "Leave them there"
    field_order = ("count", "to", "reason", "note")
    to = forms.ModelChoiceField(
        Room.objects.order_by("name"), to_field_name="code", empty_label="Choose a place", label="To"
    )

    def __init__(self, *args: object, thing: Equipment, **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["to"].queryset = Room.objects.exclude(pk=thing.room_id).order_by("name")
        there = f"{thing.count - thing.out} lie there."
        count = WholeNumberField(least=1, most=MOST, such_as=2, label="How many", help_text=there)
        self.add_fields({"count": count})
        self.order_fields(self.field_order)


class AddForm(ReasonForm):
    """A thing that a place has and its book lacks."""

    listed = reasons.CORRECTED
    not_done = "Nothing is added yet."
    submit_words = "Write it into the book"
    leave_words = "Leave without adding"
    field_order = ("name", "room", "count", "reason", "note")
    name = forms.RegexField(
        r"^[A-Za-z0-9][A-Za-z0-9 ]*$",
        max_length=60,
        label="What it is",
        help_text="As recipes list it, such as flan tin fluted 24.",
        error_messages={"invalid": "Write it in letters, figures and spaces, such as flan tin fluted 24."},
    )
    room = forms.ModelChoiceField(
        Room.objects.order_by("name"), to_field_name="code", empty_label="Choose a place", label="Where"
    )
    count = WholeNumberField(least=1, most=MOST, such_as=8, label="How many")

    def item(self) -> str:
        """The thing as recipes name it."""
        return "_".join(self.cleaned_data["name"].lower().split())


class WashForm(EnamelForm):
    """How long washing takes between two lessons."""

    not_done = "Not kept yet."
    minutes = WholeNumberField(
        most=480, such_as=30, unit="min", label="Minutes for washing between two lessons"
    )
