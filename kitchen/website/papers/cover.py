"""The first page of what is printed again: what it throws away, and what follows.

Words arrive as they are printed.
"""

from collections.abc import Sequence

from curriculum.blocks import Sheet
from curriculum.lettering import TICK, Words, joined, strong


def cover(*, title: str, facts: str, void: Sequence[tuple[str, str]], follows: Sequence[str]) -> bytes:
    """``void`` are what to throw away and why; ``follows`` the papers behind this page."""
    sheet = Sheet(f"Printed again: {title}")
    sheet.head(f"Printed again: {title}", facts)
    sheet.heading("Throw away")
    rows: list[list[Words]] = [
        [TICK, joined(strong(what[:1].upper() + what[1:]), f"\n{why}")] for what, why in void
    ]
    if rows:
        sheet.rows([2, 0], rows)
    else:
        sheet.paragraph("Nothing that was printed before is void.")
    sheet.heading("What follows")
    for each in follows:
        sheet.paragraph(each, after=2)
    return sheet.finish()
