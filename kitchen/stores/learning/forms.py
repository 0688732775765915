"""The forms by which a person decides about a figure."""

from django import forms

from curriculum.foods.models import Food
from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import KeyedForm
from curriculum.techniques.models import Technique
from kitchen.stores.learning.evidence import Proposal
from kitchen.stores.moves.queries import foods_kept

ACCEPT, DECLINE = "accept", "decline"


class DecideForm(KeyedForm):
    """Accept or decline a proposal; ``seen`` says which one the page showed."""

    not_done = "Nothing is decided yet."
    submit_words = "Write the decision down"
    leave_words = "Decide later"
    field_order = ("decision", "of", "words", "seen")
    decision = forms.ChoiceField(widget=forms.RadioSelect, label="Decision")
    words = forms.CharField(
        max_length=200,
        required=False,
        label="In a few words",
        help_text="Needed when it is declined. They stand beside the figure with your name.",
    )
    seen = forms.CharField(widget=forms.HiddenInput, max_length=16)

    def __init__(
        self,
        *args: object,
        proposal: Proposal,
        figure: str,
        techniques: tuple[tuple[str, str], ...],
        **more: object,
    ) -> None:
        super().__init__(*args, initial={"seen": proposal.mark}, **more)
        self.proposal = proposal
        self.fields["decision"].choices = [
            (ACCEPT, f"Accept {figure}"),
            (DECLINE, "Decline: leave everything as it is"),
        ]
        if proposal.others:
            choices = [("", "Choose the technique"), *techniques]
            self.add_fields(
                {"of": forms.ChoiceField(choices=choices, required=False, label="Which technique loses it")}
            )
            self.order_fields(self.field_order)

    def clean(self) -> dict:
        """Whoever accepts says of which technique; whoever declines says why; both saw this proposal."""
        cleaned = super().clean()
        decision = cleaned.get("decision")
        if decision == ACCEPT and self.proposal.others and not cleaned.get("of") and "of" not in self.errors:
            self.add_error("of", "Nothing is chosen. Say which technique the allowance stands for.")
        if decision == DECLINE and not cleaned.get("words") and "words" not in self.errors:
            self.add_error("words", "This is empty. Say in a few words why it is declined.")
        if cleaned.get("seen") not in (None, self.proposal.mark):
            raise forms.ValidationError(
                "Another lesson or test came in since this page was opened. Look at the figures below again."
            )
        return cleaned

    def accepts(self) -> bool:
        """Whether the proposal is accepted."""
        return self.cleaned_data["decision"] == ACCEPT

    def of(self) -> str:
        """The technique chosen, or what the proposal is of."""
        return self.cleaned_data.get("of") or self.proposal.of


class TakeBackForm(KeyedForm):
    """A decision is taken back, and why."""

    not_done = "It still stands."
    submit_words = "Take it back"
    leave_words = "Leave it standing"
    words = forms.CharField(max_length=200, label="Why it is taken back")


class AllowanceForm(KeyedForm):
    """A wastage allowance by hand."""

    not_done = "No allowance is written down yet."
    submit_words = "Write the allowance down"
    leave_words = "Leave without writing"
    technique = forms.ModelChoiceField(
        Technique.objects.filter(retired_at=None),
        to_field_name="code",
        required=False,
        empty_label="Whatever technique works it",
        label="Technique",
    )
    food = forms.ModelChoiceField(
        foods_kept(), to_field_name="code", required=False, empty_label="Every food it works", label="Food"
    )
    per_cent = WholeNumberField(least=0, most=100, such_as=5, unit="%", label="Allowance")
    words = forms.CharField(
        max_length=200, label="Where the figure is from", help_text="Common practice, or whose experience."
    )

    def clean(self) -> dict:
        """A technique, a food, or both."""
        cleaned = super().clean()
        if not self.errors and not cleaned.get("technique") and not cleaned.get("food"):
            self.add_error("technique", "Choose a technique, a food, or both.")
        return cleaned

    def said(self) -> dict[str, Food | Technique | int | str | None]:
        """As the action takes it."""
        said = self.cleaned_data
        per_mille = said["per_cent"] * 10
        return {
            "food": said["food"],
            "technique": said["technique"],
            "per_mille": per_mille,
            "words": said["words"],
        }
