"""The form with which a lecturer lets kits go although a label may contain what they are made without."""

from django import forms

from curriculum.look.forms import KeyedForm


class LetGoForm(KeyedForm):
    """Why they go, and with whom it was talked over."""

    not_done = "Nothing is decided yet."
    submit_words = "These kits go all the same"
    why = forms.CharField(
        max_length=200,
        label="Why they go, and with whom it was talked over",
        help_text="It stands with your name. Follow the college’s own allergen procedure.",
    )
