"""A recipe as plain text, for a letter or another program; and plain text read as a recipe.

Reading is tolerant: the title first, then a yield ("Makes 8 wedges"), ingredient lines under
"Ingredients" or where the first amount stands, a method under "Method" or where numbers begin. A line
that ends with a colon, or stands first in its block without an amount, names a component.
"""

import re

from curriculum.errors import RuleBroken
from curriculum.recipes.data import RecipeData
from curriculum.recipes.interchange import reading
from curriculum.recipes.interchange.json_ld_read import demand_few
from curriculum.recipes.interchange.reading import (
    ImportedLine,
    ImportedRecipe,
    ImportedStep,
    NotRead,
    yield_words,
)
from curriculum.recipes.interchange.words import line_words

KIND = "plain text"
LONGEST_LINE = 20_000
_YIELD = re.compile(r"^(?:makes|serves|yields?|portions|servings|for)\b:?\s+(?=.*\d)", re.IGNORECASE)
_HEADS = {
    "ingredients": "lines",
    "method": "steps",
    "directions": "steps",
    "instructions": "steps",
    "preparation": "steps",
    "steps": "steps",
    "notes": "notes",
    "note": "notes",
    "caution": "caution",
    "equipment": "tools",
}
_NUMBERED = re.compile(r"^(?:step )?\d{1,2}[.):]\s+(?=\D)", re.IGNORECASE)


def write(recipe: RecipeData) -> str:
    """Title, yield, the lines by component with grams, the numbered method; one line feed a line."""
    out = [recipe.title, f"Makes {yield_words(recipe)}."]
    for component in recipe.components:
        out += ["", component.name, *(line_words(recipe, line) for line in component.lines)]
    if recipe.steps:
        out += ["", "Method", *(f"{step.position}. {step.words}" for step in recipe.steps)]
    for heading, words in (("Caution", recipe.caution), ("Notes", recipe.notes)):
        if words:
            out += ["", heading, words]
    return "\n".join(out) + "\n"


def read(text: str) -> ImportedRecipe:
    """What a text says. RuleBroken when it has more lines or steps than a recipe takes."""
    lines = [line.strip() for line in text.replace("\f", "\n").splitlines()]
    if any(len(line) > LONGEST_LINE for line in lines):
        raise RuleBroken(
            "line_too_long", "One line of it is longer than any line of a recipe. Part the text."
        )
    found = _Reading([" ".join(line.split()) for line in lines])
    demand_few(len(found.lines), reading.MOST_LINES, "ingredient lines")
    demand_few(len(found.steps), reading.MOST_STEPS, "steps")
    return found.recipe()


class _Reading:
    """One text while it is read, line by line."""

    def __init__(self, texts: list[str]) -> None:
        self.parts: dict[str, list[str]] = {name: [] for name in ("before", "notes", "caution", "tools")}
        self.lines: list[ImportedLine] = []
        self.steps: list[str] = []
        self.title = self.yields = self.section = ""
        self.here = "before"
        self.has_method = any(_head(text) == "steps" for text in texts)
        self.has_lines = any(_head(text) == "lines" for text in texts)
        self.numbered = False
        for place, text in enumerate(texts):
            if text:
                first = place == 0 or not texts[place - 1] or bool(_head(texts[place - 1]))
                self._take(text, first, "".join(texts[place + 1 : place + 2]))

    def _take(self, text: str, first: bool, after: str) -> None:
        head = _head(text)
        if not self.title:
            self.title = text
        elif head and not (head == "steps" and self.here == "steps"):
            self.here, self.section = head, ""
        elif self.here in ("before", "lines") and not self.yields and _YIELD.match(text):
            self.yields = text
        elif self.here == "steps":
            self._step(text)
        elif self.here in ("before", "lines"):
            self._line(text, first, after)
        else:
            self.parts[self.here].append(text)

    def _line(self, text: str, first: bool, after: str) -> None:
        if not self.has_method and self.lines and _NUMBERED.match(text):
            self.here = "steps"
            self._step(text)
        elif _names(text, first, after) and not (self.here == "before" and self.has_lines):
            self.section = text.rstrip(": ")[: reading.LONGEST_NAME]
        elif self.here == "before" and (self.has_lines or not reading.begins_with_amount(text)):
            self.parts["before"].append(text)
        else:
            self.here = "lines"
            self.lines.append(ImportedLine(text, self.section))

    def _step(self, text: str) -> None:
        begins = _NUMBERED.match(text)
        self.numbered = self.numbered or bool(begins)
        words = text[begins.end() :] if begins else text
        if self.steps and self.numbered and not begins:
            self.steps[-1] += f" {words}"
        else:
            self.steps.append(words)

    def recipe(self) -> ImportedRecipe:
        """The whole as it was read."""
        portions, unit = reading.read_yield(self.yields)
        steps = [
            ImportedStep(part, "", place)
            for place, words in enumerate(self.steps)
            for part in reading.parted_step(words)
        ]
        return ImportedRecipe(
            KIND,
            self.title,
            self.yields,
            portions,
            unit,
            tuple(self.lines),
            tuple(steps),
            tools=tuple(self.parts["tools"]),
            notes="\n".join(self.parts["notes"]),
            caution=" ".join(self.parts["caution"]),
            not_read=tuple(self._not_read()),
        )

    def _not_read(self) -> list[NotRead]:
        why = "It stands before the first amount and is no ingredient line. Write it in the notes."
        bad = [NotRead(f"“{words[:200]}”", why) for words in self.parts["before"]]
        bad = reading.first_of(bad)
        if not self.lines:
            bad.append(NotRead("Ingredients", "No line begins with an amount, and no heading says so."))
        if not self.steps:
            bad.append(NotRead("Method", "No heading says so, and no numbered line follows the ingredients."))
        return bad


def _head(text: str) -> str:
    return _HEADS.get(text.rstrip(": .").casefold(), "")


def _names(text: str, first: bool, after: str) -> bool:
    """Whether a line names a component: by its colon, or as the first of a block that begins with amounts."""
    if len(text) > reading.LONGEST_NAME or reading.begins_with_amount(text):
        return False
    return text.endswith(":") or (first and bool(after) and reading.begins_with_amount(after))
