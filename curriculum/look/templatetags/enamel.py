"""Template tags of the look: the frame of the trail, the error summary, amounts, states, allergens.

A built-in library: templates need no ``load``. Figures come as numbers in the smallest
unit and are written by ``curriculum.wording``.
"""

import re
import uuid
from datetime import date, time

from django import forms, template
from django.template.base import NodeList, Parser, Token
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString, mark_safe

from curriculum import wording
from curriculum.look.forms import standing_in_formset, standing_in_the_way, summary_heading

register = template.Library()

#: The whole list of states; a new one needs a new word first.
STATES = frozenset(
    ("todo", "doing", "waiting", "unsent", "done", "swap", "cannot", "late", "short", "stopped")
)


class TrailFrame(template.Node):
    """Puts the list items of a trail into its frame; nothing when a page has no trail."""

    def __init__(self, inside: NodeList) -> None:
        self.inside = inside

    def render(self, context: template.Context) -> str:
        """The items in ``nav.trail``; a page that brings its own frame keeps it."""
        items = self.inside.render(context).strip()
        if not items or items.startswith("<nav"):
            return items
        items = re.sub(r"^<ol>|</ol>$", "", items)
        return mark_safe(f'<nav class="trail" aria-label="Where you are"><ol>{items}</ol></nav>')


@register.tag
def trail_frame(parser: Parser, token: Token) -> TrailFrame:
    """``{% trail_frame %}…{% end_trail_frame %}`` around the block ``trail`` of the base template."""
    inside = parser.parse(("end_trail_frame",))
    parser.delete_first_token()
    return TrailFrame(inside)


@register.inclusion_tag("enamel/summary.html")
def error_summary(form: forms.BaseForm | forms.BaseFormSet) -> dict:
    """What stands in the way of a form or formset, counted, with a link to each field."""
    if not getattr(form, "is_bound", False):
        return {"entries": []}
    several = isinstance(form, forms.BaseFormSet)
    entries = standing_in_formset(form) if several else standing_in_the_way(form)
    not_done = getattr(form, "not_done", "Not done yet.")
    return {
        "entries": entries,
        "heading": summary_heading(not_done, len(entries)),
        "summary_id": f"summary_{form.prefix or 'form'}",
    }


@register.simple_tag
def new_key() -> SafeString:
    """A new number for a button's form, so that a tap sent twice is done once."""
    return format_html('<input type="hidden" name="key" value="{}">', uuid.uuid4())


@register.simple_tag
def state(kind: str, words: str) -> SafeString:
    """A state: its shape by class and its word. KeyError for a kind that is not on the list."""
    if kind not in STATES:
        raise KeyError(kind)
    return format_html('<span class="state {}">{}</span>', kind, words)


@register.filter
def allergen(words: str) -> SafeString:
    """One allergen, in full and emphasised."""
    return format_html('<span class="allergen">{}</span>', words)


@register.filter
def allergens(kinds: list[str]) -> SafeString:
    """Several allergens, each emphasised, with commas."""
    return format_html_join(", ", '<span class="allergen">{}</span>', ((words,) for words in kinds))


@register.filter
def grams(milligrams: int) -> SafeString:
    """A weight with its small unit: "104 g"."""
    return format_html("{} <small>g</small>", wording.grams(milligrams))


@register.filter
def amount(milligrams: int) -> str:
    """A weight in a sentence: "104 g"."""
    return wording.amount(milligrams)


@register.simple_tag
def issued(milligrams: int, exact: str) -> SafeString:
    """The issued weight bold with the exact one soft under it, or the word "exact" when they are equal."""
    return format_html(
        '<span class="amount">{} <small>g</small> <span class="exact">{}</span></span>',
        wording.grams(milligrams),
        f"exact {exact}" if exact else "exact",
    )


@register.filter
def duration(minutes: int) -> str:
    """ "14 min"; over two hours "3 h 41"."""
    return wording.duration(minutes)


@register.filter
def clock(at: time) -> str:
    """A time of day: "13:05"."""
    return wording.clock(at)


@register.filter
def long_day(on: date) -> str:
    """ "Wednesday 18 November 2026"."""
    return wording.long_date(on)


@register.filter
def short_day(on: date) -> str:
    """ "18 Nov 2026"."""
    return wording.short_date(on)


@register.filter
def money(pence: int) -> str:
    """ "£4.44"."""
    return wording.money(pence)


@register.filter
def listed(items: list[str]) -> str:
    """ "butter, milk and egg"."""
    return wording.listed(str(item) for item in items)


@register.filter
def number(count: int) -> str:
    """A count in a sentence: in words up to twelve."""
    return wording.number(count)


@register.filter
def sentence(words: str) -> str:
    """With a capital first and a full stop last."""
    return wording.sentence(words)
