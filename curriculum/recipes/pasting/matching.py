"""Which food of the book a pasted line means, and what its amount weighs.

A food is meant when every word of the line stands in its name or the other way round;
the name with the fewest other words wins, and a draw is left to a person. Words are
compared without case, marks over letters and plural.

A word that cooks use for a food that the book names otherwise is read as that name, where the book
has it and nothing else fits; the line says so, and a person looks.

Worked example: "plain flour" is no name in a book of "Soft wheat flour" and "Strong white wheat
flour" (two hold "flour", neither "plain"), but another word for the first; "unsalted butter"
finds "Unsalted butter"; "2 eggs" finds "Hen egg in shell, medium", which is counted, and not the
yolk by weight; "tomato paste" is taken for "Tomato", and a person is asked to look.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from curriculum import wording
from curriculum.foods.data import FoodData
from curriculum.foods.measures import LineRead
from curriculum.recipes.pasting.sizes import SIZES, Sized, sized
from curriculum.recipes.search import wanted_words

#: What a food is also called, British and American (common practice, no source), in singular words.
ALSO_CALLED = {
    "plain flour": "soft wheat flour",
    "all purpose flour": "soft wheat flour",
    "strong flour": "strong white wheat flour",
    "bread flour": "strong white wheat flour",
    "cake flour": "fine cake wheat flour",
    "cornstarch": "cornflour",
    "corn starch": "cornflour",
    "baking soda": "bicarbonate of soda",
    "bicarb": "bicarbonate of soda",
    "superfine sugar": "caster sugar",
    "powdered sugar": "icing sugar",
    "confectioners sugar": "icing sugar",
    "scallion": "spring onion",
    "zucchini": "courgette",
    "eggplant": "aubergine",
    "rutabaga": "swede",
    "cilantro": "coriander leaf",
}
#: Words that say how a food was got ready, not which it is, as ``_words`` has them.
READY = frozenset(
    {
        "beaten",
        "chilled",
        "chopped",
        "cold",
        "cooled",
        "cubed",
        "cut",
        "diced",
        "drained",
        "finely",
        "fresh",
        "freshly",
        "grated",
        "hot",
        "melted",
        "minced",
        "peeled",
        "picked",
        "ripe",
        "roughly",
        "sieved",
        "sifted",
        "sliced",
        "soft",
        "softened",
        "squeezed",
        "trimmed",
        "warm",
        "washed",
    }
)
#: So many foods are named when a line can mean any of them.
_MOST_ALIKE = 6


@dataclass(frozen=True, slots=True)
class Proposal:
    """What a pasted line is taken for, for a person to look at. ``trouble`` says what is missing.

    ``begins`` and ``ends`` are the place in ``text`` of the amount, or of what was not understood.
    ``least`` and ``most`` are the ends of a range in milligrams, ``how`` says what was read and
    whose figures made grams of it, ``written`` is the amount as it was typed.
    """

    text: str
    food: str | None
    milligrams: int | None
    pieces: int | None
    note: str
    trouble: str
    how: str = ""
    written: str = ""
    begins: int = 0
    ends: int = 0
    least: int | None = None
    most: int | None = None


def propose(
    read: LineRead,
    foods: Iterable[FoodData],
    sources: Mapping[str, Mapping[str, str]] | None = None,
    chosen: FoodData | None = None,
) -> Proposal:
    """The proposal of one line that was read; ``sources`` says by food whose its figures are.

    ``chosen`` is the food that a person has chosen, or that the line names whole.
    """
    counted = read.amount is not None and read.amount.unit.dimension == "count"
    foods = tuple(foods)
    food = chosen or meant(read.food, foods, counted=counted)
    found = _size(read, food, (sources or {}).get(food.code, {}) if food else {})
    ranged = found.least is not None and found.least != found.most
    return Proposal(
        read.text,
        food.code if food else None,
        None if found.most is None or found.pieces is not None else to_show(found.most),
        found.pieces,
        read.note if food else "; ".join(part for part in (read.food, read.note) if part),
        read.trouble
        or ("" if chosen else _which(read, foods, counted))
        or _missing(read, food, found)
        or ("" if chosen else _taken(read, food)),
        "" if read.trouble else _how(read, food, found),
        read.written,
        read.begins,
        read.ends,
        to_show(found.least) if ranged else None,
        to_show(found.most) if ranged else None,
    )


def meant(words: str, foods: Iterable[FoodData], *, counted: bool = False) -> FoodData | None:
    """The one food that these words mean; None when there is none, or more than one alike.

    What is ``counted`` means a food that is counted in pieces, if there is one; a word of size
    ("large") is passed over where no food has it.
    """
    found = alike(words, foods, counted=counted)
    return found[0] if len(found) == 1 else None


def alike(words: str, foods: Iterable[FoodData], *, counted: bool = False) -> list[FoodData]:
    """The foods that these words mean equally well."""
    foods = tuple(foods)
    wanted = _words(words)
    plain = wanted - frozenset(SIZES)
    ranked = (
        _ranked(wanted, foods, counted)
        or _ranked(plain, foods, counted)
        or _ranked(_ALSO.get(plain, frozenset()), foods, counted)
    )
    return [food for off, food in ranked if off == ranked[0][0]]


def _ranked(wanted: frozenset[str], foods: Iterable[FoodData], counted: bool) -> list[tuple[int, FoodData]]:
    if not wanted:
        return []
    named = [(food, _words(food.name)) for food in foods]
    ranked = [(len(name ^ wanted), food) for food, name in named if wanted <= name or name <= wanted]
    ranked = [pair for pair in ranked if counted and pair[1].counted_in == "pieces"] or ranked
    return sorted(ranked, key=lambda pair: pair[0])


def _words(text: str) -> frozenset[str]:
    return frozenset(
        word[:-1] if len(word) > 3 and word.endswith("s") else word for word in wanted_words(text)
    )


_ALSO = {_words(also): _words(name) for also, name in ALSO_CALLED.items()}


def to_show(milligrams: Fraction) -> int:
    """Whole milligrams, to a hundredth of a gram from a tenth of a gram on: once, and no further."""
    return round(milligrams) if milligrams < 100 else round(milligrams / 10) * 10


def _size(read: LineRead, food: FoodData | None, sources: Mapping[str, str]) -> Sized:
    if read.amount is None:
        return Sized(None, None, "")
    if food is not None:
        return sized(read.amount, read.food, food, sources)
    weighed = read.amount.milligrams is not None
    size = read.amount.unit.size
    return Sized(
        read.amount.least * size if weighed else None, read.amount.most * size if weighed else None, ""
    )


def _how(read: LineRead, food: FoodData | None, found: Sized) -> str:
    """ "1½ cups is read as 187.38 g of Soft wheat flour: 354.9 ml at 0.528 g a ml (whose figure)." """
    if food is None or found.most is None:
        return ""
    size = (
        _grams(found.most) if found.least == found.most else f"{_grams(found.least)} to {_grams(found.most)}"
    )
    why = f": {found.how}" if found.how else "."
    return f"“{read.written}” is read as {size} of {food.name}{why}"


def _grams(milligrams: Fraction) -> str:
    return f"{wording.figure(Fraction(to_show(milligrams), 1000), 3)} g"


def _which(read: LineRead, foods: Iterable[FoodData], counted: bool) -> str:
    """ "“gelatine” can be …": the foods that a line means equally well, with the weight of each."""
    found = alike(read.food, foods, counted=counted)
    if read.amount is None or not 1 < len(found) <= _MOST_ALIKE:
        return ""
    names = []
    for food in found:
        most = sized(read.amount, read.food, food, {}).most
        names.append(food.name if most is None else f"{food.name} ({_grams(most)})")
    return f"“{read.food}” can be {wording.listed(names, 'or')}. Choose the food and write its weight."


def _taken(read: LineRead, food: FoodData | None) -> str:
    """What to say where a line has words that the food's name has not: "tomato paste" is no tomato."""
    if food is None or not _words(read.food) - _words(food.name) - frozenset(SIZES) - READY:
        return ""
    return f"“{read.food}” is taken for {food.name}. Choose another food where it is not that."


def _missing(read: LineRead, food: FoodData | None, found: Sized) -> str:
    if food is None or read.amount is None:
        return f"“{read.food}” is not one food of the book. Choose the food."
    if found.most is None:
        end = "" if found.how.endswith(("weight.", "given.")) else " Write the weight."
        return f"{found.how}{end}"
    if found.least != found.most:
        return "A range: the larger amount is taken, and both ends are kept for the cue to decide between."
    return found.look
