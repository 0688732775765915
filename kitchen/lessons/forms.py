"""The forms of lessons: putting learners to benches, cancelling, the list, the register."""

from collections import defaultdict
from datetime import date

from django import forms

from curriculum.errors import RuleBroken
from curriculum.look.forms import EnamelForm, KeyedForm
from kitchen.lessons.models import Attendance
from kitchen.lessons.pages.queries import groups_to_book
from kitchen.lessons.places import Placed, Trouble, shared_recipe, troubles
from kitchen.lessons.queries import LessonClass, cooks_of, seats_of


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
