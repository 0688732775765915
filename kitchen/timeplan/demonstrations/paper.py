"""The demonstration on paper: the sheet, and a label for each stage tray.

For the lecturer at the front and the technician the day before. It takes any object with the
fields of ``queries.Written``: words already written, nothing left to reckon.
"""

from typing import Any

from curriculum.blocks import DocketLine, Sheet
from curriculum.lettering import Words, allergen, joined, listed, sign, strong
from curriculum.paper import MM
from kitchen.timeplan.demonstration_oven import OvenWords
from kitchen.timeplan.demonstration_trays import TrayWords
from kitchen.timeplan.demonstration_words import StageWords

#: A label is 93 x 63 mm, eight to a page, as the labels of kits are.
WIDE, HIGH, INSET, PLATE = 93 * MM, 63 * MM, 7.0, 32.0
FIRST = 12 * MM + 21 * MM


def demonstration_paper(written: Any) -> bytes:
    """The sheet as a PDF."""
    title = f"Demonstration: {written.title}"
    sheet = Sheet(title, foot=title)
    sheet.head(title, " ".join(filter(None, (written.facts, written.clock_words, written.summary))))
    if written.missed:
        sheet.paragraph(joined(strong("Not seen live: "), f"{written.missed}."))
    if written.remarks:
        sheet.heading("To think of")
        for remark in written.remarks:
            sheet.paragraph(remark, after=2)
    if written.trays:
        sheet.heading("Stage trays")
        sheet.docket([_tray(each) for each in written.trays], figure=4, points=13)
        sheet.gap(6)
        sheet.rows(
            [0, 8, 8],
            [[name, str(ahead), "one" if live else "none"] for name, ahead, live in written.batches],
            head=["Component", "Batches before", "On the table"],
            align="lrr",
        )
    sheet.heading("What you show")
    sheet.docket([_stage(each) for each in written.stages], figure=4, points=11)
    if written.ovens:
        sheet.heading("Ovens")
        sheet.docket([_oven(each) for each in written.ovens], figure=4, points=13)
    if written.cautions:
        source = "Source: the college’s own risk assessment; follow it and the local rules where they differ."
        sheet.caution("Cautions for this demonstration", written.cautions, source)
    return sheet.finish()


def tray_labels(written: Any) -> bytes:
    """A label for each stage tray as a PDF, eight to a page."""
    title = f"Tray labels: {written.title}"
    sheet = Sheet(title)
    for index, tray in enumerate(written.trays):
        slot = index % 8
        if slot == 0:
            if index:
                sheet.new_page()
            low = sheet.text(sheet.left, sheet.top, sign(title), width=sheet.width, size=15)
            sheet.text(sheet.left, low, f"{written.facts} Cut along the dots.", width=sheet.width, size=9.5)
        _label(sheet, sheet.left + slot % 2 * WIDE, FIRST + slot // 2 * HIGH, tray, written)
    if not written.trays:
        sheet.head(title, "Nothing is made before: there is no tray to label.")
    return sheet.finish()


def _label(sheet: Sheet, x: float, y: float, tray: TrayWords, written: Any) -> None:
    """One label: plate, dish, how far, when it leaves the cold, how long it keeps, allergens, who made it."""
    for edge in (y, y + HIGH):
        sheet.rule(x, edge, x + WIDE, thick=0.4, dotted=True)
    for edge in (x, x + WIDE):
        sheet.upright(edge, y, y + HIGH, thick=0.4, dotted=True)
    left, width, beside = x + INSET, WIDE - 2 * INSET, WIDE - 2 * INSET - PLATE - 8
    sheet.plate(left, y + INSET, tray.plate, PLATE)
    low = sheet.text(left + PLATE + 8, y + INSET - 2, sign(written.title), width=beside, size=10.5)
    low = sheet.text(left + PLATE + 8, low, strong(tray.title), width=beside, size=9.5)
    low = max(low, y + INSET + PLATE) + 3
    rows: list[Words] = [strong(tray.out), tray.use, tray.keeps]
    if tray.allergens:
        rows.append(joined("Contains ", listed([allergen(each) for each in tray.allergens]), "."))
    if tray.may_contain:
        rows.append(f"May contain {', '.join(tray.may_contain)}.")
    for row in rows:
        low = sheet.text(left, low, row, width=width, size=8.6) + 1
    room = y + HIGH - INSET - 12 - low
    size = next((each for each in (8.2, 7.4, 6.6) if sheet.height_of(tray.stands, width, each) <= room), 0)
    if size:
        sheet.text(left, low, tray.stands, width=width, size=size)
    sheet.text(
        left,
        y + HIGH - INSET - 9,
        "Made by ______________  Day and time ______________",
        width=width,
        size=7.4,
    )


def _tray(tray: TrayWords) -> DocketLine:
    words: list[Words] = [
        strong(f"{tray.title}: {tray.components}"),
        f"\n{tray.stands}\n{tray.use} {tray.when}",
    ]
    if tray.shared:
        words.append(f" {tray.shared}")
    return DocketLine(tray.plate, joined(*words), f"{tray.minutes}\xa0min\n{tray.out}\n{tray.keeps}")


def _oven(oven: OvenWords) -> DocketLine:
    return DocketLine(oven.clock, oven.words, strong(oven.oven) if oven.clash else oven.oven)


def _stage(stage: StageWords) -> DocketLine:
    parts: list[Words] = [strong(f"{stage.step}. {stage.words}")]
    if stage.cue:
        parts.append(joined("\n", strong("Wait for: "), stage.cue))
    if stage.points:
        parts.append(joined("\n", strong("Tell: "), " ".join(stage.points)))
    if stage.question:
        parts.append(joined("\n", strong("Ask: "), f"{stage.question} ", f"({stage.answer})"))
    if stage.faults:
        parts.append(joined("\n", strong("Show gone wrong: "), " ".join(stage.faults)))
    points = [
        stage.way_words if not stage.clock else f"{stage.way_words}, {stage.minutes} min.",
        stage.comes_in,
    ]
    figure = stage.clock or f"{stage.minutes}\xa0min"
    return DocketLine(figure, joined(*parts), "\n".join(filter(None, points)))
