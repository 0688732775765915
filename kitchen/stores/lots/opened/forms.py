"""The forms of opening a lot, and of taking that back."""

from datetime import date

from django import forms

from curriculum.look.fields import DayField
from curriculum.look.forms import KeyedForm
from kitchen.stores.lots.opened.queries import kinds_to_say
from kitchen.stores.models import Lot

WORDS = {"opened": "It was opened", "thawed": "It was thawed"}


class OpenedForm(KeyedForm):
    """What was done with a lot, and when; both are proposed."""

    not_done = "The book does not say that it is open yet."
    submit_words = "Write it down"
    leave_words = "Leave without writing"
    kind = forms.ChoiceField(label="What was done")
    on = DayField(label="On")

    def __init__(self, *args: object, lot: Lot, today: date, **more: object) -> None:
        kinds = kinds_to_say(lot)
        super().__init__(*args, initial={"kind": kinds[0] if kinds else "", "on": today}, **more)
        self.fields["kind"].choices = [(kind, WORDS[kind]) for kind in kinds]


class UndoForm(KeyedForm):
    """Why it was not opened after all."""

    not_done = "It still counts as open."
    submit_words = "Take it back"
    leave_words = "Leave it open"
    why = forms.CharField(
        max_length=150, label="Why it is taken back", help_text="Such as: another pack was opened."
    )
