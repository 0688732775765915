"""What is fixed by hand: a start by the clock, an oven, an order; and letting go."""

from django import forms

from curriculum.look.fields import ClockField
from curriculum.look.forms import EnamelForm
from curriculum.wording import clock_minutes
from kitchen.lessons.forms import ButtonForm
from kitchen.timeplan.pins.choices import Choices
from kitchen.timeplan.pins.data import ORDER, OVEN, START, PinData


class _Fix(EnamelForm):
    """A form whose choices are the lesson's own; ``pins`` are what it fixes."""

    not_done = "Not fixed yet."
    kind = ""
    #: The field that a refusal of what was chosen together stands at.
    about = ""

    def __init__(self, choices: Choices, *args: object, **more: object) -> None:
        super().__init__(*args, prefix=self.kind, **more)
        self.choices = choices
        for name, listed in self._listed(choices).items():
            self.fields[name].choices = [("", "Choose one"), *listed]

    def _listed(self, choices: Choices) -> dict[str, list[tuple[str, str]]]:
        raise NotImplementedError

    def pins(self) -> tuple[PinData, ...]:
        """One for each bench that is meant."""
        raise NotImplementedError

    def clean(self) -> dict:
        """Refuse what means nothing in this lesson, at the field that would change it."""
        if not self.errors:
            refusals = dict.fromkeys(filter(None, map(self.choices.refusal, self.pins())))
            for words in refusals:
                self.add_error(self.about, words)
        return self.cleaned_data


class StartForm(_Fix):
    """A start by the clock, on any minute."""

    kind, about = START, "part"
    place = forms.ChoiceField(label="Where", required=False)
    part = forms.ChoiceField(label="What begins")
    at = ClockField(label="At", help_text="Hours and minutes, as 10:05; any minute.")

    def _listed(self, choices: Choices) -> dict[str, list[tuple[str, str]]]:
        return {"place": choices.places, "part": choices.starts}

    def clean_at(self) -> int:
        """Minutes after the start of the lesson. An error for what is no time of its cooking."""
        at = self.cleaned_data["at"]
        minute = at.hour * 60 + at.minute
        lesson = self.choices.lesson
        ends = lesson.cooking_from + lesson.usable_minutes
        if not lesson.cooking_from <= minute < ends:
            span = f"{clock_minutes(lesson.cooking_from)} to {clock_minutes(ends)}"
            raise forms.ValidationError(f"{clock_minutes(minute)} is outside this lesson’s cooking, {span}.")
        return minute - lesson.starts

    def clean(self) -> dict:
        """A part of a step needs a place; a demonstration is for everybody."""
        data = self.cleaned_data
        of_a_bench = bool(data.get("part")) and not data["part"].startswith("show-")
        if of_a_bench and not data.get("place") and "place" not in self.errors:
            self.add_error("place", "Nothing is chosen. Choose one.")
        return super().clean()

    def pins(self) -> tuple[PinData, ...]:
        """The start of the part at each bench of the place."""
        data = self.cleaned_data
        return self.choices.pins(START, data["place"], data["part"], minute=data["at"])


class OvenForm(_Fix):
    """The oven of a bake."""

    kind, about = OVEN, "oven"
    place = forms.ChoiceField(label="Where")
    part = forms.ChoiceField(label="What bakes")
    oven = forms.ChoiceField(label="In which oven")

    def _listed(self, choices: Choices) -> dict[str, list[tuple[str, str]]]:
        return {"place": choices.places, "part": choices.bakes, "oven": choices.ovens}

    def pins(self) -> tuple[PinData, ...]:
        """The oven of the bake at each bench of the place."""
        data = self.cleaned_data
        return self.choices.pins(OVEN, data["place"], data["part"], oven=data["oven"])


class OrderForm(_Fix):
    """What goes first: at the mixer, at the oven, anywhere."""

    kind, about = ORDER, "other_part"
    place = forms.ChoiceField(label="First, at")
    part = forms.ChoiceField(label="this part ends")
    other_place = forms.ChoiceField(label="Then, at")
    other_part = forms.ChoiceField(label="this part begins")

    def _listed(self, choices: Choices) -> dict[str, list[tuple[str, str]]]:
        benches, parts = choices.benches, choices.parts
        return {"place": benches, "part": parts, "other_place": benches, "other_part": parts}

    def pins(self) -> tuple[PinData, ...]:
        """The one order."""
        data = self.cleaned_data
        step, _, part = data["other_part"].rpartition("-")
        other = {"other_step": int(step), "other_part": int(part), "other_bench": data["other_place"]}
        return self.choices.pins(ORDER, data["place"], data["part"], **other)


FORMS: dict[str, type[_Fix]] = {START: StartForm, OVEN: OvenForm, ORDER: OrderForm}


class LetGoForm(ButtonForm):
    """The numbers of what is let go, as the page lists them."""

    numbers = forms.RegexField(r"^\d{1,9}(,\d{1,9})*$", max_length=700)

    def found(self) -> list[int]:
        """The numbers."""
        return [int(number) for number in self.cleaned_data["numbers"].split(",")]
