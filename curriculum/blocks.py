"""The blocks of every printed sheet: head, headings, docket lines, tables, slips, cautions.

For the ``paper.py`` of each topic: make a ``Sheet``, call its blocks from the top down, give
back ``finish()``. A block begins on the next page when it does not fit; a line is broken over
two pages only where it is longer than a page. Everything follows from ``size``: large print
is the same sheet with larger letters and nothing left out.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from curriculum.lettering import Ink, Line, Words, joined, sign, strong
from curriculum.paper import LARGE, LEADING, Paper

#: (x, width) in points.
Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class DocketLine:
    """Figure, words, points: a time, a weight or a number; what; what to watch. "\\n" ends a line."""

    figure: Words
    words: Words
    points: Words = ""


@dataclass(frozen=True, slots=True)
class _Table:
    """Columns with their places, and how their cells are set."""

    columns: tuple[Span, ...]
    at: Span
    align: str
    size: float
    pad: float
    head: tuple[Words, ...]
    ruled: bool


class Sheet(Paper):
    """A paper that is filled from the top down."""

    @property
    def small(self) -> float:
        """Points of sources and table heads; large print has nothing smaller than its words."""
        return self.size * 0.9 if self.size < LARGE else self.size

    def head(self, title: str, facts: Words = "", *, plate: str = "", free_from: str = "") -> None:
        """The head: bench plate, title, one sentence of facts, free-from box."""
        side = self.size * 4.2 if plate else 0.0
        x, width, top = self.left + side * 1.25, self.width - side * 1.25, self.y
        if plate:
            self.plate(self.left, top, plate, side)
        low = self.text(x, top - self.size * 0.3, sign(title), width=width, size=self.size * 1.9)
        if facts:
            low = self.text(x, low + self.size * 0.15, facts, width=width, size=self.size * 1.1)
        if free_from:
            low = self.free_from(x, low + self.size * 0.4, free_from, width=width)
        self.y = max(low, top + side) + self.size

    def heading(self, words: str, *, small: bool = False, keep: float = 0.0) -> None:
        """A heading that stays with the next block, or the next ``keep`` points."""
        ink, size = (strong(words), self.size * 1.15) if small else (sign(words), self.size * 1.4)
        if self.y > self.top:
            self.gap(self.size * (0.4 if small else 0.9))
        self.room(self.height_of(ink, self.width, size) + max(keep, self.size * 4))
        self.y = self.text(self.left, self.y, ink, width=self.width, size=size) + self.size * 0.2

    def paragraph(self, words: Words, *, size: float | None = None, after: float | None = None) -> None:
        """Words over the whole width, then ``after`` points of room."""
        table = self._table([0], "l", size or self.size, (), (self.left, self.width), ruled=False)
        self._row(table, [words])
        self.gap(self.size * 0.5 if after is None else after)

    def rows(
        self,
        widths: Sequence[float],
        rows: Sequence[Sequence[Words]],
        *,
        head: Sequence[Words] = (),
        align: str = "",
        size: float | None = None,
        at: Span | None = None,
    ) -> None:
        """A table or docket: lines of cells with a hairline under each.

        ``widths`` are in ems of ordinary words; the columns of width 0 share what is left.
        ``align`` has one letter a column, "l", "r" or "m". ``head`` stands over a thick rule,
        again on each new page. ``at`` is (x, width) in points, the whole width when None.
        """
        align = align or "l" * len(widths)
        table = self._table(widths, align, size or self.size, head, at or (self.left, self.width), ruled=True)
        self.room(self.size * 4)
        self._row_head(table)
        for cells in rows:
            self._row(table, cells)

    def docket(
        self, lines: Sequence[DocketLine], *, figure: float = 5, points: float = 0, at: Span | None = None
    ) -> None:
        """Docket lines; ``figure`` and ``points`` are widths in ems, points 0 for no such column."""
        rows = [[_bold(line.figure), line.words, *([line.points] if points else [])] for line in lines]
        self.rows([figure, 0, *([points] if points else [])], rows, at=at)

    def side_by_side(self, parts: Sequence[tuple[str, Sequence[DocketLine]]], *, figure: float = 5) -> None:
        """Titled dockets, two in a row, or one under the other in large print or where they are long."""
        gutter = 6.0
        half = (self.width - gutter * 2) / 2
        self.gap(self.size * 0.3)
        for left in range(0, len(parts), 2):
            pair = parts[left : left + 2]
            heights = [self._docket_height(*part, figure, half) for part in pair]
            if self.size > 12 or max(heights) > self.bottom - self.top:
                self._under_each_other(pair, figure)
                continue
            self.room(max(heights))
            top = self.y
            for number, part in enumerate(pair):
                self.y = top
                self._titled(part, figure, (self.left + number * (half + gutter * 2), half))
            self.y = top + max(heights)

    def _under_each_other(self, parts: Sequence[tuple[str, Sequence[DocketLine]]], figure: float) -> None:
        for part in parts:
            self.room(min(self._docket_height(*part, figure, self.width), self.size * 8))
            self._titled(part, figure, (self.left, self.width))

    def _titled(self, part: tuple[str, Sequence[DocketLine]], figure: float, at: Span) -> None:
        title, lines = part
        self.y = self.text(at[0], self.y, strong(title), width=at[1], size=self.size * 1.1) + self.size * 0.15
        self.docket(lines, figure=figure, at=at)
        self.gap(self.size * 0.8)

    def _docket_height(self, title: str, lines: Sequence[DocketLine], figure: float, width: float) -> float:
        table = self._table([figure, 0], "ll", self.size, (), (self.left, width), ruled=True)
        each = [self._height(table, self._broken(table, [_bold(line.figure), line.words])) for line in lines]
        return self.height_of(strong(title), width, self.size * 1.1) + sum(each) + self.size

    def slip(self, rows: Sequence[tuple[Words, Words]], *, total: tuple[str, str] | None = None) -> None:
        """Words, dots, figure; the total last under a thicker rule."""
        table = self._table([0, 9], "lr", self.size, (), (self.left, self.width), ruled=False)
        for words, figure in rows:
            self._slip_row(table, words, figure)
        if total:
            self.rule(self.left, self.y + 1, self.left + self.width, thick=1.6)
            self.gap(3)
            self._slip_row(table, strong(total[0]), strong(total[1]))
        self.gap(self.size * 0.5)

    def _slip_row(self, table: _Table, words: Words, figure: Words) -> None:
        broken = self._broken(table, [words, figure])
        self.room(self._height(table, broken))
        used = self.line_width(broken[0][-1], self.size) if broken[0] else 0.0
        last = self.y + (len(broken[0]) - 1) * self.size * LEADING + self.size
        ends = self.left + self.width - max(self.line_width(line, self.size) for line in broken[1])
        if used + 12 < ends - self.left:
            self.rule(self.left + used + 4, last, ends - 4, thick=0.8, dotted=True)
        self._row(table, [words, figure])

    def caution(self, title: str, paragraphs: Sequence[Words], source: str) -> None:
        """A caution between thick rules, with its source and what goes before it."""
        whole = sum(self.height_of(each, self.width) for each in (title, *paragraphs, source))
        self.gap(self.size * 0.8)
        self.room(min(whole + self.size * 2, self.bottom - self.top))
        self.rule(self.left, self.y, self.left + self.width, thick=2.2)
        self.gap(self.size * 0.4)
        self.paragraph(strong(title), size=self.size * 1.1, after=0)
        for words in paragraphs:
            self.paragraph(words, after=self.size * 0.2)
        self.paragraph(source, size=self.small, after=self.size * 0.3)
        self.rule(self.left, self.y, self.left + self.width, thick=2.2)
        self.gap(self.size * 0.6)

    def boxed(self, words: str) -> None:
        """A free-from box of its own line."""
        inner = self.width - self.size * 2.2
        self.room(self.height_of(strong(words), inner) + self.size)
        self.y = self.free_from(self.left, self.y, words, width=self.width) + self.size * 0.6

    # Patterns: what a picture in black is made of

    def solid(self, x: float, y: float, wide: float, high: float, words: str = "", size: float = 0) -> None:
        """A black bar with words in white in its middle: it must print, so the words are no grey."""
        self._do(partial(_draw_solid, at=(x, self.high - y - high, wide, high)))
        if words:
            self._do(partial(_set_white, white=True))
            top = y + (high - size * 0.72) / 2 + size * 0.72 - size
            self.text(x, top, strong(words), width=wide, size=size, align="middle")
            self._do(partial(_set_white, white=False))

    def cleared(self, x: float, y: float, wide: float, high: float) -> None:
        """A white area: what was drawn before is not seen through what stands on it."""
        self._do(partial(_set_white, white=True))
        self._do(partial(_draw_solid, at=(x, self.high - y - high, wide, high)))
        self._do(partial(_set_white, white=False))

    def hatched(
        self, x: float, y: float, wide: float, high: float, *, gap: float = 6, thick: float = 0.5
    ) -> None:
        """An area of slanting lines within a frame: a pattern instead of a grey that vanishes."""
        at = (x, self.high - y - high, wide, high)
        self._do(partial(_draw_hatched, at=at, gap=gap, thick=thick))
        self.box(x, y, wide, high, thick=max(0.8, thick))

    def slope(self, x: float, y: float, to_x: float, to_y: float, *, thick: float = 0.8) -> None:
        """A dotted line from one point to another."""
        at = (x, self.high - y, to_x, self.high - to_y)
        self._do(partial(_draw_slope, at=at, thick=thick))

    def diamond(self, x: float, y: float, side: float) -> None:
        """A white diamond with a black edge around a point."""
        self._do(partial(_draw_diamond, at=(x, self.high - y), side=side))

    # How rows are set

    def _table(
        self, widths: Sequence[float], align: str, size: float, head: Sequence[Words], at: Span, ruled: bool
    ) -> _Table:
        gutter = self.size * 0.7
        fixed = sum(width * self.size for width in widths)
        loose = max(1, sum(1 for width in widths if not width))
        rest = (at[1] - fixed - gutter * (len(widths) - 1)) / loose
        columns: list[Span] = []
        x = at[0]
        for width in widths:
            columns.append((x, width * self.size or rest))
            x += columns[-1][1] + gutter
        pad = self.size * 0.3 if ruled else 0.0
        return _Table(tuple(columns), at, align, size, pad, tuple(head), ruled)

    def _broken(self, table: _Table, cells: Sequence[Words]) -> list[tuple[Line, ...]]:
        return [
            self.lines_of(cell, column[1], table.size)
            for cell, column in zip(cells, table.columns, strict=True)
        ]

    def _height(self, table: _Table, broken: list[tuple[Line, ...]]) -> float:
        return max(len(lines) for lines in broken) * table.size * LEADING + 2 * table.pad

    def _row_head(self, table: _Table) -> None:
        if table.head:
            small = self.small
            for cell, (x, width), align in zip(table.head, table.columns, table.align, strict=True):
                self.text(x, self.y, _bold(cell), width=width, size=small, align=_ALIGN[align])
            self.gap(
                max(
                    self.height_of(_bold(cell), column[1], small)
                    for cell, column in zip(table.head, table.columns, strict=True)
                )
            )
            self.gap(self.size * 0.15)
        if table.ruled:
            self.rule(table.at[0], self.y, table.at[0] + table.at[1], thick=1.6)

    def _row(self, table: _Table, cells: Sequence[Words]) -> None:
        broken = self._broken(table, cells)
        height, again = self._height(table, broken), partial(self._row_head, table)
        if self.y + height > self.bottom + 0.01 and self.y > self.top:
            longer_than_a_page = height > (self.bottom - self.top) * 0.9
            if not longer_than_a_page or self.y > self.bottom - 4 * table.size * LEADING:
                self._next(again)
        self._in_parts(table, broken, again)
        if table.ruled:
            self.rule(table.at[0], self.y, table.at[0] + table.at[1], thick=0.4)

    def _in_parts(self, table: _Table, broken: list[tuple[Line, ...]], again: Callable[[], None]) -> None:
        """The lines of a row, on the next page where this one is full."""
        lead = table.size * LEADING
        left = max(len(lines) for lines in broken)
        start = 0
        while left > 0:
            fits = max(1, int((self.bottom - self.y - 2 * table.pad + 0.01) / lead))
            for lines, (x, width), align in zip(broken, table.columns, table.align, strict=True):
                for number, line in enumerate(lines[start : start + fits]):
                    y = self.y + table.pad + number * lead
                    self.line(x, y, line, width=width, size=table.size, align=_ALIGN[align])
            self.gap(min(fits, left) * lead + 2 * table.pad)
            start, left = start + fits, left - fits
            if left > 0:
                self._next(again)

    def _next(self, again: Callable[[], None]) -> None:
        self.new_page()
        again()


def _draw_solid(canvas: Any, at: tuple[float, float, float, float]) -> None:
    canvas.rect(*at, stroke=0, fill=1)


def _set_white(canvas: Any, white: bool) -> None:
    canvas.setFillGray(1 if white else 0)


def _draw_hatched(canvas: Any, at: tuple[float, float, float, float], gap: float, thick: float) -> None:
    x, y, wide, high = at
    canvas.saveState()
    edge = canvas.beginPath()
    edge.rect(*at)
    canvas.clipPath(edge, stroke=0, fill=0)
    canvas.setLineWidth(thick)
    along = x - high
    while along < x + wide:
        canvas.line(along, y, along + high, y + high)
        along += gap
    canvas.restoreState()


def _draw_diamond(canvas: Any, at: tuple[float, float], side: float) -> None:
    x, y = at
    edge = canvas.beginPath()
    edge.moveTo(x, y + side)
    for point in ((x + side, y), (x, y - side), (x - side, y)):
        edge.lineTo(*point)
    edge.close()
    canvas.setLineWidth(1.2)
    canvas.setFillGray(1)
    canvas.drawPath(edge, stroke=1, fill=1)
    canvas.setFillGray(0)


def _draw_slope(canvas: Any, at: tuple[float, float, float, float], thick: float) -> None:
    canvas.setLineWidth(thick)
    canvas.setDash([1.5, 2])
    canvas.line(*at)
    canvas.setDash([])


_ALIGN = {"l": "left", "r": "right", "m": "middle"}


def _bold(words: Words) -> Words:
    """Plain strings of some words in bold."""
    parts = joined(words)
    return tuple(strong(part) if isinstance(part, str) else part for part in parts if part != Ink(""))
