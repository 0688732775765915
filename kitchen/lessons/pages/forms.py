"""The forms of booking a lesson and changing one."""

from datetime import time

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Fieldset, Layout, Row
from django import forms

from curriculum.look.fields import ClockField, DayField, WholeNumberField
from curriculum.look.forms import KeyedForm
from curriculum.people.models import Group, User
from curriculum.people.roles import LECTURER, TECHNICIAN
from curriculum.recipes.models import Version
from curriculum.wording import clock_minutes
from kitchen.lessons.models import Lesson
from kitchen.lessons.orders import BookingOrder
from kitchen.lessons.pages.queries import dishes_to_book, groups_to_book, people_with, rooms_to_book
from kitchen.rooms.models import Room

WORKING_WORDS = {"pair": "in pairs", "single": "alone"}


class DishField(forms.ModelChoiceField):
    """A recipe version, named by its title and number."""

    def label_from_instance(self, obj: Version) -> str:
        """ "Coffee éclairs, version 2"."""
        return f"{obj.recipe.title}, version {obj.number}"


class PersonField(forms.ModelChoiceField):
    """Somebody of the college, by name."""

    def label_from_instance(self, obj: User) -> str:
        """The name as it is written."""
        return obj.name


class GroupField(forms.ModelChoiceField):
    """A teaching group, by code and name."""

    def label_from_instance(self, obj: Group) -> str:
        """ "PT3, Level 3 Patisserie"."""
        return f"{obj.code}, {obj.name}"


class RoomField(forms.ModelChoiceField):
    """A room with its number of benches."""

    def label_from_instance(self, obj: Room) -> str:
        """ "Saffron Kitchen, 8 benches"."""
        return f"{obj.name}, {obj.bench_count} {'bench' if obj.bench_count == 1 else 'benches'}"


def _none_or_minutes(label: str, *, most: int, such_as: int, help_text: str) -> WholeNumberField:
    """Minutes that a lesson may do without: 0, or left empty."""
    return WholeNumberField(
        label=label,
        least=0,
        most=most,
        such_as=such_as,
        unit="min",
        initial=0,
        required=False,
        help_text=help_text,
    )


class BookForm(KeyedForm):
    """A lesson as it is asked for; ``order`` gives it as one value.

    The most that a box takes catches a slip of the keys, and what it begins with is what is
    usual: common practice, no source.
    """

    not_done = "Not booked yet."
    submit_words = "Book the lesson"
    leave_words = "Leave without booking"

    version = DishField(
        label="Dish", queryset=None, help_text="Recipes approved to teach.", empty_label="Choose a dish"
    )
    kind = forms.ChoiceField(
        label="The lesson is", choices=Lesson.Kind.choices, widget=forms.RadioSelect, initial="practical"
    )
    working = forms.ChoiceField(
        label="Learners stand",
        choices=list(WORKING_WORDS.items()),
        widget=forms.RadioSelect,
        initial="pair",
    )
    portions_a_bench = WholeNumberField(
        label="Portions a bench", least=1, most=200, such_as=8, unit="portions"
    )
    on = DayField(label="Day")
    starts = ClockField(label="Starts", help_text="Such as 09:00.")
    ends = ClockField(label="Ends", help_text="The whole slot, clear-down included, such as 12:00.")
    start_minutes = WholeNumberField(label="Start-up", least=0, most=120, such_as=15, unit="min")
    clear_minutes = WholeNumberField(
        label="Tasting and clear-down", least=0, most=180, such_as=30, unit="min"
    )
    room = RoomField(label="Room", queryset=None, empty_label="Choose a room")
    group = GroupField(label="Group", queryset=None, empty_label="Choose a group")
    lecturer = PersonField(label="Lecturer", queryset=None, empty_label="Choose a lecturer")
    cover = PersonField(label="Covered by", queryset=None, required=False, empty_label="nobody")
    technician = PersonField(label="Technician", queryset=None, required=False, empty_label="nobody named")
    demonstration_batches = WholeNumberField(
        label="Batches for the demonstration", least=0, most=10, such_as=1, initial=1
    )
    spare_batches = WholeNumberField(label="Spare batches", least=0, most=10, such_as=1, initial=1)
    minutes_a_plate = _none_or_minutes(
        "Tasting and marking a plate",
        most=30,
        such_as=4,
        help_text="Only when the lesson is assessed: plates come to the pass one after another.",
    )
    break_after = ClockField(
        label="Break begins at",
        required=False,
        help_text="Such as 10:30. Food may wait, bake or chill meanwhile; nobody works.",
    )
    break_minutes = _none_or_minutes("Break", most=120, such_as=15, help_text="0 when there is none.")
    contingency_minutes = _none_or_minutes(
        "Kept free before clear-down",
        most=120,
        such_as=10,
        help_text="Contingency: the plan ends so much earlier.",
    )
    supervisors = WholeNumberField(
        label="People who may stand beside a step",
        least=1,
        most=6,
        such_as=2,
        initial=1,
        required=False,
        help_text="The lecturer among them. For steps that are supervised, one bench at a time each.",
    )
    note = forms.CharField(
        label="Note", required=False, max_length=400, widget=forms.Textarea(attrs={"rows": 3})
    )

    def __init__(self, *args: object, **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["version"].queryset = dishes_to_book()
        self.fields["room"].queryset = rooms_to_book()
        self.fields["group"].queryset = groups_to_book()
        self.fields["lecturer"].queryset = self.fields["cover"].queryset = people_with(LECTURER)
        self.fields["technician"].queryset = people_with(TECHNICIAN)
        self.helper = FormHelper()
        self.helper.layout = Layout("key", *self.parts())

    def parts(self) -> list[Fieldset]:
        """The parts of the form, in the order in which a lesson is thought of."""
        return [
            Fieldset(
                "What is cooked", "version", "kind", Row("working", "portions_a_bench"), css_class="part"
            ),
            Fieldset(
                "When and where",
                Row("on", "starts", "ends"),
                Row("start_minutes", "clear_minutes", "minutes_a_plate"),
                Row("break_after", "break_minutes", "contingency_minutes"),
                "room",
                css_class="part",
            ),
            Fieldset("Who", "group", "lecturer", Row("cover", "technician"), "supervisors", css_class="part"),
            Fieldset(
                "Besides the benches", Row("demonstration_batches", "spare_batches"), "note", css_class="part"
            ),
        ]

    def clean(self) -> dict:
        """A break has both, its minutes and when it begins."""
        said = super().clean()
        if said.get("break_minutes") and said.get("break_after") is None and not self.errors:
            self.add_error("break_after", "Write when the break begins, or 0 minutes for none.")
        return said

    def order(self) -> BookingOrder:
        """The order behind a valid form; the action judges what other lessons say about it."""
        said = self.cleaned_data
        starts, ends = said["starts"], said["ends"]
        same = ("on", "starts", "start_minutes", "clear_minutes", "portions_a_bench", "working", "kind")
        besides = ("demonstration_batches", "spare_batches", "note")
        return BookingOrder(
            minutes=_minutes_between(starts, ends),
            **{name: said[name] for name in (*same, *besides)},
            minutes_a_plate=said["minutes_a_plate"] or 0,
            **{name: said[name] or 0 for name in ("contingency_minutes", "break_minutes")},
            break_after=_minutes_between(starts, said["break_after"]) if said["break_minutes"] else 0,
            supervisors=said["supervisors"] or 1,
            **{name: said[name].pk for name in ("room", "group", "lecturer", "version")},
            **{name: said[name].pk if said[name] else None for name in ("cover", "technician")},
        )


class ChangeForm(BookForm):
    """The same for a lesson that stands, with the steps that are done ahead."""

    not_done = "Not changed yet."
    submit_words = "Change the lesson"
    leave_words = "Leave it as it is"

    ahead_steps = forms.TypedMultipleChoiceField(
        label="Done before the lesson", coerce=int, required=False, widget=forms.CheckboxSelectMultiple
    )
    ahead_on = DayField(label="Done on", required=False, help_text="The day of the lesson or an earlier one.")

    def __init__(
        self, *args: object, current: BookingOrder, steps: list[tuple[int, str]], **more: object
    ) -> None:
        self.current = current
        super().__init__(*args, initial=_initial(current), **more)
        self.fields["ahead_steps"].choices = steps

    def parts(self) -> list[Fieldset]:
        """The parts of the booking form, and the steps that stores or technician may do ahead."""
        return [
            *super().parts(),
            Fieldset("Ahead of the lesson", "ahead_steps", "ahead_on", css_class="part"),
        ]

    def order(self) -> BookingOrder:
        """The order behind a valid form; steps done ahead belong to the dish and go with it."""
        order = super().order()
        same_dish = order.version == self.current.version
        steps = tuple(self.cleaned_data["ahead_steps"]) if same_dish else ()
        values = {name: getattr(order, name) for name in order.__dataclass_fields__}
        kept = {
            "food_becomes": self.current.food_becomes,
            "taught_steps": self.current.taught_steps if same_dish else (),
        }
        ahead = {"ahead_steps": steps, "ahead_on": self.cleaned_data["ahead_on"] if steps else None}
        return BookingOrder(**(values | kept | ahead))


def _minutes_between(first: time, second: time) -> int:
    return (second.hour - first.hour) * 60 + second.minute - first.minute


def _initial(order: BookingOrder) -> dict:
    """What the form shows of a lesson that stands."""
    values = {name: getattr(order, name) for name in order.__dataclass_fields__}
    begins = clock_minutes(order.slot.starts + order.break_after) if order.break_minutes else ""
    return values | {"ends": clock_minutes(order.slot.ends), "break_after": begins}
