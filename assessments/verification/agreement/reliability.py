"""How much of what marks differ by is the plates, and how much the markers.

Every plate was marked by every marker. Intraclass correlations: P. E. Shrout and J. L. Fleiss,
Psychological Bulletin 1979;86:420-428. Generalizability of plates by markers: R. L. Brennan,
Generalizability Theory, 2001. (3,k) is also Cronbach's alpha (L. J. Cronbach, Psychometrika
1951;16:297-334).

Worked example: six plates by four markers (Shrout and Fleiss, table 2): the means of squares between
plates, between markers and of the rest are 11.24, 32.49 and 1.02. One marker's mark agrees with
another's to 0.29 (2,1), but puts the plates in much the same order: 0.71 (3,1).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

Marks = Sequence[Sequence[float]]


@dataclass(frozen=True, slots=True)
class Squares:
    """Means of squares: between plates, within plates, between markers, and what is left over."""

    plates: int
    markers: int
    between: float
    within: float
    by_marker: float
    rest: float


def squares(marks: Marks) -> Squares:
    """Means of squares of marks: a row a plate, a column a marker.

    ValueError for fewer than two of either, or where a mark is missing.
    """
    n, k = len(marks), len(marks[0]) if marks else 0
    if n < 2 or k < 2 or any(len(row) != k for row in marks):
        raise ValueError("At least two plates, each marked by the same two or more markers.")
    mean = fmean(mark for row in marks for mark in row)
    rows = k * sum((fmean(row) - mean) ** 2 for row in marks)
    columns = n * sum((fmean(column) - mean) ** 2 for column in zip(*marks, strict=True))
    whole = sum((mark - mean) ** 2 for row in marks for mark in row)
    rest = whole - rows - columns
    return Squares(
        plates=n,
        markers=k,
        between=rows / (n - 1),
        within=(whole - rows) / (n * (k - 1)),
        by_marker=columns / (k - 1),
        rest=rest / ((n - 1) * (k - 1)),
    )


@dataclass(frozen=True, slots=True)
class Intraclass:
    """The six of Shrout and Fleiss: of one mark, and of the mean of all markers; None where all are equal."""

    one_way: float | None
    absolute: float | None
    consistent: float | None
    mean_one_way: float | None
    mean_absolute: float | None
    mean_consistent: float | None


def intraclass(marks: Marks) -> Intraclass:
    """(1,1), (2,1), (3,1), (1,k), (2,k), (3,k) of marks."""
    s = squares(marks)
    k, n = s.markers, s.plates
    lean = (s.by_marker - s.rest) / n
    return Intraclass(
        one_way=_share(s.between - s.within, s.between + (k - 1) * s.within),
        absolute=_share(s.between - s.rest, s.between + (k - 1) * s.rest + k * lean),
        consistent=_share(s.between - s.rest, s.between + (k - 1) * s.rest),
        mean_one_way=_share(s.between - s.within, s.between),
        mean_absolute=_share(s.between - s.rest, s.between + lean),
        mean_consistent=_share(s.between - s.rest, s.between),
    )


@dataclass(frozen=True, slots=True)
class Components:
    """Variance of plates, of markers, and of the rest, each not below nought."""

    plates: float
    markers: float
    rest: float

    def generalizability(self, markers: int) -> float | None:
        """How well the mean of so many markers puts plates in order."""
        return _share(self.plates, self.plates + self.rest / markers)

    def dependability(self, markers: int) -> float | None:
        """How well the mean of so many markers tells the mark itself."""
        return _share(self.plates, self.plates + (self.markers + self.rest) / markers)

    def relative_error(self, markers: int = 1) -> float:
        """Standard error of a plate's place among the others."""
        return (self.rest / markers) ** 0.5

    def absolute_error(self, markers: int = 1) -> float:
        """Standard error of a plate's mark."""
        return ((self.markers + self.rest) / markers) ** 0.5


def components(marks: Marks) -> Components:
    """The components of variance; one that comes out below nought is nought."""
    s = squares(marks)
    return Components(
        plates=max(0.0, (s.between - s.rest) / s.markers),
        markers=max(0.0, (s.by_marker - s.rest) / s.plates),
        rest=max(0.0, s.rest),
    )


def _share(part: float, whole: float) -> float | None:
    return part / whole if whole else None
