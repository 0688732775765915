"""A recipe as it was read from elsewhere: what was read, and what was not with its reason.

For the page on which a person looks at it. Nothing here is a recipe of the book yet: lines are
text, no food is chosen, steps have no minutes. ``carried`` is what has no place here and goes out
again as it came: (name, JSON text) pairs.
"""

import re
from dataclasses import dataclass, field
from fractions import Fraction

from curriculum.foods import measures
from curriculum.recipes.data import RecipeData
from curriculum.wording import counted, plural

LONGEST_BYTES = 1_000_000
MOST_LINES = 100
MOST_STEPS = 60
MOST_SECTIONS = 20
LONGEST_STEP = 600
LONGEST_NAME = 120
LONGEST_TITLE = 160
MOST_TOOLS = 60
#: So much is carried of one property, and of all together: it stands in every version.
MOST_CARRIED = 100_000
MOST_CARRIED_WHOLE = 200_000
MOST_PORTIONS = 1000
_COUNT = re.compile(r"(\d{1,4})(?![\d.,/½¼¾]|\s*(?:-|–|to\b|or\b)\s*\d)\b\s*(.*)", re.DOTALL)
#: Units whose plural could be that of another word: "pies" is not of "py".
_WITH_E = ("pie", "cookie", "brownie", "smoothie", "quiche", "brioche", "galette", "tartelette")
_SERVES = re.compile(r"(?:serves|makes|yields?|for)\b:?\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class ImportedLine:
    """One ingredient line: the text as a person wrote it, and the component it stands under.

    A table says more: the food, grams, pieces, amount as written and note in cells of their own.
    """

    text: str
    section: str = ""
    food: str = ""
    grams: str = ""
    pieces: int | None = None
    written: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class ImportedStep:
    """One step in words; ``place`` is which instruction of the file it was."""

    words: str
    section: str = ""
    place: int = 0


@dataclass(frozen=True, slots=True)
class NotRead:
    """Something that was not read: what it is, and why."""

    what: str
    why: str


@dataclass(frozen=True, slots=True)
class ImportedRecipe:
    """What was read of one recipe. ``kind`` says in words what the text was taken for.

    ``portions`` is None where the yield gives no one count. ``times`` are (name, seconds, as
    written). ``line_values`` and ``step_values`` are the JSON texts of what each line and each
    step was, in the file's own shape; empty where the form has none.
    """

    kind: str
    title: str = ""
    yield_words: str = ""
    portions: int | None = None
    unit: str = "portion"
    lines: tuple[ImportedLine, ...] = ()
    steps: tuple[ImportedStep, ...] = ()
    times: tuple[tuple[str, Fraction, str], ...] = ()
    tools: tuple[str, ...] = ()
    notes: str = ""
    caution: str = ""
    carried: tuple[tuple[str, str], ...] = ()
    not_read: tuple[NotRead, ...] = ()
    line_values: tuple[str, ...] = field(default=())
    step_values: tuple[str, ...] = field(default=())


def yield_words(recipe: RecipeData) -> str:
    """How many of what it makes: "4 portions", "1 portion"."""
    return counted(recipe.portions_stated, recipe.unit, plural(recipe.unit))


def read_yield(text: str) -> tuple[int | None, str]:
    """(how many, one of them) of "8 wedges", "Serves 4"; None where there is no one count.

    A range is no count: "4-6" is left to a person.
    """
    bare = _SERVES.sub("", text.strip(), count=1).strip(" .")
    found = _COUNT.match(bare)
    if found is None or not 1 <= int(found[1]) <= MOST_PORTIONS:
        return None, "portion"
    many = found[2].strip(" .")
    if not many or len(many) > 40 or any(letter.isdigit() for letter in many):
        return int(found[1]), "portion"
    return int(found[1]), one_of(int(found[1]), many)


def one_of(count: int, said: str) -> str:
    """The singular of a unit that is said of so many: "wedges" is "wedge", "pastries" is "pastry"."""
    if count == 1:
        return said
    head, of, tail = said.partition(" of ")
    tries = (f"{head[:-3]}y", head[:-2], head[:-1])
    tries = tries[::-1] if head[:-1].casefold().endswith(_WITH_E) else tries
    return next((f"{one}{of}{tail}" for one in tries if one and plural(one) == head), said)


def first_of(bad: list[NotRead], most: int = 10) -> list[NotRead]:
    """The first of what was not read, and how many more there are."""
    if len(bad) <= most:
        return bad
    return [*bad[:most], NotRead(f"{len(bad) - most} more", "For reasons like the ones above.")]


def parted_step(words: str) -> list[str]:
    """A step cut into steps that have a place here: at the ends of sentences, else at a space."""
    parts = []
    while len(words) > LONGEST_STEP:
        head = words[:LONGEST_STEP]
        ends = [found.end() for found in re.finditer(r"[.;]\s", head)]
        cut = ends[-1] if ends else head.rfind(" ") + 1 or LONGEST_STEP
        parts.append(words[:cut].strip())
        words = words[cut:].strip()
    return [part for part in (*parts, words) if part]


def begins_with_amount(text: str) -> bool:
    """Whether a line is an ingredient line by its beginning, or says "to taste"."""
    read = measures.read_line(text)
    return read.amount is not None or text.lstrip(" -*•·–")[:1].isdigit()
