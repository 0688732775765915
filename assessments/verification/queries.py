"""Samples read, and the sittings that a sample may be drawn from."""

from collections.abc import Iterable

from django.db.models import Count

from assessments.marking.models import Sitting
from assessments.marking.queries import SittingRow, rows_of, with_sheets
from assessments.verification.models import Sample, SampleItem
from assessments.verification.sampling import Candidate


def samples() -> list[Sample]:
    """Every sample with its size, the newest first."""
    rows = Sample.objects.select_related("by").annotate(size=Count("items"))
    return list(rows.order_by("-at", "-pk"))


def items_of(sample: Sample) -> list[tuple[SampleItem, SittingRow]]:
    """The sittings of a sample with why they are in it; fixed queries."""
    items = {item.sitting_id: item for item in sample.items.all()}
    rows = rows_of(with_sheets(Sitting.objects.filter(pk__in=items)))
    rows.sort(key=lambda row: (row.sitting.brief.lesson.on, row.sitting.code))
    return [(items[row.sitting.pk], row) for row in rows]


def lessons_with_marks() -> list[tuple[str, str]]:
    """Lessons of which every sheet of some sitting is in: (code, words)."""
    rows = Sitting.objects.exclude(state=Sitting.State.OPEN).values_list(
        "brief__lesson__code", "brief__lesson__title", "brief__lesson__on", "brief__lesson__group__code"
    )
    return [
        (code, f"{title}, {group}, {on.day} {on:%b %Y}")
        for code, title, on, group in rows.order_by("-brief__lesson__on").distinct()
    ]


def candidates_in(codes: Iterable[str]) -> dict[str, tuple[Sitting, Candidate]]:
    """The finished sittings of lessons, by sitting code, as a draw reads them."""
    rows = rows_of(
        with_sheets(
            Sitting.objects.filter(brief__lesson__code__in=list(codes)).exclude(state=Sitting.State.OPEN)
        )
    )
    found = {}
    for row in rows:
        outcome, scheme = row.data.record(), row.data.scheme
        found[row.sitting.code] = (
            row.sitting,
            Candidate(
                code=row.sitting.code,
                assessor=row.data.sheets[0].marker,
                band=outcome.band or "",
                milli_total=outcome.milli_total,
                lowest_band=scheme.result_bands[0].name,
                band_starts=tuple(band.from_milli_points or 0 for band in scheme.result_bands),
            ),
        )
    return found
