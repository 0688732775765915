"""Which two versions are compared."""

from collections.abc import Sequence

from django import forms

from curriculum.look.forms import EnamelForm
from curriculum.recipes.models import Version


class CompareForm(EnamelForm):
    """The older and the newer one, among versions that have to do with each other."""

    not_done = "Not compared yet."

    before = forms.ChoiceField(label="Before")
    now = forms.ChoiceField(label="Now")

    def __init__(self, versions: Sequence[Version], recipe: int, *args: object, **more: object) -> None:
        self.versions = {name_of(version): version for version in versions}
        super().__init__(*args, **more)
        choices = [(name, _words(version, recipe)) for name, version in self.versions.items()]
        for name in ("before", "now"):
            self.fields[name].choices = choices

    def chosen(self) -> tuple[Version, Version]:
        """The two versions. For a valid form."""
        return self.versions[self.cleaned_data["before"]], self.versions[self.cleaned_data["now"]]


def name_of(version: Version) -> str:
    """What a version is called in the address: "R01.2"."""
    return f"{version.recipe.code}.{version.number}"


def first_two(versions: Sequence[Version], recipe: int) -> dict[str, str]:
    """What is compared when nobody has chosen: the recipe's newest with what it was made from."""
    own = [version for version in versions if version.recipe_id == recipe]
    now = own[0] if own else versions[0]
    made_from = [version for version in versions if version.pk == now.made_from_id]
    before = (made_from or own[1:] or [version for version in versions if version != now] or [now])[0]
    return {"before": name_of(before), "now": name_of(now)}


def _words(version: Version, recipe: int) -> str:
    """Of the recipe of the page only the version is said; of another one its title first."""
    title = "Version" if version.recipe_id == recipe else f"{version.recipe.title}, version"
    return f"{title} {version.number}, {version.get_state_display()}"
