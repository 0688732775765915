"""The recipe sheet of a bench: its recipe as labels stand today, its portions, what was agreed."""

from collections.abc import Iterable

from django.db.models import Q

from curriculum.paper import not_carried, unprintable
from curriculum.people.models import Adjustment, AdjustmentKind, Student
from curriculum.people.queries import the_college, today_at
from curriculum.recipes.bench_sheet import BenchFacts, BenchSheet, bench_sheet
from curriculum.recipes.queries import recipe_data
from curriculum.techniques.models import Technique
from curriculum.wording import clock, long_date
from kitchen.lessons.models import PlaceLearner
from kitchen.website.sheets.access import Seat


def sheet_of(seat: Seat, *, printed: bool = False, large: bool = False) -> BenchSheet:
    """The sheet of a bench; ``printed`` takes names as they stand on paper, ``large`` asks for large print.

    A fixed number of queries. Names of a partner are on it, what was agreed with them is not.
    """
    recipe = recipe_data(seat.place.version)
    codes = {code for step in recipe.steps for code in step.techniques}
    techniques = dict(Technique.objects.filter(code__in=codes).values_list("code", "name"))
    return bench_sheet(recipe, _facts(seat, printed=printed, large=large), techniques)


def _facts(seat: Seat, *, printed: bool, large: bool) -> BenchFacts:
    lesson, place = seat.lesson, seat.place
    agreed = _agreed(seat.learners, seat)
    kinds = {row.kind for row in agreed}
    percents = [row.percent or 0 for row in agreed if row.kind == AdjustmentKind.EXTRA_TIME]
    other = [
        row.words or row.get_kind_display()
        for row in agreed
        if row.kind not in (AdjustmentKind.EXTRA_TIME, AdjustmentKind.LARGE_PRINT)
    ]
    day = long_date(lesson.on, today_at(the_college()))
    return BenchFacts(
        plate=str(place.bench.number),
        names=names_of(seat, printed=printed),
        portions=place.dish.portions_a_bench,
        when=f"{day}, {clock(lesson.starts)}",
        where=lesson.room.name,
        ahead_steps=tuple(place.dish.ahead_steps),
        large_print=large or AdjustmentKind.LARGE_PRINT in kinds or _reads_large(seat),
        extra_percent=max(percents, default=0),
        adjustments=tuple(dict.fromkeys(other)) if seat.is_own else (),
    )


def names_of(seat: Seat, *, printed: bool) -> tuple[str, ...]:
    """The learners of a bench, as they write themselves or as they are printed. One query."""
    rows = PlaceLearner.objects.filter(place=seat.place).select_related("student__user").order_by("pk")
    users = [row.student.user for row in rows]
    return tuple(user.printed_name if printed else user.name for user in users)


def _agreed(learners: Iterable[Student], seat: Seat) -> list[Adjustment]:
    """What was agreed with these learners on the day of the lesson. One query."""
    standing = Q(until_on=None) | Q(until_on__gte=seat.lesson.on)
    rows = Adjustment.objects.filter(standing, student__in=list(learners), from_on__lte=seat.lesson.on)
    return list(rows.order_by("pk"))


def _reads_large(seat: Seat) -> bool:
    return seat.is_own and any(each.user.large_print for each in seat.learners)


def not_printed(seat: Seat) -> str:
    """Letters of the names that paper will not show, to be told before printing. One query."""
    names = names_of(seat, printed=True)
    missing = unprintable(names)
    if missing:
        return f"No font here has {', '.join(missing)}. Enter a name to print."
    named_only = not_carried(names)
    if named_only:
        return f"{''.join(named_only)} is printed only where the reader has a Chinese font."
    return ""
