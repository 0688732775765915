"""Recipe sheets on paper, one bench or a whole lesson: normal print, or large with nothing left out.

For the learner's and the lecturer's pages. It prints what ``bench_sheet`` says, in the same
order as the page on the phone.
"""

import re
from collections.abc import Sequence

from curriculum import wording
from curriculum.blocks import DocketLine, Sheet
from curriculum.lettering import Words, allergen, joined, listed, strong
from curriculum.paper import LARGE, NORMAL
from curriculum.recipes.bench_sheet import BenchComponent, BenchSheet, BenchStep
from curriculum.recipes.weigh_words import LineWords

#: The blank between a figure and its unit, or before the number of a step.
_UNIT = re.compile(r"(?<=\d) (?=(?:g|kg|ml|l|mm|cm|min|h|s|°C|%)\b|[°%])|(?<=step) (?=\d)")


def bench_sheets_paper(benches: Sequence[BenchSheet], title: str) -> bytes:
    """Sheets of several benches as one PDF: each with its bookmark and its own page numbers."""
    sheet = Sheet(title)
    for bench in benches:
        sheet.part(
            foot=bench.title,
            mark=f"bench {bench.plate}",
            bookmark=", ".join([f"Bench {bench.plate}", *bench.names, bench.title]),
            size=LARGE if bench.large_print else NORMAL,
        )
        _bench(sheet, bench)
    return sheet.finish()


def _bench(sheet: Sheet, bench: BenchSheet) -> None:
    sheet.head(bench.title, bench.facts, plate=bench.plate, free_from=bench.free_from)
    for words in (bench.name_note, *bench.adjustments):
        if words:
            sheet.paragraph(strong(words), after=2)
    _labels(sheet, bench)
    if bench.cautions:
        sheet.caution("Before you start", bench.cautions, bench.source)
    if bench.page.equipment:
        sheet.heading("On the bench")
        sheet.paragraph(wording.sentence(", ".join(bench.page.equipment)))
    sheet.heading("Weigh")
    for words in bench.page.words:
        sheet.paragraph(words, after=2)
    sheet.side_by_side([_component(each) for each in bench.components])
    sheet.heading("Work")
    sheet.docket([_step(each) for each in bench.steps], figure=2.2)
    if bench.presentation or bench.serve:
        sheet.heading("At the pass")
        for words in (bench.presentation, bench.serve):
            if words:
                sheet.paragraph(words, after=2)


def _labels(sheet: Sheet, bench: BenchSheet) -> None:
    """What the labels say of the whole dish; read again at the bench."""
    if bench.page.contains:
        inks = [allergen(each) for each in bench.page.contains]
        sheet.paragraph(joined("Contains ", listed(inks), ". Read the labels again."), after=2)
    for words in bench.page.may_contain:
        sheet.paragraph(joined(strong("May contain"), f": {words}."), after=2)
    if bench.page.not_read:
        sheet.paragraph(strong(f"No label read: {', '.join(bench.page.not_read)}."), after=2)


def _component(each: BenchComponent) -> tuple[str, list[DocketLine]]:
    name = f"{each.words.name}, prepared for you" if each.is_prepared else each.words.name
    return name, [_line(line) for line in each.words.lines]


def _line(line: LineWords) -> DocketLine:
    figure = f"{line.figure}\xa0{line.unit}" if line.unit else line.figure
    inks = [allergen(each) for each in line.contains]
    words: Words = joined(line.food, " (", listed(inks), ")") if inks else line.food
    points = " ".join([*line.points, *([f"Exact {line.exact}."] if line.exact else [])])
    return DocketLine(figure, joined(words, f"\n{_together(points)}") if points else words)


def _step(step: BenchStep) -> DocketLine:
    words = step.words
    parts = [joined(strong("Done before the lesson. "), words.words) if step.is_done else words.words]
    if words.cue:
        parts.append(joined(strong("Look for: "), _together(words.cue)))
    times = [words.times, strong(_together(step.extra)), strong(_together(words.core)), words.watch]
    said = [
        _together(each) if isinstance(each, str) else each for each in times if each not in ("", strong(""))
    ]
    if said:
        parts.append(joined(*(part for each in said for part in (" ", each)))[1:])
    parts += [_together(way.said) for way in words.ways]
    parts += [strong(each) for each in words.care]
    if words.caution:
        parts.append(joined(strong("Caution: "), _together(words.caution)))
    return DocketLine(str(words.position), joined(*(part for each in parts for part in ("\n", each)))[1:])


def _together(words: str) -> str:
    """A figure and its unit, a step and its number stay on one line."""
    return _UNIT.sub("\xa0", words)
