"""The forms of the weigh-out: taps, a second look, a pack on the scale, the college's own rule."""

from collections.abc import Iterable, Sequence
from fractions import Fraction

from django import forms

from curriculum.look.fields import MinutesField, TenthsField, WholeNumberField
from curriculum.look.forms import EnamelForm, KeyedForm
from curriculum.people.models import User
from kitchen.stores.weighout.checks import GROUPS_TO_CHECK, WAYS, WeighOutRule
from kitchen.stores.weighout.models import Cleaned
from kitchen.stores.weighout.order import Item
from kitchen.stores.weighout.tally import FoodTally


class CleanForm(EnamelForm):
    """One tap: this is clean."""

    thing = forms.ChoiceField(choices=Cleaned.Thing.choices)


class TapForm(EnamelForm):
    """One tap at the scale: which food of which kit, with its number."""

    key = forms.UUIDField()
    kit = forms.CharField(max_length=8)
    food = forms.SlugField(max_length=60)


class LidForm(EnamelForm):
    """One tap: the lid is on, or off again."""

    key = forms.UUIDField()
    lid = forms.ChoiceField(choices=[("on", "on"), ("off", "off")])


class GoOnForm(EnamelForm):
    """Why somebody weighs on before the free-from kits are lidded."""

    not_done = "Nothing is opened yet."
    reason = forms.CharField(
        max_length=200,
        label="Why you go on",
        help_text="Such as: the other store room holds the free-from kits. It is kept with your name.",
    )

    def __init__(self, *args: object, **more: object) -> None:
        more.setdefault("auto_id", "go_on_%s")
        super().__init__(*args, **more)


class InitialForm(KeyedForm):
    """A second person has looked at these weights."""

    not_done = "Nothing is initialled yet."
    second = forms.ChoiceField(label="Who looked")
    weights = forms.MultipleChoiceField(
        widget=forms.CheckboxSelectMultiple,
        label="Looked at",
        error_messages={"required": "Nothing is ticked. Tick what was looked at."},
    )

    def __init__(self, people: Sequence[User], items: Iterable[Item], *args: object, **more: object) -> None:
        choices = [(f"{item.kit}:{item.food}", _named(item)) for item in items]
        more.setdefault("auto_id", "initial_%s")
        more.setdefault("initial", {"weights": [code for code, _ in choices]})
        super().__init__(*args, **more)
        self.people = {person.username: person for person in people}
        self.fields["second"].choices = [("", ""), *((person.username, person.name) for person in people)]
        self.fields["weights"].choices = choices

    def second_person(self) -> User:
        """Who looked."""
        return self.people[self.cleaned_data["second"]]

    def pairs(self) -> list[tuple[str, str]]:
        """What was looked at: kit and food."""
        return [tuple(each.split(":")) for each in self.cleaned_data["weights"]]


class CheckWeightForm(KeyedForm):
    """A pot on a scale once more."""

    not_done = "The check weight is not noted yet."
    weight = forms.ChoiceField(label="Which pot")
    shown = TenthsField(
        least=Fraction(0),
        most=100_000,
        such_as="30.5",
        unit="g",
        label="What the scale shows",
        help_text="Without the pot. Do not look at the first weight before.",
    )

    def __init__(self, items: Iterable[Item], *args: object, **more: object) -> None:
        more.setdefault("auto_id", "check_%s")
        super().__init__(*args, **more)
        self.items = {f"{item.kit}:{item.food}": item for item in items}
        self.fields["weight"].choices = [(code, item.name) for code, item in self.items.items()]

    def item(self) -> Item:
        """The weight that is checked."""
        return self.items[self.cleaned_data["weight"]]

    def milligrams(self) -> int:
        """What the scale showed, in milligrams; whole pieces are counted."""
        unit = self.item().unit_milligrams or 1000
        return int(self.cleaned_data["shown"] * unit)


class BulkForm(KeyedForm):
    """A pack on the scale: what it holds now."""

    not_done = "The pack is not noted yet."
    lot = forms.ChoiceField(label="Which pack")

    def __init__(self, tally: FoodTally, *args: object, **more: object) -> None:
        more.setdefault("auto_id", "bulk_%s")
        super().__init__(*args, **more)
        self.unit = tally.unit
        self.fields["lot"].choices = [(each.lot, f"Lot {each.lot}") for each in tally.lots]
        field = (
            WholeNumberField(least=0, most=100_000, such_as=12, unit="pieces", label="How many are left")
            if tally.unit
            else TenthsField(
                least=Fraction(0),
                most=1_000_000,
                such_as="610",
                unit="g",
                label="What is left in it",
                help_text="On the bulk’s scale, without the pack.",
            )
        )
        self.add_fields({"left": field})

    def milligrams(self) -> int:
        """What is left, in milligrams."""
        return int(self.cleaned_data["left"] * (self.unit or 1000))


class OldTrayForm(EnamelForm):
    """One tap: a tray was taken apart, or stands for a new kit."""

    key = forms.UUIDField()
    kit = forms.CharField(max_length=8)
    same_as = forms.CharField(max_length=8, required=False)


class RuleForm(EnamelForm):
    """How this college weighs out."""

    not_done = "Not kept yet."
    submit_words = "Keep it so"
    leave_words = "Leave it as it is"
    way = forms.ChoiceField(choices=WAYS, widget=forms.RadioSelect, label="The second check")
    every = WholeNumberField(
        least=2,
        most=30,
        such_as=5,
        unit="kits",
        label="Sampled: one in so many",
        help_text="Which kits they are is drawn from the kits themselves; nobody chooses them.",
    )
    groups = forms.MultipleChoiceField(
        choices=GROUPS_TO_CHECK,
        widget=forms.CheckboxSelectMultiple,
        required=False,
        label="Foods that are looked at twice",
    )
    check_per_mille = TenthsField(
        most=20,
        such_as="2",
        unit="%",
        label="A check weight may be off by",
        help_text="Never less than a step of the scale.",
    )
    bulk_per_mille = TenthsField(
        most=20,
        such_as="1",
        unit="%",
        label="A pack may be off by",
        help_text="Of what was weighed out of it; never less than a step of the scale.",
    )
    cold_minutes = MinutesField(
        label="Chilled food is weighed so long before it is used, at most",
        help_text="Ninety minutes on a warm bench is called the practical limit; local codes decide.",
    )

    def __init__(self, rule: WeighOutRule, *args: object, **more: object) -> None:
        more.setdefault("initial", _shown(rule))
        super().__init__(*args, **more)

    def rule(self) -> WeighOutRule:
        """The rule as the action takes it."""
        said = self.cleaned_data
        return WeighOutRule(
            way=said["way"],
            every=said["every"],
            groups=frozenset(said["groups"]),
            check_per_mille=int(said["check_per_mille"] * 10),
            bulk_per_mille=int(said["bulk_per_mille"] * 10),
            cold_minutes=said["cold_minutes"],
        )


def _shown(rule: WeighOutRule) -> dict:
    shares = {name: Fraction(getattr(rule, name), 10) for name in ("check_per_mille", "bulk_per_mille")}
    plain = {name: getattr(rule, name) for name in ("way", "every", "cold_minutes")}
    return plain | shares | {"groups": sorted(rule.groups)}


def _named(item: Item) -> str:
    """ "Bench 3: 104 g"."""
    return f"{item.name}: {item.figure} {item.unit}"
