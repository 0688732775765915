"""The two to four digits that say what follows in a GS1 bar code, and how long it is.

For ``barcodes`` alone. Source: the table of GS1 application identifiers of the GS1 General
Specifications, as the package python-stdnum 2.2 carries it (generated from the published
list on 4 January 2026; read); titles are in our words. Only what a kitchen's stores may
meet has a row of its own; everything else is kept as it is read.

A format is one or more parts: ``n14`` fourteen digits, ``n..8`` up to eight digits,
``x..20`` up to twenty characters; ``n3+x..9`` one after the other; ``n6?`` may be left out.
"""

import re
from dataclasses import dataclass

#: Digits of the whole element, identifier included, by its first two digits: after these no
#: separator is needed (General Specifications, identifiers of predefined length; from memory,
#: each that has a row below agrees with the column "FNC1" of the table read).
PREDEFINED = (
    {"00": 20, "01": 16, "02": 16, "03": 16, "04": 18, "20": 4, "41": 16}
    | dict.fromkeys(("11", "12", "13", "14", "15", "16", "17", "18", "19"), 8)
    | dict.fromkeys(("31", "32", "33", "34", "35", "36"), 10)
)
#: Digits that end in a check digit, counted from the beginning of what follows.
CHECKED = (
    {"00": 18, "01": 14, "02": 14, "03": 14, "253": 13, "255": 13, "402": 17, "8003": 14}
    | {"8006": 14, "8017": 18, "8018": 18, "8026": 14}
    | {f"41{last}": 13 for last in range(8)}
)
#: What a date says: six digits, year month day.
DATES = frozenset({"11", "12", "13", "15", "16", "17", "7006"})
PART = re.compile(r"^([nx])(\.\.)?(\d+)(\?)?$")

#: identifier (``n`` at its end: how many digits of the figure stand behind the point), title, format.
ROWS = (
    ("00", "number of the logistic unit", "n18"),
    ("01", "number of the pack (GTIN)", "n14"),
    ("02", "number of the packs inside (GTIN)", "n14"),
    ("03", "number of the pack made to order (GTIN)", "n14"),
    ("10", "batch", "x..20"),
    ("11", "made on", "n6"),
    ("12", "to be paid by", "n6"),
    ("13", "packed on", "n6"),
    ("15", "best before", "n6"),
    ("16", "sell by", "n6"),
    ("17", "use by", "n6"),
    ("20", "variant", "n2"),
    ("21", "serial number", "x..20"),
    ("22", "consumer variant", "x..20"),
    ("235", "serial number of a third party", "x..28"),
    ("240", "further number of the product", "x..30"),
    ("241", "customer's part number", "x..30"),
    ("242", "variation made to order", "n..6"),
    ("243", "number of the packaging", "x..20"),
    ("250", "second serial number", "x..30"),
    ("251", "where it comes from", "x..30"),
    ("253", "number of a document", "n13+x..17"),
    ("254", "part of a place", "x..20"),
    ("255", "number of a coupon", "n13+n..12"),
    ("30", "count of pieces", "n..8"),
    ("310n", "net weight, kg", "n6"),
    ("311n", "length, m", "n6"),
    ("312n", "width, m", "n6"),
    ("313n", "height, m", "n6"),
    ("314n", "area, m2", "n6"),
    ("315n", "net volume, l", "n6"),
    ("316n", "net volume, m3", "n6"),
    ("320n", "net weight, lb", "n6"),
    ("330n", "gross weight, kg", "n6"),
    ("331n", "length of the load, m", "n6"),
    ("332n", "width of the load, m", "n6"),
    ("333n", "height of the load, m", "n6"),
    ("334n", "area of the load, m2", "n6"),
    ("335n", "volume of the load, l", "n6"),
    ("336n", "volume of the load, m3", "n6"),
    ("337n", "kg for each m2", "n6"),
    ("340n", "gross weight, lb", "n6"),
    ("356n", "net weight, troy oz", "n6"),
    ("357n", "net weight or volume, oz", "n6"),
    ("360n", "net volume, quart", "n6"),
    ("361n", "net volume, gallon", "n6"),
    ("37", "count of packs inside", "n..8"),
    ("390n", "amount to pay", "n..15"),
    ("391n", "amount to pay, with its currency", "n3+n..15"),
    ("392n", "price", "n..15"),
    ("393n", "price, with its currency", "n3+n..15"),
    ("394n", "per cent off", "n4"),
    ("395n", "price for each unit", "n6"),
    ("400", "customer's order", "x..30"),
    ("401", "number of the consignment", "x..30"),
    ("402", "number of the shipment", "n17"),
    ("403", "route", "x..30"),
    ("410", "place it goes to", "n13"),
    ("411", "place that is invoiced", "n13"),
    ("412", "place it is bought from", "n13"),
    ("413", "place it is sent on to", "n13"),
    ("414", "place", "n13"),
    ("415", "place that is paid", "n13"),
    ("416", "place where it is made", "n13"),
    ("417", "party", "n13"),
    ("420", "postcode it goes to", "x..20"),
    ("421", "country and postcode it goes to", "n3+x..9"),
    ("422", "country of origin", "n3"),
    ("423", "countries of first processing", "n3+n..12"),
    ("424", "country of processing", "n3"),
    ("425", "countries of taking apart", "n3+n..12"),
    ("426", "country of all processing", "n3"),
    ("427", "part of the country of origin", "x..3"),
    ("7001", "stock number of the forces", "n13"),
    ("7002", "meat cut", "x..30"),
    ("7003", "use by, with the time", "n10"),
    ("7005", "catch area", "x..12"),
    ("7006", "first frozen on", "n6"),
    ("7007", "harvested on", "n6+n6?"),
    ("7008", "fish, by its letters", "x..3"),
    ("7009", "fishing gear", "x..10"),
    ("7010", "caught or farmed", "x..2"),
    ("8002", "number of a telephone", "x..20"),
    ("8003", "number of a crate that goes back", "n14+x..16"),
    ("8004", "number of an asset", "x..30"),
    ("8005", "price for each unit", "n6"),
    ("8006", "piece of a trade item", "n14+n4"),
    ("8008", "made at", "n8+n..4"),
    ("8017", "who serves", "n18"),
    ("8018", "who is served", "n18"),
    ("8020", "number on the payment slip", "x..25"),
    ("8026", "pieces inside of a trade item", "n14+n4"),
    ("8200", "address on the web", "x..70"),
    ("90", "agreed between the two", "x..30"),
    *((str(code), "the maker’s own", "x..90") for code in range(91, 100)),
)
#: Most digits of a figure that may stand behind the point, where the table does not say five.
POINTS = {"390": 9, "391": 9, "392": 9, "393": 9, "394": 3}


@dataclass(frozen=True, slots=True)
class Identifier:
    """One identifier: its title, the pattern of what follows, how long that is at most."""

    code: str
    title: str
    pattern: re.Pattern[str]
    least: int
    most: int
    digits_only: bool
    decimals: int | None = None

    @property
    def stem(self) -> str:
        """The identifier without the digit that says where the point stands."""
        return self.code if self.decimals is None else self.code[:3]


def _identifiers() -> dict[str, Identifier]:
    made = {}
    for code, title, form in ROWS:
        if code.endswith("n"):
            for point in range(POINTS.get(code[:3], 5) + 1):
                made[f"{code[:3]}{point}"] = _identifier(f"{code[:3]}{point}", title, form, point)
        else:
            made[code] = _identifier(code, title, form, None)
    return made


def _identifier(code: str, title: str, form: str, decimals: int | None) -> Identifier:
    parts = [PART.match(part) for part in form.split("+")]
    spans = [
        (0 if part[4] or len(parts) > 1 and part[2] else 1 if part[2] else int(part[3]), int(part[3]))
        for part in parts
    ]
    words = [
        ("[0-9]" if part[1] == "n" else ".") + f"{{{low},{high}}}"
        for part, (low, high) in zip(parts, spans, strict=True)
    ]
    return Identifier(
        code,
        title,
        re.compile("".join(words)),
        sum(low for low, _ in spans),
        sum(high for _, high in spans),
        all(part[1] == "n" for part in parts),
        decimals,
    )


IDENTIFIERS = _identifiers()


def identifier_at(text: str) -> Identifier | None:
    """The identifier that a text begins with, or None; no identifier begins like a shorter one."""
    return next((IDENTIFIERS[text[:size]] for size in (2, 3, 4) if text[:size] in IDENTIFIERS), None)
