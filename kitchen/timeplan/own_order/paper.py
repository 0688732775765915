"""Paper of a learner's own order of work: the trade's three columns on A4, in black."""

from curriculum.blocks import Sheet
from curriculum.lettering import TICK, Words, strong
from curriculum.paper import LARGE, NORMAL
from kitchen.timeplan.own_order.sheet import OrderLine, OrderSheet
from kitchen.timeplan.paper import WATCH


def order_paper(
    order: OrderSheet, title: str, facts: str, *, plate: str, free_from: str = "", large: bool = False
) -> bytes:
    """The order as PDF: time, task, special points, a box to tick, and what to do if something goes wrong."""
    size = LARGE if large else NORMAL
    sheet = Sheet(f"Order of work: {title}", size=size, foot=f"{title}, own order of work")
    sheet.head(f"Order of work: {title}", facts, plate=plate, free_from=free_from)
    rows = [_row(line, large) for line in order.lines]
    if large:
        sheet.rows([4, 0, 2], rows, head=["Time", "Task and special points", ""], align="llm")
    else:
        sheet.rows([5, 0, 18, 2], rows, head=["Time", "Task", "Special points", ""], align="lllm")
    sheet.heading("If something goes wrong")
    sheet.paragraph(order.contingency or "Nothing is written yet.")
    sheet.paragraph(WATCH)
    return sheet.finish()


def _row(line: OrderLine, large: bool) -> list[Words]:
    points = "\n".join(line.points)
    task = (strong(f"{line.head}. "), line.task)
    if large:
        under = (*task, f"\n{points}") if points else task
        return [line.at or "no time", under, TICK]
    return [line.at or "no time", task, points, TICK]
