"""By which minutes a lesson is planned."""

from django import forms

from kitchen.lessons.forms import ButtonForm

LEARNED, RECIPE = "learned", "recipe"


class MinutesForm(ButtonForm):
    """The learned paces, or the recipes' own minutes."""

    key = None
    minutes = forms.ChoiceField(choices=[(LEARNED, "learned paces"), (RECIPE, "the recipes’ own minutes")])

    def by_recipe(self) -> bool:
        """Whether the recipes' own minutes were chosen. RuleBroken for anything else than a choice."""
        self.demand_valid()
        return self.cleaned_data["minutes"] == RECIPE
