"""The forms of an own order of work: writing it, opening it again, whether it is assessed."""

import re
import uuid
from collections.abc import Mapping, Sequence

from django import forms

from curriculum.look.forms import KeyedForm
from kitchen.lessons.forms import ButtonForm
from kitchen.timeplan.own_order.queries import OrderDesk, order_of
from kitchen.timeplan.own_order.sheet import StepFacts
from kitchen.timeplan.own_order.written import Trouble, WrittenOrder

#: Lines for cleaning on the form; one more than is written is always there, up to the most. Our
#: own choice, no source.
LEAST_CLEANING_LINES, MOST_CLEANING_LINES = 3, 20
CLEANING = re.compile(r"clean_at_(\d{1,2})")


def _text(label: str, most: int) -> forms.CharField:
    area = forms.Textarea(attrs={"rows": 2, "class": "low"})
    return forms.CharField(label=label, required=False, max_length=most, widget=area)


def _time(label: str) -> forms.CharField:
    box = forms.TextInput(attrs={"class": "short", "autocomplete": "off"})
    return forms.CharField(label=label, required=False, max_length=20, widget=box)


class OrderForm(KeyedForm):
    """Every step with its time, task and special points; cleaning; what if something goes wrong.

    Times are words here: what cannot be read is kept with the rest, and said at its field.
    """

    not_done = "Kept as you wrote it, and not all of it can be used."
    based_on = forms.IntegerField(min_value=0, widget=forms.HiddenInput)

    def __init__(self, desk: OrderDesk, said: Mapping[str, str] | None = None) -> None:
        self.steps, self.saved_now = desk.steps, desk.saved
        sent = [int(match[1]) for match in map(CLEANING.fullmatch, said or ()) if match]
        most = max([*sent, len(desk.written.cleaning) + 1, LEAST_CLEANING_LINES])
        self.count = min(most, MOST_CLEANING_LINES)
        super().__init__(said)
        self.base = said.get("based_on", "0") if said else desk.saved
        for step in desk.steps:
            self.add_fields(self._step_fields(step))
        for number in range(1, self.count + 1):
            self.add_fields(
                {
                    f"clean_at_{number}": _time(f"Time, cleaning {number}"),
                    f"clean_minutes_{number}": _time(f"Minutes, cleaning {number}"),
                    f"clean_task_{number}": _text("What you clean", 200),
                }
            )
        self.add_fields(
            {
                "contingency": forms.CharField(
                    label="If something goes wrong",
                    required=False,
                    max_length=1000,
                    widget=forms.Textarea(attrs={"rows": 4}),
                    help_text="Such as: if my paste shrinks, I …",
                )
            }
        )

    @staticmethod
    def _step_fields(step: StepFacts) -> dict[str, forms.Field]:
        found: dict[str, forms.Field] = {
            f"at_{step.step}": _time(f"Time, {step.head.lower()}"),
            f"task_{step.step}": _text("Task", 300),
            f"points_{step.step}": _text("Special points", 300),
        }
        if step.stays:
            found[f"meanwhile_{step.step}"] = _text("Meanwhile", 300)
        return found

    def order(self) -> WrittenOrder:
        """What a valid form says."""
        return order_of(self.steps, self.cleaned_data, self.count)

    def keep_in_its_place(self) -> None:
        """The next time this form is sent it replaces what was kept meanwhile."""
        self.base = self.saved_now

    def say(self, troubles: Sequence[Trouble]) -> None:
        """Name each trouble at its field."""
        for trouble in troubles:
            if trouble.field in self.fields:
                self.add_error(trouble.field, trouble.words)

    @property
    def step_rows(self) -> list[tuple[StepFacts, list[forms.BoundField]]]:
        """Each step with its fields, for the page."""
        names = ("at", "task", "points", "meanwhile")
        return [
            (step, [self[f"{name}_{step.step}"] for name in names if f"{name}_{step.step}" in self.fields])
            for step in self.steps
        ]

    @property
    def cleaning_rows(self) -> list[tuple[int, list[forms.BoundField]]]:
        """Each line of cleaning with its fields, for the page."""
        names = ("at", "minutes", "task")
        return [(n, [self[f"clean_{name}_{n}"] for name in names]) for n in range(1, self.count + 1)]


def standing_form(desk: OrderDesk) -> OrderForm:
    """The form as the order was last kept, with what cannot be used said at its fields."""
    if desk.row is None:
        return OrderForm(desk)
    said = {"based_on": str(desk.saved), "key": str(uuid.uuid4()), "contingency": desk.written.contingency}
    for line in desk.written.steps:
        for name in ("at", "task", "points", "meanwhile"):
            said[f"{name}_{line.step}"] = getattr(line, name)
    for number, clean in enumerate(desk.written.cleaning, 1):
        for name in ("at", "minutes", "task"):
            said[f"clean_{name}_{number}"] = getattr(clean, name)
    form = OrderForm(desk, said)
    form.is_valid()
    form.say(desk.judged.troubles)
    return form


class HandInForm(ButtonForm):
    """What the button sends: which saved order was seen."""

    based_on = forms.IntegerField(min_value=0)


class OpenAgainForm(KeyedForm):
    """Why a handed-in order is opened again."""

    not_done = "Not opened again yet."
    submit_words = "Open it again"
    why = forms.CharField(
        label="Why it is opened again",
        max_length=300,
        widget=forms.Textarea(attrs={"rows": 2}),
        help_text="The learner and whoever looks over the marking read this.",
    )


class AssessedForm(ButtonForm):
    """What the button sends: whether the learners' own orders are assessed."""

    own_order_assessed = forms.TypedChoiceField(
        choices=[("yes", "assessed"), ("no", "not assessed")], coerce=lambda value: value == "yes"
    )
