"""The forms of kits: making them, issuing."""

from django import forms

from curriculum.look.forms import KeyedForm


class MakeKitsForm(KeyedForm):
    """One button: keep the kits as they are reckoned now."""

    not_done = "The kits are not made yet."
    submit_words = "Make the kits"


class IssueForm(KeyedForm):
    """Issue the kits; a shortage is issued only when somebody says so."""

    not_done = "Nothing has left the stores."
    submit_words = "Issue the kits"
    leave_words = "Leave without issuing"
    short_accepted = forms.BooleanField(
        required=False, label="Issue what is there; what is short stays short"
    )

    unchecked_why = forms.CharField(
        max_length=200,
        required=False,
        label="Why they leave all the same",
        help_text="Only where a lid or a second check stays open. It is kept with your name.",
    )

    def __init__(self, *args: object, short: bool, unchecked: bool = False, **more: object) -> None:
        super().__init__(*args, **more)
        if not short:
            del self.fields["short_accepted"]
        if not unchecked:
            del self.fields["unchecked_why"]
