"""What was printed for a lesson."""

from kitchen.lessons.models import Lesson
from kitchen.lessons.papers.force import Printed
from kitchen.lessons.papers.models import Print


def prints_of(lesson: Lesson) -> list[Print]:
    """Every print of a lesson, the first first. One query."""
    return list(Print.objects.filter(lesson=lesson).select_related("by").order_by("pk"))


def printed(row: Print) -> Printed:
    """One print as plain data."""
    return Printed(row.pk, row.paper, row.of_number, row.at, row.parts)
