"""The forms of kits: making them, weighing by tap, issuing."""

from django import forms

from curriculum.look.forms import EnamelForm, KeyedForm


class MakeKitsForm(KeyedForm):
    """One button: keep the kits as they are reckoned now."""

    not_done = "The kits are not made yet."
    submit_words = "Make the kits"


class TapForm(EnamelForm):
    """One tap at the scale: which food of which kit, with its number."""

    key = forms.UUIDField()
    kit = forms.CharField(max_length=8)
    food = forms.SlugField(max_length=60)
    second = forms.CharField(max_length=150, required=False)


class IssueForm(KeyedForm):
    """Issue the kits; a shortage is issued only when somebody says so."""

    not_done = "Nothing has left the stores."
    submit_words = "Issue the kits"
    leave_words = "Leave without issuing"
    short_accepted = forms.BooleanField(
        required=False, label="Issue what is there; what is short stays short"
    )

    def __init__(self, *args: object, short: bool, **more: object) -> None:
        super().__init__(*args, **more)
        if not short:
            del self.fields["short_accepted"]
