"""Words and recipes out of HTML: tags go, entities become letters; scripts of JSON-LD are found.

For fields that hold HTML and for a page that was kept as a file. Nothing is fetched, nothing is
run: the text is looked at and no more.
"""

import re
from html.parser import HTMLParser

from curriculum.errors import RuleBroken
from curriculum.wording import figure

#: A field longer than this is refused before it is looked at.
LONGEST_FIELD = 20_000
_SCRIPT = re.compile(r"<script\b([^<>]{0,400})>", re.IGNORECASE)
_END = re.compile(r"</script", re.IGNORECASE)
_LD_JSON = re.compile(r"""\btype\s*=\s*["']?\s*application/ld\+json\b""", re.IGNORECASE)
#: What begins a declaration and no comment; the parser of the standard library stumbles over some.
_DECLARED = re.compile(r"<!(?!--)")
_LOOKS_LIKE = re.compile(r"<[a-zA-Z!/]|&[#\w]{1,12};")
_WRAPPING = re.compile(r"^\s*(?://\s*)?(?:<!--|<!\[CDATA\[)|(?://\s*)?(?:-->|\]\]>)\s*$")
_BREAKS = frozenset(("br", "p", "li", "div", "tr", "h1", "h2", "h3", "h4", "ul", "ol"))


class _Words(HTMLParser):
    """Keeps what is read and forgets what is marked up."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.kept: list[str] = []
        self.hidden = 0

    def handle_starttag(self, tag: str, attrs: list) -> None:
        self.hidden += tag in ("script", "style")
        if tag in _BREAKS:
            self.kept.append("\n")

    def handle_endtag(self, tag: str) -> None:
        self.hidden = max(0, self.hidden - (tag in ("script", "style")))
        if tag in _BREAKS:
            self.kept.append("\n")

    def handle_data(self, data: str) -> None:
        if not self.hidden:
            self.kept.append(data)


def lines_of(text: str) -> list[str]:
    """The lines of a text without tags and entities, blanks drawn together, none of them empty.

    RuleBroken for a text that is longer than any field of a recipe.
    """
    if len(text) > LONGEST_FIELD:
        raise RuleBroken(
            "text_too_long",
            f"One text in it has {figure(len(text))} characters. "
            f"A recipe takes {figure(LONGEST_FIELD)} at most.",
        )
    if _LOOKS_LIKE.search(text):
        reader = _Words()
        reader.feed(_DECLARED.sub("&lt;!", text))
        reader.close()
        text = "".join(reader.kept)
    parted = (" ".join(line.split()) for line in text.splitlines())
    return [line for line in parted if line]


def plain_words(text: str) -> str:
    """The same on one line."""
    return " ".join(lines_of(text))


def scripts_of(page: str) -> list[str]:
    """The JSON-LD of a page, in its order."""
    found = []
    begun = _SCRIPT.search(page)
    while begun and (ended := _END.search(page, begun.end())):
        if _LD_JSON.search(begun[1]):
            found.append(_WRAPPING.sub("", page[begun.end() : ended.start()]).strip())
        begun = _SCRIPT.search(page, ended.end())
    return found
