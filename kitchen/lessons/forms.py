"""The forms of lessons: booking and changing one, putting learners to benches, cancelling."""

from collections import defaultdict
from datetime import date

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Fieldset, Layout, Row
from django import forms

from curriculum.errors import RuleBroken
from curriculum.look.fields import ClockField, DayField, WholeNumberField
from curriculum.look.forms import EnamelForm, KeyedForm
from curriculum.people.models import Group, User
from curriculum.people.roles import LECTURER, TECHNICIAN
from curriculum.recipes.models import Version
from kitchen.lessons.models import Attendance, Lesson
from kitchen.lessons.orders import BookingOrder
from kitchen.lessons.pages.queries import dishes_to_book, groups_to_book, people_with, rooms_to_book
from kitchen.lessons.places import Placed, Trouble, shared_recipe, troubles
from kitchen.lessons.queries import LessonClass, cooks_of, seats_of
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


class BookForm(KeyedForm):
    """A lesson as it is asked for; ``order`` gives it as one value."""

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
    minutes_a_plate = WholeNumberField(
        label="Tasting and marking a plate",
        least=0,
        most=30,
        such_as=4,
        unit="min",
        initial=0,
        required=False,
        help_text="Only when the lesson is assessed: plates come to the pass one after another.",
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
                "room",
                css_class="part",
            ),
            Fieldset("Who", "group", "lecturer", Row("cover", "technician"), css_class="part"),
            Fieldset(
                "Besides the benches", Row("demonstration_batches", "spare_batches"), "note", css_class="part"
            ),
        ]

    def order(self) -> BookingOrder:
        """The order behind a valid form; the action judges what other lessons say about it."""
        said = self.cleaned_data
        starts, ends = said["starts"], said["ends"]
        same = ("on", "starts", "start_minutes", "clear_minutes", "portions_a_bench", "working", "kind")
        besides = ("demonstration_batches", "spare_batches", "note")
        return BookingOrder(
            minutes=(ends.hour - starts.hour) * 60 + ends.minute - starts.minute,
            **{name: said[name] for name in (*same, *besides)},
            minutes_a_plate=said["minutes_a_plate"] or 0,
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


def _initial(order: BookingOrder) -> dict:
    """What the form shows of a lesson that stands."""
    ends = order.slot.ends
    values = {name: getattr(order, name) for name in order.__dataclass_fields__}
    return values | {"ends": f"{ends // 60 % 24:02d}:{ends % 60:02d}"}


class CancelForm(EnamelForm):
    """Why a lesson is cancelled."""

    not_done = "Not cancelled yet."
    submit_words = "Cancel the lesson"
    leave_words = "Leave it booked"

    why = forms.CharField(label="Why", max_length=300, help_text="Whoever asks later reads this.")


class PlacesForm(KeyedForm):
    """A bench for every learner, and what each bench works; ``placed`` gives the places.

    Fields: ``bench_NUMBER`` for each learner (by college number), ``works_BENCH`` for each
    bench in use. Troubles stand at the learner they are about.
    """

    not_done = "Not kept yet."

    def __init__(self, *args: object, found: LessonClass, proposed: list[Placed], **more: object) -> None:
        self.found, self.proposed = found, proposed
        super().__init__(*args, **more)
        self.by_key = {learner.student.pk: learner for learner in found.learners}
        benches = [
            ("", "no bench"),
            *((str(bench.number), f"bench {bench.number}") for bench in found.benches),
        ]
        at = {cook: str(place.bench) for place in proposed for cook in place.cooks}
        for learner in found.learners:
            self.fields[self.bench_field(learner.student.pk)] = forms.ChoiceField(
                label=f"Bench of {learner.name}",
                choices=benches,
                required=False,
                initial=at.get(learner.student.pk, ""),
                error_messages={
                    "invalid_choice": f"That bench is not in {found.lesson.room.name}. Choose one that is."
                },
            )
        self._add_recipes({place.bench: place.recipe for place in proposed})

    def _add_recipes(self, works: dict[int, str]) -> None:
        titles = {
            each.code: each.title for dish in self.found.dishes for each in (dish.recipe, *dish.variants)
        }
        self.several = len(titles) > 1
        if not self.several:
            return
        for bench in self.found.benches:
            self.fields[f"works_{bench.number}"] = forms.ChoiceField(
                label=f"Bench {bench.number} works",
                choices=[("", "as its learners need"), *titles.items()],
                required=False,
                initial=works.get(bench.number, ""),
            )

    def bench_field(self, student: int) -> str:
        """The name of the field of a learner."""
        return f"bench_{self.by_key[student].student.college_number}"

    def clean(self) -> dict:
        """Say every trouble at the learner it is about."""
        said = super().clean()
        if self.errors:
            return said
        cooks = cooks_of(self.found)
        found = troubles(self.placed(), seats_of(self.found), cooks, self.found.apart)
        for trouble in found:
            self.add_error(self._field_of(trouble), trouble.message)
        return said

    def _field_of(self, trouble: Trouble) -> str | None:
        cooks = [cook for cook in trouble.cooks if cook in self.by_key]
        return self.bench_field(cooks[0]) if cooks else None

    def placed(self) -> list[Placed]:
        """The places as they are chosen, in bench order."""
        teams = defaultdict(list)
        for cook in cooks_of(self.found):
            bench = self.cleaned_data.get(self.bench_field(cook.key))
            if bench:
                teams[int(bench)].append(cook)
        ordinary = self.found.dishes[0].recipe.code
        return [
            Placed(
                bench,
                self.cleaned_data.get(f"works_{bench}") or shared_recipe(team) or ordinary,
                tuple(cook.key for cook in team),
            )
            for bench, team in sorted(teams.items())
        ]

    def bench_fields(self) -> list[tuple[int, forms.BoundField]]:
        """What each bench in use works, where there is a choice: (bench, field)."""
        used = {place.bench for place in self.proposed}
        return [(bench, self[f"works_{bench}"]) for bench in sorted(used)] if self.several else []

    def rows(self, lines: dict) -> list[tuple[object, forms.BoundField]]:
        """Each learner's line with the field of their bench, in the order of the register."""
        return [(line, self[self.bench_field(student)]) for student, line in lines.items()]


class ListForm(EnamelForm):
    """Which lessons the list shows; what cannot be read is left out of the question."""

    whose = forms.ChoiceField(
        label="Whose",
        choices=[("mine", "mine and those I cover"), ("all", "the whole college")],
        required=False,
    )
    group = forms.ChoiceField(label="Group", required=False)

    def __init__(self, said: object, *args: object, own: bool, **more: object) -> None:
        values = {"whose": said.get("whose") or ("mine" if own else "all"), "group": said.get("group", "")}
        super().__init__(values, *args, **more)
        self.asked_from = said.get("from", "")
        self.own = own
        codes = dict.fromkeys(group.code for group in groups_to_book())
        self.fields["group"].choices = [("", "every group"), *((code, code) for code in codes)]
        if not own:
            del self.fields["whose"]
        self.is_valid()

    def mine(self) -> bool:
        """Whether only the person's own lessons are shown."""
        return self.own and self.cleaned_data.get("whose") != "all" and not self.of_group()

    def of_group(self) -> str:
        """The group's code, or empty."""
        return self.cleaned_data.get("group", "")

    def first(self) -> date | None:
        """The day whose week the page begins with."""
        try:
            return date.fromisoformat(self.asked_from)
        except ValueError:
            return None

    def kept(self) -> str:
        """The question as it stands in the address, for the pager."""
        whose = "mine" if self.mine() else "all"
        return f"whose={whose}&group={self.of_group()}"


class ButtonForm(EnamelForm):
    """What a button sends; a person cannot mistype it, so nonsense is refused as a whole."""

    key = forms.UUIDField()

    def demand_valid(self) -> None:
        """RuleBroken when something else was sent than the page offers."""
        if not self.is_valid():
            raise RuleBroken(
                "not_from_this_page",
                "That is not one of the answers of this page. Open it again and tap once more.",
            )


class AnotherDishForm(ButtonForm):
    """Another dish of the book, by its recipe's code."""

    recipe = forms.CharField(max_length=20)


class RegisterForm(ButtonForm):
    """One word of the register on one learner."""

    learner = forms.CharField(max_length=20)
    state = forms.ChoiceField(choices=Attendance.State.choices)
