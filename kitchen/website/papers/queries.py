"""What the pages of a lesson's papers read: every paper as it would be printed now, and its prints."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.urls import reverse
from django.utils import timezone

from kitchen.lessons.models import Lesson
from kitchen.lessons.papers.force import again
from kitchen.lessons.papers.models import Print
from kitchen.lessons.papers.queries import printed, prints_of
from kitchen.lessons.papers.ready import Ready
from kitchen.stores.prints.queries import stores_papers
from kitchen.stores.queries import kits_page
from kitchen.stores.requisitions.queries import requisition_page
from kitchen.timeplan.pages import lesson_facts
from kitchen.timeplan.printed import lecturer_ready, strips_ready, wall_ready
from kitchen.timeplan.queries import ruling_plan
from kitchen.website.papers.page import Copy, Made, PaperRow, copy_of, paper_row, thrown_away
from kitchen.website.sheets.access import seats_in
from kitchen.website.sheets.queries import recipes_ready

#: The page that prints each paper.
URLS = {
    "labels": "stores:labels_pdf",
    "issue_sheet": "stores:issue_sheet_pdf",
    "requisition": "stores:requisition_pdf",
    "recipes": "sheets:lesson_paper",
    "lecturer": "timeplan:lecturer_paper",
    "strips": "timeplan:strips_paper",
    "wall": "timeplan:wall_paper",
}
NAMES = dict(Print.Paper.choices)


@dataclass(frozen=True, slots=True)
class PapersPage:
    """Every paper of a lesson with its prints, and what must be thrown away.

    ``stale`` says what stands and is of the lesson as it was: its papers follow when it is made again.
    """

    rows: tuple[PaperRow, ...]
    void: tuple[tuple[str, str], ...]
    stale: tuple[str, ...] = ()

    @property
    def again(self) -> tuple[PaperRow, ...]:
        """Papers of which something must be printed again."""
        return tuple(row for row in self.rows if row.again)


def papers_of(lesson: Lesson) -> dict[str, Ready]:
    """Every paper that the lesson has now, by its name; a cancelled lesson has none."""
    if lesson.state == Lesson.State.CANCELLED:
        return {}
    found = list(stores_papers(lesson))
    seats = seats_in(lesson)
    if seats:
        found.append(recipes_ready(seats, f"Recipe sheets: {lesson.title}"))
    rules = ruling_plan(lesson)
    if rules is not None:
        facts = lesson_facts(lesson)
        found += [lecturer_ready(rules, facts), strips_ready(rules, facts), wall_ready(rules, facts)]
    return {ready.issue.paper: ready for ready in found}


def papers_page(lesson: Lesson) -> PapersPage:
    """What is in force and what is not. A fixed number of queries."""
    now, made = papers_of(lesson), made_of(lesson)
    rows = tuple(_row(paper, lesson, made, now.get(paper)) for paper in NAMES)
    issues = {paper: ready.issue for paper, ready in now.items()}
    shown = tuple(row for row in rows if row.copies or row.url)
    return PapersPage(shown, thrown_away(NAMES, made, issues), tuple(_stale(lesson)))


def _stale(lesson: Lesson) -> Iterator[str]:
    """What has not been made again since the lesson changed, in sentences."""
    if lesson.state in (Lesson.State.CANCELLED, Lesson.State.RUN):
        return
    if requisition_page(lesson).changed:
        yield "The lesson needs something else than its requisition asks for. The lecturer submits it anew."
    kits = kits_page(lesson)
    if kits is not None and kits.stale:
        yield (
            "The kits were made before the lesson changed. Labels and issue sheet become void where they "
            "change, as soon as the stores make the kits again."
        )


def made_of(lesson: Lesson) -> list[Made]:
    """The prints of a lesson as plain data, times as the college's own."""
    return [_made(row) for row in prints_of(lesson)]


def to_print_again(lesson: Lesson) -> list[Ready]:
    """What must be printed again, each paper with these parts only."""
    prints = [printed(row) for row in prints_of(lesson)]
    found = []
    for paper, ready in papers_of(lesson).items():
        parts = again([each for each in prints if each.paper == paper], ready.issue)
        if parts:
            found.append(ready.only(parts))
    return found


def print_page(row: Print) -> Copy:
    """Whether one print is in force, whoever asks."""
    ready = papers_of(row.lesson).get(row.paper)
    issue = ready.issue if ready is not None else None
    at = timezone.localtime(issue.at) if issue is not None and issue.at else None
    return copy_of(_made(row), issue, at)


def _row(paper: str, lesson: Lesson, made: list[Made], ready: Ready | None) -> PaperRow:
    issue = ready.issue if ready is not None else None
    at = timezone.localtime(issue.at) if issue is not None and issue.at else None
    mine = [each for each in made if each.printed.paper == paper]
    return paper_row(paper, NAMES[paper], mine, issue, at, reverse(URLS[paper], args=[lesson.code]))


def _made(row: Print) -> Made:
    of_at = timezone.localtime(row.of_at) if row.of_at else None
    plain = printed(row)
    local = type(plain)(plain.key, plain.paper, plain.number, timezone.localtime(plain.at), plain.parts)
    return Made(local, row.code, row.by.printed_name, of_at)
