"""The papers of a recall: a sheet of whom to ask, and a label for each lot of which something is left.

Words arrive as they are printed; both papers are made from what the page shows.
"""

from curriculum.blocks import Sheet
from curriculum.lettering import strong
from curriculum.wording import counted, listed
from kitchen.stores.recall.page import DUTY, LessonRow, LotRow, Recall


def contact_sheet(recall: Recall) -> bytes:
    """Lots, then every lesson with its benches and learners."""
    sheet = Sheet(f"Recall of {listed(recall.codes)}", size=11)
    lessons, names = counted(len(recall.lessons), "lesson"), counted(recall.learners, "place", "places")
    sheet.head("Recall: whom to ask", f"Lot {listed(recall.codes)}. {lessons}, {names} of learners.")
    if not recall.whole:
        sheet.paragraph("Only the lessons of one lecturer stand here. The stores have the whole sheet.")
    sheet.rows(
        [8, 0, 13, 7],
        [[strong(row.code), row.food, _origin(row), strong(row.left)] for row in recall.lots],
        head=["Lot", "Food", "From", "Left"],
        align="lllr",
    )
    for lesson in recall.lessons:
        _lesson(sheet, lesson)
    sheet.caution("Who decides", [DUTY], "Learners’ health data does not stand here and is not asked for.")
    return sheet.finish()


def _origin(row: LotRow) -> str:
    if row.out_of:
        return f"Made of {listed(row.out_of)}"
    batch = f", batch {row.batch}" if row.batch else ""
    return f"{row.supplier or 'Supplier not known'}{batch}"


def _lesson(sheet: Sheet, lesson: LessonRow) -> None:
    sheet.heading(f"{lesson.title}, {lesson.group}", small=True)
    ask = f"Ask {listed(lesson.ask)}. By the booking the dish was to be {lesson.became}."
    shared = f" Shared by every bench: {'; '.join(lesson.shared)}." if lesson.shared else ""
    sheet.paragraph(f"{lesson.when}, {lesson.room}. {ask}{shared}")
    rows = [
        [
            strong(bench.bench),
            "\n".join(bench.learners) or "Nobody is placed.",
            "\n".join([*(bench.had or ("Shared kits.",)), *([bench.went] if bench.went else [])]),
        ]
        for bench in lesson.benches
    ]
    if rows:
        sheet.rows([6, 0, 17], rows, head=["Bench", "Learners", "Had, and what became of it"])


def quarantine_labels(recall: Recall) -> bytes:
    """One page a lot of which something is left; a sentence when nothing is."""
    sheet = Sheet("Labels: do not use", size=14)
    for number, row in enumerate(recall.left):
        if number:
            sheet.new_page()
        sheet.head("Do not use", f"{row.food}, lot {row.code}")
        sheet.paragraph(strong(f"Lot {row.code}: {row.left} by the book"), size=26)
        sheet.paragraph(f"{_origin(row)}. {row.dated[0].upper()}{row.dated[1:]}. Stored: {row.where}.")
        sheet.paragraph(f"Held: {row.held}." if row.held else "This lot is not held in the book yet.")
        sheet.paragraph("Keep apart, keep shut, do not throw away before the college’s procedure says so.")
        sheet.paragraph("Put here by: ........................   Date and time: ........................")
    if not recall.left:
        sheet.head("Nothing is left", f"The book has nothing on hand of {listed(recall.codes)}.")
    return sheet.finish()
