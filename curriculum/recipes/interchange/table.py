"""The lines of a recipe as a table (CSV, RFC 4180) that no program takes for formulas; out and in.

A cell that a program could read as a formula begins with an apostrophe. So that this can be taken
off again, text that truly begins with an apostrophe is given a second one: ``=1`` is written ``'=1``,
``'tis`` is written ``''tis``. On the way in one apostrophe is taken off where another, or the
beginning of a formula, stands behind it; ``'tis`` from elsewhere stays.
"""

import csv
import io
import re
from collections.abc import Iterator

from curriculum.errors import RuleBroken
from curriculum.recipes.data import RecipeData
from curriculum.recipes.interchange import reading
from curriculum.recipes.interchange.json_ld_read import demand_few
from curriculum.recipes.interchange.reading import ImportedLine, ImportedRecipe, NotRead
from curriculum.recipes.interchange.words import all_lines, exact_grams

KIND = "a table of lines (CSV)"
HEADS = ("component", "food", "grams", "pieces", "written", "note")
NEEDED = frozenset(("food", "grams"))
#: A cell that begins so is read as a formula by programs that open tables (OWASP; from memory).
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_DELIMITERS = (",", ";", "\t")
LONGEST_CELL = 300
LONGEST = {"component": reading.LONGEST_NAME, "written": 120}


def cell(text: str) -> str:
    """The text, with an apostrophe before it where it would be read as a formula or begins with one."""
    return f"'{text}" if text.startswith((*_FORMULA, "'")) else text


def text_of(said: str) -> str:
    """The text that a cell stands for: the apostrophe of ``cell`` is taken off again."""
    return said[1:] if said.startswith("'") and said[1:].startswith((*_FORMULA, "'")) else said


def write(recipe: RecipeData) -> str:
    """A head row and one row a line; grams are exact."""
    out = io.StringIO(newline="")
    rows = csv.writer(out)
    rows.writerow(HEADS)
    for component, line in all_lines(recipe):
        pieces = "" if line.pieces is None else str(line.pieces)
        said = (component.name, recipe.food(line.food).name, exact_grams(line.milligrams), pieces)
        rows.writerow([cell(each) for each in (*said, line.written, line.note)])
    return out.getvalue()


def is_table(text: str) -> bool:
    """Whether the first line is the head of such a table."""
    return _delimiter(text) is not None


def read(text: str) -> ImportedRecipe:
    """The lines of a table; it has no title, no yield and no steps. RuleBroken where a row is broken."""
    lines, bad = [], []
    for number, row in _rows(text):
        line = _line(row)
        why = _too_long(row) if line is not None else "It names no food."
        if why:
            bad.append(NotRead(f"Row {number}", why))
        else:
            lines.append(line)
            demand_few(len(lines), reading.MOST_LINES, "lines or more")
    none = NotRead("Title, portions and method", "A table of lines holds none. Write them here and later.")
    return ImportedRecipe(KIND, lines=tuple(lines), not_read=(*reading.first_of(bad), none))


def _too_long(row: dict[str, str]) -> str:
    """Why a row does not fit; empty when it does."""
    for head, value in row.items():
        most = LONGEST.get(head, LONGEST_CELL)
        if len(value) > most:
            return f"Its cell “{head[:20]}” has more than {most} letters."
    return ""


def _delimiter(text: str) -> str | None:
    first = text.lstrip("\ufeff\r\n ").partition("\n")[0][:500].strip().casefold()
    for delimiter in _DELIMITERS:
        if {name.strip(' "') for name in first.split(delimiter)} >= NEEDED:
            return delimiter
    return None


def _rows(text: str) -> Iterator[tuple[int, dict[str, str]]]:
    """(number, cells by head) of each row that is not empty."""
    reader = csv.reader(
        io.StringIO(text.lstrip("\ufeff\r\n "), newline=""), delimiter=_delimiter(text) or ","
    )
    try:
        heads = [name.strip().casefold() for name in next(reader)]
        for number, row in enumerate(reader, start=2):
            if any(value.strip() for value in row):
                yield number, dict(zip(heads, (text_of(value) for value in row), strict=False))
    except csv.Error as error:
        raise RuleBroken(
            "broken_table", f"Row {reader.line_num} of the table is broken: {error}. Mend it, or take it out."
        ) from error


def _line(row: dict[str, str]) -> ImportedLine | None:
    said = {name: (row.get(name) or "").strip() for name in HEADS}
    if not said["food"]:
        return None
    grams = re.sub(r"\s*g$", "", said["grams"], flags=re.IGNORECASE)
    pieces = int(said["pieces"]) if re.fullmatch(r"[1-9]\d{0,2}", said["pieces"], re.ASCII) else None
    begin = f"{grams} g" if grams else said["written"] or said["pieces"]
    text = " ".join(part for part in (begin, said["food"]) if part)
    text += f", {said['note']}" if said["note"] else ""
    return ImportedLine(text, said["component"], said["food"], grams, pieces, said["written"], said["note"])
