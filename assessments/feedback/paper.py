"""Feedback on paper, from the same data as its page."""

from assessments.feedback.shown import AdviceShown, HandedBackShown
from curriculum.blocks import DocketLine, Sheet
from curriculum.lettering import strong
from curriculum.paper import LARGE, NORMAL


def feedback_paper(shown: HandedBackShown, *, college: str, large: bool = False) -> bytes:
    """A PDF of what was handed back; ``large`` is the learner's own large print."""
    sheet = Sheet(
        f"Feedback: {shown.title}",
        size=LARGE if large else NORMAL,
        foot=f"{college}. Feedback for {shown.learner}",
    )
    result = f"{shown.total} of {shown.most}, {shown.band}" if shown.total else shown.band
    sheet.head(shown.title, f"{shown.learner}. {shown.cooked}. {result[:1].upper()}{result[1:]}.")
    sheet.paragraph(strong(shown.next_time))
    if shown.practise:
        sheet.heading("What to practise")
        sheet.docket([_line(each) for each in shown.practise], figure=5, points=0)
    if shown.note:
        sheet.heading("From your lecturer")
        sheet.paragraph(shown.note)
    if shown.well:
        sheet.heading("What went well")
        sheet.docket([_line(each, labels=False) for each in shown.well], figure=5, points=0)
    sheet.heading("How the mark is made")
    lines = [(f"– {line.words}" if line.kind == "part" else line.words, line.figure) for line in shown.lines]
    sheet.slip(lines[:-1], total=lines[-1] if lines else None)
    sheet.paragraph(shown.marked)
    return sheet.finish()


def _line(advice: AdviceShown, labels: bool = True) -> DocketLine:
    figure = f"{advice.figure} of {advice.of}" if advice.of else advice.figure
    said = [f"{label}: {words}" if labels else words for label, words in advice.lines]
    if labels and advice.moves:
        said.append(advice.moves)
    if labels and advice.again:
        said.append(f"You meet it again: {advice.again}.")
    return DocketLine(figure, (strong(advice.name), "\n" + "\n".join(said)), "")
