"""Writing a draft: what stands above the components, one component, one line.

Each form reads a dataclass of ``curriculum.recipes.data`` and gives a changed one back
(``recipe``, ``component``, ``line``); what it does not show stays as it was.
"""

from dataclasses import replace
from uuid import UUID

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Fieldset, Layout, Row
from django import forms
from django.http import QueryDict

from curriculum.allergens import GROUPS
from curriculum.foods.forms import DegreesField, PerCentField, WeightField
from curriculum.foods.listing import CLASS_WORDS
from curriculum.foods.models import Food
from curriculum.foods.queries import foods_in_use
from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import EnamelForm, KeyedForm
from curriculum.look.layouts import ByGroup
from curriculum.look.reading import quoted
from curriculum.recipes.data import ComponentData, EquipmentData, LineData, RecipeData
from curriculum.recipes.models import Component, Line, Recipe
from curriculum.recipes.opened.forms import Opened
from curriculum.recipes.writing.equipment import equipment_from, equipment_words
from curriculum.techniques.models import Level


class FoodField(forms.ModelChoiceField):
    """A food of the book, by name."""

    def __init__(self, **more: object) -> None:
        more.setdefault("to_field_name", "code")
        super().__init__(queryset=Food.objects.none(), empty_label="Choose a food", **more)


class RecipeField(forms.ModelChoiceField):
    """An ordinary recipe that this one is a variant of."""

    def __init__(self, **more: object) -> None:
        super().__init__(
            queryset=Recipe.objects.filter(variant_of=None),
            to_field_name="code",
            empty_label="none, it is a recipe of its own",
            required=False,
            **more,
        )


class TitleForm(Opened, KeyedForm):
    """What stands above the components of a version."""

    not_done = "Not written yet."
    submit_words = "Write it down"
    leave_words = "Leave without writing"

    title = forms.CharField(label="Name of the dish", max_length=160)
    level = forms.ChoiceField(label="Level", choices=Level.choices, widget=forms.RadioSelect)
    portions_stated = WholeNumberField(label="Portions stated", least=1, most=1000, such_as=8)
    portions_obtainable = WholeNumberField(
        label="Portions to be had",
        least=1,
        most=1000,
        such_as=8,
        required=False,
        help_text="After losses and rejects. Empty: as many as stated.",
    )
    unit = forms.CharField(
        label="One of them is a", max_length=40, initial="portion", help_text="Such as wedge, roll, plate."
    )
    portion_milligrams = WeightField(
        label="Weight of a portion", required=False, help_text="In grams. Empty: not said."
    )
    cut_for = forms.CharField(
        label="May be cut for",
        required=False,
        max_length=60,
        help_text="Other counts of the same dish, such as 10, 12.",
    )
    presentation = forms.CharField(label="How it is presented", required=False, max_length=300)
    serve_low_decicelsius = DegreesField(label="Served from", required=False)
    serve_high_decicelsius = DegreesField(label="Served up to", required=False)
    variant_of = RecipeField(label="Variant of")
    free_from = forms.MultipleChoiceField(
        label="Written without",
        choices=[(code, words) for code, (words, _) in GROUPS.items()],
        widget=forms.CheckboxSelectMultiple,
        required=False,
    )
    equipment = forms.CharField(
        label="Equipment of one bench",
        required=False,
        widget=forms.Textarea(attrs={"rows": 6}),
        help_text="One thing a line, such as “2 mixing bowl” or “blowtorch (shared)”.",
    )
    caution = forms.CharField(label="Caution for the whole dish", required=False, max_length=300)
    notes = forms.CharField(label="Notes", required=False, widget=forms.Textarea(attrs={"rows": 5}))

    def __init__(self, *args: object, **more: object) -> None:
        super().__init__(*args, **more)
        self.helper = FormHelper(self)
        self.helper.layout = Layout(
            *(name for name in ("title", "code") if name in self.fields),
            "level",
            _part(
                "Portions",
                Row("portions_stated", "portions_obtainable", "cut_for"),
                Row("unit", "portion_milligrams"),
            ),
            _part("Served", "presentation", Row("serve_low_decicelsius", "serve_high_decicelsius")),
            _part("Variant", "variant_of", ByGroup("free_from")),
            _part("Equipment, caution, notes", "equipment", "caution", "notes"),
            *("key", "opened"),
        )

    def clean_cut_for(self) -> tuple[int, ...]:
        """Counts of the same dish."""
        words = [part.strip() for part in self.cleaned_data["cut_for"].replace(";", ",").split(",")]
        bad = [part for part in words if part and not (part.isdecimal() and 0 < int(part[:5]) <= 1000)]
        if bad:
            raise forms.ValidationError(f"You wrote {quoted(bad[0])}. Write whole numbers, such as 10, 12.")
        return tuple(int(part) for part in words if part)

    def clean_equipment(self) -> tuple[EquipmentData, ...]:
        """One thing a line."""
        try:
            return equipment_from(self.cleaned_data["equipment"])
        except ValueError as error:
            raise forms.ValidationError(str(error)) from error

    def clean(self) -> dict:
        """The lower end of serving is not above the upper one."""
        said = super().clean()
        low, high = said.get("serve_low_decicelsius"), said.get("serve_high_decicelsius")
        if low is not None and high is not None and low > high:
            self.add_error(
                "serve_high_decicelsius", "This is below the lower end. Write the warmer one here."
            )
        return said

    @classmethod
    def initial_of(cls, recipe: RecipeData) -> dict:
        """What the form shows of a recipe."""
        same = [name for name in cls.base_fields if hasattr(recipe, name)]
        return {name: getattr(recipe, name) for name in same} | {
            "portion_milligrams": recipe.portion_milligrams or None,
            "cut_for": ", ".join(map(str, recipe.may_be_cut_for)),
            "equipment": equipment_words(recipe.equipment),
        }

    def recipe(self, before: RecipeData) -> RecipeData:
        """The recipe with what was written."""
        said = dict(self.cleaned_data)
        ordinary = said.pop("variant_of")
        cut_for = said.pop("cut_for")
        del said["key"], said["opened"]
        return replace(
            before,
            **said
            | {
                "portions_obtainable": said["portions_obtainable"] or said["portions_stated"],
                "portion_milligrams": said["portion_milligrams"] or 0,
                "free_from": tuple(said["free_from"]),
                "may_be_cut_for": cut_for,
                "variant_of": ordinary.code if ordinary else None,
            },
        )


class NewForm(TitleForm):
    """A recipe begun: its title and the code it is called by."""

    not_done = "Not begun yet."
    submit_words = "Begin the recipe"
    leave_words = "Leave without beginning"

    code = forms.SlugField(
        label="Short code",
        max_length=20,
        help_text="Letters, figures and hyphens, such as leek-quiche. It stands in the address and stays.",
        error_messages={"invalid": "Write letters, figures and hyphens only, such as leek-quiche."},
    )

    def clean_code(self) -> str:
        """A code that no recipe has."""
        code = self.cleaned_data["code"]
        if Recipe.objects.filter(code__iexact=code).exists() or code.lower() == "write":
            raise forms.ValidationError(f"{quoted(code)} is taken. Write another one.")
        return code

    def new_recipe(self) -> RecipeData:
        """A recipe without components and steps."""
        said = self.cleaned_data
        empty = RecipeData(said["code"], said["title"], 1, said["level"], 1, 1, 0, (), (), ())
        return self.recipe(empty)

    def recipe(self, before: RecipeData) -> RecipeData:
        """The recipe with what was written, the code apart."""
        code = self.cleaned_data.pop("code")
        return replace(super().recipe(before), code=code)


class ComponentForm(Opened, EnamelForm):
    """One component: name and basis of scaling. Its lines have pages of their own."""

    not_done = "Not written yet."
    submit_words = "Write it down"
    leave_words = "Leave without writing"

    name = forms.CharField(label="Name", max_length=120, help_text="Such as sweet paste, lemon custard.")
    basis = forms.ChoiceField(
        label="Made larger or smaller",
        choices=Component.Basis.choices,
        widget=forms.RadioSelect,
        initial="portions",
    )
    target_milligrams = WeightField(
        label="Reduced to", required=False, help_text="The weight to reach, for a stock, jam or sauce."
    )
    note = forms.CharField(label="Note", required=False, max_length=300)

    @classmethod
    def initial_of(cls, component: ComponentData) -> dict:
        """What the form shows of a component."""
        return {name: getattr(component, name) for name in cls.base_fields}

    def component(self, before: ComponentData) -> ComponentData:
        """The component with what was written."""
        said = self.cleaned_data
        return replace(before, **{name: said[name] for name in ComponentForm.base_fields})


class NewComponentForm(ComponentForm, KeyedForm):
    """A component added; sent twice it is added once."""


class LineForm(Opened, KeyedForm):
    """One ingredient line with all that may be said of it."""

    anchor = "food"

    not_done = "Not written yet."
    submit_words = "Write the line"
    leave_words = "Leave without writing"

    food = FoodField(label="Food")
    milligrams = WeightField(
        label="Weight", required=False, help_text="In grams: 260, 0.5, 1 lb 3 oz. Empty for whole pieces."
    )
    pieces = WholeNumberField(
        label="Whole pieces",
        least=1,
        most=1000,
        such_as=4,
        required=False,
        help_text="For eggs, lemons, legs.",
    )
    weight_is = forms.ChoiceField(
        label="This is the weight",
        choices=Line.WeightIs.choices,
        widget=forms.RadioSelect,
        initial="prepared",
    )
    issued = forms.ChoiceField(
        label="The bench is given it",
        choices=Line.Issued.choices,
        widget=forms.RadioSelect,
        initial="prepared",
    )
    yield_per_mille = PerCentField(
        label="Usable share here", required=False, help_text="In per cent. Empty: as the food says."
    )
    scaling_class = forms.ChoiceField(
        label="In a larger batch",
        choices=[("", "as the food says"), *CLASS_WORDS.items()],
        required=False,
    )
    held_back_milligrams = WeightField(label="Held back of it", required=False)
    least_milligrams = WeightField(label="At least, the cue decides", required=False)
    most_milligrams = WeightField(label="At most, the cue decides", required=False)
    target_milligrams = WeightField(label="Reduced to", required=False)
    minimum_milligrams = WeightField(label="Least that works at all", required=False)
    returned_milligrams = WeightField(label="Of it goes back", required=False)
    part = forms.ChoiceField(
        label="It is for", choices=Line.Part.choices, widget=forms.RadioSelect, initial="recipe"
    )
    purpose = forms.CharField(label="For what", required=False, max_length=60, help_text="Such as dusting.")
    enters_portion = forms.BooleanField(label="It stays in the dish", required=False, initial=True)
    note = forms.CharField(label="Note", required=False, max_length=300)

    def __init__(self, *args: object, **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["food"].queryset = foods_in_use()
        self.helper = FormHelper(self)
        self.helper.layout = Layout(
            *("food", "milligrams", "pieces", "weight_is", "issued", "note", "key", "opened"),
            _part(
                "Trim, classes and limits", Row("yield_per_mille", "scaling_class", "held_back_milligrams")
            ),
            _part("Decided at the bench", Row("least_milligrams", "most_milligrams", "target_milligrams")),
            _part("Baths and pans", Row("minimum_milligrams", "returned_milligrams")),
            _part("What becomes of it", "part", "purpose", "enters_portion"),
        )

    @classmethod
    def initial_of(cls, line: LineData) -> dict:
        """What the form shows of a line."""
        said = {name: getattr(line, name) for name in cls.base_fields}
        return said | {"held_back_milligrams": line.held_back_milligrams or None}

    def clean(self) -> dict:
        """A weight or pieces; parts of the line not above the whole; both ends of a range."""
        said = super().clean()
        if said.get("food") and not said.get("milligrams") and "milligrams" not in self.errors:
            self._weigh_pieces(said)
        whole = said.get("milligrams")
        for name in ("held_back_milligrams", "returned_milligrams", "least_milligrams"):
            if whole and (said.get(name) or 0) > whole:
                self.add_error(name, "This is more than the weight of the line. Write less, or nothing.")
        self._check_range(said, whole)
        return said

    def _weigh_pieces(self, said: dict) -> None:
        food, pieces = said["food"], said.get("pieces")
        each = piece_weight(food, said.get("weight_is", "prepared"))
        if not pieces:
            self.add_error("milligrams", "This is empty. Write a weight, or whole pieces.")
        elif not each:
            self.add_error("pieces", f"{food.name} is not counted in pieces in the book. Write its weight.")
        else:
            said["milligrams"] = pieces * each

    def _check_range(self, said: dict, whole: int | None) -> None:
        least, most = said.get("least_milligrams"), said.get("most_milligrams")
        if (least is None) != (most is None):
            self.add_error("most_milligrams" if most is None else "least_milligrams", "A range has two ends.")
        elif whole and most is not None and most < whole:
            self.add_error(
                "most_milligrams", "This is less than the weight of the line. Write as much or more."
            )

    def line(self, before: LineData) -> LineData:
        """The line with what was written."""
        said = {name: value for name, value in self.cleaned_data.items() if name in self.base_fields}
        said["food"] = said["food"].code
        said["scaling_class"] = said["scaling_class"] or None
        said["held_back_milligrams"] = said["held_back_milligrams"] or 0
        same = (said["food"], said["milligrams"]) == (before.food, before.milligrams)
        return replace(before, written=before.written if same else "", **said)


def piece_weight(food: Food, weight_is: str) -> int | None:
    """Milligrams of one piece of a food, as bought or of what is eaten; None when it has no pieces."""
    if weight_is == "prepared":
        return food.edible_piece_milligrams or food.piece_milligrams
    return food.piece_milligrams


def key_of(post: QueryDict) -> UUID | None:
    """The number that a button's form carries; None when it has none."""
    form = KeyedForm(post)
    return form.cleaned_data["key"] if form.is_valid() else None


def _part(heading: str, *fields: object) -> Fieldset:
    return Fieldset(heading, *fields, css_class="part")
