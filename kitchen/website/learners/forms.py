"""What a learner avoids, and what was agreed with them."""

from django import forms

from curriculum.allergens import GROUPS, WAYS, words_of
from curriculum.foods.models import Avoidance
from curriculum.foods.queries import foods_in_use
from curriculum.look.fields import DayField, WholeNumberField
from curriculum.look.forms import EnamelForm
from curriculum.people.models import AdjustmentKind


def avoidable() -> list[tuple[str, list[tuple[str, str]]]]:
    """Everything that can be avoided, by heading: groups and kinds of allergens, ways of eating."""
    groups = [(f"kind:{code}", words) for code, (words, _) in GROUPS.items()]
    kinds = [
        (f"kind:{kind}", words_of(kind))
        for _, members in GROUPS.values()
        if len(members) > 1
        for kind in members
    ]
    ways = [(f"way:{code}", words) for code, (words, _) in WAYS.items()]
    return [("Allergens", groups), ("One kind only", kinds), ("Ways of eating", ways)]


class AvoidForm(EnamelForm):
    """One thing that a learner avoids: an allergen, a way of eating, or one food."""

    not_done = "Not noted yet."
    submit_words = "Note it"
    leave_words = "Leave without noting"

    what = forms.ChoiceField(label="Avoids", required=False)
    food = forms.ModelChoiceField(
        label="Or one food", queryset=None, required=False, empty_label="no single food", to_field_name="code"
    )
    severity = forms.ChoiceField(
        label="It is", choices=Avoidance.Severity.choices, widget=forms.RadioSelect, initial="allergy"
    )
    note = forms.CharField(
        label="Note", max_length=300, required=False, help_text="What the kitchen must know."
    )
    from_on = DayField(label="From")

    def __init__(self, *args: object, **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["what"].choices = [("", "choose"), *avoidable()]
        self.fields["food"].queryset = foods_in_use()

    def clean(self) -> dict:
        """Exactly one of the two is chosen."""
        said = super().clean()
        if bool(said.get("what")) == bool(said.get("food")) and not self.errors:
            self.add_error("what", "Choose one of the list, or one food; not both and not neither.")
        return said

    def facts(self) -> dict:
        """What the action is told."""
        said = self.cleaned_data
        sort, _, code = said["what"].partition(":")
        chosen = {sort: code} if sort else {"food": said["food"]}
        return chosen | {name: said[name] for name in ("severity", "note", "from_on")}


class AdjustForm(EnamelForm):
    """One reasonable adjustment."""

    not_done = "Not agreed yet."
    submit_words = "Agree it"
    leave_words = "Leave without agreeing"

    kind = forms.ChoiceField(label="Adjustment", choices=AdjustmentKind.choices, widget=forms.RadioSelect)
    percent = WholeNumberField(
        label="Extra time",
        least=1,
        most=100,
        such_as=25,
        unit="%",
        required=False,
        help_text="For extra time only.",
    )
    words = forms.CharField(label="In words", max_length=300, required=False)
    from_on = DayField(label="From")

    def clean(self) -> dict:
        """Extra time has a percentage, and nothing else has."""
        said = super().clean()
        extra = said.get("kind") == AdjustmentKind.EXTRA_TIME
        if extra and said.get("percent") is None and "percent" not in self.errors:
            self.add_error("percent", "Extra time needs its percentage, such as 25.")
        if not extra:
            said["percent"] = None
        return said
