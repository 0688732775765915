"""The forms of lots and labels."""

from collections.abc import Mapping

from django import forms
from django.core.exceptions import ValidationError

from curriculum.allergens import KINDS, printed
from curriculum.foods.models import Food, Supplier
from curriculum.look.fields import DayField, TenthsField, WholeNumberField
from curriculum.look.forms import EnamelForm, KeyedForm
from kitchen.stores.entries import LabelRead, LotEntry
from kitchen.stores.models import Lot

KIND_CHOICES = [(kind, printed(kind)) for kind in KINDS]
#: What a label or a supplier answers besides allergens, and how it can be answered.
FACTS = ("meat", "pork", "fish", "slaughter_by_product", "alcohol", "animal_rennet")
ANSWERS = (("unknown", "not answered"), ("no", "no"), ("trace", "a trace"), ("yes", "yes"))


class LabelForm(KeyedForm):
    """What somebody reads on a label, ticked kind by kind."""

    not_done = "The label is not written down yet."
    submit_words = "I have read this label"
    leave_words = "Leave without reading"
    contains = forms.MultipleChoiceField(
        choices=KIND_CHOICES,
        required=False,
        widget=forms.CheckboxSelectMultiple,
        label="The label says: contains",
    )
    may_contain = forms.MultipleChoiceField(
        choices=KIND_CHOICES,
        required=False,
        widget=forms.CheckboxSelectMultiple,
        label="The label says: may contain",
    )
    none_named = forms.BooleanField(required=False, label="The label names none of these")

    def __init__(
        self,
        *args: object,
        food: Food,
        kinds: Mapping[str, list[str]] | None = None,
        facts: Mapping[str, str] | None = None,
        **more: object,
    ) -> None:
        known = food.facts if facts is None else facts
        said = {fact: known.get(fact, "unknown") for fact in FACTS}
        kinds = _kinds_of(food) if kinds is None else kinds
        super().__init__(*args, initial={**kinds, **said}, **more)
        for fact in FACTS:
            words = fact.replace("_", " ")
            self.fields[fact] = forms.ChoiceField(
                choices=ANSWERS, initial=said[fact], label=words[0].upper() + words[1:]
            )

    def fact_fields(self) -> list[forms.BoundField]:
        """The fields of the other facts, in their order."""
        return [self[fact] for fact in FACTS]

    def clean(self) -> dict:
        """A label that names nothing is said to name nothing; no kind is both in it and perhaps in it."""
        cleaned = super().clean()
        contains, may = cleaned.get("contains", []), cleaned.get("may_contain", [])
        if not contains and not may and not cleaned.get("none_named"):
            raise ValidationError(
                "Nothing is ticked. Tick what the label names, or that it names none of these."
            )
        if (contains or may) and cleaned.get("none_named"):
            self.add_error("none_named", "Kinds are ticked above. Take this tick away, or those.")
        return cleaned

    def read(self) -> LabelRead:
        """What was read; a kind that is contained is not listed again as perhaps contained."""
        contains = tuple(self.cleaned_data["contains"])
        may = tuple(kind for kind in self.cleaned_data["may_contain"] if kind not in contains)
        return LabelRead(contains, may, tuple((fact, self.cleaned_data[fact]) for fact in FACTS))


def _kinds_of(food: Food) -> dict[str, list[str]]:
    """What the label of the food says, by presence."""
    kinds: dict[str, list[str]] = {"contains": [], "may_contain": []}
    for row in food.allergens.all():
        kinds[row.presence].append(row.kind)
    return kinds


class ReceiveForm(KeyedForm):
    """Take a lot in; its label is read on the page after this one."""

    not_done = "The lot is not taken in yet."
    submit_words = "Take the lot in"
    leave_words = "Leave without taking in"
    food = forms.ModelChoiceField(
        Food.objects.filter(retired_at=None, from_tap=False, made_from=None).order_by("name"),
        empty_label="Choose a food",
        label="Food",
    )
    code = forms.RegexField(
        r"^[A-Za-z0-9-]{2,20}$",
        label="Lot",
        help_text="As it stands on the pack, such as MP-0741.",
        error_messages={"invalid": "Write letters, figures and dashes, 2 to 20 of them, such as MP-0741."},
    )
    supplier = forms.ModelChoiceField(
        Supplier.objects.order_by("name"), required=False, empty_label="None", label="Supplier"
    )
    batch = forms.CharField(max_length=40, required=False, label="Supplier’s batch")
    amount = WholeNumberField(
        least=1,
        most=1_000_000,
        such_as=5000,
        label="How much",
        help_text="Grams; pieces for eggs and whole fruit.",
    )
    received_on = DayField(label="Received on")
    date_kind = forms.ChoiceField(choices=Lot.DateKind.choices, label="The date on it is a")
    dated_on = DayField(required=False, label="That date")
    reserved_free_from = forms.BooleanField(required=False, label="Kept unopened for free-from kits")

    def clean(self) -> dict:
        """The kind of date and the date go together."""
        cleaned = super().clean()
        none = cleaned.get("date_kind") == Lot.DateKind.NONE
        if none and cleaned.get("dated_on"):
            self.add_error(
                "dated_on", "A lot without a date has none. Leave this empty, or say which date it is."
            )
        if not none and not cleaned.get("dated_on") and "dated_on" not in self.errors:
            self.add_error("dated_on", "This is empty. Write the date, such as 5 Mar 2027.")
        return cleaned

    def entry(self) -> LotEntry:
        """The lot as the action takes it; pieces become milligrams by the weight of a piece."""
        said = self.cleaned_data
        food = said["food"]
        counted = food.counted_in == Food.CountedIn.PIECES
        unit = food.piece_milligrams if counted and food.piece_milligrams else 1000
        return LotEntry(
            code=said["code"],
            food=food.code,
            supplier=said["supplier"].code if said["supplier"] else "",
            batch=said["batch"],
            milligrams=said["amount"] * unit,
            received_on=said["received_on"],
            date_kind=said["date_kind"],
            dated_on=said["dated_on"],
            reserved_free_from=said["reserved_free_from"],
        )


class HoldForm(EnamelForm):
    """Hold a lot, with the reason."""

    not_done = "The lot is not held yet."
    submit_words = "Hold this lot"
    why = forms.CharField(max_length=120, label="Why it is held")


class ReturnForm(KeyedForm):
    """What came back of one issue."""

    not_done = "Nothing went back yet."
    submit_words = "Put it back"
    leave_words = "Leave without putting back"
    grams = TenthsField(most=1_000_000, unit="g", label="What came back", help_text="In steps of 0.1 g.")
    sealed_and_cold = forms.BooleanField(
        required=False, label="It is sealed, and chilled food was kept cold all the time"
    )

    def milligrams(self) -> int:
        """What came back, in milligrams."""
        return int(self.cleaned_data["grams"] * 1000)
