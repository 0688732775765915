"""The forms of made lots: what went into a bowl, and which kits take from it."""

from collections.abc import Sequence
from datetime import date, datetime, time

from django import forms
from django.core.exceptions import ValidationError

from curriculum.foods.models import Food
from curriculum.look.fields import ClockField, DayField, WholeNumberField
from curriculum.look.forms import KeyedForm
from kitchen.stores.made.bowls import MadeEntry, discard_proposed, fitting
from kitchen.stores.made.queries import LotChoice, Taker


class MakeForm(KeyedForm):
    """A bowl as it was made: pieces of each lot, weight, times, place. Times are proposed."""

    not_done = "Nothing is made in the book yet."
    submit_words = "Write the bowl down"
    leave_words = "Leave without a bowl"
    grams = WholeNumberField(
        least=1,
        most=1_000_000,
        such_as=1075,
        unit="g",
        label="What it weighs",
        help_text="On the scale, without the bowl.",
    )
    made_on = DayField(label="Made on")
    made_at = ClockField(label="At", help_text="Such as 08:30.")
    discard_on = DayField(label="Thrown away on")
    discard_at = ClockField(
        label="At the latest at", help_text="Proposed. The college’s own procedure comes first."
    )
    kept_where = forms.CharField(
        max_length=80, label="Where it is kept", help_text="Such as walk-in fridge, shelf 2."
    )

    def __init__(
        self, food: Food, choices: Sequence[LotChoice], now: datetime, *args: object, **more: object
    ) -> None:
        self.food, self.choices, self.zone = food, choices, now.tzinfo
        more.setdefault("initial", _proposed(food, choices, now))
        super().__init__(*args, **more)
        own = dict(self.fields)
        self.fields.clear()
        self.add_fields({each.field: _pieces_field(each) for each in choices})
        self.fields |= own

    def clean(self) -> dict:
        """Something went into it."""
        cleaned = super().clean()
        refused = any(each.field in self.errors for each in self.choices)
        if not refused and not any(cleaned.get(each.field) for each in self.choices):
            raise ValidationError("No piece is written down. Write how many went into the bowl, lot by lot.")
        return cleaned

    def entry(self) -> MadeEntry:
        """The bowl as the action takes it."""
        said = self.cleaned_data
        return MadeEntry(
            food=self.food.code,
            pieces=tuple((each.code, said[each.field]) for each in self.choices if said[each.field]),
            milligrams=said["grams"] * 1000,
            made_at=self._at(said["made_on"], said["made_at"]),
            discard_at=self._at(said["discard_on"], said["discard_at"]),
            kept_where=said["kept_where"],
        )

    def _at(self, day: date, at: time) -> datetime:
        return datetime.combine(day, at, tzinfo=self.zone)


class GiveForm(KeyedForm):
    """Which kits take from a bowl instead of whole pieces; as many are ticked as it is enough for."""

    not_done = "The kits still get whole pieces."
    submit_words = "These kits take from a bowl"
    leave_words = "Leave the kits as they are"
    lines = forms.TypedMultipleChoiceField(
        coerce=int,
        widget=forms.CheckboxSelectMultiple,
        label="Kits",
        error_messages={"required": "No kit is ticked. Tick the kits that take from this bowl."},
    )

    def __init__(self, takers: Sequence[Taker], free: int, *args: object, **more: object) -> None:
        ticked = fitting([(each.line.pk, each.milligrams) for each in takers], free)
        more.setdefault("initial", {"lines": ticked})
        super().__init__(*args, **more)
        self.fields["lines"].choices = [(each.line.pk, each.words) for each in takers]


def _pieces_field(choice: LotChoice) -> WholeNumberField:
    return WholeNumberField(
        least=0,
        most=choice.there,
        such_as=min(5, choice.there),
        required=False,
        label=f"Pieces of lot {choice.code}",
        help_text=f"{choice.words}.",
    )


def _proposed(food: Food, choices: Sequence[LotChoice], now: datetime) -> dict:
    """Lots, weight and times as they are proposed: made now, out of the earliest date."""
    discard = discard_proposed(now)
    pieces = {each.field: each.proposed for each in choices if each.proposed}
    weight = sum(pieces.values()) * food.made_from_milligrams // 1000
    times = {"made_on": now.date(), "made_at": now.time()}
    times |= {"discard_on": discard.date(), "discard_at": discard.time()}
    return pieces | times | ({"grams": weight} if weight else {})
