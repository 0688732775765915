"""A file or a pasted text taken in: bytes become letters, and what kind of text it is is found out.

For the page on which a recipe is brought in. Every doubt ends in a sentence: a file that is too
large, empty, no text, or broken is refused; letters that had to be guessed are said so. XML is
not read at all, so no entity of it is ever opened, and nothing is fetched from anywhere.
"""

import codecs
import re
from dataclasses import dataclass, replace

from curriculum.errors import RuleBroken
from curriculum.recipes.interchange import json_ld_read, plain_text, table
from curriculum.recipes.interchange.json_text import parse
from curriculum.recipes.interchange.reading import LONGEST_BYTES, LONGEST_TITLE, ImportedRecipe, NotRead
from curriculum.recipes.interchange.web_text import scripts_of
from curriculum.wording import figure

#: Signs that no text holds, apart from tab, line ends and form feed.
_NO_TEXT = re.compile(r"[\x00-\x08\x0b\x0e-\x1f\x7f]")
_XML = re.compile(r"<\?xml\b|<!DOCTYPE(?!\s+html\b)|<!ENTITY", re.IGNORECASE)
_PAGE = re.compile(r"<(?:!doctype\s+html|html|head|body|script|meta|div)\b", re.IGNORECASE)
GUESSED = "The file is not UTF-8. Its letters were read as Windows-1252: look at every letter with a mark."
_BOMS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)


@dataclass(frozen=True, slots=True)
class Arrived:
    """The letters of what was brought, and what to say about how they were read."""

    text: str
    remark: str = ""


def letters_of(content: bytes) -> Arrived:
    """The text of a file. RuleBroken when it is too large, empty, or no text."""
    if len(content) > LONGEST_BYTES:
        raise _too_large(len(content))
    code = next((code for bom, code in _BOMS if content.startswith(bom)), "utf-8")
    try:
        return Arrived(_demand_text(content.decode(code)))
    except UnicodeDecodeError as error:
        if code != "utf-8":
            raise RuleBroken(
                "broken_letters",
                f"The file says that it is {code.upper()}, and is not from byte {figure(error.start)} on. "
                "Save it again as UTF-8.",
            ) from error
    if b"\0" in content:
        raise _no_text()
    try:
        return Arrived(_demand_text(content.decode("cp1252")), GUESSED)
    except UnicodeDecodeError as error:
        raise _no_text() from error


def read(text: str) -> ImportedRecipe:
    """What was read of a text, by what it is: JSON-LD, a saved page, a table, or plain text."""
    return _with_title(_read(text))


def _read(text: str) -> ImportedRecipe:
    text = _demand_text(text.removeprefix("\ufeff"))
    if len(text.encode("utf-8", "surrogatepass")) > LONGEST_BYTES:
        raise _too_large(len(text.encode("utf-8", "surrogatepass")))
    begin = text.lstrip()[:2000]
    if begin[:1] in ("{", "["):
        return json_ld_read.read(parse(text))
    if _XML.search(begin):
        raise RuleBroken(
            "xml",
            "This is XML, which is not read here. Bring JSON-LD, a saved page, a table or plain text.",
        )
    if begin.startswith("<") or _PAGE.search(begin):
        return _of_page(text)
    return table.read(text) if table.is_table(text) else plain_text.read(text)


def _with_title(read: ImportedRecipe) -> ImportedRecipe:
    """The same, saying so where the title is longer than a name here."""
    if len(read.title) <= LONGEST_TITLE:
        return read
    why = f"A name here has {LONGEST_TITLE} letters at most; the rest of it is cut."
    return replace(read, not_read=(NotRead(f"“…{read.title[LONGEST_TITLE:][:80]}”", why), *read.not_read))


def _of_page(text: str) -> ImportedRecipe:
    """The first recipe in the JSON-LD of a page; a script that is broken is named and passed over."""
    broken, found = [], None
    for place, script in enumerate(scripts_of(text), start=1):
        try:
            value = parse(script)
        except RuleBroken as error:
            broken.append(NotRead(f"Script {place} of the page", error.message))
            continue
        if found is None and json_ld_read.recipes_in(value):
            found = json_ld_read.read(value)
    if found is not None:
        kind = f"a web page with {json_ld_read.KIND}"
        return replace(found, kind=kind, not_read=(*found.not_read, *broken[:10]))
    why = f" {broken[0].what}: {broken[0].why}" if broken else ""
    raise RuleBroken(
        "no_recipe_in_page",
        f"No Recipe in JSON-LD is on this page.{why} Copy its words and paste them as plain text.",
    )


def _demand_text(text: str) -> str:
    if not text.strip():
        raise RuleBroken("empty", "There is nothing in it. Bring a file with a recipe, or paste its text.")
    found = _NO_TEXT.search(text)
    if found is not None:
        sign = "NUL" if found[0] == "\0" else f"U+{ord(found[0]):04X}"
        raise RuleBroken(
            "no_text",
            f"Sign {figure(found.start() + 1)} ({sign}) stands in no text. Bring a text file.",
        )
    return text


def _too_large(size: int) -> RuleBroken:
    return RuleBroken(
        "too_large",
        f"This has {figure(-(-size // 1000))} kB. A recipe takes {figure(LONGEST_BYTES // 1000)} kB at most: "
        "bring the recipe alone, without pictures.",
    )


def _no_text() -> RuleBroken:
    return RuleBroken("no_text", "This is no text file: a picture, perhaps, or a document of a program.")
