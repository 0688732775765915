"""Title and code of a copy."""

from django import forms

from curriculum.look.forms import KeyedForm
from curriculum.look.reading import quoted
from curriculum.recipes.copying.codes import PAGES

CODE_WORDS = "Letters, figures and hyphens. It stands in the address and stays."


class CodeField(forms.SlugField):
    """The short code of a recipe; whether it is taken is said by the action."""

    def __init__(self, **more: object) -> None:
        super().__init__(
            label="Short code",
            max_length=20,
            help_text=CODE_WORDS,
            error_messages={"invalid": "Write letters, figures and hyphens only, such as leek-quiche."},
            **more,
        )

    def clean(self, value: object) -> str:
        """The code; a page of the book is none."""
        code = super().clean(value)
        if code.lower() in PAGES:
            raise forms.ValidationError(f"{quoted(code)} is taken. Write another one.")
        return code


class CopyForm(KeyedForm):
    """What the copy is called."""

    not_done = "Not copied yet."
    submit_words = "Make the copy"
    leave_words = "Leave without copying"

    title = forms.CharField(label="Name of the new dish", max_length=160)
    code = CodeField()
