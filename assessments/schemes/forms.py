"""The form of a lesson's brief: scheme, techniques to mark, working time."""

from django import forms

from assessments.schemes.models import SchemeVersion
from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import KeyedForm


class BriefForm(KeyedForm):
    """What a lesson is marked by. ``dish_techniques`` are (code, name) pairs of its method."""

    not_done = "The brief is not written yet."
    submit_words = "Write the brief"

    scheme = forms.ChoiceField(label="Marking scheme")
    techniques = forms.MultipleChoiceField(
        label="Techniques marked one by one",
        help_text="As many as the scheme marks. Leave all open and the site proposes them.",
        widget=forms.CheckboxSelectMultiple,
        required=False,
    )
    minutes = WholeNumberField(
        label="Working time",
        help_text="Without extra time; who has some gets it on top.",
        least=10,
        most=600,
        such_as=165,
        unit="minutes",
    )

    def __init__(
        self,
        *args: object,
        versions: list[SchemeVersion],
        dish_techniques: list[tuple[str, str]],
        **more: object,
    ) -> None:
        super().__init__(*args, **more)
        self.versions = {str(version.pk): version for version in versions}
        self.fields["scheme"].choices = [
            (str(version.pk), f"{version.scheme.name}, version {version.number}") for version in versions
        ]
        self.fields["techniques"].choices = dish_techniques

    def chosen_scheme(self) -> SchemeVersion:
        """The version behind what was chosen; only after ``is_valid``."""
        return self.versions[self.cleaned_data["scheme"]]
