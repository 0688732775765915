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

WIDE, HIGH, INSET = 93 * MM, 63 * MM, 7.0
#: Eight labels begin under the head of the sheet.
FIRST = 12 * MM + 21 * MM
#: Where somebody writes a time or initials by hand.
LINE = "________"
SMALL, NOTE, BOX, PLATE, QR_SIDE = 7.4, 6.6, 8.6, 32.0, 42.0
#: Letters of the lines: the largest that needs one label, or two; else the largest that fits at all.
SIZES = (8.6, 8.2, 7.8, 7.4)
SIZES_OF_MANY = (8.6, 7.8, 7.0, 6.2, 5.4)
COLUMN_GAP = 8.0
COLUMN = (WIDE - 2 * INSET - COLUMN_GAP) / 2


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
    sentence of the box, "FREE FROM MILK, Silas". ``cold_until`` is a time or empty, ``storage`` how
    it is kept until then; ``weighed`` and ``second`` are initials, with a line to write on where
    they are empty. ``link`` is the address behind the QR code, ``code`` stands under it.
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
    storage: str = ""
    weighed: str = ""
    second: str = ""
    lid: str = ""
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
    for index, piece in enumerate(pieces):
        slot = index % 8
        if slot == 0:
            _page(sheet, title, facts, first=index == 0)
        _label(sheet, sheet.left + slot % 2 * WIDE, FIRST + slot // 2 * HIGH, piece)
    return sheet.finish()


def _page(sheet: Sheet, title: str, facts: str, *, first: bool) -> None:
    if not first:
        sheet.new_page()
    size = 15.0
    while sheet.height_of(sign(title), sheet.width, size) > size * LEADING and size > 7:
        size *= 0.9
    low = sheet.text(sheet.left, sheet.top, sign(title), width=sheet.width, size=size)
    sheet.text(sheet.left, low, f"{facts} Cut along the dots.".strip(), width=sheet.width, size=9.5)


@dataclass(frozen=True, slots=True)
class _Entry:
    """A line of a label, or the name of its component, with its height."""

    line: LabelLine | None
    component: str
    height: float


#: The columns of one label, the size of its letters, and "1 of 2" where the kit needs two.
Piece = tuple[KitLabel, tuple[tuple[_Entry, ...], ...], float, str]


def _pieces(sheet: Sheet, label: KitLabel) -> list[Piece]:
    """The label once, or as often as its lines need."""
    head = _draw_head(Sheet(""), 0, 0, label, "1 of 2")
    room = HIGH - INSET * 1.4 - head - 2 - _foot_height(sheet, label)
    columns, size = _columns(sheet, label, room)
    pairs = [tuple(columns[at : at + 2]) for at in range(0, len(columns), 2)] or [()]
    many = len(pairs) > 1
    return [
        (label, pair, size, f"{number} of {len(pairs)}" if many else "")
        for number, pair in enumerate(pairs, start=1)
    ]


def _columns(sheet: Sheet, label: KitLabel, room: float) -> tuple[list[tuple[_Entry, ...]], float]:
    """Columns no higher than the room, and the size of their letters."""
    for most, fill in ((2, _even), (4, _fill)):
        for size in SIZES:
            filled = fill(_entries(sheet, label, size), room)
            if len(filled) <= most and _highest(filled) <= room:
                return filled, size
    tried = [(_fill(_entries(sheet, label, size), room), size) for size in SIZES]
    fitting = [each for each in tried if _highest(each[0]) <= room]
    if fitting:
        return min(fitting, key=lambda each: len(each[0]))
    for size in SIZES_OF_MANY:
        filled = _fill(_entries(sheet, label, size), room)
        if _highest(filled) <= room:
            break
    return filled, size


def _highest(columns: Sequence[Sequence[_Entry]]) -> float:
    return max((sum(entry.height for entry in column) for column in columns), default=0.0)


def _entries(sheet: Sheet, label: KitLabel, size: float) -> list[_Entry]:
    """Names of components (where there are several) and lines, each with its height."""
    made: list[_Entry] = []
    several = len({line.component for line in label.lines}) > 1
    for component, lines in groupby(label.lines, key=lambda line: line.component):
        if several and component:
            made.append(_Entry(None, component, sheet.height_of(strong(component), COLUMN, SMALL) + 1))
        made += [_Entry(line, "", _line_height(sheet, line, size)) for line in lines]
    return made


def _line_height(sheet: Sheet, line: LabelLine, size: float) -> float:
    amount = _amount_width(size)
    words = sheet.height_of(food_words(line.words, line.contains), COLUMN - amount - 4, size)
    note = sheet.height_of(line.note, COLUMN - 8, NOTE) if line.note else 0.0
    return max(words, sheet.height_of(strong(line.amount), amount, size)) + note + 0.8


def _amount_width(size: float) -> float:
    return size * 4.1


def _fill(entries: Sequence[_Entry], room: float) -> list[tuple[_Entry, ...]]:
    """Columns no higher than the room; a component's name never stands last."""
    columns: list[list[_Entry]] = [[]]
    for number, entry in enumerate(entries):
        is_name = entry.line is None and number + 1 < len(entries)
        below = entries[number + 1].height if is_name else 0.0
        used = sum(each.height for each in columns[-1])
        if columns[-1] and used + entry.height + below > room:
            columns.append([])
        columns[-1].append(entry)
    return [tuple(column) for column in columns]


def _even(entries: Sequence[_Entry], room: float) -> list[tuple[_Entry, ...]]:
    """Two columns about as high as each other, where two are enough."""
    least = sum(entry.height for entry in entries) / 2
    while least < room and len(_fill(entries, least)) > 2:
        least += 2
    return _fill(entries, min(least, room))


def _names(label: KitLabel) -> Words:
    return strong(", ".join(label.names))


def _title_width(label: KitLabel) -> float:
    return WIDE - 2 * INSET - PLATE - 8 - (QR_SIDE if label.link else 0)


def _facts(label: KitLabel, part: str) -> str:
    label_part = f". Label {part}" if part else ""
    return f"Kit {label.number} of {label.of}. {label.when}{label_part}\n{label.where}"


def _foot(label: KitLabel) -> list[Words]:
    said: list[Words] = []
    if label.lots:
        said.append(f"Lots {', '.join(label.lots)}. ")
    if label.storage:
        said.append(f"{label.storage}. ")
    if label.cold_until:
        said.append(("Cold until ", strong(label.cold_until), ". "))
    if label.lid:
        said.append(f"Lid on {label.lid}. ")
    if label.may_contain:
        said.append(("May contain ", strong(label.may_contain), "."))
    signed = f"Weighed {label.weighed or LINE}  Second person {label.second or LINE}"
    sign_off = f"Out of the cold {LINE}  {signed}"
    return [*([joined(*said)] if said else []), sign_off]


def _foot_height(sheet: Sheet, label: KitLabel) -> float:
    return sum(sheet.height_of(row, WIDE - 2 * INSET, SMALL) for row in _foot(label)) + 5


def _label(sheet: Sheet, x: float, y: float, piece: Piece) -> None:
    label, columns, size, part = piece
    _cut_lines(sheet, x, y)
    left, width = x + INSET, WIDE - 2 * INSET
    low = _draw_head(sheet, left, y + INSET * 0.8, label, part)
    sheet.rule(left, low, left + width, thick=0.5)
    for number, column in enumerate(columns):
        _draw_column(sheet, left + number * (COLUMN + COLUMN_GAP), low + 2, column, size)
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
    """Plate, title, facts, names, free-from box; gives back the lower edge."""
    width, beside = WIDE - 2 * INSET, _title_width(label)
    sheet.plate(x, y, label.plate, PLATE)
    low = sheet.text(x + PLATE + 8, y - 2.5, sign(label.title), width=beside, size=10.5)
    low = sheet.text(x + PLATE + 8, low, _facts(label, part), width=beside, size=SMALL)
    fits = len(sheet.lines_of(_names(label), beside, 9)) == 1
    if fits:
        low = sheet.text(x + PLATE + 8, low, _names(label), width=beside, size=9)
    y = max(y + (_draw_qr(sheet, x + width, y, label) if label.link else PLATE), low) + 2
    if not fits:
        y = sheet.text(x, y, _names(label), width=width, size=_names_size(sheet, label)) + 2
    if label.free_from:
        y = sheet.free_from(x, y, label.free_from, width=width, size=BOX) + 4
    if label.blocked_why:
        blocked = strong(f"NOT TO BE ISSUED. {label.blocked_why}")
        y = sheet.text(x, y, blocked, width=width, size=SMALL) + 2
    return y


def _draw_qr(sheet: Sheet, right: float, y: float, label: KitLabel) -> float:
    """The code that a tablet reads, its letters under it; gives back the height."""
    sheet.qr(right - QR_SIDE + 4, y - 5, QR_SIDE, label.link)
    sheet.text(right - QR_SIDE + 4, y + QR_SIDE - 9, label.code, width=QR_SIDE, size=6.4, align="middle")
    return QR_SIDE


def _names_size(sheet: Sheet, label: KitLabel) -> float:
    """As large as leaves room for weights: no name is ever cut."""
    size = 9.0
    while sheet.height_of(_names(label), WIDE - 2 * INSET, size) > 38 and size > 5:
        size -= 0.5
    return size


def _draw_column(sheet: Sheet, x: float, y: float, column: Iterable[_Entry], size: float) -> None:
    amount = _amount_width(size)
    for entry in column:
        line = entry.line
        if line is None:
            sheet.text(x, y + 1, strong(entry.component), width=COLUMN, size=SMALL)
        else:
            words = food_words(line.words, line.contains)
            low = sheet.text(x, y, strong(line.amount), width=amount, size=size, align="right")
            low = max(low, sheet.text(x + amount + 4, y, words, width=COLUMN - amount - 4, size=size))
            if line.note:
                sheet.text(x + 8, low, line.note, width=COLUMN - 8, size=NOTE)
        y += entry.height


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
