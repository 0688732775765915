"""Every printed page: its frame and the marks on it, letters of any script, plates, QR codes.

For ``curriculum.blocks``, which lays headings, tables and docket lines, and for sheets that
put marks at a place of their own, such as labels. This is the only door to reportlab. Black
on A4, margins of 12 mm. Measures are points (1/72 inch) counted from the upper left corner
of the page; ``MM`` is one millimetre. Words are those of ``curriculum.lettering``: names in
any script are printed as they stand.

The file carries its title and its language. It is not tagged: the page on the screen is the
version for a screen reader. The same input gives the same bytes.

Fonts come from installed packages, all under the SIL Open Font License, and every letter is
embedded: Fira Sans and Arvo, then Noto Sans for Arabic, Devanagari, Tamil, Thai, Chinese,
Japanese and Korean, Hind Siliguri for Bengali, Arimo for Hebrew, and DejaVu where the machine
has it. Letters that change with their neighbours (Devanagari, Bengali, Tamil, Thai) are shaped.
The Chinese, Japanese and Korean files hold thin letters and are thickened by an outline.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache, lru_cache, partial
from importlib.util import find_spec
from io import BytesIO
from pathlib import Path

from reportlab.lib.pagesizes import A4
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import ShapedStr, TTFError, TTFont, shapeStr
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from curriculum.codes import bars
from curriculum.lettering import Ink, Lettering, Line, Words, letters_of, sign, strong
from curriculum.wording import counted

MM = 72 / 25.4
MARGIN = 12 * MM
LEADING = 1.32
#: Points of ordinary words; of large print.
NORMAL, LARGE = 10.5, 18.0
FIRA, FIRA_STRONG, ARVO = "FiraSans-Regular", "FiraSans-SemiBold", "Arvo-Bold"
#: font -> (installed package, file in it)
PACKAGED = {
    FIRA: ("fontpkg_fira_sans", "files/FiraSans-Regular.ttf"),
    FIRA_STRONG: ("fontpkg_fira_sans", "files/FiraSans-SemiBold.ttf"),
    ARVO: ("fontpkg_arvo", "files/Arvo-Bold.ttf"),
    "NotoSansArabic": ("fontpkg_noto_sans_arabic", "files/NotoSansArabic[wdth,wght].ttf"),
    "Arimo": ("fontpkg_arimo", "files/Arimo[wght].ttf"),
    "NotoSansDevanagari": ("fontpkg_noto_sans_devanagari", "files/NotoSansDevanagari[wdth,wght].ttf"),
    "HindSiliguri": ("fontpkg_hind_siliguri", "files/HindSiliguri-Regular.ttf"),
    "NotoSansTamil": ("fontpkg_noto_sans_tamil", "files/NotoSansTamil[wdth,wght].ttf"),
    "NotoSansThai": ("fontpkg_noto_sans_thai", "files/NotoSansThai[wdth,wght].ttf"),
    "NotoSansSC": ("justmytype_intl_cjk", "fonts/ofl/notosanssc/NotoSansSC[wght].ttf"),
    "NotoSansTC": ("justmytype_intl_cjk", "fonts/ofl/notosanstc/NotoSansTC[wght].ttf"),
    "NotoSansJP": ("justmytype_intl_cjk", "fonts/ofl/notosansjp/NotoSansJP[wght].ttf"),
    "NotoSansKR": ("justmytype_intl_cjk", "fonts/ofl/notosanskr/NotoSansKR[wght].ttf"),
}
#: Fonts whose letters take another shape or place beside others.
SHAPED = ("NotoSansDevanagari", "HindSiliguri", "NotoSansTamil", "NotoSansThai")
#: Fonts of thin letters, and the outline that makes them read like the others (shares of the size).
THICKENED = dict.fromkeys(("NotoSansSC", "NotoSansTC", "NotoSansJP", "NotoSansKR"), 0.03)
#: Fonts of a Debian package that a machine may have.
FOUND = {
    "DejaVuSans": "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
    "DejaVuSans-Bold": "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf",
}
_REST = ("NotoSansArabic", "Arimo", *SHAPED, "DejaVuSans", *THICKENED)
CHAINS = {
    "plain": (FIRA, *_REST),
    "strong": (FIRA_STRONG, "DejaVuSans-Bold", *_REST),
    "sign": (ARVO, FIRA_STRONG, "DejaVuSans-Bold", *_REST),
}


class _Font(TTFont):
    """A font whose joined letters have the same numbers (in plane 15) whatever was printed before."""

    def hbFont(self, fontSize: float = 10) -> object:
        font = super().hbFont(fontSize)
        self.hbAddPrivate = self._numbered
        return font

    def _numbered(self, name: str, glyph: int, advance: float) -> int:
        number = 0xF0000 + glyph
        self.face.charToGlyph[number], self.face.charWidths[number] = glyph, advance
        self.face.glyphToChar.setdefault(glyph, []).append(number)
        return number


@cache
def _covered(font: str) -> Callable[[str], bool]:
    """Load a font of the chain; the answer tells whether it has a letter (never, when it is not here)."""
    try:
        face = _Font(font, str(_file_of(font)))
    except (TTFError, OSError):
        return lambda letter: False
    pdfmetrics.registerFont(face)
    return lambda letter: ord(letter) in face.face.charToGlyph


def _file_of(font: str) -> Path:
    if font in FOUND:
        return Path(FOUND[font])
    package, file = PACKAGED[font]
    spec = find_spec(package)
    if spec is None or not spec.submodule_search_locations:
        raise RuntimeError(f"The package {package} is not installed; run pip install . first.")
    return Path(next(iter(spec.submodule_search_locations)), file)


@lru_cache(maxsize=50_000)
def _has(font: str, letter: str) -> bool:
    return _covered(font)(letter)


@lru_cache(maxsize=50_000)
def _wide(text: str, font: str, size: float) -> float:
    set_so = _set(text, font, size)
    if isinstance(set_so, ShapedStr):
        return sum(each.x_advance for each in set_so.__shapeData__) * size / 1000
    return pdfmetrics.stringWidth(text, font, size)


@lru_cache(maxsize=5_000)
def _set(text: str, font: str, size: float) -> str:
    """The letters of a font as they are drawn beside each other."""
    _covered(font)
    return shapeStr(text, font, size) if font in SHAPED else text


LETTERING = Lettering(CHAINS, _has, _wide)


def unprintable(texts: Iterable[str]) -> tuple[str, ...]:
    """Letters that no font of this machine has, each once: to be told before anybody prints."""
    return LETTERING.unprintable(texts)


def name_on_paper(name: str) -> str:
    """A name as it can be printed: letters that no font has are left out, and it says so in words."""
    missing = unprintable([name])
    if not missing:
        return name
    left = " ".join("".join(letter for letter in letters_of(name) if letter not in missing).split())
    count = counted(sum(letter in missing for letter in letters_of(name)), "letter")
    return f"{left} ({count} not printed)" if left else f"name not printed ({count})"


@dataclass(frozen=True, slots=True)
class _Part:
    """Pages with one foot and their own numbers; ``first`` counts from 0, ``mark`` says of what."""

    first: int
    foot: str
    size: float
    mark: str = ""
    bookmark: str = ""


class Paper:
    """One printed sheet, filled from the top down; ``finish`` gives the PDF.

    ``size`` is the size of ordinary words in points and everything else follows from it.
    ``foot`` stands at the lower edge of each page with its number; without it there is no foot.
    ``y`` is where the next block begins; ``sides`` are those of the paper, upright.
    """

    sides = A4

    def __init__(self, title: str, *, size: float = NORMAL, landscape: bool = False, foot: str = "") -> None:
        self.title, self.size, self.foot = title, size, foot
        self.wide, self.high = self.sides[::-1] if landscape else self.sides
        self.left, self.top = MARGIN, MARGIN
        self.width = self.wide - 2 * MARGIN
        self.bottom = self._bottom()
        self._pages: list[list[Callable[[Canvas], None]]] = [[]]
        self._parts = [_Part(0, foot, size)]
        self.y = self.top

    # Where things go

    def new_page(self) -> None:
        """Begin the next page."""
        self._pages.append([])
        self.y = self.top

    def part(self, *, foot: str, mark: str, bookmark: str, size: float = NORMAL) -> None:
        """Begin a part with its own foot, page numbers ("bench 4, 1 of 2"), bookmark and size of words.

        The first one begins on the first page when that is still empty.
        """
        if self._pages != [[]]:
            self.new_page()
            self._parts.append(_Part(len(self._pages) - 1, foot, size, mark, bookmark))
        else:
            self._parts = [_Part(0, foot, size, mark, bookmark)]
        self.foot, self.size = foot, size
        self.bottom = self._bottom()

    def _bottom(self) -> float:
        return self.high - MARGIN - (_foot_size(self.size) * 5 / 3 if self.foot else 0)

    def room(self, height: float) -> None:
        """Begin a new page unless so many points are left on this one."""
        if self.y + height > self.bottom + 0.01 and self.y > self.top:
            self.new_page()

    def gap(self, points: float) -> None:
        """Leave some room."""
        self.y += points

    def _do(self, deed: Callable[[Canvas], None]) -> None:
        self._pages[-1].append(deed)

    # Marks at a given place

    def lines_of(self, words: Words, width: float, size: float | None = None) -> tuple[Line, ...]:
        """Words broken into lines of that width."""
        return LETTERING.lines(words, size or self.size, width)

    def height_of(self, words: Words, width: float, size: float | None = None) -> float:
        """Points that words take in that width."""
        return len(self.lines_of(words, width, size)) * (size or self.size) * LEADING

    def text(
        self,
        x: float,
        y: float,
        words: Words,
        *,
        width: float,
        size: float | None = None,
        align: str = "left",
    ) -> float:
        """Words from the upper edge ``y`` down, broken at ``width``; gives back the lower edge."""
        size = size or self.size
        for line in self.lines_of(words, width, size):
            self.line(x, y, line, width=width, size=size, align=align)
            y += size * LEADING
        return y

    def line_width(self, line: Line, size: float) -> float:
        """Points that a line takes."""
        return sum(LETTERING.width_of(ink, text, size) for ink, text in line)

    def line(self, x: float, y: float, line: Line, *, width: float, size: float, align: str = "left") -> None:
        """One line that is already broken."""
        while line and not line[-1][1].strip(" ") and line[-1][0].voice != "tick":
            line = line[:-1]
        used = self.line_width(line, size)
        x += {"left": 0.0, "right": width - used, "middle": (width - used) / 2}[align]
        for ink, text in line:
            self._ink(x, y + size, ink, text, size)
            x += LETTERING.width_of(ink, text, size)

    def _ink(self, x: float, base: float, ink: Ink, text: str, size: float) -> None:
        if ink.voice == "tick":
            self.box(x, base - size * 0.82, size * 0.9, size * 0.9, thick=1)
            return
        start = x
        for font, drawn in LETTERING.runs(text, ink.voice):
            self._do(partial(_draw_words, x=x, y=self.high - base, font=font, size=size, words=drawn))
            x += _wide(drawn, font, size)
        if ink.ruled:
            self.rule(start, base + size * 0.19, x, thick=size * 0.11)

    def rule(self, x: float, y: float, to_x: float, *, thick: float = 0.5, dotted: bool = False) -> None:
        """A line across."""
        self._do(partial(_draw_rule, at=(x, self.high - y, to_x, self.high - y), thick=thick, dotted=dotted))

    def upright(self, x: float, y: float, to_y: float, *, thick: float = 0.5, dotted: bool = False) -> None:
        """A line down."""
        self._do(partial(_draw_rule, at=(x, self.high - y, x, self.high - to_y), thick=thick, dotted=dotted))

    def box(
        self, x: float, y: float, wide: float, high: float, *, thick: float = 1, corner: float = 0
    ) -> None:
        """A frame drawn as a border, never filled."""
        self._do(partial(_draw_box, at=(x, self.high - y - high, wide, high), thick=thick, corner=corner))

    def plate(self, x: float, y: float, label: str, side: float) -> None:
        """A bench's number plate: a frame in a frame with the number in it."""
        self.box(x, y, side, side, thick=side * 0.055, corner=side * 0.16)
        inner, within = side * 0.11, side * 0.78
        self.box(x + inner, y + inner, within, within, thick=side * 0.02, corner=side * 0.08)
        size = side * 0.5
        while LETTERING.width_of(sign(label), label, size) > side * 0.68 and size > 4:
            size *= 0.9
        top = y + (side - size * 0.72) / 2 + size * 0.72 - size
        self.text(x - side, top, sign(label), width=3 * side, size=size, align="middle")

    def free_from(self, x: float, y: float, words: str, *, width: float, size: float | None = None) -> float:
        """Words in a frame with thick ends ("FREE FROM MILK, Silas"); gives back the lower edge."""
        size = size or self.size
        inset, end = size * 0.6, size * 0.45
        inner = width - 2 * (inset + end)
        widest = max(
            sum(LETTERING.width_of(ink, text, size) for ink, text in line)
            for line in self.lines_of(strong(words), inner, size)
        )
        wide = widest + 2 * (inset + end)
        low = self.text(x + inset + end, y + size * 0.25, strong(words), width=inner, size=size) + size * 0.3
        self.box(x, y, wide, low - y, thick=1.2)
        for edge in (x + end / 2, x + wide - end / 2):
            self.upright(edge, y, low, thick=end)
        return low

    def qr(self, x: float, y: float, side: float, words: str) -> None:
        """A QR code with its quiet zone of four modules, as one path."""
        modules, dark = bars(words)
        module = side / (modules + 8)
        at = (x + 4 * module, self.high - y - 4 * module)
        self._do(partial(_draw_bars, at=at, module=module, bars=dark))

    # The file

    def finish(self) -> bytes:
        """The PDF; the same sheet gives the same bytes."""
        out = BytesIO()
        _covered(FIRA)
        canvas = Canvas(
            out,
            pagesize=(self.wide, self.high),
            lang="en-GB",
            invariant=1,
            initialFontName=FIRA,
            pageCompression=1,
        )
        canvas.setTitle(self.title)
        canvas.setViewerPreference("DisplayDocTitle", "true")
        for page, deeds in enumerate(self._pages):
            self._mark(canvas, page)
            for deed in [*deeds, *self._foot(page)]:
                deed(canvas)
            canvas.showPage()
        canvas.save()
        return out.getvalue()

    def _mark(self, canvas: Canvas, page: int) -> None:
        """The bookmark of a part that begins on this page; they stand open beside the first page."""
        for part in self._parts:
            if part.bookmark and part.first == page:
                canvas.bookmarkPage(f"page-{page}")
                canvas.addOutlineEntry(part.bookmark, f"page-{page}", 0)
                canvas.showOutline()

    def _foot(self, page: int) -> list[Callable[[Canvas], None]]:
        """What stands at the lower edge: the words of the part, and the page within it."""
        at = max(number for number, part in enumerate(self._parts) if part.first <= page)
        part, ends = self._parts[at], [each.first for each in self._parts[1:]] + [len(self._pages)]
        if not part.foot:
            return []
        size, kept = _foot_size(part.size), self._pages[-1]
        self._pages[-1] = foot = []
        y = self.high - MARGIN - size
        number = f"{page - part.first + 1} of {ends[at] - part.first}"
        number = f"{part.mark}, {number}" if part.mark else number
        words = self.lines_of(part.foot, self.width - size * 11, size)[0]
        self.line(self.left, y, words, width=self.width, size=size)
        self.text(self.left, y, number, width=self.width, size=size, align="right")
        self._pages[-1] = kept
        return foot


def _foot_size(size: float) -> float:
    """Points of the words at the lower edge: small under ordinary print, never under large print."""
    return 8.5 if size < LARGE else size


def _draw_words(canvas: Canvas, x: float, y: float, font: str, size: float, words: str) -> None:
    canvas.setFont(font, size)
    if font in THICKENED:
        canvas.setLineWidth(size * THICKENED[font])
        canvas.drawString(x, y, words, mode=2)
        return
    canvas.drawString(x, y, _set(words, font, size))


def _draw_rule(canvas: Canvas, at: tuple[float, float, float, float], thick: float, dotted: bool) -> None:
    canvas.setLineWidth(thick)
    canvas.setDash([1.5, 2] if dotted else [])
    canvas.line(*at)
    canvas.setDash([])


def _draw_box(canvas: Canvas, at: tuple[float, float, float, float], thick: float, corner: float) -> None:
    canvas.setLineWidth(thick)
    if corner:
        canvas.roundRect(*at, corner)
    else:
        canvas.rect(*at)


def _draw_bars(canvas: Canvas, at: tuple[float, float], module: float, bars: tuple[str, ...]) -> None:
    canvas.saveState()
    canvas.translate(*at)
    canvas.scale(module, module)
    canvas.drawPath(PDFPathObject(code=list(bars)), stroke=0, fill=1)
    canvas.restoreState()
