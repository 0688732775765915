"""Printing again, in one file, everything that a change has made void, and no more."""

from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.people.models import User
from curriculum.wording import sentence
from kitchen.lessons.models import Lesson
from kitchen.lessons.papers.ready import Ready
from kitchen.lessons.papers.stamping import together
from kitchen.lessons.papers.views import print_now
from kitchen.lessons.papers.words import of_words, part_words
from kitchen.timeplan.pages import lesson_facts
from kitchen.website.papers import queries
from kitchen.website.papers.cover import cover


def print_again(*, lesson: Lesson, by: User) -> bytes:
    """The PDF: a page that names each void print, then each paper with the parts that changed.

    Each is noted as a print. RuleBroken "nothing_void".
    """
    page = queries.papers_page(lesson)
    papers = queries.to_print_again(lesson)
    if not papers and not page.void:
        raise RuleBroken("nothing_void", "Every print of this lesson is in force. Nothing is printed again.")
    first = cover(
        title=lesson.title,
        facts=lesson_facts(lesson),
        void=page.void,
        follows=[_follows(ready) for ready in papers] or ["Nothing: these papers are no more."],
    )
    printed = [print_now(lesson, ready, by) for ready in papers]
    return together([first, *printed], f"Printed again: {lesson.title}")


def _follows(ready: Ready) -> str:
    issue = ready.issue
    at = timezone.localtime(issue.at) if issue.at else None
    parts = part_words(issue.paper, tuple(issue.parts))
    said = (queries.NAMES[issue.paper], of_words(issue.paper, issue.number, at), parts)
    return sentence(", ".join(each for each in said if each))
