"""Durations of ISO 8601, read strictly and written, for recipes that come in or go out.

A minute is ``PT1M``; ``P1M`` is a month, which has no fixed length, so it is refused; no years and
no months (``P0Y0M0DT0H20M``, as many programs write) are nothing and are read. Only the last figure
may have decimals, as the standard says.
"""

import re
from fractions import Fraction

from curriculum.errors import RuleBroken

_SECONDS = {"W": 604_800, "D": 86_400, "H": 3_600, "M": 60, "S": 1}
_NUMBER = r"\d{1,6}(?:[.,]\d{1,3})?"
_SHAPE = re.compile(
    rf"P(?:(?P<W>{_NUMBER})W|(?=\d|T\d)(?:0+Y)?(?:0+M)?(?:(?P<D>{_NUMBER})D)?"
    rf"(?:T(?=\d)(?:(?P<H>{_NUMBER})H)?(?:(?P<M>{_NUMBER})M)?(?:(?P<S>{_NUMBER})S)?)?)",
    re.ASCII,
)
#: A figure with decimals that is not the last one.
_PARTED_TOO_SOON = re.compile(r"[.,]\d+[A-Z]T?\d", re.ASCII)
_CALENDAR = re.compile(rf"P(?=[^T]*[YM])(?:{_NUMBER}Y)?(?:{_NUMBER}M)?(?:{_NUMBER}D)?(?:T\d.*)?", re.ASCII)


def read_seconds(text: str) -> Fraction:
    """Seconds of a duration such as ``PT1H30M``. RuleBroken when it is none, or has months or years."""
    found = _SHAPE.fullmatch(text)
    if found is None or _PARTED_TOO_SOON.search(text):
        raise _refused(text)
    return sum(
        (
            Fraction(said.replace(",", ".")) * _SECONDS[unit]
            for unit, said in found.groupdict().items()
            if said
        ),
        Fraction(0),
    )


def write_minutes(minutes: int) -> str:
    """The duration of so many minutes: 90 is ``PT1H30M``, none is ``PT0M``."""
    hours, rest = divmod(minutes, 60)
    parts = (f"{hours}H" if hours else "") + (f"{rest}M" if rest or not hours else "")
    return f"PT{parts}"


def _refused(text: str) -> RuleBroken:
    shown = text[:40]
    if len(text) <= 80 and _CALENDAR.fullmatch(text):
        return RuleBroken(
            "month_for_a_step",
            f"“{shown}” counts in months or years, which have no fixed length. A minute is written PT1M.",
        )
    return RuleBroken("no_duration", f"“{shown}” is no duration. Write one such as PT1H30M.")
