"""The filters of the book and of the techniques, and the field of weights."""

from django import forms

from curriculum.allergens import GROUPS, KINDS, printed
from curriculum.foods.queries import foods_in_use
from curriculum.look.fields import MinutesField, PenceField, WholeNumberField
from curriculum.look.forms import EnamelForm
from curriculum.look.long_lists import LongSelect, OneMoreSelect
from curriculum.look.reading import quoted
from curriculum.recipes.models import Version
from curriculum.techniques.models import Level, Technique
from curriculum.wording import duration, listed, money, number

ALL_LEVELS = [("", "every level"), *Level.choices]
#: Figure of a version -> how a bound of it is said; the field of the form has the figure's name.
BOUNDS = {
    "one_cook_minutes": "done by one cook within {}",
    "work_minutes": "with at most {} of work",
    "oven_minutes": "with at most {} in an oven",
    "portion_pence": "at most {} a portion",
}
SORTS = [("", "title"), ("one_cook_minutes", "time of one cook"), ("portion_pence", "cost of a portion")]
NOTHING = ("", "nothing in particular")
#: What most people narrow by; the rest is folded below.
FIRST = ("q", "technique", "without")
#: A search for more is a slip of the finger.
MOST_TECHNIQUES = 12


def allergen_choices() -> list[tuple[str, object]]:
    """Groups, and under the groups of several kinds each kind."""
    single = [(code, words) for code, (words, kinds) in GROUPS.items()]
    kinds = [(kind, printed(kind)) for kind in KINDS if kind not in GROUPS]
    return [NOTHING, ("Groups", single), ("One kind", kinds)]


class BookFilter(EnamelForm):
    """What the book is searched by; every field may stay empty."""

    q = forms.CharField(label="Words", required=False, max_length=200)
    technique = forms.MultipleChoiceField(
        label="Techniques, all of them", required=False, widget=OneMoreSelect
    )
    without = forms.ChoiceField(label="Without", choices=allergen_choices, required=False)
    level = forms.ChoiceField(label="Level", choices=ALL_LEVELS, required=False)
    food = forms.ChoiceField(label="Food", required=False, widget=LongSelect)
    one_cook_minutes = MinutesField(label="One cook, at most", required=False)
    work_minutes = MinutesField(label="Work, at most", required=False)
    oven_minutes = MinutesField(label="In an oven, at most (0 is none)", required=False)
    portion_pence = PenceField(label="A portion, at most", required=False)
    sort = forms.ChoiceField(label="Sorted by", choices=SORTS, required=False)

    def __init__(self, *args: object, sees_cost: bool = True, **more: object) -> None:
        super().__init__(*args, **more)
        trained = Technique.objects.filter(retired_at=None).values_list("code", "name")
        self.fields["technique"].choices = [("", "any technique"), *trained]
        self.fields["food"].choices = [("", "any food"), *foods_in_use().values_list("code", "name")]
        if not sees_cost:
            del self.fields["portion_pence"]
            self.fields["sort"].choices = [each for each in SORTS if each[0] != "portion_pence"]

    def first_fields(self) -> list[forms.BoundField]:
        """What stands in sight."""
        return [self[name] for name in FIRST]

    def more_fields(self) -> list[forms.BoundField]:
        """What stands folded below."""
        return [self[name] for name in self.fields if name not in FIRST]

    def more_is_used(self) -> bool:
        """Whether a folded field was filled in, so that it has to be seen."""
        return any(self.data.get(field.html_name) for field in self.more_fields())

    def clean_technique(self) -> list[str]:
        """Refuse more techniques than a recipe of a lesson trains."""
        if len(self.cleaned_data["technique"]) > MOST_TECHNIQUES:
            raise forms.ValidationError(f"Choose {number(MOST_TECHNIQUES)} techniques at most.")
        return self.cleaned_data["technique"]

    def search(self, leaving: str = "") -> dict[str, object]:
        """What ``queries.found`` is asked, without the field ``leaving``.

        A field that could not be read asks nothing.
        """
        said = {name: value for name, value in self.cleaned_data.items() if name != leaving}
        return {
            "words": said.get("q", ""),
            "techniques": said.get("technique", ()),
            **{name: said.get(name, "") for name in ("without", "level", "food", "sort")},
            "most": {name: said[name] for name in BOUNDS if said.get(name) is not None},
        }

    def address_leaving(self, name: str) -> str:
        """The query of the same search without one field, from its first page."""
        data = self.data.copy()
        for each in (name, "page"):
            data.pop(each, None)
        return f"?{data.urlencode()}"

    def asked(self) -> dict[str, str]:
        """What was asked, in words by the field that asked it, for the sentence above the list."""
        said = {name: value for name, value in self.cleaned_data.items() if value not in (None, "", [])}
        return {name: self._words(name, value) for name, value in said.items() if name != "sort"}

    def _words(self, name: str, value: object) -> str:
        if name == "q":
            return f"with the words {quoted(value)}"
        if name in ("technique", "food"):
            names = dict(self.fields[name].choices)
            if name == "food":
                return f"with {names[value]} as an ingredient"
            return f"with {listed(names[code].lower() for code in value)}"
        if name == "without":
            return f"without {GROUPS[value][0] if value in GROUPS else printed(value)} as an ingredient"
        if name == "oven_minutes" and value == 0:
            return "without an oven"
        if name in BOUNDS:
            return BOUNDS[name].format(money(value) if name == "portion_pence" else duration(value))
        return str(value)

    def sorted_words(self) -> str:
        """What the list is sorted by, where that is not the title."""
        return dict(SORTS[1:]).get(self.cleaned_data.get("sort"), "")


class TechniqueFilter(EnamelForm):
    """What the techniques are searched by."""

    q = forms.CharField(label="Words", required=False, max_length=200)
    level = forms.ChoiceField(label="Level", choices=ALL_LEVELS, required=False)


class ScaleForm(EnamelForm):
    """The short form on the recipe page: its portions lead to the page that scales."""

    portions = WholeNumberField(label="Portions", least=1, most=1000, such_as=16, required=False)


def state_words(version: Version) -> tuple[str, str]:
    """(shape, words) of a version's state."""
    shapes = {"draft": "todo", "checked": "doing", "approved": "done", "withdrawn": "cannot"}
    return shapes[version.state], version.get_state_display()
