"""Krippendorff's alpha: agreement of any number of markers, where some plates lack some marks.

K. Krippendorff, Content Analysis, chapter on reliability; computed by his table of coincidences.
Levels: "nominal" (categories), "ordinal" (steps in order), "interval" (marks), "ratio" (weights).

Worked example: two markers give 1, 2 and 1, 1 to two plates. Of the four marks three are 1: by chance
half of all pairs of marks would differ (nominal), and half do: alpha is 0.
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from itertools import permutations

Coincidences = dict[tuple[float, float], float]


def alpha(plates: Iterable[Sequence[float | None]], level: str = "interval") -> float | None:
    """Alpha of plates, each with its marks (None where a marker gave none).

    None where nothing can disagree: no plate with two marks, or one and the same mark everywhere.
    """
    seen = _coincidences(plates)
    totals: dict[float, float] = defaultdict(float)
    for (value, _), count in seen.items():
        totals[value] += count
    whole = sum(totals.values())
    distance = _DISTANCES[level]
    order = sorted(totals)
    observed = sum(count * distance(a, b, order, totals) for (a, b), count in seen.items())
    expected = sum(totals[a] * totals[b] * distance(a, b, order, totals) for a in order for b in order)
    return 1 - (whole - 1) * observed / expected if expected else None


def _coincidences(plates: Iterable[Sequence[float | None]]) -> Coincidences:
    """How often two marks stand on one plate, each plate counting by its number of marks."""
    seen: Coincidences = defaultdict(float)
    for marks in plates:
        given = [mark for mark in marks if mark is not None]
        if len(given) > 1:
            for pair in permutations(given, 2):
                seen[pair] += 1 / (len(given) - 1)
    return seen


def _nominal(a: float, b: float, order: list[float], totals: dict[float, float]) -> float:
    return float(a != b)


def _ordinal(a: float, b: float, order: list[float], totals: dict[float, float]) -> float:
    low, high = sorted((order.index(a), order.index(b)))
    between = sum(totals[value] for value in order[low : high + 1])
    return (between - (totals[a] + totals[b]) / 2) ** 2


def _interval(a: float, b: float, order: list[float], totals: dict[float, float]) -> float:
    return (a - b) ** 2


def _ratio(a: float, b: float, order: list[float], totals: dict[float, float]) -> float:
    return ((a - b) / (a + b)) ** 2 if a + b else 0.0


_DISTANCES = {"nominal": _nominal, "ordinal": _ordinal, "interval": _interval, "ratio": _ratio}
