"""An amount at the beginning of a plain text: a figure, a range, a sum, a product, with its measure.

For the reader of amounts. The whole grammar of what cooks write before the food:
``250g``, ``2-3 cups``, ``200 g-250 g``, ``1 lb 3 oz``, ``1 cup plus 2 tbsp``, ``2 x 400 g``,
``1 (400 g) tin``, ``250 g / 9 oz``, ``2 large cloves``. What contradicts itself ("250 g / 20 oz") or has
two meanings is ``Unreadable``.

Worked example: "250 g / 9 oz butter" is 250 g, because 9 oz (255 g) is near enough to it; what is
left is "butter".
"""

import re
from dataclasses import dataclass
from fractions import Fraction

from curriculum.foods import units
from curriculum.foods.reading.figures import DOZEN, Unreadable, figure, number
from curriculum.foods.reading.words import measure
from curriculum.foods.units import Unit

#: How far two figures for one amount may be apart: British books print 25 g / 1 oz (common practice).
SAME_AMOUNT = Fraction(15, 100)


@dataclass(frozen=True, slots=True)
class Amount:
    """From ``least`` to ``most`` of a unit (the same when it is no range).

    ``times`` is 2 in "2 x 400 g", where the amount is already the product; ``sized`` is what was
    said of a counted thing ("large" in "2 large cloves").
    """

    least: Fraction
    most: Fraction
    unit: Unit
    times: int = 1
    sized: str = ""

    @property
    def milligrams(self) -> Fraction | None:
        """Its weight (the most of a range), exact; None for what is no weight."""
        return self.most * self.unit.size if self.unit.dimension == "mass" else None

    @property
    def millilitres(self) -> Fraction | None:
        """Its volume (the most of a range), exact; None for what is no volume."""
        return self.most * self.unit.size if self.unit.dimension == "volume" else None

    @property
    def sizeable(self) -> bool:
        """Whether it is a weight or a volume."""
        return self.unit.dimension in ("mass", "volume")


_TO = re.compile(r" ?(?:-|–|—|to\b|or\b) ?", re.I)
_TIMES = re.compile(r" ?[x×] ?(?=\d)", re.I)
_EACH_NAMED = re.compile(r" ?[x×] (?=[^\W\d_])", re.I)
_AND = re.compile(r" ?(?:\+|&|,|and\b|plus\b) ?", re.I)
_OR_ALSO = re.compile(r" ?/ ?")
_BRACKET = re.compile(r"\(([^()]*)\) ?")
_EACH = re.compile(r" ?each$", re.I)
_ONE_OF = re.compile(r"an? (?=[^\W\d_])", re.I)
_ARTICLE = re.compile(r"(?:an?|the) ", re.I)
_FIRST_WORD = re.compile(r"([^\W\d_]+)\b(?: of\b)? ?", re.I)


def begun(text: str, system: str | None) -> tuple[Amount | None, str]:
    """(amount, what is left) at the beginning of a plain text; (None, text) when it begins with none."""
    if re.match(r"-\s?\d", text):
        raise Unreadable(f"“{text[:40]}” begins below nothing. Write an amount above nothing.", text)
    first, rest = number(text)
    if first is None:
        return _one_of(text, system)
    product = _product(first, rest, system) or _in_containers(first, rest, system)
    amount, rest = product or _plain_amount(first, rest, system, text)
    if amount.most <= 0:
        raise Unreadable("An amount of nothing is no amount. Write one above nothing.", text)
    amount, left = _said_twice(amount, rest, system, text)
    return amount, left if left == rest else _out_of_container(left)


def _one_of(text: str, system: str | None) -> tuple[Amount | None, str]:
    """ "a pinch", "a large bunch": one of what has a measure; "a little" and "an idea" are no amount."""
    article = _ONE_OF.match(text)
    if article is None:
        return None, text
    unit, rest, sized = measure(text[article.end() :], system)
    return (None, text) if unit is None else (Amount(Fraction(1), Fraction(1), unit, 1, sized), rest)


def _product(first: Fraction, rest: str, system: str | None) -> tuple[Amount, str] | None:
    """ "2 x 400 g": so many times an amount."""
    sign = _TIMES.match(rest)
    if sign is None:
        return None
    each, left = number(rest[sign.end() :])
    unit, left, _ = measure(left, system)
    if unit is None or each is None:
        raise Unreadable(
            f"“{rest.strip()[:40]}” says how many times, but not of how much. Write 2 x 400 g.", rest
        )
    return _times(first, Amount(each, each, unit), left)


def _in_containers(first: Fraction, rest: str, system: str | None) -> tuple[Amount, str] | None:
    """ "2 (400 g) tins" and "2 tins (400 g each)": the amount in one container, so many times."""
    word = _FIRST_WORD.match(rest)
    named_first = word is not None and word[1].casefold() in units.CONTAINERS
    start = word.end() if named_first else 0
    bracket = _BRACKET.match(rest, start)
    if bracket is None:
        return None
    inside = _EACH.sub("", bracket[1])
    after = rest[bracket.end() :]
    following = _FIRST_WORD.match(after)
    if named_first:
        known = inside != bracket[1] or first == 1
    else:
        known = following is not None and following[1].casefold() in units.CONTAINERS
    each = _whole(inside, system) if known else None
    if each is None or not each.sizeable:
        return None
    return _times(first, each, after if named_first else after[following.end() :])


def _times(first: Fraction, each: Amount, rest: str) -> tuple[Amount, str]:
    times = int(first) if first.denominator == 1 else 1
    return Amount(first * each.least, first * each.most, each.unit, max(times, 1)), _out_of_container(rest)


def _plain_amount(first: Fraction, rest: str, system: str | None, text: str) -> tuple[Amount, str]:
    ends = _both_ends(first, rest, system)
    if ends is not None:
        return ends
    least, most, rest = _range(first, rest, text)
    named = _EACH_NAMED.match(rest) or _ARTICLE.match(rest)
    unit, rest, sized = measure(rest[named.end() :] if named else rest, system)
    if unit is None:
        return Amount(least, most, units.PIECE), rest
    amount, rest = _and_more(Amount(least, most, unit, 1, sized), rest, system)
    return amount, _out_of_container(rest) if amount.sizeable else rest


def _both_ends(first: Fraction, rest: str, system: str | None) -> tuple[Amount, str] | None:
    """ "200 g-250 g", "12 oz to 1 lb 2 oz": a range with the measure at both ends."""
    if not rest[:1].isalpha() or _TO.match(rest) or _EACH_NAMED.match(rest) or _ARTICLE.match(rest):
        return None
    low = _measured(first, rest, system)
    sign = _TO.match(low[1]) if low else None
    second, after = figure(low[1][sign.end() :]) if sign else (None, "")
    high = _measured(second, after, system) if second is not None else None
    if high is None or high[0].unit.dimension != low[0].unit.dimension:
        return None
    least = low[0].most * low[0].unit.size / high[0].unit.size
    if high[0].most < least:
        raise Unreadable("The range goes down. Write the smaller amount first.", low[1])
    return Amount(least, high[0].most, high[0].unit), high[1]


def _measured(value: Fraction, rest: str, system: str | None) -> tuple[Amount, str] | None:
    unit, left, _ = measure(rest, system)
    if unit is None or unit.dimension not in ("mass", "volume"):
        return None
    return _and_more(Amount(value, value, unit), left, system)


def _range(first: Fraction, rest: str, text: str) -> tuple[Fraction, Fraction, str]:
    sign = _TO.match(rest)
    if sign is None:
        return first, first, rest
    second, left = figure(rest[sign.end() :])
    if second is None:
        return first, first, rest
    if dozens := DOZEN.match(left):
        first, second, left = first * 12, second * 12, left[dozens.end() :].lstrip()
    if second < first:
        raise Unreadable(
            "The range goes down. Write the smaller amount first, or 1 1/2 for one and a half.", text
        )
    return first, second, left


def _and_more(amount: Amount, rest: str, system: str | None) -> tuple[Amount, str]:
    """ "1 lb 3 oz": the same kind of measure goes on in a smaller unit."""
    while amount.sizeable:
        joined = _AND.match(rest)
        begin = rest[joined.end() :] if joined else rest
        try:
            more, left = number(begin)
            unit, left, _ = measure(left, system) if more is not None else (None, left, "")
        except Unreadable:
            break
        if unit is None or unit.dimension != amount.unit.dimension or unit.size >= amount.unit.size:
            break
        added = more * unit.size
        if added >= amount.unit.size:
            raise Unreadable(
                f"{amount.unit.one} and then so many {unit.many} is one {amount.unit.one} more, or the same"
                " said twice. Write one of them.",
                rest,
            )
        amount = Amount(
            (amount.least * amount.unit.size + added) / unit.size,
            (amount.most * amount.unit.size + added) / unit.size,
            unit,
        )
        rest = left
    return amount, rest


def _said_twice(amount: Amount, rest: str, system: str | None, text: str) -> tuple[Amount, str]:
    """ "250 g / 9 oz": one amount in two measures, which have to agree; the first, or the weight, rules."""
    sign = _OR_ALSO.match(rest) if amount.sizeable else None
    value, left = number(rest[sign.end() :]) if sign else (None, rest)
    if value is None:
        return amount, rest
    unit, left, _ = measure(left, system)
    if unit is None or unit.dimension not in ("mass", "volume"):
        return amount, rest
    other, left = _and_more(Amount(value, value, unit), left, system)
    if other.unit.dimension != amount.unit.dimension:
        return (other if other.unit.dimension == "mass" else amount), left
    one, two = amount.most * amount.unit.size, other.most * other.unit.size
    if abs(one - two) > SAME_AMOUNT * max(one, two):
        raise Unreadable("These two are not the same amount. Write the one that is meant.", text)
    return amount, left


def _out_of_container(rest: str) -> str:
    """What is left after "tin of" in "400 g tin of tomatoes"."""
    word = _FIRST_WORD.match(rest)
    if word and word[1].casefold() in units.CONTAINERS and rest[word.end() :][:1] not in (",", "("):
        return rest[word.end() :]
    return rest


def _whole(text: str, system: str | None) -> Amount | None:
    try:
        amount, rest = begun(text.strip(), system)
    except Unreadable:
        return None
    return amount if amount is not None and not rest else None
