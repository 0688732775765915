"""The sheet for counting small equipment out and in by hand, knives first.

For the door of the room. What is counted already is printed; what is not is a line to write on.
"""

from collections.abc import Sequence

from curriculum.blocks import Sheet
from curriculum.lettering import strong
from kitchen.stores.tools.counting import Counts, Handed
from kitchen.stores.tools.kinds import GROUPS, KNIVES, group_of, name_of, order_of
from kitchen.stores.tools.standing import Standing

BLANK = "........"


def count_sheet(title: str, facts: str, things: Sequence[Standing], counts: Counts) -> bytes:
    """Each thing with what is needed, where it comes from, and room for out and in."""
    sheet = Sheet(f"Small equipment: {title}", size=11)
    sheet.head("Small equipment, out and in", f"{title}. {facts}")
    needed = {each.item: each for each in things}
    items = sorted({*needed, *(line.item for line in counts.lines)}, key=order_of)
    if any(group_of(item) == KNIVES for item in items):
        sheet.paragraph(strong("Count the knives before anybody leaves the room."))
    for group in GROUPS:
        rows = [_row(item, needed.get(item), counts) for item in items if group_of(item) == group]
        if rows:
            sheet.heading(group.title, small=True)
            sheet.rows([0, 5, 12, 5, 5], rows, head=["Thing", "Needed", "From", "Out", "In"], align="lrlrr")
    with_bench = [line for line in counts.lines if line.bench]
    if with_bench:
        sheet.heading("Bench by bench", small=True)
        sheet.rows(
            [5, 0, 0, 4, 5],
            [_bench_row(line) for line in with_bench],
            head=["Bench", "Thing", "Who", "Out", "In"],
            align="lllrr",
        )
    sheet.gap(8)
    for each in things:
        if each.missing:
            sheet.paragraph(each.words)
    sheet.paragraph("Counted out by: ................................")
    sheet.paragraph("Counted in by: ................................")
    return sheet.finish()


def _row(item: str, each: Standing | None, counts: Counts) -> list:
    lines = [line for line in counts.lines if line.item == item]
    out, back = sum(line.out for line in lines), sum(line.back for line in lines)
    origins = dict.fromkeys(line.origin for line in lines)
    return [
        strong(_capital(name_of(item))),
        str(each.needed) if each else "",
        _from(each) if each else "\n".join(origins),
        str(out) if lines else BLANK,
        str(back) if back else BLANK,
    ]


def _from(each: Standing) -> str:
    """The room as far as it has any, then who lends."""
    here = min(each.here, each.needed - sum(loan.count for loan in each.lent))
    room = [f"{here} from the room"] if here > 0 else []
    return "\n".join([*room, *(f"{loan.count} from {loan.name}" for loan in each.lent)])


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _bench_row(line: Handed) -> list:
    who = "\n".join(line.names) or "Nobody is placed."
    return [
        strong(line.bench),
        _capital(line.name),
        who,
        str(line.out),
        str(line.back) if line.back else BLANK,
    ]
