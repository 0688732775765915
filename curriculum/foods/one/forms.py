"""Forms of one food: a yield test, a price, what a label says, its own figures."""

import re

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Fieldset, Layout, Row
from django import forms
from django.core.exceptions import ValidationError
from django.db.models import QuerySet

from curriculum.allergens import KINDS, printed
from curriculum.foods.forms import FoodForm, WeightField
from curriculum.foods.models import Food, Supplier
from curriculum.foods.one.said import FACTS, LabelSaid, PriceSaid, YieldSaid
from curriculum.foods.queries import fingerprint
from curriculum.look.fields import DayField, WholeNumberField
from curriculum.look.forms import EnamelForm, KeyedForm
from curriculum.look.reading import quoted

KIND_CHOICES = [(kind, printed(kind)) for kind in KINDS]


class MoneyField(forms.Field):
    """Pounds and pence, written "8.40"; whole pence."""

    def __init__(self, **more: object) -> None:
        more.setdefault("widget", forms.TextInput(attrs={"class": "short", "inputmode": "decimal"}))
        super().__init__(**more)

    def to_python(self, value: object) -> int | None:
        """Pence, or None when nothing was written."""
        text = str(value or "").strip()
        if not text:
            return None
        found = re.fullmatch(r"£?\s*(\d{1,6})(?:[.](\d{2}))?", text.replace(",", ""))
        if "," in text and not re.fullmatch(r"£?\s*\d{1,3}(,\d{3})+(\.\d{2})?", text):
            found = None
        if found is None:
            raise ValidationError(f"You wrote {quoted(text)}. Write pounds and pence, such as 8.40.")
        return int(found[1]) * 100 + int(found[2] or 0)


class YieldTestForm(KeyedForm):
    """A yield test: weighed as bought and after trimming."""

    not_done = "Not written down yet."
    submit_words = "Write the test down"
    leave_words = "Leave without writing"

    on = DayField(label="Day of the test")
    purchased = WeightField(label="Weight as bought", help_text="Before trimming: 2.4 kg or 2400.")
    usable = WeightField(label="Usable weight", help_text="After trimming, peeling, boning or draining.")

    def said(self) -> YieldSaid:
        """The test as it was written."""
        said = self.cleaned_data
        return YieldSaid(said["on"], said["purchased"], said["usable"])


class PriceForm(KeyedForm):
    """A pack at a price from a day on."""

    not_done = "Not written down yet."
    submit_words = "Write the price down"
    leave_words = "Leave without writing"

    supplier = forms.ModelChoiceField(
        Supplier.objects.order_by("name"),
        label="Supplier",
        to_field_name="code",
        empty_label="Choose a supplier",
    )
    milligrams = WeightField(label="Weight of the pack", help_text="Such as 16 kg.")
    pieces = WholeNumberField(
        label="Pieces in it",
        least=1,
        required=False,
        such_as=30,
        help_text="Empty: it is not bought by the piece.",
    )
    pence = MoneyField(label="Price of the pack, in pounds")
    from_on = DayField(label="From the day")
    for_costing = forms.BooleanField(label="Recipes are costed by this pack", required=False)

    def said(self) -> PriceSaid:
        """The price as it was written."""
        said = {name: value for name, value in self.cleaned_data.items() if name not in ("key", "supplier")}
        return PriceSaid(supplier=self.cleaned_data["supplier"].code, **said)


class LabelForm(EnamelForm):
    """What a label says: contained and may contain apart, and facts for other ways of eating."""

    not_done = "Not written down yet."
    submit_words = "This is what the label says"
    leave_words = "Leave without writing"

    read_on = DayField(label="Day on which the label was read")
    contains = forms.MultipleChoiceField(
        label="Contains",
        choices=KIND_CHOICES,
        widget=forms.CheckboxSelectMultiple,
        required=False,
        help_text="What is in the list of ingredients. None ticked: nothing is declared.",
    )
    may_contain = forms.MultipleChoiceField(
        label="May contain", choices=KIND_CHOICES, widget=forms.CheckboxSelectMultiple, required=False
    )

    def __init__(self, *args: object, **more: object) -> None:
        super().__init__(*args, **more)
        for code, words in FACTS.items():
            self.fields[f"fact_{code}"] = forms.ChoiceField(
                label=words.capitalize(),
                choices=[("no", "no"), ("yes", "yes"), ("unknown", "not known")],
                error_messages={
                    "required": "Nothing is chosen. Choose one.",
                    "invalid_choice": "Choose again.",
                },
            )
        self.helper = FormHelper(self)
        self.helper.layout = Layout(
            "read_on",
            Row("contains", "may_contain"),
            Fieldset(
                "For other ways of eating",
                Row("fact_meat", "fact_fish"),
                Row("fact_pork", "fact_beef"),
                Row("fact_slaughter_by_product", "fact_animal_rennet"),
                "fact_alcohol",
            ),
        )

    def said(self) -> LabelSaid:
        """The label as it was read."""
        said = self.cleaned_data
        facts = tuple((code, said[f"fact_{code}"]) for code in FACTS)
        return LabelSaid(tuple(said["contains"]), tuple(said["may_contain"]), facts, said["read_on"])


def label_initial(food: Food) -> dict:
    """What stands on file, to be looked over; the day is left empty on purpose."""
    said: dict = {"contains": [], "may_contain": []}
    for allergen in food.allergens.all():
        said[allergen.presence].append(allergen.kind)
    return said | {f"fact_{code}": food.facts.get(code) or "unknown" for code in FACTS}


class EditForm(FoodForm):
    """The figures of a food that is in the book; ``seen`` tells whether somebody changed them meanwhile."""

    not_done = "Not changed yet."
    submit_words = "Change the food"
    leave_words = "Leave without changing"

    def __init__(self, *args: object, food: Food, **more: object) -> None:
        self.food = food
        more.setdefault("initial", _initial(food))
        super().__init__(*args, **more)
        self.fields["seen"] = forms.CharField(
            widget=forms.HiddenInput, required=False, initial=fingerprint(food)
        )
        self.helper.layout.append("seen")

    def others(self) -> QuerySet[Food]:
        """The foods that may not have the same name: all but this one."""
        return super().others().exclude(pk=self.food.pk)


def _initial(food: Food) -> dict:
    same = (
        *("name", "storage", "counted_in", "piece_milligrams", "edible_piece_milligrams", "piece_source"),
        *("usable_per_mille", "usable_source", "increment_milligrams", "rounding", "scaling_class"),
        *("dough_part", "density_source", "note"),
    )
    said = {name: getattr(food, name) for name in same} | {"density": food.milligrams_per_ml}
    if said["usable_per_mille"] == 1000 and not food.usable_source:
        said["usable_per_mille"] = None
    return said
