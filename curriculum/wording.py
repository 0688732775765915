"""How an amount, a duration, a date, a list is written for people.

For every page, label and message. British English; the minus is a real one; a figure
stands before its unit with a space ("104 g"). Numbers up to twelve are words in
sentences and figures on lines. Nothing here rounds a weight to what a scale shows: that
was done before (``curriculum.foods.rounding``); here a figure is only written.
"""

import unicodedata
from collections.abc import Iterable
from datetime import date, time
from fractions import Fraction

MINUS = "\u2212"
#: The space between a figure and a unit that stay on one line.
NO_BREAK = "\u00a0"
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
NUMBERS = (
    "none",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)
#: From here on the stores speak of kilograms, and people of hours: common practice, no source.
KILOGRAMS_FROM_MILLIGRAMS = 10_000_000
HOURS_ABOVE_MINUTES = 120


def figure(value: Fraction | int, decimals: int = 0) -> str:
    """A number with at most so many decimals, thousands parted: "1,557.5". A half goes away from nothing."""
    scale = 10**decimals
    whole, rest = divmod((abs(Fraction(value)) * scale * 2 + 1) // 2, scale)
    tail = f"{rest:0{decimals}d}".rstrip("0") if decimals else ""
    words = f"{whole:,}" + (f".{tail}" if tail else "")
    return f"{MINUS}{words}" if value < 0 and (whole or rest) else words


def amount(milligrams: Fraction | int, *, stores: bool = False) -> str:
    """A weight as it stands on a line: "104 g", "2.5 g"; for the stores from 10,000 g on "12.5 kg"."""
    if stores and abs(milligrams) >= KILOGRAMS_FROM_MILLIGRAMS:
        return f"{figure(Fraction(milligrams) / 1_000_000, 3)} kg"
    return f"{grams(milligrams)} g"


def grams(milligrams: Fraction | int) -> str:
    """Only the figure of ``amount`` in grams: whole, or one decimal from the fine scale."""
    return figure(Fraction(milligrams) / 1000, 1)


def exact_amount(milligrams: Fraction | int) -> str:
    """The weight before it was rounded, to a hundredth of a gram: "91.67 g"."""
    return f"{figure(Fraction(milligrams) / 1000, 2)} g"


def amount_range(least: Fraction | int, most: Fraction | int) -> str:
    """ "230 to 260 g"."""
    return f"{grams(least)} to {amount(most)}"


def duration(minutes: int) -> str:
    """ "14 min"; over two hours "3 h 41"."""
    if minutes <= HOURS_ABOVE_MINUTES:
        return f"{minutes} min"
    hours, rest = divmod(minutes, 60)
    return f"{hours} h {rest:02d}" if rest else f"{hours} h"


def since_start(minutes: int) -> str:
    """Minutes from the start of a cook: "0 h 30", "2 h 05"."""
    return f"{minutes // 60} h {minutes % 60:02d}"


def clock(at: time) -> str:
    """A time of the day on the 24-hour clock: "13:05"."""
    return f"{at.hour:02d}:{at.minute:02d}"


def clock_minutes(minutes: int) -> str:
    """Minutes after midnight as a time of the day; the next day starts again at 00:00."""
    return f"{minutes // 60 % 24:02d}:{minutes % 60:02d}"


def long_date(day: date, today: date | None = None) -> str:
    """ "Wednesday 18 November"; with the year when it is not that of ``today``."""
    words = f"{WEEKDAYS[day.weekday()]} {day.day} {MONTHS[day.month - 1]}"
    return words if today is not None and today.year == day.year else f"{words} {day.year}"


def short_date(day: date, today: date | None = None) -> str:
    """ "18 Nov"; with the year when it is not that of ``today``."""
    words = f"{day.day} {MONTHS[day.month - 1][:3]}"
    return words if today is not None and today.year == day.year else f"{words} {day.year}"


def money(pence: int) -> str:
    """ "£4.44", "£1,204.00", "−£0.50"."""
    pounds, rest = divmod(abs(pence), 100)
    return f"{MINUS if pence < 0 else ''}£{pounds:,}.{rest:02d}"


def temperature(decicelsius: int) -> str:
    """ "180 °C", "62.5 °C", "−18 °C", with a space at which no line is broken."""
    return f"{figure(Fraction(decicelsius, 10), 1)}{NO_BREAK}°C"


def temperature_range(low: int | None, high: int | None) -> str:
    """ "75 to 82 °C"; with one end only, that end with "at least" or "at most"; empty without any."""
    if low is None and high is None:
        return ""
    if low is None:
        return f"at most {temperature(high)}"
    if high is None or high == low:
        return temperature(low) if high == low else f"at least {temperature(low)}"
    return f"{figure(Fraction(low, 10), 1)} to {temperature(high)}"


def seconds(count: int) -> str:
    """A time that something is held: "30 s", "2 min", "2 min 30 s"."""
    whole, rest = divmod(count, 60)
    if not whole:
        return f"{rest} s"
    return f"{whole} min {rest} s" if rest else f"{whole} min"


def per_cent(share: Fraction | float, decimals: int = 0) -> str:
    """A share of one as "5 %"."""
    return f"{figure(Fraction(share) * 100, decimals)} %"


def points(milli: int) -> str:
    """Marks held in thousandths: "72", "8.5"."""
    return figure(Fraction(milli, 1000), 2)


def listed(items: Iterable[str], last: str = "and") -> str:
    """ "butter", "butter and milk", "butter, milk and egg"."""
    words = list(items)
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def number(count: int) -> str:
    """A count in a sentence: words up to twelve, then figures."""
    return NUMBERS[count] if 0 <= count < len(NUMBERS) else figure(count)


def counted(count: int, one: str, many: str = "") -> str:
    """ "1 egg", "5 eggs", "0 eggs": for lines, in figures."""
    return f"{figure(count)} {one if count == 1 else many or one + 's'}"


def counted_words(count: int, one: str, many: str = "") -> str:
    """ "one bench", "seven benches" (give ``many``): for sentences."""
    return f"{number(count)} {one if count == 1 else many or one + 's'}"


def plural(unit: str) -> str:
    """A unit in the plural: "wedges", "portions of four pieces", "pastries"."""
    head, of, tail = unit.partition(" of ")
    before, space, last = head.rpartition(" ")
    if last.endswith(("s", "sh", "ch", "x")):
        last += "es"
    elif last.endswith("y") and last[-2:-1] not in "aeiou":
        last = f"{last[:-1]}ies"
    else:
        last += "s"
    return f"{before}{space}{last}{of}{tail}"


def sentence(words: str) -> str:
    """With a capital first and a full stop last; empty stays empty."""
    text = words.strip()
    if not text:
        return ""
    return text[0].upper() + text[1:] + ("" if text[-1] in ".?" else ".")


def plain(words: str) -> str:
    """Lower case, without marks over letters, for comparing: "Crème Fraîche" is "creme fraiche"."""
    parted = unicodedata.normalize("NFKD", words.casefold())
    return "".join(letter for letter in parted if not unicodedata.combining(letter))
