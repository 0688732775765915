"""The filters of the book and of the techniques, and the field of weights."""

from django import forms

from curriculum.allergens import GROUPS, KINDS, printed
from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import EnamelForm
from curriculum.look.reading import quoted
from curriculum.recipes.models import Version
from curriculum.techniques.models import Level, Technique

ALL_LEVELS = [("", "every level"), *Level.choices]
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

    def __init__(self, *args: object, **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["technique"].queryset = Technique.objects.filter(retired_at=None)

    def asked(self) -> list[str]:
        """What was asked, in words, for the sentence above the list."""
        said = self.cleaned_data
        words = [f"with the words {quoted(said['q'])}"] if said.get("q", "").strip() else []
        if said.get("technique"):
            words.append(f"with {said['technique'].name.lower()}")
        if said.get("without"):
            code = said["without"]
            words.append(f"without {GROUPS[code][0] if code in GROUPS else printed(code)} as an ingredient")
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
