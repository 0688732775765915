"""Writing the tins of a draft: what lines them and what fills them decides how much is made."""

import re
from dataclasses import replace

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Fieldset, Layout, Row
from django import forms

from curriculum.errors import RuleBroken
from curriculum.foods.forms import LengthField, ThicknessField
from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import KeyedForm
from curriculum.recipes.data import RecipeData, TinData
from curriculum.recipes.opened.forms import Opened
from curriculum.recipes.tins import SHAPE_WORDS, STRAIGHT_SHAPES, filled_volume


class TinForm(Opened, KeyedForm):
    """One kind of tin, ring or mould, in centimetres as they are sold."""

    anchor = "kind"

    not_done = "Not written yet."
    submit_words = "Write the tin"
    leave_words = "Leave without writing"

    shape = forms.ChoiceField(label="It is a", choices=list(SHAPE_WORDS.items()))
    kind = forms.CharField(
        label="Called in the equipment list", max_length=60, help_text="Such as flan tin 24, dariole mould."
    )
    count = WholeNumberField(label="How many", least=1, most=200, such_as=1, initial=1)
    diameter_mm = LengthField(label="Diameter", required=False)
    length_mm = LengthField(label="Length, or side", required=False)
    width_mm = LengthField(label="Width", required=False)
    depth_mm = LengthField(label="Depth", required=False)
    volume_ml = WholeNumberField(
        label="Or its volume", least=1, most=100_000, such_as=100, unit="ml", required=False
    )
    lined_with = forms.ChoiceField(label="Lined with", required=False, choices=())
    filled_with = forms.MultipleChoiceField(
        label="Filled with", required=False, widget=forms.CheckboxSelectMultiple, choices=()
    )
    paste_thickness_tenths_mm = ThicknessField(label="Paste is so thick", required=False)
    overhang_mm = LengthField(label="Overhang", required=False, help_text="Paste over the rim.")

    def __init__(self, *args: object, recipe: RecipeData, **more: object) -> None:
        super().__init__(*args, **more)
        components = [(each.code, each.name) for each in recipe.components]
        self.fields["lined_with"].choices = [("", "nothing"), *components]
        self.fields["filled_with"].choices = components
        self.helper = FormHelper(self)
        self.helper.layout = Layout(
            *("shape", "kind", "count"),
            Fieldset(
                "Outside measures",
                Row("diameter_mm", "length_mm", "width_mm", "depth_mm"),
                "volume_ml",
                css_class="part",
            ),
            Fieldset(
                "What is in it",
                Row("lined_with", "paste_thickness_tenths_mm", "overhang_mm"),
                "filled_with",
                css_class="part",
            ),
            *("key", "opened"),
        )

    @classmethod
    def initial_of(cls, tin: TinData) -> dict:
        """What the form shows of a tin."""
        said = {name: getattr(tin, name) for name in cls.base_fields}
        return said | {
            "kind": tin.kind.replace("_", " "),
            "filled_with": list(tin.filled_with),
            "overhang_mm": tin.overhang_mm or None,
        }

    def clean(self) -> dict:
        """Measures enough to reckon with."""
        said = super().clean()
        if said.get("volume_ml"):
            return said
        straight = said.get("shape") in STRAIGHT_SHAPES
        needed = ["length_mm"] if straight else ["diameter_mm"]
        needed += ["width_mm"] if straight and said.get("shape") != "square" else []
        for name in [*needed, "depth_mm"]:
            if not said.get(name) and name not in self.errors:
                self.add_error(name, "This measure is needed. Write it in centimetres, or write the volume.")
        thick, depth = said.get("paste_thickness_tenths_mm"), said.get("depth_mm")
        if thick and depth and thick >= depth * 10:
            self.add_error("paste_thickness_tenths_mm", "The paste is thicker than the tin is deep.")
        if not self.errors:
            self._demand_room()
        return said

    def _demand_room(self) -> None:
        """Something is left between the walls: a ring has a smaller hole, a tin more than its paste."""
        try:
            filled_volume(self.tin(TinData("tin", 1, "round")))
        except RuleBroken as error:
            self.add_error(None, error.message)

    def tin(self, before: TinData) -> TinData:
        """The tin with what was written."""
        said = self.cleaned_data
        return replace(
            before,
            **{name: said[name] for name in self.base_fields}
            | {
                "kind": re.sub(r"[^\w]+", "_", said["kind"].casefold()).strip("_") or "tin",
                "lined_with": said["lined_with"] or None,
                "filled_with": tuple(said["filled_with"]),
                "overhang_mm": said["overhang_mm"] or 0,
            },
        )
