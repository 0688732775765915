"""The line at the foot of every page of a print: of which set it is, its code, where to ask.

Bytes of PDFs in, bytes out. The line stands in the lower margin, below what the sheet prints,
so that no sheet has to leave room for it.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from io import BytesIO

from pypdf import PageObject, PdfReader, PdfWriter

from curriculum.paper import MARGIN, MM, Paper

#: The square for a camera, its quiet zone within, which keeps the dark 3.5 mm from the edge of the page.
SIDE, EDGE, SIZE = 9 * MM, 2.5 * MM, 7.0


@dataclass(frozen=True, slots=True)
class Stamp:
    """What a page says of itself: words, the code of the print, and the address behind it."""

    words: str
    code: str
    link: str


def stamped(content: bytes, stamp: Stamp) -> bytes:
    """The same PDF with the stamp in the lower margin of each page."""
    writer = PdfWriter(clone_from=BytesIO(content))
    for page in writer.pages:
        page.merge_page(_line(page, stamp))
    return _bytes(writer)


def together(contents: Iterable[bytes], title: str) -> bytes:
    """Several PDFs one after another, as one with a title; their bookmarks stay."""
    writer = PdfWriter()
    for content in contents:
        writer.append(BytesIO(content))
    writer.add_metadata({"/Title": title})
    return _bytes(writer)


def _line(page: PageObject, stamp: Stamp) -> PageObject:
    wide, high = float(page.mediabox.width), float(page.mediabox.height)
    sheet = _sheet(wide, high)
    low = high - EDGE
    sheet.qr(wide - MARGIN - SIDE, low - SIDE, SIDE, stamp.link)
    words = f"{stamp.words} Print {stamp.code}: {stamp.link}"
    width = wide - 2 * MARGIN - SIDE - 4
    lines = sheet.lines_of(words, width, SIZE)
    sheet.text(MARGIN, low - SIZE * 1.32 * len(lines) - 2, words, width=width, size=SIZE)
    return PdfReader(BytesIO(sheet.finish())).pages[0]


def _sheet(wide: float, high: float) -> Paper:
    """A page of these sides, for the marks alone."""
    kind = type("Page", (Paper,), {"sides": (wide, high)})
    return kind("")


def _bytes(writer: PdfWriter) -> bytes:
    out = BytesIO()
    writer.write(out)
    return out.getvalue()
