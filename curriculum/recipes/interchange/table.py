"""The lines of a recipe as a table (CSV, RFC 4180) that no program takes for formulas."""

import csv
import io

from curriculum.recipes.data import RecipeData
from curriculum.recipes.interchange.words import all_lines, exact_grams

HEADS = ("component", "food", "grams", "pieces", "written", "note")
#: A cell that begins so is read as a formula by programs that open tables (OWASP; from memory).
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def cell(text: str) -> str:
    """The text, with an apostrophe before it where it would be read as a formula."""
    return f"'{text}" if text.startswith(_FORMULA) else text


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
