"""The papers of the stores for a lesson as they would be printed now."""

from collections.abc import Collection

from django.conf import settings
from django.urls import reverse
from django.utils import timezone

from curriculum.wording import clock, short_date
from kitchen.lessons.models import Lesson
from kitchen.lessons.papers.force import Issue
from kitchen.lessons.papers.models import Print
from kitchen.lessons.papers.ready import Ready
from kitchen.lessons.papers.words import of_words
from kitchen.stores import queries
from kitchen.stores.models import KitSet, Requisition
from kitchen.stores.paper import issue_sheet, kit_labels
from kitchen.stores.printing import issue_foods, kit_label, whose
from kitchen.stores.prints.paper import requisition_sheet
from kitchen.stores.prints.said import issue_sheet_parts, label_parts, requisition_parts
from kitchen.stores.requisitions.difference import totals
from kitchen.stores.requisitions.queries import asked_of, requisition_of, sheet_rows
from kitchen.stores.trays import Tray
from kitchen.stores.weighout.cards.queries import cards_of

Paper = Print.Paper


def labels_ready(kit_set: KitSet, trays: Collection[Tray]) -> Ready:
    """The labels of a kit set; each says the set that it is of."""
    lesson = kit_set.lesson
    cards = cards_of(kit_set, trays)
    of = of_words("labels", kit_set.number, timezone.localtime(kit_set.at))
    when = f"{short_date(lesson.on)}, {clock(lesson.starts)}"
    where = f"{lesson.group.code}, {lesson.room.name}. {of[:1].upper()}{of[1:]}"
    labels = {
        tray.label: kit_label(
            tray,
            number,
            len(trays),
            when=when,
            where=where,
            link=_page_of(lesson, cards[tray.code].bench),
            card=cards[tray.code],
        )
        for number, tray in enumerate(trays, start=1)
    }

    def draw(parts: Collection[str]) -> bytes:
        chosen = [label for part, label in labels.items() if part in parts]
        facts = f"{lesson.group.code}, {when}. {of[:1].upper()}{of[1:]}."
        return kit_labels(chosen, title=f"Kit labels: {lesson.title}", facts=facts)

    cold = {code: card.cold_until for code, card in cards.items()}
    parts = label_parts(trays, _when(lesson), cold)
    return Ready(Issue(Paper.LABELS, kit_set.number, kit_set.at, parts), draw)


def issue_sheet_ready(kit_set: KitSet, trays: Collection[Tray]) -> Ready:
    """The issue sheet of a kit set."""
    lesson = kit_set.lesson

    def draw(parts: Collection[str]) -> bytes:
        place = f"{lesson.group.code}, {lesson.room.name}, {short_date(lesson.on)}, {clock(lesson.starts)}."
        of = of_words("issue_sheet", kit_set.number, timezone.localtime(kit_set.at))
        return issue_sheet(
            title=f"Issue sheet: {lesson.title}",
            facts=f"{place} {of[:1].upper()}{of[1:]}.",
            plates=[tray.label for tray in trays],
            foods=issue_foods(trays),
            names=whose(trays),
            shortages=queries.kits_page(lesson).shortages,
        )

    parts = issue_sheet_parts(tuple(trays), _when(lesson))
    return Ready(Issue(Paper.ISSUE_SHEET, kit_set.number, kit_set.at, parts), draw)


def requisition_ready(lesson: Lesson, row: Requisition) -> Ready:
    """The sheet of a requisition that stands."""

    def draw(parts: Collection[str]) -> bytes:
        of = of_words("requisition", row.number, timezone.localtime(row.submitted_at))
        return requisition_sheet(
            title=f"Requisition: {lesson.title}",
            facts=f"{lesson.group.code}, {short_date(lesson.on)}, {clock(lesson.starts)}. "
            f"{of[:1].upper()}{of[1:]}, {row.get_state_display()}.",
            rows=sheet_rows(row),
            people=_people(row),
        )

    parts = requisition_parts(totals(asked_of(row)), row.state, _when(lesson))
    return Ready(Issue(Paper.REQUISITION, row.number, row.submitted_at, parts), draw)


def stores_papers(lesson: Lesson) -> tuple[Ready, ...]:
    """Every paper of the stores that a lesson has now."""
    found = []
    row, kit_set = requisition_of(lesson), queries.standing_kits(lesson)
    if row is not None:
        found.append(requisition_ready(lesson, row))
    if kit_set is not None:
        kit_set.lesson = lesson
        trays = queries.trays_of(kit_set)
        found += [labels_ready(kit_set, trays), issue_sheet_ready(kit_set, trays)]
    return tuple(found)


def _page_of(lesson: Lesson, bench: str) -> str:
    """The address behind a label's code: the bench on the day, or the kits where nothing runs by a plan."""
    if bench:
        page = reverse("timeplan:day_bench", kwargs={"lesson": lesson.code, "bench": bench})
    else:
        page = reverse("stores:kits", kwargs={"lesson": lesson.code})
    return settings.SITE_ADDRESS + page


def _people(row: Requisition) -> str:
    if row.approved_by is None:
        return f"Submitted by {row.by.printed_name}."
    return f"Submitted by {row.by.printed_name}, approved by {row.approved_by.printed_name}."


def _when(lesson: Lesson) -> tuple[str, ...]:
    return (lesson.on.isoformat(), lesson.starts.isoformat("minutes"), lesson.room.name, lesson.group.code)
