"""What the pages of groups and learners show; a fixed number of queries each."""

from dataclasses import dataclass
from datetime import date

from django.db.models import Count, Q, QuerySet

from curriculum.allergens import WAYS, words_of
from curriculum.foods.models import Avoidance
from curriculum.limits import FULL_AGE
from curriculum.people.models import Adjustment, Group, Student
from curriculum.people.queries import members_of
from curriculum.wording import short_date
from kitchen.lessons.pages.queries import age_on, facts_of
from kitchen.lessons.queries import avoidances_of


@dataclass(frozen=True, slots=True)
class MemberLine:
    """One learner of a group: facts for the room, and what they avoid where the reader needs it."""

    student: Student
    facts: tuple[str, ...]
    on_file: tuple[tuple[str, bool], ...]


@dataclass(frozen=True, slots=True)
class FileLine:
    """One thing on file of a learner: what, since when, by whom, until when."""

    key: int
    words: str
    is_kind: bool
    more: str
    since: str
    until: date | None


@dataclass(frozen=True, slots=True)
class LearnerPage:
    """One learner: who, groups, adjustments, and what they avoid (None when the reader does not need it)."""

    student: Student
    about: list[tuple[str, str]]
    adjustments: list[FileLine]
    avoids: list[FileLine] | None


def groups(on: date) -> QuerySet[Group]:
    """Every group with its lecturer and how many learners it has on a day. One query."""
    now = Q(memberships__from_on__lte=on) & (Q(memberships__until_on=None) | Q(memberships__until_on__gte=on))
    return (
        Group.objects.select_related("lecturer")
        .annotate(learner_count=Count("memberships", now, distinct=True))
        .order_by("code", "-year")
    )


def member_lines(group: Group, on: date, *, diets: bool) -> list[MemberLine]:
    """The learners of a group. Three queries with diets, two without."""
    students = list(members_of(group, on))
    avoids = avoidances_of(students, on) if diets else {}
    return [
        MemberLine(
            student,
            facts_of(student, on),
            tuple((each.words, bool(each.kind)) for each in avoids.get(student.pk, ())),
        )
        for student in students
    ]


def learner_page(student: Student, on: date, *, diets: bool) -> LearnerPage:
    """One learner as a whole."""
    return LearnerPage(
        student=student,
        about=_about(student, on),
        adjustments=[_adjustment(row) for row in _newest(student.adjustments.select_related("agreed_by"))],
        avoids=[_avoidance(row) for row in _newest(_avoidances(student))] if diets else None,
    )


def _avoidances(student: Student) -> QuerySet[Avoidance]:
    return Avoidance.objects.filter(student=student).select_related("food", "noted_by")


def _newest(rows: QuerySet) -> list:
    """Those that stand first, then those that ended, the newest first."""
    return sorted(rows, key=lambda row: (row.until_on is not None, -row.from_on.toordinal(), row.pk))


def _about(student: Student, on: date) -> list[tuple[str, str]]:
    groups = [row.group.code for row in student.memberships.select_related("group").filter(until_on=None)]
    age = age_on(student.born_on, on)
    facts = [("College number", student.college_number), ("Groups", ", ".join(groups) or "none")]
    if age is not None:
        facts.append(("Age", f"{age}{f', under {FULL_AGE}' if age < FULL_AGE else ''}"))
    if student.left_handed:
        facts.append(("Hand", "left-handed"))
    if student.tasting_note:
        facts.append(("Tasting", student.tasting_note))
    facts.append(("Photographs of plates", "allowed" if student.photograph_allowed else "not allowed"))
    return facts


def _adjustment(row: Adjustment) -> FileLine:
    percent = f", {row.percent} %" if row.percent else ""
    since = f"Since {short_date(row.from_on)}, agreed by {row.agreed_by.name}"
    return FileLine(row.pk, f"{row.get_kind_display()}{percent}", False, row.words, since, row.until_on)


def _avoidance(row: Avoidance) -> FileLine:
    words = _avoided(row)
    since = f"Since {short_date(row.from_on)}, noted by {row.noted_by.name}"
    more = f"{row.get_severity_display()}{'. ' if row.note else ''}{row.note}"
    return FileLine(row.pk, words, bool(row.kind), more, since, row.until_on)


def _avoided(row: Avoidance) -> str:
    """What the row is about, in words."""
    if row.kind:
        return words_of(row.kind)
    return WAYS[row.way][0] if row.way else row.food.name
