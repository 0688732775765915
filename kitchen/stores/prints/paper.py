"""The requisition sheet: every food of a requisition, what it is for, a box to tick.

Words arrive as they are printed; nothing is reckoned or rounded here.
"""

from collections.abc import Sequence

from curriculum.blocks import Sheet
from curriculum.lettering import TICK, Words, joined, strong


def requisition_sheet(*, title: str, facts: str, rows: Sequence[tuple[str, str, str]], people: str) -> bytes:
    """``rows`` are food, amount and what it is for; ``people`` who submitted and approved it."""
    sheet = Sheet(title, foot=title)
    sheet.head(title, facts)
    lines: list[list[Words]] = [
        [strong(amount), joined(food, f"\n{why}") if why else food, TICK] for food, amount, why in rows
    ]
    sheet.rows([8, 0, 2], lines, head=["Asked for", "Food, and what it is for", ""], align="rll")
    sheet.gap(8)
    sheet.paragraph(people)
    sheet.paragraph(
        "Eggs and other whole pieces are pooled over the class; weights are the sums of the kits."
    )
    return sheet.finish()
