"""Kit labels and the issue sheet: every line and every name on paper, eight labels to a page."""

from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PdfReader

from curriculum.wording import amount
from kitchen.stores.paper import IssueFood, KitLabel, LabelLine, food_words, issue_sheet, kit_labels
from tests.builders.kits import eclair_kits, quiche_kits

LINES = (
    LabelLine("30 g", "Unsalted butter", ("milk",), component="Filling"),
    LabelLine("5", "Hen egg in shell", ("egg",), "200 g for the custard", "Custard"),
    LabelLine("4 g", "Fine salt", component="Custard"),
)
LABEL = KitLabel("1", "Quiche", "PC2-A, Juniper Kitchen", 1, 9, "16 Feb, 09:00", ("Wren", "Maia"), LINES)


def words_of(pdf):
    return " ".join(" ".join(page.extract_text() for page in PdfReader(BytesIO(pdf)).pages).split())


def pages_of(pdf):
    return len(PdfReader(BytesIO(pdf)).pages)


def label_of(kit, number, of):
    lines = tuple(
        LabelLine(
            str(line.pieces) if line.pieces else amount(line.milligrams),
            line.words,
            line.contains_words,
            line.note,
            line.component,
        )
        for line in kit.lines
    )
    return replace(LABEL, plate=kit.label, title=kit.title, number=number, of=of, lines=lines)


def test_eight_labels_stand_on_a_page():
    labels = [replace(LABEL, number=n, of=17) for n in range(1, 18)]
    assert pages_of(kit_labels(labels[:8], title="Labels")) == 1
    assert pages_of(kit_labels(labels, title="Labels")) == 3


def test_a_label_says_what_its_kit_is():
    full = replace(
        LABEL, free_from="FREE FROM MILK, Silas", lots=("LS-2207",), cold_until="09:50", may_contain="soya"
    )
    said = words_of(kit_labels([full], title="Labels"))
    for words in (
        "Kit 1 of 9",
        "Wren, Maia",
        "FREE FROM MILK, Silas",
        "Lots LS-2207.",
        "09:50",
        "soya",
        "Second person",
        "Out of the cold",
        "Cut along the dots.",
    ):
        assert words in said


def test_what_is_empty_is_left_out():
    said = words_of(kit_labels([LABEL], title="Labels"))
    assert all(words not in said for words in ("Lots", "Cold until", "May contain", "FREE FROM", "NOT TO BE"))


def test_a_kit_that_may_not_leave_says_so():
    blocked = replace(LABEL, blocked_why="No label read: desiccated coconut.")
    assert "NOT TO BE ISSUED. No label read" in words_of(kit_labels([blocked], title="Labels"))


@pytest.mark.parametrize("kits", [quiche_kits(), eclair_kits()], ids=["quiche", "eclairs"])
def test_every_line_of_every_kit_of_the_main_job_is_printed(kits):
    for number, kit in enumerate(kits, start=1):
        pdf = kit_labels([label_of(kit, number, len(kits))], title="Labels")
        said = words_of(pdf)
        assert all(line.words.split()[0] in said for line in kit.lines)
        assert said.count("Label 1 of 2") in (0, 1)


def test_a_long_kit_goes_on_over_a_second_label_and_loses_nothing():
    long = tuple(
        LabelLine(f"{n} g", f"Food{n} with a name", ("milk",), component=f"Part{n // 4}") for n in range(24)
    )
    said = words_of(kit_labels([replace(LABEL, lines=long)], title="Labels"))
    assert "Label 1 of" in said and "Label 2 of" in said
    assert all(said.count(f"Food{n} ") == 1 for n in range(24))


def test_names_of_any_length_and_script_are_printed_whole():
    names = ("W" * 200, "<b>Leif</b>", "Фёдор Достоевский")
    said = words_of(kit_labels([replace(LABEL, names=names)], title="Labels"))
    assert said.replace(" ", "").count("W" * 50)
    assert "<b>Leif</b>" in said and "Достоевский" in said


def test_a_food_whose_name_is_long_is_printed_whole():
    line = LabelLine("1,250 g", "word " * 40, ("gluten (wheat)",), "note " * 20)
    said = words_of(kit_labels([replace(LABEL, lines=(line,))], title="Labels"))
    assert (said.count("word"), said.count("note")) == (40, 20)


def test_labels_of_nothing_are_one_empty_page():
    assert pages_of(kit_labels([], title="Labels")) == 1


def test_allergens_are_emphasised_inside_the_list():
    words = food_words("Butter", ("milk",), "cold")
    assert [getattr(each, "ruled", False) for each in words] == [False, False, True, False, False]


def test_the_issue_sheet_has_every_food_of_every_kit_with_its_sum():
    plates = [str(n) for n in range(1, 17)]
    foods = [
        IssueFood(
            "Unsalted butter", ("milk",), tuple(f"{n}00 g" for n in range(1, 17)), "13.6 kg", ("LS-2207",)
        ),
        IssueFood("Fine salt", (), ("", *["4 g"] * 15), "60 g"),
    ]
    pdf = issue_sheet(
        title="Issue sheet",
        facts="PC2-A",
        plates=plates,
        foods=foods,
        names=[("1", "Wren, Maia")],
        shortages=["Short of 400 g butter."],
    )
    said = words_of(pdf)
    assert all(f"{n}00 g" in said for n in range(1, 17))
    for words in ("13.6 kg", "LS-2207", "Wren, Maia", "Short of 400 g butter.", "Issued by"):
        assert words in said
