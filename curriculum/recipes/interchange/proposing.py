"""Each ingredient line that came from elsewhere as a proposal: food of the book, grams and whose figure.

For the page on which a person looks at an import. The reading is that of pasted lines; beyond it
a line that names a food of the book by its whole name means that food (as our own files do), and a
weight in whole milligrams stays exact.

Worked example: "91.67 g Hen egg in shell, medium (2 eggs), beaten" names "Hen egg in shell, medium"
whole; 2 eggs is the amount as written, "beaten" the note.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from curriculum.foods import measures
from curriculum.foods.data import FoodData
from curriculum.foods.measures import LineRead
from curriculum.recipes.interchange.reading import ImportedLine
from curriculum.recipes.pasting.matching import Proposal, propose


def proposals(
    lines: Iterable[ImportedLine],
    system: str,
    foods: Iterable[FoodData],
    sources: Mapping[str, Mapping[str, str]],
    chosen: Mapping[int, str] | None = None,
) -> list[Proposal]:
    """One proposal a line, read in ``system``; ``chosen`` are codes of foods by place, as a person chose."""
    foods = tuple(foods)
    by_code = {food.code: food for food in foods}
    chosen = chosen or {}
    return [
        _proposal(line, system, foods, sources, by_code.get(chosen.get(place, "")))
        for place, line in enumerate(lines)
    ]


def _proposal(
    line: ImportedLine,
    system: str,
    foods: tuple[FoodData, ...],
    sources: Mapping[str, Mapping[str, str]],
    chosen: FoodData | None,
) -> Proposal:
    read, named = _named(_read(line, system), foods, system)
    found = propose(read, foods, sources, chosen or named)
    exact = None if read.amount is None else read.amount.milligrams
    if exact is not None and exact.denominator == 1 and found.pieces is None:
        found = replace(found, milligrams=int(exact))
    return found if line.pieces is None else replace(found, pieces=line.pieces)


def _read(line: ImportedLine, system: str) -> LineRead:
    """A line of text, or the cells of a row of a table."""
    if not line.food:
        return measures.read_line(line.text, system or None)
    said = f"{line.grams} g" if line.grams else line.written or str(line.pieces or "")
    try:
        amount, trouble = measures.read_amount(said, system or None), ""
    except measures.Unreadable as error:
        amount, trouble = None, str(error)
    written = line.written or said
    return LineRead(line.text, amount, line.food, line.note, trouble, 0, len(said), written)


def _named(read: LineRead, foods: tuple[FoodData, ...], system: str) -> tuple[LineRead, FoodData | None]:
    """The food that a line names whole, the longest name first, with what stands behind it as the note."""
    if read.amount is None or read.trouble:
        return read, None
    rest = read.text[read.ends :].strip()
    begun = max(
        (food for food in foods if _begins(rest, food.name)), key=lambda each: len(each.name), default=None
    )
    if begun is None:
        same = (food for food in foods if food.name.casefold() == read.food.casefold())
        return read, next(same, None)
    written, note = _behind(rest[len(begun.name) :].strip(), system)
    about = "about" if read.note.split("; ")[0] == "about" else ""
    note = "; ".join(part for part in (about, note) if part)
    return replace(read, food=begun.name, note=note, written=written or read.written), begun


def _begins(text: str, name: str) -> bool:
    """Whether a text is this name, or goes on behind it with a comma or a bracket: no "butter beans"."""
    after = text[len(name) :].lstrip()
    return text[: len(name)].casefold() == name.casefold() and after[:1] in ("", ",", ";", "(")


def _behind(rest: str, system: str) -> tuple[str, str]:
    """(amount as written, note) of "(2 cups), sifted" behind the name of a food."""
    inside, closed, after = rest[1:].partition(")") if rest.startswith("(") else ("", "", "")
    if closed:
        try:
            measures.read_amount(inside, system or None)
            return inside, after.strip(" ,;.")
        except measures.Unreadable:
            pass
    return "", rest.strip(" ,;.")
