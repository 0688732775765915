"""What every form of the site shares: its number, its limits, and its way of saying no.

``KeyedForm`` carries a hidden ``key``: new when the page is opened, kept when the form
comes back, so that a form sent twice is done once. Errors quote what was typed; the
summary above the form counts what stands in the way and links to each field.
"""

import uuid
from dataclasses import dataclass

from django import forms
from django.core.exceptions import ValidationError

from curriculum.errors import RuleBroken
from curriculum.wording import number

#: Text above this is refused at its field and kept (a form as a whole takes more: settings).
LONGEST_TEXT_BYTES = 1_000_000

OUR_WORDS = {
    "required": "This is empty.",
    "max_length": "You wrote %(show_value)s characters. Write %(limit_value)s at most.",
    "min_length": "You wrote %(show_value)s characters. Write %(limit_value)s at least.",
    "null_characters_not_allowed": "There is a character in it that cannot be kept (NUL). Take it out.",
    "invalid_list": "Choose from what is listed.",
}
CHOICE_WORDS = {
    "required": "Nothing is chosen. Choose one.",
    "invalid_choice": "What was chosen is not listed any more. Choose again.",
}


@dataclass(frozen=True, slots=True)
class Standing:
    """One thing that stands in the way: its words, and the id of the field it is about."""

    words: str
    target: str


class FitsForm:
    """Refuses text above the limit as an error of its field, with the text kept."""

    def __call__(self, value: object) -> None:
        """Refuse what is longer than the limit in bytes."""
        length = len(value.encode("utf-8", "surrogatepass")) if isinstance(value, str) else 0
        if length > LONGEST_TEXT_BYTES:
            raise ValidationError(
                f"You pasted {megabytes(length)}. A field takes up to {megabytes(LONGEST_TEXT_BYTES)}; "
                "your text is still here.",
                code="too_long",
            )


def megabytes(length: int) -> str:
    """A number of bytes as people read it: "2.5 MB"."""
    tenths = -(-length // 100_000)
    return f"{tenths // 10}.{tenths % 10} MB" if tenths % 10 else f"{tenths // 10} MB"


def in_our_words(field: forms.Field) -> None:
    """Give a field our limits, and our words where the form did not say its own."""
    chosen = isinstance(field, forms.ChoiceField | forms.ModelChoiceField)
    for code, words in (OUR_WORDS | (CHOICE_WORDS if chosen else {})).items():
        standard = type(field).default_error_messages.get(code) or forms.Field.default_error_messages.get(
            code
        )
        if field.error_messages.get(code) in (None, standard):
            field.error_messages[code] = words
    if isinstance(field, forms.CharField):
        field.validators.append(FitsForm())


class Enamel:
    """A form of the site. ``not_done`` opens the summary, ``submit_words`` stand on the button.

    ``leave_words`` is the way out without harm; the page gives its address as ``leave_url``.
    """

    not_done = "Not done yet."
    submit_words = ""
    leave_words = ""

    def __init__(self, *args: object, **more: object) -> None:
        more.setdefault("label_suffix", "")
        super().__init__(*args, **more)
        for field in self.fields.values():
            in_our_words(field)

    def add_fields(self, fields: dict[str, forms.Field]) -> None:
        """Fields that a form has as many of as it needs, with our limits and words."""
        for field in fields.values():
            in_our_words(field)
        self.fields |= fields

    def refuse(self, error: RuleBroken) -> None:
        """Show a refusal of an action at the field it names (``field=`` among its facts), else above.

        ``at_fields`` among the facts are several: pairs of field and sentence.
        """
        at_fields = error.facts.get("at_fields") or ((error.facts.get("field", ""), error.message),)
        for field, message in at_fields:
            self.add_error(field if field in self.fields else None, message)


class Keyed(Enamel):
    """A form that may be sent twice and is done once: it carries its number."""

    def __init__(self, *args: object, **more: object) -> None:
        super().__init__(*args, **more)
        self.fields["key"] = forms.UUIDField(
            widget=forms.HiddenInput,
            initial=uuid.uuid4,
            error_messages=dict.fromkeys(
                ("required", "invalid"), "The form came without its number. Open the page again."
            ),
        )


class EnamelForm(Enamel, forms.Form):
    """A plain form of the site, for filters and for what may be done twice without harm."""


class KeyedForm(Keyed, forms.Form):
    """A form whose action takes a ``key``."""


def standing_in_the_way(form: forms.BaseForm) -> list[Standing]:
    """What stands in the way of a form, in the order of its fields; what belongs to no field comes first."""
    found = [Standing(words, "") for words in form.non_field_errors()]
    for field in form:
        if field.is_hidden:
            found += [Standing(words, "") for words in field.errors]
        else:
            found += [Standing(f"{field.label}: {words}", _target(field)) for words in field.errors]
    return found


def standing_in_formset(formset: forms.BaseFormSet) -> list[Standing]:
    """The same for all forms of a formset; a form that says what it is ``about`` is named by it."""
    found = [Standing(words, "") for words in formset.non_form_errors()]
    for form in formset:
        about = getattr(form, "about", "")
        before = f"{about}: " if about else ""
        found += [Standing(f"{before}{one.words}", one.target) for one in standing_in_the_way(form)]
    return found


def _target(field: forms.BoundField) -> str:
    """The id that a link goes to: the box itself, or the first of several choices."""
    several = isinstance(field.field.widget, forms.RadioSelect | forms.CheckboxSelectMultiple)
    return f"{field.auto_id}_0" if several else field.auto_id


def summary_heading(not_done: str, count: int) -> str:
    """The heading of the summary: "Not booked yet. Two things stand in the way."."""
    counted = number(count).capitalize()
    return f"{not_done} {counted} {'thing stands' if count == 1 else 'things stand'} in the way."
