"""Which kind of group the plan is tried with."""

from django import forms

from curriculum.look.forms import EnamelForm
from kitchen.timeplan.chance import GROUPS, Pace


class GroupForm(EnamelForm):
    """How far the group is with the dish; unknown answers count as practised."""

    group = forms.ChoiceField(
        label="The group",
        required=False,
        choices=[
            ("practised", "has practised the techniques"),
            ("first", "does it for the first time"),
            ("quick", "is quick at it"),
        ],
    )

    def pace(self) -> Pace:
        """The pace of the group that was chosen."""
        chosen = self.cleaned_data.get("group") if self.is_valid() else ""
        return GROUPS[chosen or "practised"]
