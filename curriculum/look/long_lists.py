"""Boxes to choose from a long list: hundreds of foods or techniques, written in one go.

For filters and forms. The framework draws every option from a template of its own, which
takes longer than finding the recipes; these write the same markup at once.
"""

from collections.abc import Iterable

from django import forms
from django.forms.utils import flatatt
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

#: (value, words) of what may be chosen.
Options = Iterable[tuple[str, str]]


class LongSelect(forms.Select):
    """One of a long flat list."""

    def render(
        self, name: str, value: object, attrs: dict | None = None, renderer: object = None
    ) -> SafeString:
        """The whole box; ``value`` is what is chosen."""
        return _box(self.build_attrs(self.attrs, {**(attrs or {}), "name": name}), self.choices, str(value))


class OneMoreSelect(forms.SelectMultiple):
    """Several of a long flat list, one more each time; those chosen stand below, to be unticked."""

    another = "one more"

    def render(
        self, name: str, value: object, attrs: dict | None = None, renderer: object = None
    ) -> SafeString:
        """The box of what can be added, and a ticked box for everything in ``value``."""
        chosen = [str(each) for each in value or []]
        words = {str(code): label for code, label in self.choices}
        rest = [(code, label) for code, label in words.items() if code and code not in chosen]
        first = [("", self.another if chosen else words.get("", ""))]
        box = _box(self.build_attrs(self.attrs, {**(attrs or {}), "name": name}), first + rest, "")
        ticked = ((name, code, words[code]) for code in chosen if code in words)
        return box + format_html_join("", TICKED, ticked)

    def value_from_datadict(self, data: object, files: object, name: str) -> list[str]:
        """What was sent under this name, each once, without the empty choice."""
        sent = data.getlist(name) if hasattr(data, "getlist") else data.get(name) or []
        return [code for code in dict.fromkeys(sent) if code]


TICKED = '<label class="choice"><input type="checkbox" name="{}" value="{}" checked> {}</label>'


def _box(attrs: dict, options: Options, chosen: str) -> SafeString:
    pairs = ((code, " selected" if str(code) == chosen else "", label) for code, label in options)
    return format_html(
        "<select{}>{}</select>",
        flatatt(attrs),
        format_html_join("", '<option value="{}"{}>{}</option>', pairs),
    )
