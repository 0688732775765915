"""A form of a draft that notices when somebody else wrote the same part while it was open.

The form carries digests of what it showed (``tokens``). When it comes back and the draft
says something else by now, nothing is written: the form names each field that changed and
what it says now. What was typed stays; a field that was not touched takes over what was
written meanwhile. Sending it again writes it.
"""

from collections.abc import Mapping

from django import forms

from curriculum.look.forms import Enamel
from curriculum.look.reading import quoted
from curriculum.recipes.opened import tokens


class Opened(Enamel):
    """Mixed into a form whose ``initial`` is what the draft says now. ``wrote`` is who wrote it last.

    ``anchor`` is the field by which a part is known: when it changed, the part is another one
    (steps were moved), and nothing is taken over.
    """

    anchor = ""

    def __init__(self, *args: object, wrote: str = "Somebody", **more: object) -> None:
        super().__init__(*args, **more)
        self.wrote = wrote
        self.fields["opened"] = forms.CharField(widget=forms.HiddenInput, required=False)

    def get_initial_for_field(self, field: forms.Field, field_name: str) -> object:
        """As always; for the hidden field what the form shows now, unless the page gave it."""
        if field_name == "opened" and "opened" not in self.initial:
            return tokens.token(self._now())
        return super().get_initial_for_field(field, field_name)

    def as_typed(self) -> dict:
        """Everything as it was sent, to open the form again with one row more."""
        return {name: _typed(self, name) for name in self.fields}

    def clean(self) -> dict:
        """Refuse, once, what somebody else changed since the form was opened."""
        said = super().clean()
        now = self._now()
        seen = tokens.read(str(self.data.get("opened", "")))
        changed = [
            name for name in tokens.changed(seen, now) if self._words(_typed(self, name), name) != now[name]
        ]
        if changed:
            another = self.anchor in changed
            kept = [
                name for name in changed if another or not self._took_over(name, seen.get(name, tokens.EMPTY))
            ]
            self._carry(tokens.token(now))
            self.add_error(None, self._told(changed, kept, now))
        return said

    def _now(self) -> dict[str, str]:
        names = [name for name in self.fields if name not in ("key", "opened", "stay_rows", "rows")]
        return {name: self._words(self.initial.get(name, self.fields[name].initial), name) for name in names}

    def _words(self, value: object, name: str) -> str:
        value = self.fields[name].prepare_value(value)
        if isinstance(value, list | tuple | set):
            return ", ".join(sorted(map(str, value)))
        words = "" if value in (None, False) else str(value)
        return "\n".join(words.split("\r\n")).strip()

    def _took_over(self, name: str, seen: str) -> bool:
        """Whether the field was left as it was opened; then it takes what the draft says now."""
        if tokens.digest(self._words(_typed(self, name), name)) != seen:
            return False
        value = self.fields[name].prepare_value(self.initial.get(name))
        several = isinstance(value, list | tuple | set)
        self._carry_as(
            name, list(map(str, value)) if several else [] if value in (None, False) else [str(value)]
        )
        return True

    def _carry(self, token: str) -> None:
        self._carry_as("opened", [token])

    def _carry_as(self, name: str, values: list[str]) -> None:
        data = self.data.copy()
        if hasattr(data, "setlist"):
            data.setlist(self.add_prefix(name), values)
        else:
            data[name] = values[0] if values else ""
        self.data = data

    def _told(self, changed: list[str], kept: list[str], now: Mapping[str, str]) -> str:
        says = "; ".join(
            f"{self._label(name)} is {quoted(now[name]) if now[name] else 'empty'} now" for name in changed
        )
        mine = " Where you had typed something else, your words are kept." if kept else ""
        return (
            f"{self.wrote} changed this after you opened it: {says}.{mine} "
            "Look it over and write it again, or leave without writing."
        )

    def _label(self, name: str) -> str:
        return str(self.fields[name].label or name.replace("_", " ").capitalize())


def _typed(form: forms.BaseForm, name: str) -> object:
    return form.fields[name].widget.value_from_datadict(form.data, form.files, form.add_prefix(name))
