"""The form of the list of machines for learners under 18."""

from django import forms

from curriculum.look.forms import EnamelForm
from kitchen.rooms.listed import PLACES


class ListedForm(EnamelForm):
    """Which machines and places are on the college's list."""

    not_done = "Not kept yet."
    submit_words = "Keep the list"
    leave_words = "Leave it as it is"

    kinds = forms.MultipleChoiceField(
        label="Only with somebody beside, for a learner under 18",
        choices=[(place.kind, place.words) for place in PLACES],
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )
