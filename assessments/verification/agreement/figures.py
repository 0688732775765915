"""How well markers agree, line by line: counts always, figures from ten plates on.

For the verifier's page. With fewer plates a figure would say more about chance than about markers
(ten: common practice, no source).
"""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from statistics import fmean

from assessments.verification.agreement.alpha import alpha
from assessments.verification.agreement.differences import Differences, differences
from assessments.verification.agreement.kappa import quadratic, table_of, weighted_kappa
from assessments.verification.agreement.plates import Beside, Line, Plate
from assessments.verification.agreement.reliability import components, intraclass

#: From so many plates on there are figures, below counts only.
LEAST_PLATES = 10


@dataclass(frozen=True, slots=True)
class LineFigures:
    """One line: how many plates, how many near, and the figures (None where there are too few plates,
    or where nothing could disagree).

    ``apart`` and ``kappa`` are of two markers, the first less the second; the others of any number.
    """

    line: Line
    plates: int
    same: int
    near: int
    apart: Differences | None = None
    kappa: float | None = None
    alpha: float | None = None
    correlation: float | None = None
    dependable: float | None = None

    @property
    def enough(self) -> bool:
        """Whether there are plates enough for figures."""
        return self.plates >= LEAST_PLATES


def figures(line: Line) -> LineFigures:
    """The figures of one line."""
    plates = [plate for plate in line.plates if sum(mark is not None for mark in plate) > 1]
    spans = [_span(plate) for plate in plates]
    found = LineFigures(
        line=line,
        plates=len(plates),
        same=sum(span == 0 for span in spans),
        near=sum(span <= line.step for span in spans),
    )
    return _with_figures(found, plates) if found.enough else found


def _with_figures(counted: LineFigures, plates: Sequence[Plate]) -> LineFigures:
    line, whole = counted.line, _whole(plates)
    pairs = [(plate[0], plate[1]) for plate in whole] if whole and len(whole[0]) == 2 else []
    return LineFigures(
        line=line,
        plates=counted.plates,
        same=counted.same,
        near=counted.near,
        apart=differences(pairs, line.step) if len(pairs) >= LEAST_PLATES else None,
        kappa=_kappa(pairs, line.steps) if len(pairs) >= LEAST_PLATES else None,
        alpha=alpha(plates, "interval"),
        correlation=intraclass(whole).absolute if len(whole) >= LEAST_PLATES else None,
        dependable=components(whole).dependability(len(whole[0])) if len(whole) >= LEAST_PLATES else None,
    )


def _kappa(pairs: Sequence[tuple[float, float]], steps: int | None) -> float | None:
    if steps is None:
        return None
    return weighted_kappa(table_of([(int(a), int(b)) for a, b in pairs], steps), quadratic)


def _whole(plates: Sequence[Plate]) -> list[tuple[float, ...]]:
    """Plates with a mark of every marker, of the most frequent number of markers."""
    full = [plate for plate in plates if None not in plate]
    if not full:
        return []
    sizes = [len(plate) for plate in full]
    usual = max(sorted(set(sizes)), key=sizes.count)
    return [tuple(mark for mark in plate if mark is not None) for plate in full if len(plate) == usual]


def _span(plate: Plate) -> float:
    given = [mark for mark in plate if mark is not None]
    return max(given) - min(given)


@dataclass(frozen=True, slots=True)
class MarkerFigures:
    """One marker: plates marked beside others, and how much more they gave on average, in points.

    ``mean`` is None below ten plates; ``months`` are (first of the month, plates, mean or None).
    """

    marker: str
    plates: int
    mean: float | None
    months: tuple[tuple[date, int, float | None], ...]


def markers(rows: Iterable[Beside]) -> tuple[MarkerFigures, ...]:
    """Every marker beside the others, over the months."""
    by_marker: dict[str, list[Beside]] = defaultdict(list)
    for row in rows:
        by_marker[row.marker].append(row)
    return tuple(_marker(name, found) for name, found in sorted(by_marker.items()))


def _marker(name: str, rows: list[Beside]) -> MarkerFigures:
    by_month: dict[date, list[Beside]] = defaultdict(list)
    for row in rows:
        by_month[row.on.replace(day=1)].append(row)
    months = tuple((month, len(found), _lean(found)) for month, found in sorted(by_month.items()))
    return MarkerFigures(name, len(rows), _lean(rows), months)


def _lean(rows: list[Beside]) -> float | None:
    return fmean(row.own - row.others for row in rows) if len(rows) >= LEAST_PLATES else None
