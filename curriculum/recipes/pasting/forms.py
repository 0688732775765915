"""Pasting ingredient lines: the text, and each line as it was read, for a person to look at."""

from django import forms
from django.forms.utils import flatatt
from django.http import QueryDict
from django.utils.functional import cached_property
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from curriculum import wording
from curriculum.foods.forms import WeightField
from curriculum.foods.queries import foods_in_use
from curriculum.foods.units import SYSTEMS
from curriculum.look.fields import WholeNumberField
from curriculum.look.forms import EnamelForm
from curriculum.look.reading import quoted
from curriculum.recipes.data import LineData
from curriculum.recipes.pasting.matching import Proposal
from curriculum.recipes.pasting.sizes import kept_words
from curriculum.recipes.writing.forms import FoodField, piece_weight

MOST_LINES = 100
MOST_MILLIGRAMS = 1_000_000_000
#: What of a proposal stands in the fields of its form.
_SHOWN = ("text", "trouble", "how", "written", "begins", "ends", "least", "most", "food", "milligrams")


class PasteForm(EnamelForm):
    """Ingredient lines as they were written elsewhere."""

    not_done = "Not read yet."
    submit_words = "Read the lines"
    leave_words = "Leave without reading"

    text = forms.CharField(
        label="Ingredient lines",
        widget=forms.Textarea(attrs={"rows": 10}),
        help_text="One a line: 250 g soft wheat flour, 4 eggs. Nothing is kept before you have looked.",
    )
    system = forms.ChoiceField(
        label="Cups, spoons and pints are",
        choices=[("", "not said: such lines are handed back"), *SYSTEMS.items()],
        required=False,
    )

    def clean_text(self) -> str:
        """At most so many lines."""
        text = self.cleaned_data["text"]
        lines = [line for line in text.splitlines() if line.strip()]
        if len(lines) > MOST_LINES:
            raise forms.ValidationError(
                f"These are {len(lines)} lines. Paste at most {MOST_LINES} at once; the text is still here."
            )
        return text


class FoodSelect(forms.Select):
    """The list of foods written in one go: a hundred lines each offer every food of the book."""

    def render(
        self, name: str, value: object, attrs: dict | None = None, renderer: object = None
    ) -> SafeString:
        """The same HTML as the widget it replaces, without a template for each of the options."""
        chosen = set(self.format_value(value))
        options = format_html_join(
            "\n",
            '<option value="{}"{}>{}</option>',
            ((code, " selected" if str(code) in chosen else "", words) for code, words in self.choices),
        )
        facts = flatatt(self.build_attrs(self.attrs, attrs))
        return format_html('<select name="{}"{}>\n{}\n</select>', name, facts, options)


class ReadLineForm(EnamelForm):
    """One line as it was read."""

    text = forms.CharField(widget=forms.HiddenInput, required=False)
    trouble = forms.CharField(widget=forms.HiddenInput, required=False)
    how = forms.CharField(widget=forms.HiddenInput, required=False)
    written = forms.CharField(widget=forms.HiddenInput, required=False, max_length=120)
    begins = forms.IntegerField(widget=forms.HiddenInput, required=False, min_value=0)
    ends = forms.IntegerField(widget=forms.HiddenInput, required=False, min_value=0)
    least = forms.IntegerField(
        widget=forms.HiddenInput, required=False, min_value=1, max_value=MOST_MILLIGRAMS
    )
    most = forms.IntegerField(
        widget=forms.HiddenInput, required=False, min_value=1, max_value=MOST_MILLIGRAMS
    )
    read_as = forms.CharField(widget=forms.HiddenInput, required=False, max_length=200)
    keep = forms.BooleanField(label="Keep it", required=False, initial=True)
    food = FoodField(label="Food", required=False, widget=FoodSelect)
    milligrams = WeightField(label="Weight in grams", required=False)
    pieces = WholeNumberField(label="Or whole pieces", least=1, most=1000, such_as=4, required=False)
    note = forms.CharField(label="Note", required=False, max_length=300)

    def __init__(self, *args: object, choices: list[tuple[str, str]] | None = None, **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["food"].queryset = foods_in_use()
        if choices is not None:
            self.fields["food"].choices = choices

    def clean(self) -> dict:
        """What is kept has a food and a weight."""
        said = super().clean()
        said["typed"] = said.get("milligrams")
        if not said.get("keep"):
            self.errors.clear()
            return said
        if not said.get("food"):
            self.add_error("food", "No food is chosen. Choose one, or do not keep the line.")
        elif not said.get("milligrams") and "milligrams" not in self.errors:
            each = piece_weight(said["food"], "prepared")
            if said.get("pieces") and each:
                said["milligrams"] = said["pieces"] * each
            else:
                self.add_error("milligrams", "No weight is written. Write one, or do not keep the line.")
        return said

    @property
    def about(self) -> str:
        """The line as it was typed, in quotation marks, for what stands in its way."""
        text = self["text"].value()
        return quoted(text) if text else ""

    @property
    def parted(self) -> tuple[str, str, str]:
        """The line as it was typed: before, at and after the place of the amount or the trouble."""
        text = self["text"].value() or ""
        begins, ends = (_place(self[name].value()) for name in ("begins", "ends"))
        return text[:begins], text[begins:ends], text[max(begins, ends) :]

    def line(self, system: str, of_recipe: str) -> LineData:
        """The line to add, read in ``system``; its words are kept where the recipe's measures agree."""
        said = self.cleaned_data
        as_read = said["read_as"] in ("", _read_as(said["food"].code, said["typed"], said["pieces"]))
        least, most = said["least"], said["most"]
        ranged = as_read and least is not None and most is not None and least <= said["milligrams"] <= most
        return LineData(
            0,
            said["food"].code,
            said["milligrams"],
            said["pieces"],
            issued="prepared" if said["pieces"] is None else "as_bought",
            least_milligrams=least if ranged else None,
            most_milligrams=most if ranged else None,
            note=said["note"],
            written=kept_words(said["written"], system, of_recipe) if as_read else "",
        )


class _Lines(forms.BaseFormSet):
    """All lines that were read, sent back together."""

    not_done = "Not added yet."

    @cached_property
    def choices(self) -> list[tuple[str, str]]:
        """The foods of the book, asked for once for all lines."""
        named = foods_in_use().values_list("code", "name")
        return [("", "Choose a food"), *named]

    def get_form_kwargs(self, index: int | None) -> dict:
        """Every line chooses among the same foods."""
        return super().get_form_kwargs(index) | {"choices": self.choices}


ReadLines = forms.formset_factory(
    ReadLineForm, formset=_Lines, extra=0, max_num=MOST_LINES, absolute_max=MOST_LINES, can_delete=False
)


def proposed(proposals: list[Proposal]) -> forms.BaseFormSet:
    """The forms that show what was read."""
    return ReadLines(initial=[_initial(each) for each in proposals])


def _initial(each: Proposal) -> dict:
    complete = each.food and (each.milligrams or each.pieces)
    return {name: getattr(each, name) for name in (*_SHOWN, "pieces", "note")} | {
        "keep": True,
        "read_as": _read_as(each.food, each.milligrams, each.pieces) if complete else "",
    }


def _read_as(food: str | None, milligrams: int | None, pieces: int | None) -> str:
    """What a line was read as, so that words are let go when a person writes something else."""
    return f"{food}/{'' if pieces else milligrams}/{pieces or ''}"


def _place(value: object) -> int:
    return int(value) if str(value).isdecimal() else 0


def to_weigh(post: QueryDict) -> dict[int, tuple[str, str]]:
    """By place (text, code of the food) of each kept line whose food was chosen and whose weight is empty."""
    found = {}
    for place in range(MOST_LINES):
        keep, text, food, milligrams, pieces = (
            post.get(f"form-{place}-{name}", "").strip()
            for name in ("keep", "text", "food", "milligrams", "pieces")
        )
        if keep and text and food and not milligrams and not pieces:
            found[place] = (text, food)
    return found


def filled(post: QueryDict, found: dict[int, Proposal]) -> tuple[forms.BaseFormSet, str]:
    """The lines with the weights that were found for the foods a person chose, and what to say of it.

    Nothing is to be added then before the person has looked: the sentence is empty where none was found.
    """
    data, weighed = post.copy(), []
    for place, each in found.items():
        if each.milligrams is None and each.pieces is None:
            continue
        said = _initial(each) | {"milligrams": WeightField().prepare_value(each.milligrams)}
        for name in ("milligrams", "pieces", "how", "trouble", "written", "least", "most", "read_as"):
            data[f"form-{place}-{name}"] = "" if said[name] is None else str(said[name])
        weighed.append(f"“{each.text}”")
    words = f"{wording.listed(weighed)}: the weight is filled in. Look at it, and add again."
    return ReadLines(data), words if weighed else ""
