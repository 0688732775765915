"""Paper of the stores: kit labels, eight to a page, and the issue sheet of a lesson.

For the stores' pages. Words arrive as they are printed; nothing is reckoned or rounded here.
A label is 93 x 63 mm; a kit with more lines than a label holds goes on over a second one
("1 of 2"). Allergens stand in words inside the list, bold and ruled.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from curriculum.blocks import Sheet
from curriculum.lettering import TICK, Words, allergen, joined, listed, sign, strong
from curriculum.paper import LEADING, MM

WIDE, HIGH, INSET = 93 * MM, 63 * MM, 8.0
#: Eight labels begin under the head of the sheet.
FIRST = 12 * MM + 21 * MM
SMALL, LINE, PLATE, QR_SIDE = 7.6, 8.6, 34.0, 42.0
AMOUNT_WIDTH, COLUMN_GAP = 36.0, 10.0


@dataclass(frozen=True, slots=True)
class LabelLine:
    """One line of a label: "30 g", "Unsalted butter", allergens as printed, what it is for."""

    amount: str
    words: str
    contains: tuple[str, ...] = ()
    note: str = ""
    component: str = ""


@dataclass(frozen=True, slots=True)
class KitLabel:
    """One kit as its label says it.

    ``plate`` is a bench number or S, D, A; ``number`` of ``of`` kits; ``when`` such as
    "16 Feb, 09:00"; ``names`` as they are printed, or "Spare". ``free_from`` is the whole
    sentence of the box, "FREE FROM MILK, Silas". ``cold_until`` is a time or empty. ``link``
    is the address behind the QR code, ``code`` stands under it.
    """

    plate: str
    title: str
    where: str
    number: int
    of: int
    when: str
    names: tuple[str, ...]
    lines: tuple[LabelLine, ...]
    free_from: str = ""
    may_contain: str = ""
    lots: tuple[str, ...] = ()
    cold_until: str = ""
    blocked_why: str = ""
    link: str = ""
    code: str = ""


@dataclass(frozen=True, slots=True)
class IssueFood:
    """One food of a lesson: what each kit gets of it (empty for nothing), the sum, the lots."""

    words: str
    contains: tuple[str, ...]
    amounts: tuple[str, ...]
    total: str
    lots: tuple[str, ...] = ()


def food_words(words: str, contains: Iterable[str], note: str = "") -> Words:
    """A food with its allergens emphasised in brackets behind it."""
    inks = [allergen(each) for each in contains]
    named = joined(words, " (", listed(inks), ")") if inks else (words,)
    return joined(named, f", {note}") if note else named


# Labels


def kit_labels(labels: Sequence[KitLabel], *, title: str, facts: str = "") -> bytes:
    """The labels of a lesson as a PDF, in the order given."""
    sheet = Sheet(title)
    pieces = [piece for label in labels for piece in _pieces(sheet, label)]
    for index, (label, lines, part) in enumerate(pieces):
        slot = index % 8
        if slot == 0:
            _page(sheet, title, facts, first=index == 0)
        _label(sheet, sheet.left + slot % 2 * WIDE, FIRST + slot // 2 * HIGH, label, lines, part)
    return sheet.finish()


def _page(sheet: Sheet, title: str, facts: str, *, first: bool) -> None:
    if not first:
        sheet.new_page()
    size = 15.0
    while sheet.height_of(sign(title), sheet.width, size) > size * LEADING and size > 7:
        size *= 0.9
    low = sheet.text(sheet.left, sheet.top, sign(title), width=sheet.width, size=size)
    sheet.text(sheet.left, low, f"{facts} Cut along the dots.".strip(), width=sheet.width, size=9.5)


Entry = tuple[LabelLine | None, str, float]
Columns = tuple[tuple[Entry, ...], ...]


def _pieces(sheet: Sheet, label: KitLabel) -> list[tuple[KitLabel, Columns, str]]:
    """The label once, or as often as its lines need."""
    entries = _entries(sheet, label)
    room = HIGH - INSET * 1.6 - _head_height(sheet, label) - _foot_height(sheet, label)
    filled = _fill(entries, room)
    if len(filled) <= 2:
        filled = _even(entries, room)
    pairs = [tuple(filled[at : at + 2]) for at in range(0, len(filled), 2)] or [()]
    many = len(pairs) > 1
    return [
        (label, pair, f"{number} of {len(pairs)}" if many else "")
        for number, pair in enumerate(pairs, start=1)
    ]


def _entries(sheet: Sheet, label: KitLabel) -> list[Entry]:
    """Names of components (where there are several) and lines, each with its height."""
    made: list[Entry] = []
    several = len({line.component for line in label.lines}) > 1
    for component, lines in groupby(label.lines, key=lambda line: line.component):
        if several and component:
            made.append((None, component, sheet.height_of(strong(component), _column(), SMALL) + 2))
        made += [(line, "", _line_height(sheet, line)) for line in lines]
    return made


def _column() -> float:
    return (WIDE - 2 * INSET - COLUMN_GAP) / 2


def _line_height(sheet: Sheet, line: LabelLine) -> float:
    words = food_words(line.words, line.contains, line.note)
    return (
        max(
            sheet.height_of(words, _column() - AMOUNT_WIDTH - 4, LINE),
            sheet.height_of(strong(line.amount), AMOUNT_WIDTH, LINE),
        )
        + 0.8
    )


def _fill(entries: Sequence[Entry], room: float) -> list[tuple[Entry, ...]]:
    """Columns no higher than the room; a component's name never stands last."""
    columns: list[list[Entry]] = [[]]
    for number, entry in enumerate(entries):
        below = entries[number + 1][2] if entry[0] is None and number + 1 < len(entries) else 0.0
        used = sum(each[2] for each in columns[-1])
        if columns[-1] and used + entry[2] + below > room:
            columns.append([])
        columns[-1].append(entry)
    return [tuple(column) for column in columns]


def _even(entries: Sequence[Entry], room: float) -> list[tuple[Entry, ...]]:
    """Two columns about as high as each other."""
    least = sum(entry[2] for entry in entries) / 2
    while least < room and len(_fill(entries, least)) > 2:
        least += 2
    return _fill(entries, min(least, room))


def _names_size(sheet: Sheet, label: KitLabel) -> float:
    """As large as leaves room for weights: no name is ever cut."""
    size = 9.0
    while sheet.height_of(_names(label), WIDE - 2 * INSET, size) > 38 and size > 5:
        size -= 0.5
    return size


def _names(label: KitLabel) -> Words:
    return strong(", ".join(label.names))


def _head_height(sheet: Sheet, label: KitLabel) -> float:
    height = max(QR_SIDE if label.link else PLATE, _title_height(sheet, label)) + 2
    height += sheet.height_of(_names(label), WIDE - 2 * INSET, _names_size(sheet, label)) + 3
    if label.free_from:
        height += (
            sheet.height_of(strong(label.free_from), WIDE - 2 * INSET - 2.1 * LINE, LINE) + LINE * 0.55 + 4
        )
    if label.blocked_why:
        height += sheet.height_of(_blocked(label), WIDE - 2 * INSET, SMALL) + 2
    return height


def _title_width(label: KitLabel) -> float:
    return WIDE - 2 * INSET - PLATE - 8 - (QR_SIDE if label.link else 0)


def _title_height(sheet: Sheet, label: KitLabel) -> float:
    width = _title_width(label)
    return sheet.height_of(sign(label.title), width, 10.5) + sheet.height_of(_facts(label), width, SMALL)


def _facts(label: KitLabel) -> str:
    return f"Kit {label.number} of {label.of}. {label.when}\n{label.where}"


def _blocked(label: KitLabel) -> Words:
    return strong(f"NOT TO BE ISSUED. {label.blocked_why}")


def _foot(label: KitLabel) -> list[Words]:
    said: list[str] = []
    if label.lots:
        said.append(f"Lots {', '.join(label.lots)}.")
    if label.cold_until:
        said.append(f"Cold until {label.cold_until}.")
    rows: list[Words] = [" ".join(said)] if said else []
    if label.may_contain:
        rows.append(("May contain ", strong(label.may_contain), "."))
    return [*rows, "Out of the cold ________  Weighed ________  Second person ________"]


def _foot_height(sheet: Sheet, label: KitLabel) -> float:
    return sum(sheet.height_of(row, WIDE - 2 * INSET, SMALL) for row in _foot(label)) + 5


def _label(sheet: Sheet, x: float, y: float, label: KitLabel, columns: Columns, part: str) -> None:
    _cut_lines(sheet, x, y)
    left, width = x + INSET, WIDE - 2 * INSET
    low = _draw_head(sheet, left, y + INSET * 0.8, label, part)
    sheet.rule(left, low, left + width, thick=0.5)
    for number, column in enumerate(columns):
        _draw_column(sheet, left + number * (_column() + COLUMN_GAP), low + 2, column)
    foot = y + HIGH - INSET * 0.6 - _foot_height(sheet, label) + 3
    sheet.rule(left, foot - 1, left + width, thick=0.5)
    for row in _foot(label):
        foot = sheet.text(left, foot, row, width=width, size=SMALL)


def _cut_lines(sheet: Sheet, x: float, y: float) -> None:
    for edge in (y, y + HIGH):
        sheet.rule(x, edge, x + WIDE, thick=0.4, dotted=True)
    for edge in (x, x + WIDE):
        sheet.upright(edge, y, y + HIGH, thick=0.4, dotted=True)


def _draw_head(sheet: Sheet, x: float, y: float, label: KitLabel, part: str) -> float:
    width, text_x = WIDE - 2 * INSET, x + PLATE + 8
    sheet.plate(x, y, label.plate, PLATE)
    low = sheet.text(text_x, y - 2, sign(label.title), width=_title_width(label), size=10.5)
    facts = _facts(label) + (f", label {part}" if part else "")
    sheet.text(text_x, low, facts, width=_title_width(label), size=SMALL)
    if label.link:
        sheet.qr(x + width - QR_SIDE + 4, y - 5, QR_SIDE, label.link)
        sheet.text(
            x + width - QR_SIDE, y + QR_SIDE - 11, label.code, width=QR_SIDE + 2, size=6.6, align="right"
        )
    y += max(QR_SIDE if label.link else PLATE, _title_height(sheet, label)) + 2
    y = sheet.text(x, y, _names(label), width=width, size=_names_size(sheet, label)) + 3
    if label.free_from:
        y = sheet.free_from(x, y, label.free_from, width=width, size=LINE) + 4
    if label.blocked_why:
        y = sheet.text(x, y, _blocked(label), width=width, size=SMALL) + 2
    return y


def _draw_column(sheet: Sheet, x: float, y: float, column: Iterable[Entry]) -> None:
    for line, component, height in column:
        if line is None:
            sheet.text(x, y + 2, strong(component), width=_column(), size=SMALL)
        else:
            sheet.text(x, y, strong(line.amount), width=AMOUNT_WIDTH, size=LINE, align="right")
            words = food_words(line.words, line.contains, line.note)
            sheet.text(x + AMOUNT_WIDTH + 4, y, words, width=_column() - AMOUNT_WIDTH - 4, size=LINE)
        y += height


# The issue sheet

#: So many kits stand side by side on one table.
KITS_ACROSS = 14


def issue_sheet(
    *,
    title: str,
    facts: str,
    plates: Sequence[str],
    foods: Sequence[IssueFood],
    names: Sequence[tuple[str, str]] = (),
    shortages: Sequence[str] = (),
) -> bytes:
    """Each food across the kits of a lesson, with its sum and lots, as a PDF.

    ``plates`` are the kits in order and each food has one amount for each; ``names`` are
    (plate, whose kit) for the list below; ``shortages`` full sentences, first on the sheet.
    """
    sheet = Sheet(title, size=9, landscape=True, foot=title)
    sheet.head(title, facts)
    for words in shortages:
        sheet.paragraph(strong(words), after=2)
    for start in range(0, len(plates), KITS_ACROSS):
        _issue_table(sheet, plates, foods, slice(start, start + KITS_ACROSS))
    if names:
        sheet.heading("Whose kit")
        sheet.rows([3, 0], [[strong(plate), words] for plate, words in names])
    sheet.gap(14)
    sheet.paragraph("Issued by ______________________  Second person ______________________  Time __________")
    return sheet.finish()


def _issue_table(sheet: Sheet, plates: Sequence[str], foods: Sequence[IssueFood], part: slice) -> None:
    across = plates[part]
    last = part.stop >= len(plates)
    widths = [0, *([3.3] * len(across)), *([4.6, 8, 1.4] if last else [])]
    rows = []
    for food in foods:
        row: list[Words] = [food_words(food.words, food.contains), *food.amounts[part]]
        if last:
            row += [strong(food.total), "\n".join(food.lots), TICK]
        rows.append(row)
    head = ["Food", *across, *(["Together", "Lots", ""] if last else [])]
    sheet.rows(widths, rows, head=head, align="l" + "r" * len(across) + ("rll" if last else ""))
    sheet.gap(8)
