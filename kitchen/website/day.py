"""The first page of somebody by the roles they hold."""

from datetime import date

from curriculum.people.models import User
from curriculum.people.roles import (
    EXTERNAL,
    LECTURER,
    MANAGER,
    SECOND_MARKER,
    STORES,
    STUDENT,
    TECHNICIAN,
    VERIFIER,
)
from kitchen.website.days.assessors import external_day, manager_day, marker_day, verifier_day
from kitchen.website.days.lecturer import lecturer_day
from kitchen.website.days.parts import DayPage
from kitchen.website.days.stores import stores_day
from kitchen.website.days.student import student_day
from kitchen.website.days.technician import technician_day

DAYS = (
    (LECTURER, lecturer_day),
    (STORES, stores_day),
    (TECHNICIAN, technician_day),
    (SECOND_MARKER, marker_day),
    (VERIFIER, verifier_day),
    (MANAGER, manager_day),
    (EXTERNAL, external_day),
    (STUDENT, student_day),
)


def day_page(user: User, held: frozenset[str], today: date) -> DayPage:
    """The first page of somebody who holds these roles: the first role's page, then the others' dockets."""
    pages: list[DayPage] = []
    made_by = []
    for role, make in DAYS:
        if role in held and make not in made_by:
            made_by.append(make)
            pages.append(make(user, today))
    if not pages:
        return DayPage("No role is given to you yet. The programme manager gives it.", None, [])
    sections = {section.heading: section for page in pages for section in page.sections}
    plate = next((page.next for page in pages if page.next), None)
    return DayPage(pages[0].facts, plate, list(sections.values()))
