"""The form that draws a sample."""

from django import forms

from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import KeyedForm


class DrawForm(KeyedForm):
    """Lessons to draw from, the written seed, how near to a band counts as borderline."""

    not_done = "Nothing is drawn yet."
    submit_words = "Draw the sample"

    lessons = forms.MultipleChoiceField(
        label="Lessons to draw from",
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": "Nothing is chosen. Choose at least one lesson."},
    )
    seed = forms.CharField(
        label="Seed",
        max_length=60,
        help_text="Any words or figures, written down: the same seed draws the same names.",
    )
    margin = WholeNumberField(
        label="Borderline within",
        help_text="So many points of a band are looked at in any case.",
        least=0,
        most=20,
        such_as=2,
        initial=2,
        unit="points",
    )

    def __init__(self, *args: object, lessons: list[tuple[str, str]], **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["lessons"].choices = lessons
