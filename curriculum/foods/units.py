"""Kitchen measures of the four systems, with exact factors, and the words for them.

For ``measures``. Volumes in millilitres, masses in milligrams, as exact fractions. A word
such as "cup" means another thing in each system, so a unit is found by its word *and* the
system that the recipe is written in; a word that differs and comes without a system is
never guessed.

Sources: 1 in = 2.54 cm and 1 US gallon = 231 cubic inches, from which every US measure
follows (NIST SP 811 and Handbook 44, appendix C); 1 imperial gallon = 4.54609 l (UK Units of
Measurement Regulations); 1 lb = 0.45359237 kg (1959 agreement); metric spoons 5, 10 and
15 ml, the metric cup of 250 ml and the Australian tablespoon of 20 ml (practice, as the
units list of GNU carries them). A stick of butter is a quarter of a pound.
"""

from dataclasses import dataclass
from fractions import Fraction

METRIC, US, IMPERIAL, AUSTRALIAN = "metric", "us", "imperial", "australian"
SYSTEMS = {
    METRIC: "metric, with spoons of 5 and 15 ml",
    US: "US cups and spoons",
    IMPERIAL: "imperial pints and ounces",
    AUSTRALIAN: "Australian, with a tablespoon of 20 ml",
}

_US_GALLON = Fraction(231) * Fraction(254, 100) ** 3
_IMPERIAL_GALLON = Fraction(454609, 100)
#: In milligrams.
_POUND = Fraction(45359237, 100)


@dataclass(frozen=True, slots=True)
class Unit:
    """One measure: ``dimension`` is mass (milligrams), volume (millilitres), count or loose.

    A count is a countable thing (a clove, a tin); a loose amount has no size (a pinch).
    """

    name: str
    one: str
    many: str
    dimension: str
    size: Fraction = Fraction(1)


def _unit(name: str, dimension: str, size: Fraction | int = 1, one: str = "", many: str = "") -> Unit:
    return Unit(name, one or name, many or one or name, dimension, Fraction(size))


GRAM = _unit("gram", "mass", 1000, "g")
KILOGRAM = _unit("kilogram", "mass", 1_000_000, "kg")
MILLIGRAM = _unit("milligram", "mass", 1, "mg")
OUNCE = _unit("ounce", "mass", _POUND / 16, "oz")
POUND = _unit("pound", "mass", _POUND, "lb")
STICK = _unit("stick", "mass", _POUND / 4, "stick", "sticks")

MILLILITRE = _unit("millilitre", "volume", 1, "ml")
CENTILITRE = _unit("centilitre", "volume", 10, "cl")
DECILITRE = _unit("decilitre", "volume", 100, "dl")
LITRE = _unit("litre", "volume", 1000, "l")
METRIC_TEASPOON = _unit("metric_teaspoon", "volume", 5, "tsp")
METRIC_DESSERTSPOON = _unit("metric_dessertspoon", "volume", 10, "dsp")
METRIC_TABLESPOON = _unit("metric_tablespoon", "volume", 15, "tbsp")
METRIC_CUP = _unit("metric_cup", "volume", 250, "cup", "cups")
AUSTRALIAN_TABLESPOON = _unit("australian_tablespoon", "volume", 20, "tbsp")

US_GALLON = _unit("us_gallon", "volume", _US_GALLON, "gal")
US_QUART = _unit("us_quart", "volume", _US_GALLON / 4, "qt")
US_PINT = _unit("us_pint", "volume", _US_GALLON / 8, "pt")
US_CUP = _unit("us_cup", "volume", _US_GALLON / 16, "cup", "cups")
US_GILL = _unit("us_gill", "volume", _US_GALLON / 32, "gill", "gills")
US_FLUID_OUNCE = _unit("us_fluid_ounce", "volume", _US_GALLON / 128, "fl oz")
US_TABLESPOON = _unit("us_tablespoon", "volume", _US_GALLON / 256, "tbsp")
US_TEASPOON = _unit("us_teaspoon", "volume", _US_GALLON / 768, "tsp")

IMPERIAL_GALLON = _unit("imperial_gallon", "volume", _IMPERIAL_GALLON, "gal")
IMPERIAL_QUART = _unit("imperial_quart", "volume", _IMPERIAL_GALLON / 4, "qt")
IMPERIAL_PINT = _unit("imperial_pint", "volume", _IMPERIAL_GALLON / 8, "pt")
IMPERIAL_CUP = _unit("imperial_cup", "volume", _IMPERIAL_GALLON / 16, "cup", "cups")
IMPERIAL_GILL = _unit("imperial_gill", "volume", _IMPERIAL_GALLON / 32, "gill", "gills")
IMPERIAL_FLUID_OUNCE = _unit("imperial_fluid_ounce", "volume", _IMPERIAL_GALLON / 160, "fl oz")

PINCH = _unit("pinch", "loose", 1, "pinch", "pinches")
DASH = _unit("dash", "loose", 1, "dash", "dashes")
SOME = _unit("some", "loose", 1, "some")
PIECE = _unit("piece", "count", 1, "piece", "pieces")

MEASURES: tuple[Unit, ...] = tuple(
    value
    for value in list(globals().values())
    if isinstance(value, Unit) and value.dimension in ("mass", "volume")
)

#: What a word means in every system alike.
SAME_EVERYWHERE: dict[str, Unit] = {
    word: unit
    for unit, words in (
        (GRAM, "g gm gms grm grms gram grams gramme grammes"),
        (KILOGRAM, "kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes"),
        (MILLIGRAM, "mg milligram milligrams"),
        (OUNCE, "oz ozs ounce ounces"),
        (POUND, "lb lbs pound pounds"),
        (MILLILITRE, "ml mls cc millilitre millilitres milliliter milliliters"),
        (CENTILITRE, "cl centilitre centilitres"),
        (DECILITRE, "dl decilitre decilitres"),
        (LITRE, "l ltr litre litres liter liters"),
        (METRIC_DESSERTSPOON, "dsp dessertspoon dessertspoons dessertspoonful dessertspoonfuls"),
        (PINCH, "pinch pinches"),
        (DASH, "dash dashes"),
    )
    for word in words.split()
}

_SPOON_T = "tbsp tbsps tbs tbl tbls tblsp tblspn tbspn tablespoon tablespoons tablespoonful tablespoonfuls"
_SPOON_t = "tsp tsps tspn teasp teaspoon teaspoons teaspoonful teaspoonfuls"
#: What a word means by system; a system that is not named here does not know the word.
BY_SYSTEM: dict[str, dict[str, Unit]] = {
    word: meanings
    for words, meanings in (
        (
            _SPOON_T,
            {
                METRIC: METRIC_TABLESPOON,
                US: US_TABLESPOON,
                IMPERIAL: METRIC_TABLESPOON,
                AUSTRALIAN: AUSTRALIAN_TABLESPOON,
            },
        ),
        (
            _SPOON_t,
            {
                METRIC: METRIC_TEASPOON,
                US: US_TEASPOON,
                IMPERIAL: METRIC_TEASPOON,
                AUSTRALIAN: METRIC_TEASPOON,
            },
        ),
        (
            "cup cups cupful cupfuls",
            {METRIC: METRIC_CUP, US: US_CUP, IMPERIAL: IMPERIAL_CUP, AUSTRALIAN: METRIC_CUP},
        ),
        ("pint pints pt pts", {US: US_PINT, IMPERIAL: IMPERIAL_PINT}),
        ("quart quarts qt qts", {US: US_QUART, IMPERIAL: IMPERIAL_QUART}),
        ("gallon gallons gal gals", {US: US_GALLON, IMPERIAL: IMPERIAL_GALLON}),
        ("gill gills", {US: US_GILL, IMPERIAL: IMPERIAL_GILL}),
        (
            "floz fluid_ounce fluid_ounces",
            {US: US_FLUID_OUNCE, IMPERIAL: IMPERIAL_FLUID_OUNCE},
        ),
        ("stick sticks", {US: STICK}),
    )
    for word in words.split()
}

#: Things that are counted; each is a unit of its own, so that three cloves are no three tins.
COUNTED: dict[str, Unit] = {
    word: _unit(one, "count", 1, one, many)
    for one, many in (
        ("piece", "pieces"),
        ("clove", "cloves"),
        ("sprig", "sprigs"),
        ("bunch", "bunches"),
        ("slice", "slices"),
        ("leaf", "leaves"),
        ("sheet", "sheets"),
        ("tin", "tins"),
        ("can", "cans"),
        ("jar", "jars"),
        ("bag", "bags"),
        ("pack", "packs"),
        ("packet", "packets"),
        ("head", "heads"),
        ("stalk", "stalks"),
        ("handful", "handfuls"),
        ("knob", "knobs"),
        ("bar", "bars"),
        ("block", "blocks"),
        ("ball", "balls"),
        ("bottle", "bottles"),
        ("box", "boxes"),
        ("bulb", "bulbs"),
        ("carton", "cartons"),
        ("cube", "cubes"),
        ("ear", "ears"),
        ("envelope", "envelopes"),
        ("fillet", "fillets"),
        ("package", "packages"),
        ("pod", "pods"),
        ("pot", "pots"),
        ("punnet", "punnets"),
        ("rasher", "rashers"),
        ("rib", "ribs"),
        ("sachet", "sachets"),
        ("spear", "spears"),
        ("stem", "stems"),
        ("strip", "strips"),
        ("tub", "tubs"),
        ("tube", "tubes"),
        ("wedge", "wedges"),
        ("drop", "drops"),
    )
    for word in (one, many)
}

#: A stick that is no butter: of celery, of cinnamon.
COUNTED_STICK = _unit("counted_stick", "count", 1, "stick", "sticks")

#: What something is sold in: "400 g tin tomatoes" is 400 g of tomatoes.
_SOLD_IN = "tin can jar bag pack packet package bottle box carton pot punnet sachet tub tube block bar"
CONTAINERS = frozenset(word for one in _SOLD_IN.split() for word in (one, COUNTED[one].many))

#: Measures that differ from country to country or from hand to hand, or that no recipe here uses.
_SIZES_OF_THEIR_OWN = (
    "saltspoon saltspoons coffeespoon coffeespoons teacup teacups wineglass wineglasses ladle ladles "
    "ladleful ladlefuls jigger jiggers shot shots tot tots nip nips noggin noggins dollop dollops splash "
    "splashes drizzle drizzles glug glugs smidgen smidgens pinchful pinchfuls disher dishers peck pecks"
)
_NOT_READ_HERE = (
    "dram drams drachm drachms bushel bushels cwt hundredweight hundredweights ton tons tonne tonnes minim "
    "minims livre livres tb"
)
#: Words that look like a measure and are none here, with why: never read as a count of something.
NOT_A_MEASURE: dict[str, str] = {
    "t": "can mean a teaspoon or a tablespoon",
    "c": "can mean a cup or a centilitre",
    "gr": "can mean a gram or a grain",
    "pat": "has no one size",
    "mug": "has no one size",
    "mugs": "has no one size",
    "glass": "has no one size",
    "glasses": "has no one size",
    "spoon": "can be any spoon",
    "spoons": "can be any spoon",
    "spoonful": "can be any spoon",
    "spoonfuls": "can be any spoon",
    "scoop": "has no one size",
    "scoops": "has no one size",
    "lt": "is not read here",
    "lts": "is not read here",
    **dict.fromkeys(("inch", "inches", "cm", "mm", "centimetre", "centimetres"), "is a length and no amount"),
    **dict.fromkeys(("min", "mins", "minute", "minutes", "hr", "hrs", "hour", "hours"), "is a time"),
    **dict.fromkeys(("serving", "servings", "portion", "portions", "people"), "says for how many"),
    **dict.fromkeys(("part", "parts"), "says a share and not how much"),
    **dict.fromkeys(("half", "halves", "third", "thirds", "quarter", "quarters"), "is a part of something"),
    **dict.fromkeys(("hundred", "thousand"), "is a figure in words"),
    **dict.fromkeys(("st", "nd", "rd", "th"), "says a place in a row and not how much"),
    **dict.fromkeys(("kcal", "kj", "calories"), "is energy and no amount"),
    **dict.fromkeys(("percent", "per"), "says a share and not how much"),
    "dag": "is not read here",
    "dkg": "is not read here",
    "grain": "is not read here",
    "grains": "is not read here",
    "grs": "can mean grams or grains",
    "gs": "is not read here",
    **dict.fromkeys(_SIZES_OF_THEIR_OWN.split(), "has no one size"),
    **dict.fromkeys(_NOT_READ_HERE.split(), "is not read here"),
    "unit": "names nothing that can be counted",
    "units": "names nothing that can be counted",
}
