"""The picture for the wall on A3 or A4: black only, patterns instead of greys.

Hands are solid bars with the step in white, demonstrations hatched columns, food that waits a
dotted line and food in an oven a framed one; heats stand as figures. A plan with more rows
than a page holds goes on over the next, under the same clock.
"""

from curriculum.blocks import Sheet
from curriculum.lettering import strong
from curriculum.paper import MM
from kitchen.timeplan.plan import LessonPlan
from kitchen.timeplan.wall.layout import NAMES, Mark, pages

#: Points of a letter: on A3 words are 18 points, read from one to two metres; A4 is for the hand.
#: Common practice, no source.
LETTER = {"A3": 20.0, "A4": 11.5}
#: Words of a letter's height. Our own choice, no source.
SHARE = 0.9
KEY = (
    "Black bar: hands at work, with the step. D and a number, hatched: demonstration of that step,"
    " everybody watches. Under the bar, dotted: food waits; framed: food is in the oven. Diamond: somebody"
    " stands beside. Oven: its heat is the figure; dotted slope: heating."
)


class _OnA3(Sheet):
    """A sheet of A3 (ISO 216)."""

    sides = (297 * MM, 420 * MM)


def wall_paper(plan: LessonPlan, facts: str, stamp: str, format: str) -> bytes:
    """The picture as a PDF, as many pages as it needs."""
    letter = LETTER[format]
    title = f"Time plan: {plan.title}"
    kind = _OnA3 if format == "A3" else Sheet
    sheet = kind(title, landscape=True, foot=f"{stamp}. {title}")
    words = f"{facts} {stamp}; a sheet of any other plan is void. {KEY}"
    small = 11.0 if format == "A3" else 8.5
    head = sheet.height_of(words, sheet.width, small) + letter * 1.6
    high = (sheet.bottom - sheet.top - head) / letter
    for number, marks in enumerate(pages(plan, sheet.width / letter, high), 1):
        if number > 1:
            sheet.new_page()
        y = sheet.text(sheet.left, sheet.top, strong(title), width=sheet.width, size=letter)
        y = sheet.text(sheet.left, y, words, width=sheet.width, size=small) + letter * 0.2
        for mark in sorted(marks, key=_in_order):
            _draw(sheet, mark, letter, y)
    return sheet.finish()


def _in_order(mark: Mark) -> int:
    """Rules and columns first, what stands on them after, words and diamonds last."""
    return {"rule": 0, "upright": 0, "show": 1, "break": 1, "figure": 8, "beside": 9}.get(mark.kind, 5)


def _draw(sheet: Sheet, mark: Mark, letter: float, top: float) -> None:
    x, y = sheet.left + mark.x * letter, top + mark.y * letter
    wide, high, size = mark.wide * letter, mark.high * letter, letter * SHARE
    if mark.kind == "hands":
        sheet.solid(x + 0.6, y, max(wide - 1.2, 0.6), high, mark.words, size)
    elif mark.kind == "show":
        sheet.hatched(x, y, wide, high, gap=letter * 0.55)
    elif mark.kind == "break":
        sheet.hatched(x, y, wide, high, gap=letter * 1.6, thick=0.3)
    elif mark.kind in ("baking", "heat", "load", "rest"):
        sheet.cleared(x, y, wide, high)
        sheet.box(x, y, wide, high, thick=0.5 if mark.kind == "rest" else 1.2)
        if mark.words:
            sheet.text(x, y, mark.words, width=wide, size=size * 0.72, align="middle")
    elif mark.kind in ("name", "hour", "over", "figure"):
        _words(sheet, mark, x, y, size)
    elif mark.kind == "wait":
        sheet.rule(x, y, x + wide, thick=2, dotted=True)
    elif mark.kind == "ramp":
        sheet.slope(x, y + high, x + wide, y)
    elif mark.kind == "beside":
        sheet.diamond(x, y, letter * 0.38)
    elif mark.kind == "upright":
        sheet.upright(x, y, y + high, thick=0.3)
    else:
        sheet.rule(x, y, x + wide, thick=0.3)


def _words(sheet: Sheet, mark: Mark, x: float, y: float, size: float) -> None:
    if mark.kind == "name":
        while size > 6 and len(sheet.lines_of(strong(mark.words), NAMES * size / SHARE - 4, size)) > 1:
            size *= 0.9
    width = 400.0
    left = {"left": x, "middle": x - width / 2, "right": x - width}[mark.align]
    sheet.text(left, y, strong(mark.words), width=width, size=size, align=mark.align)
