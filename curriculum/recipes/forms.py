"""The filters of the book and of the techniques, and the field of weights."""

from django import forms

from curriculum.allergens import GROUPS, KINDS, printed
from curriculum.foods.queries import foods_in_use
from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import EnamelForm
from curriculum.look.reading import quoted
from curriculum.recipes.models import Version
from curriculum.techniques.models import Level, Technique

ALL_LEVELS = [("", "every level"), *Level.choices]
#: Figure of a version -> how a bound of it is said; the field of the form has the figure's name.
BOUNDS = {
    "one_cook_minutes": "done by one cook within {} min",
    "work_minutes": "with at most {} min of work",
    "oven_minutes": "with at most {} min in an oven",
    "portion_pence": "at most {} p a portion",
}
SORTS = [("", "title"), ("one_cook_minutes", "time of one cook"), ("portion_pence", "cost of a portion")]
NOTHING = ("", "nothing in particular")


def allergen_choices() -> list[tuple[str, object]]:
    """Groups, and under the groups of several kinds each kind."""
    single = [(code, words) for code, (words, kinds) in GROUPS.items()]
    kinds = [(kind, printed(kind)) for kind in KINDS if kind not in GROUPS]
    return [NOTHING, ("Groups", single), ("One kind", kinds)]


class BookFilter(EnamelForm):
    """What the book is searched by; every field may stay empty."""

    q = forms.CharField(label="Words", required=False, max_length=200)
    technique = forms.ModelChoiceField(
        label="Technique", queryset=None, required=False, to_field_name="code", empty_label="any technique"
    )
    without = forms.ChoiceField(label="Without", choices=allergen_choices, required=False)
    level = forms.ChoiceField(label="Level", choices=ALL_LEVELS, required=False)
    food = forms.ModelChoiceField(
        label="Food", queryset=None, required=False, to_field_name="code", empty_label="any food"
    )
    one_cook_minutes = WholeNumberField(label="One cook, at most", unit="min", such_as=180, required=False)
    work_minutes = WholeNumberField(label="Work, at most", unit="min", such_as=60, required=False)
    oven_minutes = WholeNumberField(
        label="In an oven, at most", unit="min", such_as=40, help_text="0 is no oven.", required=False
    )
    portion_pence = WholeNumberField(label="A portion, at most", unit="p", such_as=90, required=False)
    sort = forms.ChoiceField(label="Sorted by", choices=SORTS, required=False)

    def __init__(self, *args: object, sees_cost: bool = True, **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["technique"].queryset = Technique.objects.filter(retired_at=None)
        self.fields["food"].queryset = foods_in_use()
        if not sees_cost:
            del self.fields["portion_pence"]
            self.fields["sort"].choices = [each for each in SORTS if each[0] != "portion_pence"]

    def search(self) -> dict[str, object]:
        """What ``queries.found`` is asked; a field that could not be read asks nothing."""
        said = self.cleaned_data
        codes = {name: getattr(said.get(name), "code", "") for name in ("technique", "food")}
        return {
            "words": said.get("q", ""),
            **codes,
            **{name: said.get(name, "") for name in ("without", "level", "sort")},
            "most": {name: said[name] for name in BOUNDS if said.get(name) is not None},
        }

    def asked(self) -> list[str]:
        """What was asked, in words, for the sentence above the list."""
        said = self.cleaned_data
        words = [f"with the words {quoted(said['q'])}"] if said.get("q", "").strip() else []
        if said.get("technique"):
            words.append(f"with {said['technique'].name.lower()}")
        if said.get("without"):
            code = said["without"]
            words.append(f"without {GROUPS[code][0] if code in GROUPS else printed(code)} as an ingredient")
        if said.get("food"):
            words.append(f"with {said['food'].name} as an ingredient")
        words += [BOUNDS[name].format(said[name]) for name in BOUNDS if said.get(name) is not None]
        words = [word.replace("with at most 0 min in an oven", "without an oven") for word in words]
        return [*words, said["level"]] if said.get("level") else words


class TechniqueFilter(EnamelForm):
    """What the techniques are searched by."""

    q = forms.CharField(label="Words", required=False, max_length=200)
    level = forms.ChoiceField(label="Level", choices=ALL_LEVELS, required=False)


class ScaleForm(EnamelForm):
    """For how many portions the page shows the recipe."""

    portions = WholeNumberField(label="Portions", least=1, most=1000, such_as=16, required=False)


def state_words(version: Version) -> tuple[str, str]:
    """(shape, words) of a version's state."""
    shapes = {"draft": "todo", "checked": "doing", "approved": "done", "withdrawn": "cannot"}
    return shapes[version.state], version.get_state_display()
