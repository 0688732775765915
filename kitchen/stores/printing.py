"""From trays to paper: the words of kit labels and of the issue sheet.

For the views that answer with a PDF. Trays are as the pages show them; nothing is reckoned
here but who stands in which column.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from curriculum import wording
from kitchen.stores.paper import IssueFood, KitLabel, LabelLine
from kitchen.stores.trays import Tray, TrayLine


@dataclass(frozen=True, slots=True)
class CardFacts:
    """What a label says beside its tray: the clock, how it is kept, and who weighed and looked.

    ``cold_until`` such as "09:10"; ``weighed`` and ``second`` are initials, ``lid`` says when it went
    on; all empty until they are known. ``bench`` is the bench whose page the code opens.
    """

    cold_until: str = ""
    storage: str = ""
    weighed: str = ""
    second: str = ""
    lid: str = ""
    bench: str = ""


def kit_label(
    tray: Tray,
    number: int,
    of: int,
    *,
    when: str,
    where: str,
    link: str,
    card: CardFacts | None = None,
) -> KitLabel:
    """One kit as its label says it; ``number`` of ``of``."""
    card = card or CardFacts()
    may = dict.fromkeys(kind for line in tray.lines for kind in line.may_contain)
    lots = dict.fromkeys(lot for line in tray.lines for lot in line.lot_codes)
    return KitLabel(
        plate=tray.label,
        title=tray.title,
        where=where,
        number=number,
        of=of,
        when=when,
        names=tray.cooks or (tray.name,),
        lines=tuple(_label_line(line) for line in tray.lines),
        free_from=tray.free_from_box,
        may_contain=wording.listed(may),
        lots=tuple(lots),
        cold_until=card.cold_until,
        storage=card.storage,
        weighed=card.weighed,
        second=card.second,
        lid=card.lid,
        blocked_why=tray.blocked_why,
        link=link,
        code=tray.code,
    )


def issue_foods(trays: Sequence[Tray]) -> tuple[IssueFood, ...]:
    """Each food across the trays, with its sum and its lots; the tap is left out."""
    lines: dict[str, list[TrayLine]] = {}
    for tray in trays:
        for line in tray.lines:
            if not line.from_tap:
                lines.setdefault(line.food, []).append(line)
    return tuple(_issue_food(code, found, trays) for code, found in lines.items())


def whose(trays: Sequence[Tray]) -> tuple[tuple[str, str], ...]:
    """(plate, whose kit) for the list under the table."""
    return tuple(
        (tray.label, ", ".join(part for part in (tray.name, tray.who, tray.free_from_words) if part))
        for tray in trays
    )


def _label_line(line: TrayLine) -> LabelLine:
    component = line.component[:1].upper() + line.component[1:]
    return LabelLine(line.amount, line.words, line.allergens, line.note, component)


def _issue_food(code: str, lines: list[TrayLine], trays: Sequence[Tray]) -> IssueFood:
    return IssueFood(
        words=lines[0].words,
        contains=lines[0].allergens,
        amounts=tuple(_sum([line for line in tray.lines if line.food == code]) for tray in trays),
        total=_sum(lines, unit=True),
        lots=tuple(dict.fromkeys(lot for line in lines for lot in line.lot_codes)),
    )


def _sum(lines: list[TrayLine], *, unit: bool = False) -> str:
    """The sum of some lines of one food: "160", with its unit "160 g" or "5 pieces"; empty for none."""
    if not lines:
        return ""
    if lines[0].pieces is not None:
        count = sum(line.pieces or 0 for line in lines)
        return wording.counted(count, "piece") if unit else wording.figure(count)
    milligrams = sum(line.milligrams for line in lines)
    return wording.amount(milligrams) if unit else wording.grams(milligrams)
