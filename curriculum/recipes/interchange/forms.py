"""Bringing a recipe in: the file or text; then title, lines and steps as they were read, for a person."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Layout
from django import forms
from django.core.exceptions import ValidationError
from django.utils.text import slugify

from curriculum.errors import RuleBroken
from curriculum.foods.forms import WeightField
from curriculum.foods.queries import all_foods_data, figure_sources
from curriculum.foods.units import SYSTEMS
from curriculum.look.forms import (
    EnamelForm,
    KeyedForm,
    Standing,
    megabytes,
    standing_in_the_way,
    summary_heading,
)
from curriculum.look.reading import quoted
from curriculum.recipes.copying.codes import PAGES, own_or_free
from curriculum.recipes.copying.queries import taken_codes
from curriculum.recipes.data import EquipmentData, RecipeData
from curriculum.recipes.interchange import arriving, drafting, proposing, reading
from curriculum.recipes.interchange.reading import ImportedRecipe
from curriculum.recipes.pasting.forms import ReadLines, proposed
from curriculum.recipes.pasting.matching import Proposal
from curriculum.recipes.pasting.summary import Summary, summary_of, system_of
from curriculum.recipes.writing.forms import NewForm

_FIRST = ("title", "code", "level", "portions_stated", "unit")
_MORE = ("equipment", "caution", "notes")
_MEASURES = [("", "not said: such lines are handed back"), *SYSTEMS.items()]


class ArriveForm(EnamelForm):
    """A file, or its text."""

    not_done = "Not read yet."
    submit_words = "Read it"
    leave_words = "Leave without reading"

    file = forms.FileField(
        label="File",
        required=False,
        allow_empty_file=True,
        widget=forms.FileInput,
        help_text="A schema.org Recipe (JSON-LD), a saved web page with one, our table (CSV), plain text.",
    )
    text = forms.CharField(
        label="Or its text",
        required=False,
        strip=False,
        widget=forms.Textarea(attrs={"rows": 10}),
        help_text="Title, ingredients one a line, then the method. Nothing is kept before you have looked.",
    )
    system = forms.ChoiceField(
        label="Cups, spoons and pints are", choices=_MEASURES, required=False, help_text="Never guessed."
    )

    arrived = arriving.Arrived("")
    imported: ImportedRecipe | None = None

    def __init__(self, *args: object, **more: object) -> None:
        super().__init__(*args, **more)
        self.helper = FormHelper(self)
        self.helper.layout = Layout("file", "text", "system")

    def clean(self) -> dict:
        """One of the two, and what was read of it."""
        said = super().clean()
        file, text = said.get("file"), said.get("text") or ""
        if self.errors:
            return said
        if file is not None and text.strip():
            raise ValidationError("Both a file and a text are here. Bring one of them.")
        try:
            self.arrived = arriving.Arrived(text) if file is None else _letters(file)
            self.imported = arriving.read(self.arrived.text)
        except RuleBroken as error:
            self.add_error("text" if file is None or self.arrived.text else "file", error.message)
        return said

    def to_mend(self) -> "ArriveForm":
        """The form with the text of a file that was refused, so that it can be mended in its box."""
        if self.is_valid() or not self.arrived.text or "file" not in self.files:
            return self
        mended = ArriveForm({"text": self.arrived.text, "system": self.data.get("system", "")})
        mended.is_valid()
        return mended


def _letters(file: forms.FileField) -> arriving.Arrived:
    if file.size > reading.LONGEST_BYTES:
        raise RuleBroken(
            "too_large",
            f"This file has {megabytes(file.size)}. A recipe takes {megabytes(reading.LONGEST_BYTES)} at "
            "most: bring the recipe alone, without pictures.",
        )
    return arriving.letters_of(file.read())


class DraftForm(KeyedForm):
    """What stands above the lines of an import, and the text that they were read from."""

    not_done = "Not saved yet."

    title, code, level, portions_stated, unit, equipment, caution, notes = (
        NewForm.base_fields[name] for name in (*_FIRST, *_MORE)
    )
    system = forms.ChoiceField(
        label="Cups, spoons and pints are", choices=_MEASURES, required=False, help_text="Never guessed."
    )
    read_in = forms.CharField(widget=forms.HiddenInput, required=False)
    source = forms.CharField(widget=forms.HiddenInput, required=False, strip=False)
    remark = forms.CharField(widget=forms.HiddenInput, required=False, max_length=300)

    def clean(self) -> dict:
        """The lines were read in the measures that are said now."""
        said = super().clean()
        if said.get("system", "") != said.get("read_in", ""):
            self.add_error("system", "The lines were read in other measures. Press “Read again” first.")
        return said

    def clean_code(self) -> str:
        """A code that no recipe has."""
        return NewForm.clean_code(self)

    def clean_equipment(self) -> tuple[EquipmentData, ...]:
        """One thing a line."""
        return NewForm.clean_equipment(self)

    @property
    def first_fields(self) -> list[forms.BoundField]:
        """What is asked first."""
        return [self[name] for name in _FIRST]

    @property
    def more_fields(self) -> list[forms.BoundField]:
        """What stands beside lines and steps."""
        return [self[name] for name in _MORE]

    def head(self) -> RecipeData:
        """The recipe without components and steps."""
        said = self.cleaned_data
        same = {name: said[name] for name in ("unit", "equipment", "caution", "notes")}
        count = said["portions_stated"]
        return RecipeData(said["code"], said["title"], 1, said["level"], count, count, 0, (), (), (), **same)


class ReadStepForm(EnamelForm):
    """One step as it was read."""

    keep = forms.BooleanField(label="Keep it", required=False, initial=True)
    words = forms.CharField(
        label="Words",
        required=False,
        max_length=reading.LONGEST_STEP,
        widget=forms.Textarea(attrs={"rows": 3}),
    )

    def clean(self) -> dict:
        """What is kept has words."""
        said = super().clean()
        if not said.get("keep"):
            self.errors.clear()
        elif not said.get("words") and "words" not in self.errors:
            self.add_error("words", "This is empty. Write the step, or do not keep it.")
        return said


class _Steps(forms.BaseFormSet):
    not_done = "Not saved yet."


ReadSteps = forms.formset_factory(
    ReadStepForm,
    formset=_Steps,
    extra=0,
    max_num=reading.MOST_STEPS,
    absolute_max=reading.MOST_STEPS,
    can_delete=False,
)


@dataclass(frozen=True, slots=True)
class Review:
    """The page of an import: what was read, its forms, and what is said about its measures."""

    imported: ImportedRecipe
    proposals: list[Proposal]
    head: DraftForm
    lines: forms.BaseFormSet
    steps: forms.BaseFormSet
    summary: Summary

    @property
    def standing(self) -> list[Standing]:
        """What stands in the way of saving, with the line or step it is about."""
        if not self.head.is_bound:
            return []
        found = [*standing_in_the_way(self.head)]
        for place, form in enumerate(self.lines):
            about = quoted(form["text"].value() or str(place + 1))
            found += [Standing(f"{about}: {one.words}", one.target) for one in standing_in_the_way(form)]
        for number, form in enumerate(self.steps, start=1):
            found += [
                Standing(f"Step {number}: {one.words}", one.target) for one in standing_in_the_way(form)
            ]
        return found

    @property
    def heading(self) -> str:
        """The heading above what stands in the way."""
        return summary_heading(self.head.not_done, len(self.standing))

    def is_valid(self) -> bool:
        """Whether every part of it can be saved; each says what stands in its way."""
        return all([self.head.is_valid(), self.lines.is_valid(), self.steps.is_valid()])

    @property
    def rows(self) -> list[tuple[str, forms.BaseForm]]:
        """Each line, with the component that begins at it (else empty)."""
        names = ["", *(line.section for line in self.imported.lines)]
        begun = ["" if name == before else name for before, name in pairwise(names)]
        return list(zip(begun, self.lines, strict=True))

    def recipe(self) -> RecipeData:
        """The recipe of what a person accepted."""
        system = self.head.cleaned_data["system"]
        lines = [
            drafting.Accepted(place, drafting.is_changed(line, self.proposals[place]), line)
            for place, form in enumerate(self.lines)
            if form.cleaned_data["keep"] and (line := form.line(system, system))
        ]
        steps = [
            drafting.Accepted(place, words != self.imported.steps[place].words, words=words)
            for place, form in enumerate(self.steps)
            if form.cleaned_data["keep"] and (words := form.cleaned_data["words"])
        ]
        foods = {food.code: food for food in all_foods_data()}
        recipe = drafting.draft_of(self.imported, self.head.head(), lines, steps, foods)
        return drafting.measured(recipe, system_of([each.line for each in lines], system))


def first_review(form: ArriveForm) -> Review:
    """What was read, as it is shown first."""
    system, imported = form.cleaned_data["system"], form.imported
    found = _proposals(imported, system)
    head = _initial_of(imported) | {
        "system": system,
        "read_in": system,
        "source": form.arrived.text,
        "remark": form.arrived.remark,
    }
    steps = [{"keep": True, "words": step.words} for step in imported.steps]
    return Review(
        imported,
        found,
        DraftForm(initial=head),
        proposed(found),
        ReadSteps(initial=steps, prefix="step"),
        _summary(imported, found, system),
    )


def sent_review(post: Mapping[str, str]) -> Review:
    """The review as it was sent back. RuleBroken when its text is not the one that was reviewed."""
    imported = arriving.read(post.get("source", ""))
    system = post.get("read_in", "")
    system = system if system in SYSTEMS else ""
    found = _proposals(imported, system, _chosen(post, imported))
    lines, steps = ReadLines(post), ReadSteps(post, prefix="step")
    if (lines.total_form_count(), steps.total_form_count()) != (len(imported.lines), len(imported.steps)):
        raise RuleBroken("other_text", "The lines do not belong to this text any more. Bring it in again.")
    return Review(imported, found, DraftForm(post), lines, steps, _summary(imported, found, system))


def read_again(post: Mapping[str, str]) -> Review:
    """The review read anew in the measures said now, with what a person chose and wrote kept."""
    before = sent_review(post)
    system = post.get("system", "")
    system = system if system in SYSTEMS else ""
    found = _proposals(before.imported, system, _chosen(post, before.imported))
    fresh = proposed(found)
    lines = [form.initial | _written(post, place, form.initial) for place, form in enumerate(fresh)]
    steps = [
        {"keep": f"step-{place}-keep" in post, "words": post.get(f"step-{place}-words", "")}
        for place in range(len(before.imported.steps))
    ]
    head = {name: post.get(name, "") for name in DraftForm.base_fields if name in post}
    return Review(
        before.imported,
        found,
        DraftForm(initial=head | {"system": system, "read_in": system}),
        ReadLines(initial=lines),
        ReadSteps(initial=steps, prefix="step"),
        _summary(before.imported, found, system),
    )


def _proposals(
    imported: ImportedRecipe, system: str, chosen: Mapping[int, str] | None = None
) -> list[Proposal]:
    return proposing.proposals(imported.lines, system, all_foods_data(), figure_sources(), chosen)


def _chosen(post: Mapping[str, str], imported: ImportedRecipe) -> dict[int, str]:
    return {place: post.get(f"form-{place}-food", "") for place in range(len(imported.lines))}


def _written(post: Mapping[str, str], place: int, fresh: dict) -> dict:
    """What a person wrote over what was read; a weight that was only read is read anew."""
    said = {
        name: post.get(f"form-{place}-{name}", "") for name in ("milligrams", "pieces", "note", "read_as")
    }
    kept = {"keep": f"form-{place}-keep" in post, "note": said["note"] or fresh["note"]}
    code = post.get(f"form-{place}-food", "")
    _, milligrams, pieces = (said["read_as"].rsplit("/", 2) + ["", ""])[:3]
    if said["milligrams"] and said["milligrams"] != WeightField().prepare_value(_whole(milligrams)):
        kept["milligrams"] = said["milligrams"]
    if said["pieces"] and said["pieces"] != pieces:
        kept["pieces"] = said["pieces"]
    return kept | ({"food": code} if code else {})


def _whole(text: str) -> int | None:
    return int(text) if text.isdecimal() and len(text) < 16 else None


def _initial_of(imported: ImportedRecipe) -> dict:
    title = imported.title[: reading.LONGEST_TITLE]
    return {
        "title": title,
        "code": own_or_free(_code_of(title), taken_codes() | PAGES),
        "portions_stated": imported.portions,
        "unit": imported.unit,
        "equipment": "\n".join(imported.tools),
        "notes": imported.notes,
        "caution": imported.caution,
    }


def _code_of(title: str) -> str:
    """A short code of whole words, with room for a number behind it."""
    slug = slugify(title)
    cut = slug if len(slug) <= 16 else slug[:17].rpartition("-")[0] or slug[:16]
    return cut.strip("-") or "recipe"


def _summary(imported: ImportedRecipe, found: list[Proposal], system: str) -> Summary:
    return summary_of(found, "\n".join(line.text for line in imported.lines), system, "")
