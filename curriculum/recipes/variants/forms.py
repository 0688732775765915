"""What a variant is made without, and what becomes of each line that has it."""

from collections.abc import Mapping
from dataclasses import dataclass

from django import forms

from curriculum.allergens import GROUPS, KINDS, WAYS, printed
from curriculum.foods.data import FoodData
from curriculum.foods.forms import WeightField
from curriculum.look.forms import EnamelForm, KeyedForm, in_our_words
from curriculum.recipes.copying.forms import CodeField
from curriculum.recipes.variants.avoided import Affected, foods_without
from curriculum.recipes.variants.making import LineChange
from curriculum.recipes.variants.proposals import proposed

DEEDS = [("replace", "Another food in its place"), ("leave_out", "Leave the line out")]


def without_choices() -> list[tuple[str, object]]:
    """Groups, kinds of a group of several, other ways of eating."""
    groups = [(code, words) for code, (words, _) in GROUPS.items()]
    kinds = [(kind, printed(kind)) for kind in KINDS if kind not in GROUPS]
    ways = [(code, words) for code, (words, _) in WAYS.items()]
    return [
        ("", "Choose one"),
        ("Without a group", groups),
        ("Without one kind", kinds),
        ("Other ways", ways),
    ]


class WithoutForm(EnamelForm):
    """For which way of eating."""

    not_done = "Not chosen yet."

    without = forms.ChoiceField(label="The variant is", choices=without_choices)


@dataclass(frozen=True, slots=True)
class LineFields:
    """One line to decide on, with its three fields."""

    affected: Affected
    fields: tuple[forms.BoundField, ...]


class VariantForm(KeyedForm):
    """Title, code, a decision for each line, and the techniques that are lost."""

    not_done = "Not made yet."

    title = forms.CharField(label="Name of the variant", max_length=160)
    code = CodeField()
    lost = forms.MultipleChoiceField(
        label="Techniques that this variant does not train any more",
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text="Of the steps that use what goes. Ticked is what is named after it: look whether it is so.",
    )

    def __init__(
        self,
        lines: tuple[Affected, ...],
        foods: Mapping[str, FoodData],
        without: str,
        techniques: Mapping[str, str],
        *args: object,
        **more: object,
    ) -> None:
        super().__init__(*args, **more)
        self.lines = lines
        others = foods_without(without, foods)
        for each in lines:
            self._add(each, others)
        self.fields["lost"].choices = list(techniques.items())
        if not techniques:
            del self.fields["lost"]

    def _add(self, each: Affected, others: list[FoodData]) -> None:
        best = proposed(each.food, others)
        rest = [(food.code, food.name) for food in others if food not in best]
        choices = [("", "Choose a food"), ("Like it", [(food.code, food.name) for food in best])]
        choices = [*(choices if best else choices[:1]), ("Every food without it", rest)]
        about = f"{each.food.name} in {each.component.name}"
        self.fields[f"deed_{each.name}"] = forms.ChoiceField(
            label=f"What becomes of {about}", choices=DEEDS, widget=forms.RadioSelect, initial="replace"
        )
        self.fields[f"food_{each.name}"] = forms.ChoiceField(
            label="Food in its place", choices=choices, required=False
        )
        self.fields[f"weight_{each.name}"] = WeightField(
            label="At what weight", required=False, initial=each.line.milligrams, help_text="In grams."
        )
        for name in ("deed", "food", "weight"):
            in_our_words(self.fields[f"{name}_{each.name}"])

    def line_fields(self) -> list[LineFields]:
        """Each line with its fields, for the page."""
        names = ("deed", "food", "weight")
        return [LineFields(each, tuple(self[f"{name}_{each.name}"] for name in names)) for each in self.lines]

    def clean(self) -> dict:
        """A line that is replaced has a food and a weight."""
        said = super().clean()
        for each in self.lines:
            if said.get(f"deed_{each.name}") != "replace":
                self.errors.pop(f"weight_{each.name}", None)
                continue
            for field, words in (("food", "No food is chosen"), ("weight", "No weight is written")):
                name = f"{field}_{each.name}"
                if not said.get(name) and name not in self.errors:
                    self.add_error(name, f"{words} for {each.food.name}. Say it, or leave the line out.")
        return said

    def changes(self) -> tuple[LineChange, ...]:
        """What becomes of each line. For a valid form."""
        return tuple(self._change(each) for each in self.lines)

    def _change(self, each: Affected) -> LineChange:
        said = self.cleaned_data
        goes = said[f"deed_{each.name}"] == "leave_out"
        food, weight = said[f"food_{each.name}"], said.get(f"weight_{each.name}")
        place = (each.component.code, each.line.position)
        return LineChange(*place, None if goes else food, None if goes else weight)
