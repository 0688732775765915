"""The forms of a lesson's stores after the kits have left."""

from collections.abc import Mapping
from fractions import Fraction

from django import forms
from django.forms import BoundField

from curriculum.errors import RuleBroken
from curriculum.foods.models import Food
from curriculum.look.fields import DayField, TenthsField
from curriculum.look.forms import KeyedForm
from kitchen.lessons.models import Lesson, Place
from kitchen.stores.models import Lot
from kitchen.stores.moves import reasons
from kitchen.stores.moves.counting import amount_words
from kitchen.stores.moves.forms import CHOOSE, MOST, STEP_WORDS, ByFoodForm, ReasonForm, amount_field
from kitchen.stores.moves.lesson import queries
from kitchen.stores.moves.lesson.back import REWORK, CameBack
from kitchen.stores.moves.listed.queries import choices
from kitchen.stores.moves.queries import piece_of, unit_of

DEMONSTRATION = "demonstration"


class MoreForm(ReasonForm, ByFoodForm):
    """Give a bench more of a food, with the reason."""

    which = "more"
    not_done = "Nothing more has left the stores."
    submit_words = "Give it out"
    leave_words = "Leave without giving out"
    field_order = ("place", "food", "amount", "reason", "note")
    place = forms.ChoiceField(label="For")
    food = forms.ChoiceField(label="Food")
    amount = TenthsField(
        most=MOST, label="How much", help_text=f"{STEP_WORDS}; pieces for what is counted, as the list says."
    )

    def __init__(self, *args: object, lesson: Lesson, **more: object) -> None:
        super().__init__(*args, **more)
        self.lesson = lesson
        benches = queries.benches_of(lesson)
        self.fields["place"].choices = [*CHOOSE, *benches, (DEMONSTRATION, "The demonstration")]
        self.fields["food"].choices = [*CHOOSE, *queries.foods_to_give(lesson)]

    def clean(self) -> dict:
        """The food and the place as rows."""
        cleaned = super().clean()
        if "food" in cleaned:
            cleaned["food"] = queries.food_to_give(cleaned["food"])
        self.measure(cleaned)
        return cleaned

    def where(self) -> Place | None:
        """The place it goes to; None for the demonstration."""
        said = self.cleaned_data["place"]
        return None if said == DEMONSTRATION else queries.place_of(self.lesson, said)


class BackForm(KeyedForm):
    """What came back of a lesson, lot by lot; an empty row is a lot of which nothing came back."""

    not_done = "Nothing is written down as back yet."
    submit_words = "Write down what came back"
    sealed_and_cold = forms.BooleanField(
        required=False, label="What goes back is sealed, and chilled food was kept cold all the time"
    )
    why_back = forms.ChoiceField(required=False, label="Why it came back")
    seen = forms.IntegerField(widget=forms.HiddenInput, min_value=0, max_value=10**9)
    rework_until = DayField(
        required=False,
        label="Re-work is thrown away by",
        help_text="Only where food is kept for re-work, by the college’s own procedure. Such as 16 Feb 2027.",
    )

    def __init__(self, data: Mapping | None = None, *, lesson: Lesson) -> None:
        super().__init__(data, initial={"seen": queries.backs_of(lesson)})
        self.out = queries.lots_out(lesson)
        #: Why opened food is thrown away; something else is said on the page of its lot.
        self.waste = tuple(each for each in choices("waste") if each[0] != reasons.OTHER)
        self.returned = tuple(each for each in choices("returned") if each[0] != reasons.OTHER)
        self.fields["why_back"].choices = [("", "Not said"), *self.returned]
        fields: dict[str, forms.Field] = {}
        for lot, _ in self.out:
            name = f"{lot.food.name}, lot {lot.code}"
            box = {"least": Fraction(0), "required": False, "help_text": ""}
            fields[f"sealed_{lot.pk}"] = amount_field(lot.food, label=f"Sealed: {name}", **box)
            fields[f"opened_{lot.pk}"] = amount_field(lot.food, label=f"Opened: {name}", **box)
            kept = ((REWORK, "Kept for re-work"),) if lot.food.storage == Food.Storage.AMBIENT else ()
            fields[f"to_{lot.pk}"] = forms.ChoiceField(
                choices=(("", "Nothing opened"), *kept, *self.waste),
                required=False,
                label=f"The opened: {name}",
            )
        self.add_fields(fields)

    def clean(self) -> dict:
        """Opened food becomes something, and something comes back at all."""
        cleaned = super().clean()
        for lot, _ in self.out:
            if cleaned.get(f"opened_{lot.pk}") and not cleaned.get(f"to_{lot.pk}", "wrong"):
                self.add_error(f"to_{lot.pk}", "Some of it was opened. Say what becomes of it.")
        if not self.errors and not self.rows():
            raise forms.ValidationError("Nothing came back. Write what did beside one lot at least.")
        return cleaned

    def why(self) -> tuple[str, str | None]:
        """Why it came back: words and code; empty when nobody said."""
        code = self.cleaned_data["why_back"]
        return dict(self.returned).get(code, ""), code or None

    def table(self) -> list[tuple[Lot, str, BoundField, BoundField, BoundField]]:
        """Each lot with what is out of it and its three boxes."""
        return [
            (
                lot,
                amount_words(out, piece_of(lot.food)),
                self[f"sealed_{lot.pk}"],
                self[f"opened_{lot.pk}"],
                self[f"to_{lot.pk}"],
            )
            for lot, out in self.out
        ]

    def rows(self) -> list[CameBack]:
        """What came back, as the action takes it."""
        said, words = self.cleaned_data, {**dict(self.waste), REWORK: REWORK}
        found = []
        for lot, _ in self.out:
            sealed, opened = said.get(f"sealed_{lot.pk}") or 0, said.get(f"opened_{lot.pk}") or 0
            if sealed or opened:
                unit = unit_of(lot.food)
                code = said[f"to_{lot.pk}"] if opened else ""
                becomes = words.get(code, "")
                weights = int(sealed * unit), int(opened * unit)
                found.append(CameBack(lot.pk, *weights, becomes, None if becomes in ("", REWORK) else code))
        return found


def refuse_back(form: BackForm, lesson: Lesson, error: RuleBroken) -> BackForm:
    """The refusal with what was typed; who was told of what others wrote has seen it now."""
    if error.code != "taken_back_meanwhile":
        form.refuse(error)
        return form
    data = form.data.copy()
    data["seen"] = str(queries.backs_of(lesson))
    again = BackForm(data, lesson=lesson)
    again.is_valid()
    again.refuse(error)
    return again
