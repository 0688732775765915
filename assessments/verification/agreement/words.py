"""What each figure of agreement says, in a sentence, with where its formula is from.

Worked example: 14 plates, first less second 0.2, limits -0.9 and 1.3: "The first marker gave 0.2 more;
nineteen of twenty differences are looked for between -0.9 and +1.3."
"""

from dataclasses import dataclass
from fractions import Fraction

from assessments.verification.agreement.differences import Differences
from assessments.verification.agreement.figures import LineFigures, MarkerFigures
from curriculum.wording import MINUS, counted, figure, per_cent


@dataclass(frozen=True, slots=True)
class Explained:
    """One figure: its head in the table, what it says, and the source of its formula."""

    head: str
    says: str
    source: str


EXPLAINED = (
    Explained(
        "First less second",
        "The mean of the first marker’s marks less the second’s, and the limits between which nineteen of "
        "twenty differences are looked for. Far from nought, one of the two is more lenient.",
        "Bland and Altman, Lancet 1986;327:307–310.",
    ),
    Explained(
        "Weighted kappa",
        "Agreement on the steps of the ladder beyond what chance would bring; two steps apart weigh four "
        "times one step. 1 is full agreement, 0 no better than chance.",
        "Cohen, Psychological Bulletin 1968;70:213–220.",
    ),
    Explained(
        "Alpha",
        "The same idea for any number of markers, and for plates on which a mark is missing.",
        "Krippendorff, Content Analysis, chapter on reliability.",
    ),
    Explained(
        "One mark alone",
        "How much of what marks differ by is the plates rather than the markers, when one marker marks.",
        "Intraclass correlation (2,1): Shrout and Fleiss, Psychological Bulletin 1979;86:420–428.",
    ),
    Explained(
        "All marks together",
        "The same for the mean of all the markers of a plate: what another marker is worth.",
        "Dependability: Brennan, Generalizability Theory, 2001.",
    ),
)


@dataclass(frozen=True, slots=True)
class LineSaid:
    """A line of the table in words; ``figures`` are (head, figure), "too few" below ten marks."""

    name: str
    marks: str
    near: str
    figures: tuple[tuple[str, str], ...]


def line_said(found: LineFigures) -> LineSaid:
    """One line of the table."""
    share = f", {_held(per_cent(Fraction(found.near, found.plates)))}" if found.enough else ""
    two = (found.kappa, found.alpha, found.correlation, found.dependable)
    figures = (_apart(found.apart), *map(_two, two)) if found.enough else ("too few",) * len(EXPLAINED)
    return LineSaid(
        name=found.line.name,
        marks=f"{counted(found.plates, 'mark')}, {found.same} the same",
        near=f"{found.near} of {found.plates}{share}",
        figures=tuple((each.head, words) for each, words in zip(EXPLAINED, figures, strict=True)),
    )


@dataclass(frozen=True, slots=True)
class MarkerSaid:
    """One marker in words, and month by month; ``points`` beside the others, a dash for too few plates."""

    name: str
    points: str
    unit: str
    words: str
    months: tuple[str, ...]


def marker_said(found: MarkerFigures) -> MarkerSaid:
    """A marker beside the others."""
    months = tuple(
        f"{month:%B %Y}: {counted(plates, 'plate')}" + (f", {_lean(mean)}" if mean is not None else "")
        for month, plates, mean in found.months
    )
    words = _lean(found.mean) if found.mean is not None else "too few plates for a figure"
    points = "–" if found.mean is None else _signed(found.mean)
    unit = "point" if points.strip(f"+{MINUS}") == "1" else "points"
    return MarkerSaid(found.marker, points, unit, f"{counted(found.plates, 'plate')}: {words}.", months)


def _lean(mean: float) -> str:
    if abs(mean) < 0.05:
        return "neither more nor less than the others"
    points = figure(Fraction(abs(mean)), 1)
    unit = "point" if points == "1" else "points"
    return f"{points} {unit} {'more' if mean > 0 else 'less'} than the others on average"


def _apart(apart: Differences | None) -> str:
    if apart is None or apart.lower is None or apart.upper is None:
        return "–"
    return f"{_signed(apart.mean)} ({_signed(apart.lower)} to {_signed(apart.upper)})"


def _signed(value: float) -> str:
    words = figure(Fraction(value), 1)
    return f"+{words}" if value > 0 and words != "0" else words


def _two(value: float | None) -> str:
    return "–" if value is None else f"{value:.2f}".replace("-", MINUS)


def _held(words: str) -> str:
    """Words that stay on one line."""
    return words.replace(" ", "\N{NO-BREAK SPACE}")
