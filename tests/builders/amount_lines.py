"""Ingredient lines as cooks write them, as they mistype them and as nobody should: each with what it means.

The meaning is known before the line is written, from a table of sizes of its own, so that the
reader is judged by somebody else. ``None`` means that the line has no one meaning and has to be
handed back; ``ANYTHING`` that it only must not break the reader.
"""

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from curriculum.foods.measures import LineRead, read_line

F = Fraction
ANYTHING = "anything"
#: Millilitres of one, after NIST SP 811, the UK Units of Measurement Regulations and common spoons.
VOLUMES = {
    "us": {
        "tsp": F("4.92892159375"),
        "tbsp": F("14.78676478125"),
        "cup": F("236.5882365"),
        "pint": F("473.176473"),
        "quart": F("946.352946"),
        "fl oz": F("29.5735295625"),
        "gallon": F("3785.411784"),
    },
    "imperial": {
        "tsp": F(5),
        "tbsp": F(15),
        "pint": F("568.26125"),
        "fl oz": F("28.4130625"),
        "gill": F("142.0653125"),
        "gallon": F("4546.09"),
    },
    "metric": {"tsp": F(5), "tbsp": F(15), "cup": F(250)},
    "australian": {"tsp": F(5), "tbsp": F(20), "cup": F(250)},
}
PLAIN = {"ml": F(1), "l": F(1000), "dl": F(100), "cl": F(10)}
#: Milligrams of one.
MASSES = {"g": F(1000), "kg": F(1_000_000), "oz": F("28349.523125"), "lb": F(45359237, 100)}
SPELLINGS = {
    "tsp": ["tsp", "Tsp.", "teaspoon", "teaspoons", "tsps"],
    "tbsp": ["tbsp", "Tbsp", "tablespoons", "tbs.", "TABLESPOON", "level tbsp"],
    "cup": ["cup", "cups", "Cup"],
    "pint": ["pint", "pints", "pt"],
    "quart": ["quart", "qt"],
    "gallon": ["gallon", "gal"],
    "gill": ["gill", "gills"],
    "fl oz": ["fl oz", "fl. oz.", "fluid ounces", "floz"],
    "ml": ["ml", "ML", "millilitres", "mls"],
    "l": ["l", "litre", "litres", "L"],
    "dl": ["dl"],
    "cl": ["cl"],
    "g": ["g", "G", "grams", "gm", "gms", "gramme"],
    "kg": ["kg", "KG", "kilos", "kilogram"],
    "oz": ["oz", "oz.", "ounces"],
    "lb": ["lb", "lbs", "pounds"],
}
COUNTED = ["clove", "sprig", "bunch", "slice", "leaf", "sheet", "tin", "head", "stick", "rasher"]
MANY = {"bunch": "bunches", "leaf": "leaves"}
FOODS = [
    "plain flour",
    "caster sugar",
    "crème fraîche",
    "olive oil",
    "whole milk",
    "red lentils",
    "葛粉",
    "jalapeño peppers",
    "bread crumbs",
    "ground almonds",
    "double cream",
    "grated Cheddar",
    "Worcestershire sauce",
    "xanthan gum",
]
WHOLE = ["eggs", "lemons", "egg yolks", "large onions", "ripe tomatoes", "chicken thighs", "bay leaves"]
NOTES = ["", "", "", ", sifted", " (finely chopped)", ", at room temperature", ", peeled and cut"]
SPACES = [" ", " ", " ", "  ", "\u00a0", "\u2009", "\t"]
VULGAR = {F(1, 2): "½", F(1, 4): "¼", F(3, 4): "¾", F(1, 3): "⅓", F(2, 3): "⅔", F(1, 8): "⅛", F(3, 8): "⅜"}
WORDS = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"]


@dataclass(frozen=True)
class Meant:
    """What a line says: a dimension, its ends in milligrams, millilitres or counts, and the food."""

    dimension: str
    least: Fraction
    most: Fraction
    food: str
    unit: str = ""


@dataclass(frozen=True)
class Written:
    """A line, the system it is to be read in, its meaning, and the kind of line for the report."""

    text: str
    system: str | None
    meant: Meant | str | None
    kind: str


def lines(count: int, seed: int) -> Iterator[Written]:
    """So many lines, always the same for a seed."""
    draw = random.Random(seed)
    for _ in range(count):
        yield draw.choice(KINDS)(draw)


def judged(
    written: Iterator[Written], read: Callable[[str, str | None], LineRead] = read_line
) -> dict[str, list[Written]]:
    """Lines by what became of them: right, handed_back, unread, misread, crashed."""
    found: dict[str, list[Written]] = {
        name: [] for name in ("right", "handed_back", "unread", "misread", "crashed")
    }
    for line in written:
        try:
            answer = read(line.text, line.system)
        except Exception:
            found["crashed"].append(line)
        else:
            found[_verdict(line, answer)].append(line)
    return found


def _verdict(line: Written, answer: LineRead) -> str:
    handed_back = bool(answer.trouble) or answer.amount is None
    if handed_back:
        named = answer.trouble and 0 <= answer.begins <= answer.ends <= len(line.text)
        if not named:
            return "misread"
        return "unread" if isinstance(line.meant, Meant) else "handed_back"
    if line.meant == ANYTHING:
        return "right"
    return "right" if line.meant is not None and _same(line.meant, answer) else "misread"


def _same(meant: Meant, answer: LineRead) -> bool:
    amount = answer.amount
    size = amount.unit.size if meant.dimension in ("mass", "volume") else 1
    named = not meant.unit or amount.unit.one == meant.unit
    return (
        amount.unit.dimension == meant.dimension
        and (amount.least * size, amount.most * size) == (meant.least, meant.most)
        and answer.food == meant.food
        and named
    )


# What is written


def _figure(draw: random.Random) -> tuple[Fraction, str]:
    whole = draw.choice([1, 2, 3, 4, 5, 7, 12, 25, 80, 250, 375, 1500])
    part = draw.choice(list(VULGAR))
    ways = [
        lambda: (F(whole), str(whole)),
        lambda: (F(whole), str(whole)),
        lambda: (whole + part, f"{whole}{VULGAR[part]}"),
        lambda: (whole + part, f"{whole} {VULGAR[part]}"),
        lambda: (whole + part, f"{whole} {part.numerator}/{part.denominator}"),
        lambda: (whole + part, f"{whole} and {part.numerator}/{part.denominator}"),
        lambda: (part, f"{part.numerator}/{part.denominator}"),
        lambda: (part, f"{part.numerator}⁄{part.denominator}"),
        lambda: (part, VULGAR[part]),
        lambda: (whole + F(1, 2), f"{whole}.5"),
        lambda: (whole + F(1, 4), f"{whole},25"),
        lambda: (F(whole), "".join(chr(0xFF10 + int(each)) for each in str(whole))),
        lambda: (F(min(whole, 10)), WORDS[min(whole, 10) - 1]),
    ]
    return draw.choice(ways)()


def _unit(draw: random.Random) -> tuple[str, Fraction, str, str | None]:
    """(dimension, size, spelling, system)."""
    system = draw.choice(list(VOLUMES))
    if draw.random() < 0.4:
        name = draw.choice(list(VOLUMES[system]))
        return "volume", VOLUMES[system][name], draw.choice(SPELLINGS[name]), system
    table, dimension = draw.choice([(PLAIN, "volume"), (MASSES, "mass"), (MASSES, "mass")])
    name = draw.choice(list(table))
    return dimension, table[name], draw.choice(SPELLINGS[name]), draw.choice([None, system])


def _begun(draw: random.Random, text: str) -> str:
    return draw.choice(["", "", "", "- ", "• ", "  ", "about ", "approx. "]) + text


def _behind(draw: random.Random, food: str) -> str:
    return draw.choice(SPACES) + draw.choice(["", "", "of "]) + food + draw.choice(NOTES)


def measured(draw: random.Random) -> Written:
    """ "1½ cups plain flour, sifted"."""
    (value, figure), (dimension, size, unit, system) = _figure(draw), _unit(draw)
    food = draw.choice(FOODS)
    gap = " " if figure.isalpha() or unit.startswith("level") else draw.choice(["", *SPACES])
    text = _begun(draw, figure + gap + unit + _behind(draw, food))
    return Written(text, system, Meant(dimension, value * size, value * size, food), "measured")


def counted(draw: random.Random) -> Written:
    """ "2 cloves of garlic", "3 large bunches parsley"."""
    value, figure = _figure(draw)
    one, food = draw.choice(COUNTED), draw.choice(["garlic", "parsley", "gelatine", "smoked bacon"])
    many = MANY.get(one, one + "s") if value > 1 else one
    size = draw.choice(["", "", "large ", "small "])
    text = _begun(draw, f"{figure} {size}{many}{_behind(draw, food)}")
    return Written(text, draw.choice([None, "us"]), Meant("count", value, value, food, one), "counted")


def whole(draw: random.Random) -> Written:
    """ "6 eggs", "2 dozen eggs", "half a lemon"."""
    food = draw.choice(WHOLE)
    value, figure = _figure(draw)
    ways = [
        (value, f"{figure} {food}"),
        (value, f"{figure} x {food}") if draw.random() < 0.2 else (value, f"{figure} {food}"),
        (F(24), f"2 dozen {food}"),
        (F(6), f"half a dozen {food}"),
        (F(12), f"a dozen {food}"),
        (F(1, 2), f"half a {food}"),
        (F(1, 4), f"a quarter of a {food}"),
    ]
    value, text = draw.choice(ways)
    meant = Meant("count", value, value, food, "piece")
    return Written(_begun(draw, text + draw.choice(NOTES)), None, meant, "whole")


def ranged(draw: random.Random) -> Written:
    """ "2-3 tbsp", "200 g to 250 g", "1-2 dozen"."""
    low = draw.randint(1, 40)
    high = low + draw.randint(1, 30)
    food = draw.choice(FOODS)
    sign = draw.choice(["-", " - ", "–", " – ", " to ", "—", " or "])
    if draw.random() < 0.15:
        meant = Meant("count", F(low * 12), F(high * 12), "eggs", "piece")
        return Written(f"{low}{sign}{high} dozen eggs", None, meant, "ranged")
    dimension, size, unit, system = _unit(draw)
    first = unit if draw.random() < 0.3 and sign != " or " and not unit.startswith("level") else ""
    unit = unit.removeprefix("level ")
    text = f"{low}{' ' + first if first else ''}{sign}{high} {unit}{_behind(draw, food)}"
    return Written(text, system, Meant(dimension, low * size, high * size, food), "ranged")


def summed(draw: random.Random) -> Written:
    """ "1 lb 3 oz", "3/4 cup 2 tbsp", "1 kg 200 g", "1 pint plus 2 tbsp"."""
    system = draw.choice(["us", "imperial"])
    large, small = draw.choice(
        [("lb", "oz"), ("kg", "g"), ("l", "ml"), ("pint", "fl oz"), ("gallon", "pint"), ("tbsp", "tsp")]
    )
    sizes = {**MASSES, **PLAIN, **VOLUMES[system]}
    dimension = "mass" if large in MASSES else "volume"
    (one, first), two = _figure(draw), draw.randint(1, 15)
    join = draw.choice([" ", " ", " and ", " plus ", " + ", ", "])
    food = draw.choice(FOODS)
    text = f"{first} {draw.choice(SPELLINGS[large])}{join}{two} {draw.choice(SPELLINGS[small])} {food}"
    total = one * sizes[large] + two * sizes[small]
    twice = two * sizes[small] >= sizes[large]
    return Written(text, system, None if twice else Meant(dimension, total, total, food), "summed")


def multiplied(draw: random.Random) -> Written:
    """ "2 x 400 g tins tomatoes", "2 (400 g) tins", "2 tins (400 g each)"."""
    times, each = draw.randint(1, 12), draw.choice([125, 200, 397, 400, 800])
    unit, size, dimension = draw.choice([("g", F(1000), "mass"), ("ml", F(1), "volume")])
    tin = draw.choice(["tin", "can", "pack", "jar"])
    many = tin if times == 1 else tin + "s"
    food = draw.choice(FOODS)
    text = draw.choice(
        [
            f"{times} x {each} {unit} {food}",
            f"{times}x{each}{unit} {food}",
            f"{times} × {each} {unit} {many} of {food}",
            f"{times} x {each}{unit} {many} {food}",
            f"{times} ({each} {unit}) {many} {food}",
            f"{times} {many} ({each} {unit} each) {food}",
        ]
    )
    total = times * each * size
    return Written(text, None, Meant(dimension, total, total, food), "multiplied")


def twice(draw: random.Random) -> Written:
    """ "250 g / 9 oz butter": two measures that agree, or that do not."""
    grams = draw.choice([100, 200, 250, 450, 900])
    ounces = round(grams / 28.35)
    wrong = draw.random() < 0.4
    said = ounces * 2 if wrong else ounces
    text = f"{grams}{draw.choice(['', ' '])}g{draw.choice(['/', ' / '])}{said} oz butter"
    size = grams * F(1000)
    return Written(text, None, None if wrong else Meant("mass", size, size, "butter"), "twice")


def loose(draw: random.Random) -> Written:
    """ "a pinch of salt", "salt, to taste"."""
    if draw.random() < 0.5:
        text = draw.choice(["a pinch of salt", "1 pinch salt", "a large pinch of salt", "one pinch of salt"])
        return Written(text, None, Meant("loose", F(1), F(1), "salt", "pinch"), "loose")
    text = draw.choice(["salt, to taste", "salt to taste", "Salt (to taste)"])
    return Written(text, None, Meant("loose", F(1), F(1), text[:4], "some"), "loose")


def two_meanings(draw: random.Random) -> Written:
    """What can be read in two ways, or in none, and looks as if it could."""
    food, whole = draw.choice(FOODS), draw.randint(1, 9)
    cups = draw.choice(["cup", "tbsp", "tsp", "pint", "fl oz", "gallon", "quart"])
    text = draw.choice(
        [
            f"{whole} {cups} {food}",
            f"{whole} T {food}",
            f"{whole} t {food}",
            f"{whole} c {food}",
            f"{whole} C. {food}",
            f"{whole} gr {food}",
            f"{whole},500 g {food}",
            f"{whole}.500 g {food}",
            f"{whole}.000.000 g {food}",
            f"{whole} 500 g {food}",
            f"{whole}'500 g {food}",
            f"{whole}²0 g {food}",
            f"①{whole}00 g {food}",
            f"{whole}\u202e00 g {food}",
            f"{whole}\x0000 g {food}",
            f"{whole}\x1b[31m g {food}",
            f"{whole} heaped tbsp {food}",
            f"{whole} scant cups {food}",
            f"{whole} tbps {food}",
            f"{whole} teaspon {food}",
            f"{whole} mugs {food}",
            f"{whole} glasses {food}",
            f"{whole} lt {food}",
            f"{whole + 1}-{whole} g {food}",
            f"1-1/{whole + 1} cups {food}",
            f"{whole}/0 g {food}",
            f"-{whole} g {food}",
            f"0 g {food}",
            f"{whole} x 400 {food}",
            f"{whole} % {food}",
            f"{whole} °C",
            f"{whole}) 200 g {food}",
            f"{whole}. 200 g {food}",
            f"{whole}) eggs",
            f"{whole} large 400 g tins {food}",
            f"{whole} kg 500 {food}",
            f"{whole} g or {whole} tsp {food}",
            f"{whole} cup minus 1 tbsp {food}",
            f"{whole * 10**13} g {food}",
            f"{whole} g",
            f"{whole}",
            food,
            f"a little {food}",
            f"some {food}",
            f"a few {food}",
            f"half the {food}",
            f"{food} {whole} g",
            f"{food}: {whole}00 g",
            f"up to {whole} g {food}",
            f"{whole}/{whole}/{whole} {food}",
            f"{whole} big T {food}",
            f"{whole} * 400 g {food}",
            f"{whole}e3 g {food}",
            f"0x{whole}0 g {food}",
            f"{whole} m² {food}",
            f"{whole} g {whole} g {food}",
            f"{whole} inch piece {food}",
            f"{whole}-inch piece {food}",
            f"{whole}cm piece {food}",
            f"{whole} minutes",
            f"{whole} servings",
            f"{whole}th egg",
            "two thirds of a lemon",
            "two hundred almonds",
            f"{whole} or more eggs",
            f"{whole} parts {food}",
            f"{whole}00 g butter, 50 g {food}",
            f"{whole} onions, 1 carrot",
            f"{whole}00 g butter + 2 eggs",
            f"{whole} eggs and 1 yolk",
            f"{whole} pound cake",
            f"{whole} cup cakes",
            f"{whole} big heaped tbsp {food}",
            f"{whole}-{whole + 1}-{whole + 2} eggs",
            f"{whole}00 kcal",
        ]
    )
    return Written(text, None, None, "two_meanings")


def noise(draw: random.Random) -> Written:
    """Letters of any kind, without a figure in them or with one anywhere."""
    pool = "abgß½ x/.,-–()[]{}<>&%°№Ⅷ十百१२३٣٤🍋🥚é\u0301\u200b\u202e\u0000\x07\ufeff\ud800'\"\\;:!?"
    size = draw.choice([1, 3, 10, 60, 299, 301, 2000])
    text = "".join(draw.choice(pool + "0123456789") for _ in range(size))
    return Written(text, draw.choice([None, *VOLUMES]), ANYTHING, "noise")


def damaged(draw: random.Random) -> Written:
    """A good line with a letter lost, doubled or changed: it must not break the reader."""
    good = draw.choice([measured, counted, ranged, multiplied])(draw)
    place = draw.randrange(len(good.text))
    swap = draw.choice(["", good.text[place] * 2, "\x00", "/", "½", " ", "٣", "x"])
    return Written(good.text[:place] + swap + good.text[place + 1 :], good.system, ANYTHING, "damaged")


KINDS = (
    *(measured,) * 5,
    *(counted, whole, ranged, summed, multiplied, twice, loose),
    *(two_meanings,) * 4,
    noise,
    damaged,
)
