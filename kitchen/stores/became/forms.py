"""The forms of what became of the dishes, and of where a shared kit went."""

from collections.abc import Mapping, Sequence
from datetime import datetime, time

from django import forms
from django.utils import timezone

from curriculum.look.fields import ClockField, DayField, WholeNumberField
from curriculum.look.forms import KeyedForm
from kitchen.lessons.models import Lesson, Place
from kitchen.stores.became.cooling import LIMIT_WORDS, SOURCE, BecameEntry, Cooling, Portions
from kitchen.stores.became.queries import BenchRow, last_words
from kitchen.stores.deliveries.forms import CelsiusField

PORTIONS = {"least": 0, "most": 999, "such_as": 4, "required": False, "unit": "portions"}


class BecameForm(KeyedForm):
    """The same for every bench that is ticked: portions, and for what went home its cooling and its words."""

    not_done = "Nothing is written down yet."
    submit_words = "Write it down for these benches"
    benches = forms.MultipleChoiceField(
        widget=forms.CheckboxSelectMultiple,
        label="Benches",
        error_messages={"required": "No bench is ticked. Tick those of which this is true."},
    )
    eaten = WholeNumberField(label="Eaten in the college, a bench", **PORTIONS)
    sold = WholeNumberField(label="Sold, a bench", **PORTIONS)
    home = WholeNumberField(label="Taken home, a bench", **PORTIONS)
    wasted = WholeNumberField(label="Thrown away, a bench", **PORTIONS)
    since = ClockField(
        required=False, label="Cooling began", help_text="On the day of the lesson, such as 11:20."
    )
    read_at = ClockField(required=False, label="Read at", help_text="Such as 12:35.")
    celsius = CelsiusField(
        required=False, label="Core, read with a clean probe", help_text=f"{LIMIT_WORDS}. {SOURCE}"
    )
    eat_by = DayField(required=False, label="To be eaten by", help_text="By the college’s own procedure.")
    keep_words = forms.CharField(
        max_length=200,
        required=False,
        label="How it is kept, in the college’s words",
        help_text="Such as: in the fridge, heat it once until it steams.",
    )
    decided = forms.CharField(
        max_length=200,
        required=False,
        label="Who decided, where no reading keeps the limit",
        help_text="Name and what the college’s own procedure says, such as: dry biscuits, M. Bell.",
    )

    def __init__(self, data: Mapping | None, *, lesson: Lesson, rows: Sequence[BenchRow]) -> None:
        self.lesson, self.places = lesson, {row.place.code: row.place for row in rows}
        super().__init__(data, initial={"keep_words": last_words()})
        self.fields["benches"].choices = [(row.place.code, row.bench) for row in rows]

    def clean(self) -> dict:
        """Cooling is written whole or not at all, and read after it began."""
        said = super().clean()
        parts = {name: said.get(name) for name in ("since", "read_at", "celsius")}
        if any(name in self.errors for name in parts):
            return said
        missing = [name for name, value in parts.items() if value is None]
        if missing and len(missing) < len(parts):
            self.add_error(
                missing[0], "Cooling has a beginning, a time of reading and a reading. Write all three."
            )
        elif not missing and parts["read_at"] <= parts["since"]:
            self.add_error("read_at", "It is read after cooling began. Write a later time.")
        return said

    def chosen(self) -> list[Place]:
        """The benches that are ticked."""
        return [self.places[code] for code in self.cleaned_data["benches"]]

    def entry(self) -> BecameEntry:
        """What was said, as the action takes it."""
        said = self.cleaned_data
        counts = (said.get(name) or 0 for name in ("eaten", "sold", "home", "wasted"))
        cooling = None
        if said["since"] is not None:
            cooling = Cooling(self._at(said["since"]), self._at(said["read_at"]), said["celsius"])
        words = said["keep_words"].strip(), said["decided"].strip()
        return BecameEntry(Portions(*counts), cooling, said["eat_by"], *words)

    def _at(self, clock: time) -> datetime:
        return datetime.combine(self.lesson.on, clock, timezone.get_current_timezone())


class GivenForm(KeyedForm):
    """To which benches one shared kit was given."""

    not_done = "Where the kit went is not written down yet."
    submit_words = "Write it down"
    leave_words = "Leave without writing"
    benches = forms.MultipleChoiceField(
        widget=forms.CheckboxSelectMultiple, required=False, label="Given to these benches, and to no other"
    )
    to_none = forms.BooleanField(required=False, label="It was given to no bench")

    def __init__(self, data: Mapping | None, *, rows: Sequence[BenchRow], to: Sequence[int] | None) -> None:
        self.places = {row.place.code: row.place for row in rows}
        ticked = [code for code, place in self.places.items() if to and place.pk in to]
        super().__init__(data, initial={"benches": ticked, "to_none": to is not None and not to})
        self.fields["benches"].choices = [(row.place.code, row.bench) for row in rows]

    def clean(self) -> dict:
        """Some bench, or said to be none."""
        said = super().clean()
        if not said.get("benches") and not said.get("to_none") and "benches" not in self.errors:
            self.add_error("benches", "No bench is ticked. Tick those that had of it, or say that none had.")
        if said.get("benches") and said.get("to_none"):
            self.add_error("to_none", "Benches are ticked above. Take this tick away, or those.")
        return said

    def chosen(self) -> list[Place]:
        """The benches that had of it."""
        return [self.places[code] for code in self.cleaned_data["benches"]]
