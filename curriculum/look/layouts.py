"""Parts of a form that crispy's own do not have: boxes by group, a table of fields, a button for one more.

They stand in a form's layout beside its fields.
"""

from collections.abc import Iterable, Mapping

from crispy_forms.layout import HTML, LayoutObject
from django import forms
from django.template import Context
from django.template.loader import render_to_string

#: Enter in a text box presses the first button of a form: this one, which writes, not "One more".
WRITES_ON_ENTER = HTML('<button type="submit" hidden tabindex="-1"></button>')


class ByGroup(LayoutObject):
    """A field of check boxes in columns; with ``groups`` (code to group) each group has a heading."""

    template = "enamel/layout/by_group.html"

    def __init__(self, name: str, groups: Mapping[str, str] | None = None) -> None:
        self.name, self.groups, self.fields = name, groups or {}, []

    def render(self, form: forms.BaseForm, context: Context, *args: object, **more: object) -> str:
        """The field with its groups in the order in which they first come."""
        made: dict[str, list] = {}
        for choice in form[self.name]:
            made.setdefault(self.groups.get(str(choice.data["value"]), ""), []).append(choice)
        css_class = "part" if self.groups else "field wide"
        return render_to_string(
            self.template, {"field": form[self.name], "groups": made, "css_class": css_class}
        )


class FieldTable(LayoutObject):
    """Rows of fields as a table: the first of a row is a check box with its words, the others bare."""

    template = "enamel/layout/field_table.html"

    def __init__(self, rows: Iterable[tuple[str, ...]], heads: tuple[str, ...], empty: str = "") -> None:
        self.rows, self.heads, self.empty, self.fields = tuple(rows), heads, empty, []

    def render(self, form: forms.BaseForm, context: Context, *args: object, **more: object) -> str:
        """The table; the sentence for none where there is no row."""
        rows = [(form[row[0]], [form[name] for name in row[1:]]) for row in self.rows]
        return render_to_string(self.template, {"rows": rows, "heads": self.heads, "empty": self.empty})


def one_more(words: str) -> HTML:
    """A plain button that gives the form one row more and keeps what was typed (``more`` is sent)."""
    return HTML(
        f'<p class="doings"><button class="button" type="submit" name="more" value="1">{words}</button></p>'
    )
