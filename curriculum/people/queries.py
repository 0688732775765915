"""The college, its day, and the learners of a group with what they need."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from django.db.models import Prefetch, Q, QuerySet
from django.utils import timezone

from curriculum.people.models import Adjustment, College, Group, KeptApart, Student

#: Minutes of a usual lesson from its start to its end; common practice, no source. A college writes
#: its own as "usual_lesson_minutes" in its settings.
USUAL_LESSON_MINUTES = 240


def the_college() -> College:
    """The one college. College.DoesNotExist on an empty database."""
    return College.objects.get(pk=1)


def local_now(college: College) -> datetime:
    """The time on the college's wall."""
    return timezone.now().astimezone(ZoneInfo(college.time_zone))


def today_at(college: College) -> date:
    """The college's day; a demonstration college may live on a day of its own."""
    return college.shown_today or local_now(college).date()


def now_at(college: College) -> datetime:
    """The moment on the college's wall, on the day that the college lives on."""
    day = today_at(college)
    return local_now(college).replace(year=day.year, month=day.month, day=day.day)


def usual_cooking_minutes(college: College) -> int:
    """What a usual lesson leaves to cook, between its start and its clear-down."""
    whole = college.settings.get("usual_lesson_minutes", USUAL_LESSON_MINUTES)
    return max(0, whole - college.lesson_start_minutes - college.lesson_clear_down_minutes)


def members_of(group: Group, on: date) -> QuerySet[Student]:
    """The learners of a group on a day, by name, with their adjustments of that day."""
    standing = Q(until_on=None) | Q(until_on__gte=on)
    return (
        Student.objects.filter(
            Q(memberships__until_on=None) | Q(memberships__until_on__gte=on),
            memberships__group=group,
            memberships__from_on__lte=on,
            erased_at=None,
        )
        .select_related("user")
        .prefetch_related(
            Prefetch("adjustments", Adjustment.objects.filter(standing, from_on__lte=on).order_by("id"))
        )
        .order_by("user__name")
        .distinct()
    )


def kept_apart_pairs(students: list[Student]) -> set[frozenset[int]]:
    """Pairs of learners (by key) who do not share a bench."""
    keys = [student.pk for student in students]
    rows = KeptApart.objects.filter(a__in=keys, b__in=keys).values_list("a", "b")
    return {frozenset(row) for row in rows}
