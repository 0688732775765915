"""The forms of a requisition: a question, the answer to it, taking it back."""

from django import forms

from curriculum.look.forms import EnamelForm


class ApproveForm(EnamelForm):
    """One button: the requisition that was read is approved."""

    number = forms.IntegerField(widget=forms.HiddenInput, min_value=1)


class QueryForm(EnamelForm):
    """Send a requisition back with a question."""

    not_done = "Not sent back yet."
    submit_words = "Send it back with this question"
    query = forms.CharField(max_length=240, label="What is unclear", help_text="The lecturer reads this.")


class ReplyForm(EnamelForm):
    """Answer the question of the stores."""

    not_done = "Not answered yet."
    submit_words = "Answer and submit it as it is"
    reply = forms.CharField(max_length=240, label="Your answer", help_text="The stores read this.")


class WithdrawForm(EnamelForm):
    """Take a requisition back that nobody has approved."""

    not_done = "Not withdrawn."
    submit_words = "Withdraw this requisition"
    why = forms.CharField(max_length=240, label="Why it is withdrawn", help_text="The stores read this.")
