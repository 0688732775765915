"""Writing what a dish weighs when it is finished, and what of it is served, rejected or not shown."""

from collections.abc import Iterator
from dataclasses import replace

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Fieldset, Layout, Row
from django import forms

from curriculum.foods.forms import DegreesField, PerCentField, WeightField
from curriculum.look.forms import EnamelForm
from curriculum.look.layouts import WRITES_ON_ENTER, one_more
from curriculum.recipes.data import FinishedData, RecipeData
from curriculum.recipes.opened.forms import Opened

#: Rows that a form has at least, and at most.
ROWS, MOST_ROWS = 2, 25


class FinishedForm(Opened, EnamelForm):
    """Finished weights, rejects, what stays in the kitchen. ``lost`` names techniques to choose from."""

    not_done = "Not written yet."
    submit_words = "Write it down"
    leave_words = "Leave without writing"

    reject_per_mille = PerCentField(
        label="Rejected", required=False, help_text="Of a hundred pieces so many are not served."
    )
    plate_decicelsius = DegreesField(label="Temperature of the plate", required=False)
    not_served = forms.MultipleChoiceField(
        label="Stays in the kitchen", required=False, widget=forms.CheckboxSelectMultiple, choices=()
    )
    techniques_lost = forms.MultipleChoiceField(
        label="No longer shows",
        required=False,
        widget=forms.CheckboxSelectMultiple,
        choices=(),
        help_text="Techniques that the ordinary recipe trains and this variant does not.",
    )

    def __init__(self, *args: object, recipe: RecipeData, lost: dict[str, str], **more: object) -> None:
        super().__init__(*args, **more)
        components = [(each.code, each.name) for each in recipe.components]
        self.fields["not_served"].choices = components
        self.fields["techniques_lost"].choices = list(lost.items())
        if not lost:
            del self.fields["techniques_lost"]
        self.fields["rows"] = forms.CharField(widget=forms.HiddenInput, required=False)
        self.rows = self._rows()
        for number in range(1, self.rows + 1):
            self.add_fields(_row_fields(number, components))
        self.helper = FormHelper(self)
        self.helper.layout = _layout(self.rows, bool(lost))

    def _rows(self) -> int:
        asked = [self.initial.get("rows"), self.data.get("rows") if self.is_bound else None]
        rows = [int(str(each)) for each in asked if str(each).isdecimal() and len(str(each)) < 4]
        return min(max([ROWS, *rows]), MOST_ROWS)

    def with_one_more(self) -> dict:
        """What was typed, to open the form again with one row more."""
        return self.as_typed() | {"rows": min(self.rows + 1, MOST_ROWS)}

    @staticmethod
    def initial_of(recipe: RecipeData) -> dict:
        """What the form shows of a recipe."""
        said = {"reject_per_mille": recipe.reject_per_mille or None, "rows": len(recipe.finished)}
        said |= {"plate_decicelsius": recipe.plate_decicelsius, "not_served": list(recipe.not_served)}
        said["techniques_lost"] = list(recipe.techniques_lost)
        for number, each in enumerate(recipe.finished, start=1):
            said |= {
                f"row{number}_components": list(each.components),
                f"row{number}_milligrams": each.milligrams,
                f"row{number}_portion": each.milligrams_per_portion or None,
                f"row{number}_basis": each.basis,
            }
        return said

    def clean(self) -> dict:
        """A row says of what and how much; a portion is not more than the whole."""
        said = super().clean()
        for number in range(1, self.rows + 1):
            names = (f"row{number}_components", f"row{number}_milligrams", f"row{number}_portion")
            components, whole, portion = (said.get(name) for name in names)
            if (components or portion) and not whole and names[1] not in self.errors:
                self.add_error(names[1], "This is empty. Write what it weighs finished.")
            if whole and not components and names[0] not in self.errors:
                self.add_error(names[0], "Nothing is chosen. Choose what is weighed together.")
            if whole and portion and portion > whole:
                self.add_error(names[2], "This is more than the whole of it. Write less.")
        return said

    def recipe(self, before: RecipeData) -> RecipeData:
        """The recipe with what was written."""
        said = self.cleaned_data
        return replace(
            before,
            finished=tuple(self._finished(said)),
            reject_per_mille=said["reject_per_mille"] or 0,
            plate_decicelsius=said["plate_decicelsius"],
            not_served=tuple(said["not_served"]),
            techniques_lost=tuple(said.get("techniques_lost", before.techniques_lost)),
        )

    def _finished(self, said: dict) -> Iterator[FinishedData]:
        for number in range(1, self.rows + 1):
            whole = said[f"row{number}_milligrams"]
            if whole:
                parts, portion = tuple(said[f"row{number}_components"]), said[f"row{number}_portion"] or 0
                yield FinishedData(parts, whole, portion, said[f"row{number}_basis"])


def _row_fields(number: int, components: list[tuple[str, str]]) -> dict[str, forms.Field]:
    return {
        f"row{number}_components": forms.MultipleChoiceField(
            label="Weighed together",
            choices=components,
            required=False,
            widget=forms.CheckboxSelectMultiple,
        ),
        f"row{number}_milligrams": WeightField(label="Finished it weighs", required=False),
        f"row{number}_portion": WeightField(label="Of it for one portion", required=False),
        f"row{number}_basis": forms.CharField(
            label="How that is known", required=False, max_length=200, help_text="Such as weighed 16 Feb."
        ),
    }


def _layout(rows: int, lost: bool) -> Layout:
    parts = [
        Fieldset(
            f"Finished weight {number}",
            f"row{number}_components",
            Row(f"row{number}_milligrams", f"row{number}_portion"),
            f"row{number}_basis",
            css_class="part",
        )
        for number in range(1, rows + 1)
    ]
    more = [one_more("One more finished weight")] if rows < MOST_ROWS else []
    served = ["not_served", *(["techniques_lost"] if lost else [])]
    return Layout(
        WRITES_ON_ENTER,
        *parts,
        *more,
        Fieldset("Served", Row("reject_per_mille", "plate_decicelsius"), *served, css_class="part"),
        *("opened", "rows"),
    )
