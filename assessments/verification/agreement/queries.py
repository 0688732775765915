"""Sittings that more than one marker marked, read for the figures of agreement."""

from dataclasses import dataclass
from datetime import date

from django.db.models import Count, QuerySet

from assessments.marking.models import Sheet, Sitting
from assessments.marking.queries import rows_of, with_sheets
from assessments.marking.sittings import SittingData
from assessments.schemes.models import Scheme

#: Sittings read for one page: the newest so many. A year of a large college has fewer that are marked twice.
MOST_SITTINGS = 1_000


@dataclass(frozen=True, slots=True)
class MarkedTwice:
    """A scheme and how many sittings of it more than one marker marked, all sheets in."""

    code: str
    name: str
    sittings: int


def marked_twice() -> list[MarkedTwice]:
    """Every scheme with its sittings marked more than once, by name. Two queries."""
    rows = _twice().values_list("brief__scheme_version__scheme__code").annotate(n=Count("pk"))
    counts = dict(rows.order_by())
    names = Scheme.objects.order_by("name").values_list("code", "name")
    return [MarkedTwice(code, name, counts.get(code, 0)) for code, name in names]


def sittings_of(code: str) -> list[tuple[date, SittingData]]:
    """The newest sittings of a scheme that more than one marker marked, with the lesson's day."""
    found = _twice().filter(brief__scheme_version__scheme__code=code)
    newest = found.order_by("-brief__lesson__on", "-pk").values_list("pk", flat=True)[:MOST_SITTINGS]
    rows = rows_of(with_sheets(Sitting.objects.filter(pk__in=list(newest))))
    return [(row.sitting.brief.lesson.on, row.data) for row in rows]


def _twice() -> QuerySet[Sitting]:
    """Sittings with two sheets or more beside the agreed one, every sheet in."""
    sheets = Sheet.objects.exclude(part=Sheet.Part.AGREED).values("sitting").annotate(markers=Count("pk"))
    waiting = Sheet.objects.filter(submitted_at=None).values("sitting")
    return Sitting.objects.filter(pk__in=sheets.filter(markers__gt=1).values("sitting")).exclude(
        pk__in=waiting
    )
