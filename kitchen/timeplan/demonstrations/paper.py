"""The demonstration as a printed sheet: what is made before, what is shown when, what to ask.

For the lecturer at the front and the technician the day before. It takes any object with the
fields of ``queries.Written``: words already written, nothing left to reckon.
"""

from typing import Any

from curriculum.blocks import DocketLine, Sheet
from curriculum.lettering import Words, joined, strong
from kitchen.timeplan.demonstration_words import AheadWords, StageWords


def demonstration_paper(written: Any) -> bytes:
    """The sheet as a PDF."""
    title = f"Demonstration: {written.title}"
    sheet = Sheet(title, foot=title)
    sheet.head(title, f"{written.facts} {written.summary}")
    if written.missed:
        sheet.paragraph(joined(strong("Not seen live: "), f"{written.missed}."))
    if written.remarks:
        sheet.heading("To think of")
        for remark in written.remarks:
            sheet.paragraph(remark, after=2)
    if written.ahead:
        sheet.heading("Made before")
        sheet.docket([_ahead(each) for each in written.ahead], figure=6, points=13)
        sheet.gap(6)
        sheet.rows(
            [0, 8, 8],
            [[name, str(ahead), "one" if live else "none"] for name, ahead, live in written.batches],
            head=["Component", "Batches before", "On the table"],
            align="lrr",
        )
    sheet.heading("What you show")
    sheet.docket([_stage(each) for each in written.stages], figure=4, points=11)
    if written.cautions:
        source = "Source: the college’s own risk assessment; follow it and the local rules where they differ."
        sheet.caution("Cautions for this demonstration", written.cautions, source)
    return sheet.finish()


def _ahead(thing: AheadWords) -> DocketLine:
    words: Words = joined(strong(f"{thing.title}: {thing.components}"), f"\n{thing.use}\n{thing.when}")
    return DocketLine(f"{thing.minutes}\xa0min", words, thing.keeps)


def _stage(stage: StageWords) -> DocketLine:
    parts: list[Words] = [strong(f"{stage.step}. {stage.words}")]
    if stage.cue:
        parts.append(joined("\n", strong("Look for: "), stage.cue))
    if stage.question:
        parts.append(joined("\n", strong("Ask: "), f"{stage.question} ", f"({stage.answer})"))
    points = f"{stage.way_words}, {stage.minutes} min."
    return DocketLine(
        stage.clock, joined(*parts), f"{points}\n{stage.comes_in}" if stage.comes_in else points
    )
