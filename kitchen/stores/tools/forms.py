"""The forms of a lesson's small equipment: count out, count in, write off."""

from collections.abc import Mapping

from django import forms
from django.forms import BoundField

from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import KeyedForm
from kitchen.lessons.models import Lesson
from kitchen.stores.moves.forms import ReasonForm
from kitchen.stores.tools import queries, reasons
from kitchen.stores.tools.actions import Count
from kitchen.stores.tools.counting import Handed, given_to_benches
from kitchen.stores.tools.kinds import GROUPS, group_of, name_of
from kitchen.stores.tools.queries import Countable

MOST = 1_000
BY_BENCH = "bench"
GIVEN = (("", "To the class"), (BY_BENCH, "Bench by bench, as the recipes list it"))


class CountForm(KeyedForm):
    """Figures beside things; ``seen`` says how often each was counted when the page was opened."""

    not_done = "Nothing is counted yet."
    seen = forms.CharField(widget=forms.HiddenInput, max_length=20_000)

    def __init__(self, data: Mapping | None, *, lesson: Lesson) -> None:
        self.lesson = lesson
        told = " ".join(f"{thing}:{count}" for thing, count in queries.moves_seen(lesson).items())
        super().__init__(data, initial={"seen": f"{told} 0:0"})

    def clean(self) -> dict:
        """At least one thing is counted."""
        cleaned = super().clean()
        if not self.errors and not self.counts():
            raise forms.ValidationError("Nothing is counted. Write a figure beside one thing at least.")
        return cleaned

    def counts(self) -> list[Count]:
        """What was counted, as the actions take it."""
        raise NotImplementedError

    def what_was_seen(self) -> dict[int, int]:
        """By thing, how often the page had seen it counted."""
        pairs = (each.partition(":") for each in self.cleaned_data.get("seen", "").split())
        return {int(thing): int(count) for thing, _, count in pairs if _figures(thing) and _figures(count)}


def _figures(words: str) -> bool:
    return words.isascii() and words.isdigit() and len(words) < 10


class OutForm(CountForm):
    """How many of each thing go out, to the class or bench by bench."""

    submit_words = "Count out"

    def __init__(self, data: Mapping | None = None, *, lesson: Lesson) -> None:
        super().__init__(data, lesson=lesson)
        self.things = queries.to_count_out(lesson)
        fields: dict[str, forms.Field] = {}
        for each in self.things:
            name = f"{name_of(each.thing.item)}, {each.thing.room.name}"
            fields[f"n_{each.thing.pk}"] = WholeNumberField(
                most=MOST, such_as=7, required=False, initial=each.proposed or None, label=f"Out: {name}"
            )
            if each.benches:
                fields[f"to_{each.thing.pk}"] = forms.ChoiceField(
                    choices=GIVEN, required=False, label=f"To whom: {name}"
                )
        self.add_fields(fields)

    def rows(self) -> list[tuple[str, list[tuple[Countable, BoundField, BoundField | None]]]]:
        """By group: each thing with its box and, where benches list it, to whom it goes."""
        told = [
            (each, self[f"n_{each.thing.pk}"], self[f"to_{each.thing.pk}"] if each.benches else None)
            for each in self.things
        ]
        groups = [
            (group.title, [row for row in told if group_of(row[0].thing.item) == group]) for group in GROUPS
        ]
        return [(title, rows) for title, rows in groups if rows]

    def counts(self) -> list[Count]:
        """What goes out; bench by bench each has what its recipe lists, and the class the rest."""
        found, said = [], self.cleaned_data
        for each in self.things:
            count, thing = said.get(f"n_{each.thing.pk}") or 0, each.thing.pk
            benches = each.benches if said.get(f"to_{thing}") == BY_BENCH else ()
            found += [Count(thing, many, place) for place, many in given_to_benches(count, benches).items()]
        return found


class InForm(CountForm):
    """How many of what is out came back; an empty box was not counted."""

    submit_words = "Count in"

    def __init__(self, data: Mapping | None = None, *, lesson: Lesson) -> None:
        super().__init__(data, lesson=lesson)
        every = queries.counts(lesson).lines
        self.lines = [line for line in every if line.open or (data is not None and _box(line) in data)]
        self.add_fields(
            {
                _box(line): WholeNumberField(
                    most=MOST,
                    such_as=7,
                    required=False,
                    label=f"Back: {line.name}, {line.origin}, {line.with_whom.lower()}",
                )
                for line in self.lines
            }
        )

    def rows(self) -> list[tuple[str, list[tuple[Handed, BoundField]]]]:
        """By group: each line with its box."""
        groups = [
            (group.title, [(line, self[_box(line)]) for line in self.lines if group_of(line.item) == group])
            for group in GROUPS
        ]
        return [(title, rows) for title, rows in groups if rows]

    def counts(self) -> list[Count]:
        """What came back; 0 is counted and nothing."""
        said = self.cleaned_data
        return [
            Count(line.thing, said[_box(line)], line.place) for line in self.lines if said.get(_box(line))
        ]


def _box(line: Handed) -> str:
    return Count(line.thing, line.open, line.place).in_box


class WriteOffForm(ReasonForm):
    """So many of what is not back are gone, and why."""

    listed = reasons.LOST
    not_done = "Nothing is written off."
    submit_words = "Write off"
    leave_words = "Leave it open"
    field_order = ("count", "reason", "note")

    def __init__(self, *args: object, line: Handed, **more: object) -> None:
        super().__init__(*args, initial={"count": line.open}, **more)
        count = WholeNumberField(least=1, most=MOST, such_as=1, label="How many are gone")
        self.add_fields({"count": count})
        self.order_fields(self.field_order)
