"""The rules of pages: what a strict content policy refuses, and words we do not use."""

import re

from tests.laws.line import Line
from tests.laws.sources import Source, Tree

REFUSED = {
    r"\sstyle\s*=": "an inline style",
    r"\shx-on": "hx-on",
    r"hx-vals\s*=\s*[\"']js:": "a script in hx-vals",
    r"hx-trigger\s*=\s*[\"'][^\"']*\[": "a condition in hx-trigger",
    r"\son[a-z]+\s*=\s*[\"']": "an inline event",
    r"<script(?![^>]*\ssrc=)[^>]*>": "an inline script",
    r"<style\b": "an inline style sheet",
    r"https?://(?!www\.w3\.org)": "an address outside the site",
    r"\{%\s*widthratio|\|\s*add:|\|\s*divisibleby": "arithmetic",
    r"javascript:": "a script as an address",
}
#: "safe" is never said of food; the template filter of that name turns escaping off.
UNWANTED = re.compile(r"\b(please|successfully|oops|safe)\b|\w!(?=\s|<|$)", re.IGNORECASE)
TAGS = re.compile(r"{%.*?%}|{{.*?}}|{#.*?#}|<!--.*?-->|<[^>]*>", re.DOTALL)
COMMENTS = re.compile(r"{%\s*comment.*?endcomment\s*%}", re.DOTALL)


def templates_hold_nothing_refused(tree: Tree, line: Line) -> list[str]:
    """No page needs an exception to the content policy, and no template calculates."""
    return [
        f"{source.path} holds {what}."
        for source in tree.templates()
        for pattern, what in REFUSED.items()
        if re.search(pattern, source.text, re.IGNORECASE)
    ]


def templates_escape_everything(tree: Tree, line: Line) -> list[str]:
    """A name is text in any script and never a tag: nothing turns escaping off."""
    return [
        f"{source.path} turns escaping off."
        for source in tree.templates()
        if re.search(r"\|\s*safe\b|{%\s*autoescape\s+off", source.text)
    ]


#: ``|crispy`` and ``{% crispy %}`` begin with the summary of the form themselves.
SAID_TWICE = re.compile(r"{% error_summary ([\w.]+) %}\s*(?:{{ \1\|crispy }}|{% crispy \1 %})")


def what_stands_in_the_way_is_said_once(tree: Tree, line: Line) -> list[str]:
    """A form that was refused is told once what stands in its way."""
    return [
        f"{source.path} says twice what stands in the way of {match[1]}."
        for source in tree.templates()
        for match in SAID_TWICE.finditer(source.text)
    ]


def words_are_ours(tree: Tree, line: Line) -> list[str]:
    """Pages say the thing, the figure and the way out; they neither beg nor cheer."""
    return [
        f"{source.path} says {match[0]!r}."
        for source in tree.templates()
        if (match := UNWANTED.search(_words(source)))
    ]


def messages_are_ours(tree: Tree, line: Line) -> list[str]:
    """The same of sentences written in Python."""
    return [
        f"{source.path}:{number} says {match[0]!r}."
        for source in tree.python()
        for number, words in source.strings()
        if " " in words and (match := UNWANTED.search(words))
    ]


def templates_stand_in_their_topic(tree: Tree, line: Line) -> list[str]:
    """``<app>/<topic>/templates/<topic>/``: the folder and the name agree (form packs apart)."""
    return [
        f"{source.path} is not under templates/{source.parts[1]}/."
        for source in tree.templates()
        if source.parts[1:2] != ("look",) and source.parts[2:4] != ("templates", source.parts[1])
    ]


def every_script_is_ours(tree: Tree, line: Line) -> list[str]:
    """Script is small and our own: no evaluation of text, no clock that only the browser knows."""
    return [
        f"{source.path} evaluates text."
        for source in tree.scripts()
        if re.search(r"\beval\(|new Function\(|\.innerHTML\s*=", source.text)
    ]


def _words(source: Source) -> str:
    return TAGS.sub(" ", COMMENTS.sub(" ", source.text))
