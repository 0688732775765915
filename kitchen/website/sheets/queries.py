"""The recipe sheets of benches: recipes as labels stand today, portions, names, what was agreed."""

from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence

from django.db.models import Q

from curriculum.paper import name_on_paper, unprintable
from curriculum.people.models import Adjustment, AdjustmentKind, User
from curriculum.people.queries import the_college, today_at
from curriculum.recipes.bench_sheet import BenchFacts, BenchSheet, bench_sheet
from curriculum.recipes.paper import bench_sheets_paper
from curriculum.recipes.queries import recipes_data
from curriculum.techniques.models import Technique
from curriculum.wording import clock, listed, long_date
from kitchen.lessons.models import Place, PlaceLearner
from kitchen.lessons.papers.force import Issue, facets_of
from kitchen.lessons.papers.models import Print
from kitchen.lessons.papers.ready import Ready
from kitchen.website.sheets.access import Seat

NAME_NOTE = "A name here has letters that no font of this printer has. Write it in by hand."


def sheet_of(seat: Seat, *, printed: bool = False, large: bool = False) -> BenchSheet:
    """The sheet of a bench; ``printed`` takes names as they stand on paper, ``large`` asks for large print.

    A fixed number of queries. Names of a partner are on it, what was agreed with them is not.
    """
    return sheets_of([seat], printed=printed, large=large)[0]


def sheets_of(seats: Sequence[Seat], *, printed: bool = False, large: bool = False) -> list[BenchSheet]:
    """The sheets of benches of one lesson, in their order; as many queries for thirty as for one."""
    recipes = recipes_data({seat.place.version_id: seat.place.version for seat in seats}.values())
    codes = {code for each in recipes.values() for step in each.steps for code in step.techniques}
    techniques = dict(Technique.objects.filter(code__in=codes).values_list("code", "name"))
    people, agreed = _people(seats), _agreed(seats)
    when = _when(seats[0]) if seats else ""
    return [
        bench_sheet(
            recipes[seat.place.version_id],
            _facts(
                seat,
                when,
                people[seat.place.pk],
                [row for learner in seat.learners for row in agreed[learner.pk]],
                printed=printed,
                large=large,
            ),
            techniques,
        )
        for seat in seats
    ]


def recipes_ready(seats: Sequence[Seat], title: str, *, large: bool = False) -> Ready:
    """The recipe sheets of benches as they would be printed now, a part for each bench."""
    made = zip(seats, sheets_of(seats, printed=True, large=large), strict=True)
    sheets = {seat.place.plate: sheet for seat, sheet in made}

    def draw(parts: Collection[str]) -> bytes:
        return bench_sheets_paper([sheet for plate, sheet in sheets.items() if plate in parts], title)

    when = [str(each) for seat in seats[:1] for each in (seat.lesson.on, seat.lesson.starts)]
    parts = {plate: facets_of(_said(sheet, when)) for plate, sheet in sheets.items()}
    return Ready(Issue(Print.Paper.RECIPES, 0, None, parts), draw)


def _said(sheet: BenchSheet, when: list[str]) -> dict[str, object]:
    """What stands on a sheet; what was agreed with its learners is left out, as it is their own."""
    return {
        "recipe": [sheet.title, sheet.free_from],
        "names": list(sheet.names),
        "weights": repr(sheet.components),
        "method": repr([(each.words, each.is_done) for each in sheet.steps]),
        "time and place": when,
    }


def _when(seat: Seat) -> str:
    return f"{long_date(seat.lesson.on, today_at(the_college()))}, {clock(seat.lesson.starts)}"


def _facts(
    seat: Seat, when: str, people: Sequence[User], agreed: Sequence[Adjustment], *, printed: bool, large: bool
) -> BenchFacts:
    place, kinds = seat.place, {row.kind for row in agreed}
    percents = [row.percent or 0 for row in agreed if row.kind == AdjustmentKind.EXTRA_TIME]
    other = [
        row.words or row.get_kind_display()
        for row in agreed
        if row.kind not in (AdjustmentKind.EXTRA_TIME, AdjustmentKind.LARGE_PRINT)
    ]
    missing = unprintable(name_to_set(each) for each in people) if printed else ()
    return BenchFacts(
        plate=str(place.bench.number),
        names=tuple(name_on_paper(name_to_set(each)) if printed else each.name for each in people),
        portions=place.dish.portions_a_bench,
        when=when,
        where=seat.lesson.room.name,
        ahead_steps=tuple(place.dish.ahead_steps),
        large_print=large or AdjustmentKind.LARGE_PRINT in kinds or _reads_large(seat),
        extra_percent=max(percents, default=0) if seat.lesson.assessed else 0,
        adjustments=tuple(dict.fromkeys(other)) if seat.is_own else (),
        name_note=NAME_NOTE if missing else "",
    )


def name_to_set(user: User) -> str:
    """The name as the person wants it printed; the one they write where only that has its letters."""
    whole = [name for name in (user.printed_name, user.name) if not unprintable([name])]
    return whole[0] if whole else user.printed_name


def _people(seats: Sequence[Seat]) -> Mapping[int, list[User]]:
    """Who stands at each place, in the order in which they were placed. One query."""
    places: list[Place] = [seat.place for seat in seats]
    people = defaultdict(list)
    for row in PlaceLearner.objects.filter(place__in=places).select_related("student__user").order_by("pk"):
        people[row.place_id].append(row.student.user)
    return people


def _agreed(seats: Sequence[Seat]) -> Mapping[int, list[Adjustment]]:
    """What was agreed with each learner on the day of the lesson. One query."""
    agreed = defaultdict(list)
    learners = [learner for seat in seats for learner in seat.learners]
    if seats:
        on = seats[0].lesson.on
        standing = Q(until_on=None) | Q(until_on__gte=on)
        for row in Adjustment.objects.filter(standing, student__in=learners, from_on__lte=on).order_by("pk"):
            agreed[row.student_id].append(row)
    return agreed


def _reads_large(seat: Seat) -> bool:
    return any(each.user.large_print for each in seat.learners)


def not_printed(seats: Sequence[Seat]) -> str:
    """Whose name paper will not show whole, to be told before printing. One query."""
    people = [user for each in _people(seats).values() for user in each]
    short = [user.name for user in people if unprintable([name_to_set(user)])]
    if not short:
        return ""
    return (
        f"No font here has every letter of {listed(short)}. Write it in by hand, "
        "or a name for paper is entered under “How it looks for you”."
    )
