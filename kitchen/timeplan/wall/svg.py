"""The picture for the wall as SVG for the projector: colours by class only.

Plain data in, one SVG text out. It is as wide as a projector is to its height, so that it
fills 1920 x 1080; where letters would fall under what is read from three metres, a second
screen goes on under the same clock.
"""

from collections.abc import Iterable
from html import escape

from kitchen.timeplan.picture import Drawn, described
from kitchen.timeplan.plan import LessonPlan
from kitchen.timeplan.wall.layout import Mark, height_of, pages

#: Units of the picture for one letter; width over height of what a projector leaves for it. Our own choice,
#: no source.
UNIT, SHAPE = 20, 2.02
#: Letters across at least, so that a small class does not get a picture of a few huge blocks.
#: Our own choice, no source.
LEAST_WIDE = 50.0
#: Letters on one screen at most: of 1000 lines each then has 18, which are 20 mm where the picture
#: on the wall is 2.1 m wide. Common practice, no source.
MOST_HIGH = 55.0
KINDS = {
    "hands": "work",
    "baking": "inoven",
    "show": "demo",
    "break": "pause",
    "rest": "rest",
    "heat": "heat",
    "load": "load",
}
WORDS = {"hour": "hour", "name": "lab", "over": "lab", "figure": "lab"}
ALIGN = {"left": "", "middle": " mid", "right": " end"}


def wall_pictures(plan: LessonPlan) -> list[Drawn]:
    """The whole plan as SVG elements, each a screen, with a title and a description."""
    alone = max(LEAST_WIDE, height_of(plan) * SHAPE)
    wide = min(alone, MOST_HIGH * SHAPE)
    found = pages(plan, wide, MOST_HIGH)
    return [_picture(plan, marks, wide, (number, len(found))) for number, marks in enumerate(found, 1)]


def _picture(plan: LessonPlan, marks: list[Mark], wide: float, part: tuple[int, int]) -> Drawn:
    high = max(mark.y + mark.high for mark in marks) + 0.3
    number, count = part
    words = f", part {number} of {count}" if count > 1 else ""
    parts = [
        f'<svg class="wall" viewBox="0 0 {_u(wide)} {_u(high)}" role="img"'
        f' aria-labelledby="wall-t{number} wall-d{number}">',
        f'<title id="wall-t{number}">Time plan, {escape(plan.title)}{words}</title>',
        f'<desc id="wall-d{number}">{escape(described(plan))}</desc>',
        *(_drawn(mark, wide) for mark in _in_order(marks)),
        "</svg>",
    ]
    return Drawn("\n".join(parts))


def _in_order(marks: Iterable[Mark]) -> list[Mark]:
    """Rules and columns first, what stands on them after; diamonds last."""
    order = {"rule": 0, "upright": 0, "break": 1, "show": 1, "beside": 9}
    return sorted(marks, key=lambda mark: order.get(mark.kind, 5))


def _u(letters: float) -> float:
    return round(letters * UNIT, 1)


def _drawn(mark: Mark, wide: float) -> str:
    x, y, w, h = (_u(each) for each in (mark.x, mark.y, mark.wide, mark.high))
    if mark.kind in KINDS:
        box = f'<rect class="{KINDS[mark.kind]}" x="{x}" y="{y}" width="{w}" height="{h}"/>'
        on = "onwork" if mark.kind == "hands" else "sub mid"
        at = f'x="{round(x + w / 2, 1)}" y="{round(y + h / 2 + 6, 1)}"'
        return box + (f'<text class="{on}" {at}>{escape(mark.words)}</text>' if mark.words else "")
    if mark.kind in WORDS:
        kind = WORDS[mark.kind] + ALIGN[mark.align]
        return f'<text class="{kind}" x="{x}" y="{round(y + 17, 1)}">{escape(mark.words)}</text>'
    if mark.kind == "wait":
        return f'<line class="wait" x1="{x}" x2="{round(x + w, 1)}" y1="{y}" y2="{y}"/>'
    if mark.kind == "ramp":
        return f'<path class="ramp" d="M{x} {round(y + h, 1)}L{round(x + w, 1)} {y}"/>'
    if mark.kind == "beside":
        return f'<path class="check" d="M{x} {round(y - 8, 1)}l8 8l-8 8l-8 -8z"/>'
    if mark.kind == "upright":
        return f'<line class="rule" x1="{x}" x2="{x}" y1="{y}" y2="{round(y + h, 1)}"/>'
    return f'<line class="rule" x1="0" x2="{_u(wide)}" y1="{y}" y2="{y}"/>'
