"""Pasting ingredient lines: the text, and each line as it was read, for a person to look at."""

from django import forms

from curriculum.foods.forms import WeightField
from curriculum.foods.queries import foods_in_use
from curriculum.foods.units import SYSTEMS
from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import EnamelForm
from curriculum.recipes.data import LineData
from curriculum.recipes.pasting.matching import Proposal
from curriculum.recipes.writing.forms import FoodField, piece_weight

MOST_LINES = 100


class PasteForm(EnamelForm):
    """Ingredient lines as they were written elsewhere."""

    not_done = "Not read yet."
    submit_words = "Read the lines"
    leave_words = "Leave without reading"

    text = forms.CharField(
        label="Ingredient lines",
        widget=forms.Textarea(attrs={"rows": 10}),
        help_text="One a line: 250 g soft wheat flour, 4 eggs. Nothing is kept before you have looked.",
    )
    system = forms.ChoiceField(
        label="Cups and spoons are",
        choices=[("", "not used, or say so when they come"), *SYSTEMS.items()],
        required=False,
    )

    def clean_text(self) -> str:
        """At most so many lines."""
        text = self.cleaned_data["text"]
        lines = [line for line in text.splitlines() if line.strip()]
        if len(lines) > MOST_LINES:
            raise forms.ValidationError(
                f"These are {len(lines)} lines. Paste at most {MOST_LINES} at once; the text is still here."
            )
        return text


class ReadLineForm(EnamelForm):
    """One line as it was read."""

    text = forms.CharField(widget=forms.HiddenInput, required=False)
    trouble = forms.CharField(widget=forms.HiddenInput, required=False)
    keep = forms.BooleanField(label="Keep it", required=False, initial=True)
    food = FoodField(label="Food", required=False)
    milligrams = WeightField(label="Weight in grams", required=False)
    pieces = WholeNumberField(label="Or whole pieces", least=1, most=1000, such_as=4, required=False)
    note = forms.CharField(label="Note", required=False, max_length=300)

    def __init__(self, *args: object, **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["food"].queryset = foods_in_use()

    def clean(self) -> dict:
        """What is kept has a food and a weight."""
        said = super().clean()
        if not said.get("keep"):
            self.errors.clear()
            return said
        if not said.get("food"):
            self.add_error("food", "No food is chosen. Choose one, or do not keep the line.")
        elif not said.get("milligrams") and "milligrams" not in self.errors:
            each = piece_weight(said["food"], "prepared")
            if said.get("pieces") and each:
                said["milligrams"] = said["pieces"] * each
            else:
                self.add_error("milligrams", "No weight is written. Write one, or do not keep the line.")
        return said

    def line(self) -> LineData:
        """The line to add."""
        said = self.cleaned_data
        whole = said["pieces"] is not None
        return LineData(
            0,
            said["food"].code,
            said["milligrams"],
            said["pieces"],
            issued="as_bought" if whole else "prepared",
            note=said["note"],
        )


class _Lines(forms.BaseFormSet):
    """All lines that were read, sent back together."""

    not_done = "Not added yet."


ReadLines = forms.formset_factory(
    ReadLineForm, formset=_Lines, extra=0, max_num=MOST_LINES, absolute_max=MOST_LINES, can_delete=False
)


def proposed(proposals: list[Proposal]) -> forms.BaseFormSet:
    """The forms that show what was read."""
    return ReadLines(
        initial=[
            {
                name: getattr(each, name)
                for name in ("text", "trouble", "food", "milligrams", "pieces", "note")
            }
            | {"keep": True}
            for each in proposals
        ]
    )


def answered_lines(post: dict) -> forms.BaseFormSet:
    """The forms as they were sent back."""
    return ReadLines(post)
