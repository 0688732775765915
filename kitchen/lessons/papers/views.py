"""How a paper of a lesson is handed out: noted in the ledger of prints, and stamped."""

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.utils import timezone

from curriculum.people.models import User
from kitchen.lessons.models import Lesson
from kitchen.lessons.papers.actions import note_print
from kitchen.lessons.papers.ready import Ready
from kitchen.lessons.papers.stamping import Stamp, stamped
from kitchen.lessons.papers.words import of_words, short

#: Where the code of a print leads. It stands on paper, so it stays.
ADDRESS = "papers/{code}/"


def hand_out(request: HttpRequest, lesson: Lesson, ready: Ready, name: str = "") -> HttpResponse:
    """The paper as PDF, noted and stamped; who only asks for the head gets it unnoted."""
    noted = request.method == "GET"
    content = print_now(lesson, ready, request.user) if noted else ready.content()
    return pdf(content, name or f"{ready.issue.paper}-{lesson.code}.pdf")


def print_now(lesson: Lesson, ready: Ready, by: User) -> bytes:
    """The PDF of one print, with its row in the ledger and its code on every page."""
    content = ready.content()
    row = note_print(lesson=lesson, issue=ready.issue, by=by)
    at = timezone.localtime(row.of_at) if row.of_at else None
    of = of_words(row.paper, row.of_number, at)
    printed = f"printed {short(timezone.localtime(row.at))} by {by.printed_name}"
    words = f"{row.get_paper_display().capitalize()}{', ' if of else ''}{of}, {printed}."
    return stamped(
        content, Stamp(words, row.code, f"{settings.SITE_ADDRESS}/{ADDRESS.format(code=row.code)}")
    )


def pdf(content: bytes, name: str) -> HttpResponse:
    """A PDF that the browser shows."""
    headers = {"Content-Disposition": f'inline; filename="{name}"'}
    return HttpResponse(content, content_type="application/pdf", headers=headers)
