"""The form of a reason in the college's own words."""

from django import forms

from curriculum.look.forms import KeyedForm
from kitchen.stores.moves.listed.college import TITLES


class AddReasonForm(KeyedForm):
    """Own words for one of the lists."""

    not_done = "The reason is not on the list yet."
    submit_words = "Put it on the list"
    which = forms.ChoiceField(choices=tuple(TITLES.items()), label="List")
    words = forms.CharField(
        max_length=60, label="In your own words", help_text="Such as: left in the proofer."
    )
