"""Which coming lessons and which of their learners a substitute touches.

For the page on which a person decides, and the action behind it.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.db.models import Prefetch, QuerySet

from curriculum.allergens import GROUP_OF, WAYS, kinds_of, printed
from curriculum.foods.models import Avoidance
from curriculum.people.models import Membership, Student
from curriculum.wording import clock, counted, listed, short_date
from kitchen.lessons.models import Lesson
from kitchen.stores.deliveries.models import DeliveryLine
from kitchen.stores.deliveries.queries import more_of
from kitchen.stores.deliveries.reach.dates import Last
from kitchen.stores.deliveries.reach.queries import last_day_of, lessons_cooking


@dataclass(frozen=True, slots=True)
class Touched:
    """One coming lesson that uses the food; learners who avoid what the label names besides.

    ``missing`` says by how many days the last day of the food does not reach it; ``may_go`` is False where
    that is a use-by date.
    """

    lesson: Lesson
    learners: tuple[tuple[Student, str], ...]
    missing: str = ""
    may_go: bool = True

    @property
    def words(self) -> str:
        """ "Learner N100 (soya) and Learner N101 (soya, egg)"."""
        return listed(f"{student.user.printed_name} ({why})" for student, why in self.learners)


@dataclass(frozen=True, slots=True)
class DecidePage:
    """What a person needs to decide on a line: what its label names besides, and whom that touches."""

    more: tuple[str, ...]
    touched: tuple[Touched, ...]
    waits: bool

    @property
    def choices(self) -> dict[str, str]:
        """The lessons it may be accepted for, those that its date reaches: code and words."""
        return {
            each.lesson.code: f"{each.lesson.title}, {each.lesson.group.code}, {short_date(each.lesson.on)}, "
            f"{clock(each.lesson.starts)}"
            for each in self.touched
            if each.may_go
        }

    @property
    def students(self) -> list[Student]:
        """Learners of whom the page tells what they avoid."""
        return list(dict.fromkeys(student for each in self.touched for student, _ in each.learners))


def decide_page(line: DeliveryLine, today: date) -> DecidePage:
    """Everything the page of a decision says. Four queries beside the line's own; none once decided."""
    waits = line.verdict == DeliveryLine.Verdict.WAITING
    more = more_of(line) if waits else ()
    found = touched(line, more, today) if more else ()
    return DecidePage(tuple(map(printed, more)), found, waits)


def lessons_touched(line: DeliveryLine, today: date) -> QuerySet[Lesson]:
    """Lessons of today and later that cook with the food of a line, or with the food that was ordered."""
    foods = {line.food_id} | ({line.order_line.pack.food_id} if line.order_line else set())
    return lessons_cooking(foods, today)


def touched(line: DeliveryLine, more: Iterable[str], today: date) -> tuple[Touched, ...]:
    """The same with the learners of their groups who avoid one of these kinds. Four queries."""
    lessons = list(lessons_touched(line, today))
    avoidances = Prefetch("student__avoidances", Avoidance.objects.order_by("pk"))
    members = list(
        Membership.objects.filter(group__in={lesson.group_id for lesson in lessons})
        .select_related("student__user")
        .prefetch_related(avoidances)
        .order_by("student__user__name")
    )
    kinds = frozenset(more)
    last = last_day_of(line.food_id, line.date_kind, line.date, line.delivery.on)
    return tuple(
        _touched(lesson, tuple(_learners(lesson, members, kinds)), last, today) for lesson in lessons
    )


def _touched(
    lesson: Lesson, learners: tuple[tuple[Student, str], ...], last: Last | None, today: date
) -> Touched:
    days = last.days_missing(lesson.on) if last else 0
    if not days:
        return Touched(lesson, learners)
    missing = f"{last.words(today)}: {counted(days, 'day')} before this lesson"
    return Touched(lesson, learners, missing, may_go=not last.is_law)


def _learners(
    lesson: Lesson, members: list[Membership], kinds: frozenset[str]
) -> Iterable[tuple[Student, str]]:
    for member in members:
        if member.group_id != lesson.group_id or not _stands(member, lesson.on):
            continue
        rows = [row for row in member.student.avoidances.all() if _stands(row, lesson.on)]
        hit = [kind for kind in kinds if any(kind in _avoided(row) for row in rows)]
        if hit:
            yield member.student, ", ".join(map(printed, sorted(hit)))


def _avoided(row: Avoidance) -> frozenset[str]:
    if row.kind:
        return kinds_of(row.kind)
    return frozenset(fact for fact in WAYS[row.way][1] if fact in GROUP_OF) if row.way else frozenset()


def _stands(row: Membership | Avoidance, on: date) -> bool:
    return row.from_on <= on and (row.until_on is None or row.until_on >= on)
