"""The label of a bowl on paper."""

from dataclasses import replace
from io import BytesIO

from pypdf import PdfReader

from kitchen.stores.made.paper import MadeLabel, made_label

LABEL = MadeLabel(
    code="BXWQ23RT",
    what="Hen egg, beaten whole",
    amount="450 g",
    by="Hana Bellweather",
    made="16 Feb, 08:30",
    discard="16 Feb, 12:30",
    where="Walk-in fridge",
    lesson="Quiche, 16 Feb, 09:00",
    contains=("egg",),
    may_contain=("milk",),
    parts=(("MP-0710", "6 pieces"), ("MP-0741", "3 pieces")),
)


def words_of(label):
    pages = PdfReader(BytesIO(made_label(label))).pages
    assert len(pages) == 1
    return " ".join(pages[0].extract_text().split())


def test_the_label_says_what_by_whom_when_until_when_what_is_in_it_and_whose_time_it_is():
    said = words_of(LABEL)
    for words in (
        "Hen egg, beaten whole, 450 g",
        "Made lot BXWQ23RT. For Quiche, 16 Feb, 09:00.",
        "Throw away by 16 Feb, 12:30",
        "Contains egg",
        "May contain milk",
        "Made 16 Feb, 08:30 by Hana Bellweather. Kept in: Walk-in fridge.",
        "Lot MP-0741",
        "3 pieces",
        "common practice, no source",
        "risk assessment",
    ):
        assert words in said
    assert "safe" not in said.lower()


def test_a_label_of_what_names_no_kind_says_so():
    said = words_of(replace(LABEL, contains=(), may_contain=()))
    assert "The labels name none of the kinds." in said and "May contain" not in said
