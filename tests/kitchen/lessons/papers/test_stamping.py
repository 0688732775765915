"""Each page of a print carries its line, on any side of paper, and stays as it was above it."""

from io import BytesIO

from pypdf import PdfReader

from curriculum.blocks import Sheet
from kitchen.lessons.papers.stamping import Stamp, stamped, together

STAMP = Stamp("Kit labels, set 2 of 12 Feb 08:31.", "7KM3QXYZ", "https://kitchen.example/papers/7KM3QXYZ/")


def a_pdf(title="A sheet", pages=2, landscape=False):
    sheet = Sheet(title, landscape=landscape, foot=title)
    for number in range(1, pages + 1):
        if number > 1:
            sheet.new_page()
        sheet.paragraph(f"Words of page {number}.")
    return sheet.finish()


def words(content):
    return [page.extract_text() for page in PdfReader(BytesIO(content)).pages]


def test_every_page_carries_the_line_and_its_own_words():
    for landscape in (False, True):
        pages = words(stamped(a_pdf(landscape=landscape), STAMP))
        assert len(pages) == 2
        for number, said in enumerate(pages, start=1):
            assert "set 2 of 12 Feb 08:31" in said and "7KM3QXYZ" in said
            assert f"Words of page {number}." in said


def test_a_page_that_was_not_stamped_would_be_seen():
    """Planted."""
    assert not any("7KM3QXYZ" in said for said in words(a_pdf()))


def test_papers_of_different_sides_lie_in_one_file_with_its_title():
    whole = together([a_pdf("One", 1), a_pdf("Two", 2, landscape=True)], "Printed again")
    reader = PdfReader(BytesIO(whole))
    assert len(reader.pages) == 3 and reader.metadata.title == "Printed again"
    assert reader.pages[0].mediabox.width < reader.pages[1].mediabox.width
