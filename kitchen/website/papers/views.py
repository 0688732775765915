"""The papers of a lesson in force, what is printed again, and what the code on a paper says."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from curriculum.errors import RuleBroken
from kitchen.lessons.papers.views import pdf
from kitchen.stores.prints.views import note_kits_read
from kitchen.website.papers import access, queries
from kitchen.website.papers.actions import print_again


@require_safe
def papers(request: HttpRequest, lesson: str) -> HttpResponse:
    """Each paper with its prints, what is void and since when, and the button that prints again."""
    found = access.lesson_to_supply(request.user, lesson)
    facts = {"lesson": found, "page": queries.papers_page(found)}
    return render(request, "website/papers/papers.html", facts)


@require_POST
def again(request: HttpRequest, lesson: str) -> HttpResponse:
    """One PDF of everything that must be printed again."""
    found = access.lesson_to_supply(request.user, lesson)
    note_kits_read(request, found, "kit labels")
    try:
        content = print_again(lesson=found, by=request.user)
    except RuleBroken as nothing:
        messages.info(request, nothing.message)
        return redirect("papers:papers", lesson=found.code)
    return pdf(content, f"again-{found.code}.pdf")


@require_safe
def print_by_code(request: HttpRequest, code: str) -> HttpResponse:
    """Whether the print in the hand is in force."""
    row = access.print_for(request.user, code)
    facts = {"row": row, "lesson": row.lesson, "copy": queries.print_page(row)}
    facts["may_print"] = access.may_print(request.user, row.lesson)
    return render(request, "website/papers/print.html", facts)
