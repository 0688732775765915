"""The sheet for counting by hand says what is needed, from where, what is out and what is short."""

from io import BytesIO

from pypdf import PdfReader

from kitchen.stores.tools.counting import Handed, counts_of
from kitchen.stores.tools.lending import Loan
from kitchen.stores.tools.paper import count_sheet
from kitchen.stores.tools.standing import Standing

TINS = Standing("flan_tin", 9, 7, (Loan(2, "Saffron Kitchen", 2),))
WHISKS = Standing("whisk", 8, 6)
KNIVES = Handed(
    1, "chef_knife", "Juniper Kitchen", 2, 1, place=3, bench="3", names=("A. Wharf", "B. Tolworth")
)


def text_of(things, lines=()):
    pages = PdfReader(BytesIO(count_sheet("Quiche", "PC2-A.", things, counts_of(lines)))).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_each_thing_says_from_where_it_comes_and_what_is_short_is_said():
    text = text_of([TINS, WHISKS])
    assert "Flan tin 9 7 from the room 2 from Saffron Kitchen ........ ........" in text
    assert "Short of 2 whisks: 8 needed, 6 here." in text
    assert "Count the knives" not in text and "Counted in by:" in text


def test_what_was_counted_stands_there_with_its_bench_although_the_lesson_did_not_need_it():
    text = text_of([TINS], [KNIVES])
    assert "Count the knives before anybody leaves the room." in text
    assert text.index("Chef knife") < text.index("Flan tin")
    assert "Chef knife Juniper Kitchen 2 1" in text
    assert "3 Chef knife A. Wharf B. Tolworth 2 1" in text
