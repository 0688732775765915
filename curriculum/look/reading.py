"""Reads a day and a time of day as people write them, for the form fields of every page.

Pure: words in, a date or a time out. What cannot be read is a ``ValueError`` whose text
quotes what was typed and says what to write.
"""

import calendar
import re
from datetime import date, time
from fractions import Fraction

MONTHS = (
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
)
BY_NUMBERS = re.compile(r"^(\d{1,2})[./ ](\d{1,2})[./ ](\d{4})$")
BY_YEAR = re.compile(r"^(\d{4})-(\d{1,2})-(\d{1,2})$")
BY_NAME = re.compile(r"^(?:[^\W\d_]+,? )?(\d{1,2})(?:st|nd|rd|th)? ([^\W\d_]{3,9})\.?,? (\d{4})$")
CLOCK = re.compile(r"^(\d{1,2})(?:[:.h](\d{2}))?$|^(\d{2})(\d{2})$")
LONGEST_QUOTE = 40


def quoted(words: str) -> str:
    """What was typed, in quotation marks, cut where it is long."""
    words = " ".join(words.split())
    return f"“{words[:LONGEST_QUOTE]}…”" if len(words) > LONGEST_QUOTE else f"“{words}”"


def day_from(words: str) -> date:
    """The day behind "16 Feb 2027", "16/2/2027", "16.2.2027" or "2027-02-16"."""
    parts = _parts_of_day(" ".join(words.split()))
    if parts is None:
        raise ValueError(f"You wrote {quoted(words)}. Write a day such as 16 Feb 2027.")
    day, month, year = parts
    if not 1 <= month <= 12:
        raise ValueError(
            f"You wrote {quoted(words)}. There are twelve months; write a day such as 16 Feb 2027."
        )
    if not 2000 <= year <= 2100:
        raise ValueError(f"You wrote {quoted(words)}. Write a year from 2000 to 2100.")
    longest = calendar.monthrange(year, month)[1]
    if not 1 <= day <= longest:
        month_words = f"{MONTHS[month - 1].capitalize()} {year}"
        raise ValueError(f"You wrote {quoted(words)}. {month_words} has {longest} days.")
    return date(year, month, day)


def _parts_of_day(words: str) -> tuple[int, int, int] | None:
    if match := BY_NUMBERS.match(words):
        return int(match[1]), int(match[2]), int(match[3])
    if match := BY_YEAR.match(words):
        return int(match[3]), int(match[2]), int(match[1])
    match = BY_NAME.match(words)
    month = _month(match[2]) if match else None
    return (int(match[1]), month, int(match[3])) if match and month else None


def _month(words: str) -> int | None:
    """The number of a month named in full or by at least its first three letters."""
    for number, name in enumerate(MONTHS, start=1):
        if name.startswith(words.lower()) or words.lower() == "sept" == name[:4]:
            return number
    return None


def clock_from(words: str) -> time:
    """The time behind "13:05", "13.05", "1305" or "9" (nine o'clock)."""
    match = CLOCK.match(words.strip().lower())
    hour, minute = (int(match[1] or match[3]), int(match[2] or match[4] or 0)) if match else (99, 99)
    if hour > 23 or minute > 59:
        raise ValueError(f"You wrote {quoted(words)}. Write a time from 00:00 to 23:59, such as 13:05.")
    return time(hour, minute)


WHOLE = re.compile(r"^[-+]?(?:\d{1,12}|\d{1,3}(?:,\d{3}){1,3})$")


def whole_number_from(words: str, *, least: int, most: int, such_as: int) -> int:
    """The whole number behind "12" or "1,200", within its bounds; a comma only parts thousands."""
    plain = words.strip().replace("−", "-")
    if not WHOLE.match(plain):
        raise ValueError(f"You wrote {quoted(words)}. Write a whole number, such as {such_as}.")
    number = int(plain.replace(",", ""))
    if not least <= number <= most:
        raise ValueError(f"You wrote {quoted(words)}. Write a whole number from {least:,} to {most:,}.")
    return number


TENTHS = re.compile(r"^([-−]?)(\d{1,9}|\d{1,3}(?:,\d{3}){1,3})(?:[.,](\d))?$")


def tenths_from(words: str, *, least: Fraction, most: int, such_as: str) -> Fraction:
    """The number behind "2.7", "2,7", "1,200" or "1,200.5": one decimal at most, after a point or a comma.

    A comma before exactly three figures parts thousands; whatever else it could mean is refused.
    """
    found = TENTHS.match(words.strip())
    if not found:
        raise ValueError(
            f"You wrote {quoted(words)}. Write a number with one decimal at most, such as {such_as}."
        )
    number = Fraction(int(found[2].replace(",", "")) * 10 + int(found[3] or 0), 10)
    number = -number if found[1] else number
    if not least <= number <= most:
        lowest = (
            f"{least.numerator // least.denominator}" if least.denominator == 1 else f"{float(least):.1f}"
        )
        raise ValueError(f"You wrote {quoted(words)}. Write a number from {lowest} to {most:,}.")
    return number


HOURS = re.compile(r"^(\d{1,3}) ?(?:h|hr|hrs|hours?|:) ?(?:(\d{1,2}) ?(?:m|min|mins|minutes)?)?$")
MINUTES = re.compile(r"^(\d{1,5}) ?(?:m|min|mins|minutes)?$")
POUNDS = re.compile(r"^£ ?(\d{1,4})(?:\.(\d{2}))?$|^(\d{1,4})\.(\d{2})$")
PENCE = re.compile(r"^(\d{1,5}) ?p?$")


def minutes_from(words: str) -> int:
    """The minutes behind "90", "90 min", "1 h", "2 h 30" or "2:30"."""
    plain = " ".join(words.casefold().split())
    if found := MINUTES.match(plain):
        return int(found[1])
    found = HOURS.match(plain)
    if not found or int(found[2] or 0) > 59:
        raise ValueError(f"You wrote {quoted(words)}. Write minutes or hours, such as 90 or 1 h 30.")
    return int(found[1]) * 60 + int(found[2] or 0)


def pence_from(words: str) -> int:
    """The pence behind "90", "90p", "£2" or "2.50"."""
    plain = " ".join(words.casefold().split())
    if found := PENCE.match(plain):
        return int(found[1])
    found = POUNDS.match(plain)
    if not found:
        raise ValueError(f"You wrote {quoted(words)}. Write pence or pounds, such as 90 or £2.50.")
    return int(found[1] or found[3]) * 100 + int(found[2] or found[4] or 0)
