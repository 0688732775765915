"""What a version is sent back or withdrawn with."""

from django import forms

from curriculum.look.forms import EnamelForm, KeyedForm

LONGEST = 600


class SendForm(EnamelForm):
    """What whoever checks a version should know first."""

    words = forms.CharField(
        label="For whoever checks it",
        max_length=LONGEST,
        required=False,
        help_text="Such as what was changed. It may stay empty.",
    )


class SendBackForm(KeyedForm):
    """Why a version goes back to its writer."""

    not_done = "Not sent back yet."
    submit_words = "Send it back"
    leave_words = "Leave it as it is"

    words = forms.CharField(
        label="What has to be changed",
        max_length=LONGEST,
        widget=forms.Textarea(attrs={"rows": 5}),
        help_text="The line, the step, the figure. It is about the recipe, and stays in its history.",
    )


class WithdrawForm(KeyedForm):
    """Why a version is not taught any more."""

    not_done = "Not withdrawn yet."
    submit_words = "Withdraw it"
    leave_words = "Leave it in the book"

    words = forms.CharField(
        label="Why it is withdrawn",
        max_length=LONGEST,
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="About the recipe. It may stay empty.",
    )
