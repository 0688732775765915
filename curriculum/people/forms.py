"""The forms of signing in and of how the site looks for one person."""

from django import forms
from django.contrib.auth.forms import AuthenticationForm, UsernameField
from django.core.exceptions import ValidationError
from django.http import HttpRequest

from curriculum.look.forms import EnamelForm, in_our_words
from curriculum.paper import unprintable
from curriculum.wording import listed


class SignInForm(AuthenticationForm):
    """Name and password; the answer never says which of the two was wrong."""

    not_done = "Not signed in."
    submit_words = "Sign in"
    error_messages = {
        "invalid_login": "The name and the password do not belong together. Capitals count in the password.",
        "inactive": "This account is closed.",
    }

    username = UsernameField(
        label="Name you sign in with", widget=forms.TextInput(attrs={"autocapitalize": "none"})
    )
    password = forms.CharField(
        label="Password", strip=False, widget=forms.PasswordInput(attrs={"autocomplete": "current-password"})
    )

    def __init__(self, request: HttpRequest | None = None, *args: object, **more: object) -> None:
        super().__init__(request, *args, label_suffix="", **more)
        for field in self.fields.values():
            in_our_words(field)


class LookForm(EnamelForm):
    """How the site looks for the person who is signed in."""

    not_done = "Not kept yet."
    submit_words = "Keep it so"
    leave_words = "Leave it as it is"

    large_print = forms.BooleanField(label="Large print, on the screen and on paper", required=False)
    dim_room = forms.BooleanField(label="Dark ground, for a dim demonstration theatre", required=False)
    name_to_print = forms.CharField(
        label="Your name on paper",
        max_length=200,
        required=False,
        help_text="For letters that paper cannot show. Left empty, your name is printed as you write it.",
    )

    def clean_name_to_print(self) -> str:
        """A name with a letter that no font has is refused here, before a sheet lacks it."""
        name = self.cleaned_data["name_to_print"]
        missing = unprintable([name])
        if missing:
            raise ValidationError(
                f"Paper cannot show {listed(missing)}. Write the name with other letters.", code="unprintable"
            )
        return name
