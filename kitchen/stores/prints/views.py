"""The papers of the stores for a lesson: kit labels, issue sheet, requisition sheet."""

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from curriculum.people.queries import the_college, today_at
from curriculum.records.actions import note_health_read
from kitchen.lessons.models import Lesson
from kitchen.lessons.papers.views import hand_out
from kitchen.stores import access, queries
from kitchen.stores.prints.queries import issue_sheet_ready, labels_ready, requisition_ready
from kitchen.stores.requisitions.queries import requisition_of


@require_safe
def labels_pdf(request: HttpRequest, lesson: str) -> HttpResponse:
    """The label of every kit, eight to a page."""
    kit_set = access.kit_set_to_read(request.user, lesson)
    note_kits_read(request, kit_set.lesson, "kit labels")
    return hand_out(request, kit_set.lesson, labels_ready(kit_set, queries.trays_of(kit_set)))


@require_safe
def issue_sheet_pdf(request: HttpRequest, lesson: str) -> HttpResponse:
    """Each food across the kits, with its sum and lots."""
    kit_set = access.kit_set_to_read(request.user, lesson)
    note_kits_read(request, kit_set.lesson, "issue sheet")
    return hand_out(request, kit_set.lesson, issue_sheet_ready(kit_set, queries.trays_of(kit_set)))


@require_safe
def requisition_pdf(request: HttpRequest, lesson: str) -> HttpResponse:
    """The requisition that stands, food by food."""
    found, _ = access.kits_for(request.user, lesson)
    row = requisition_of(found)
    if row is None:
        raise Http404("No requisition is submitted yet.")
    return hand_out(request, found, requisition_ready(found, row))


def note_kits_read(request: HttpRequest, lesson: Lesson, page: str) -> None:
    """Note that this person read who works a variant: what they avoid can be told from it."""
    students = queries.learners_with_variants(lesson)
    note_health_read(reader=request.user, students=students, page=page, day=today_at(the_college()))
