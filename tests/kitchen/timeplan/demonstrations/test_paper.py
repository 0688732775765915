"""The demonstration's sheet: everything the page says, for the front of the class."""

from io import BytesIO
from types import SimpleNamespace

from pypdf import PdfReader

from kitchen.timeplan.demonstration_clock import on_the_clock
from kitchen.timeplan.demonstration_oven import OvenWords
from kitchen.timeplan.demonstration_trays import trays_of
from kitchen.timeplan.demonstration_words import FaultWords, stage_words, summary
from kitchen.timeplan.demonstrations.paper import demonstration_paper, tray_labels
from tests.builders.recipes import college_recipe
from tests.kitchen.timeplan.test_demonstration import the_quiche


def the_written(**changes):
    made, at = the_quiche(), 555
    faults = {"lining_ring": [FaultWords("Air below", "Not pressed", "Press it in")]}
    facts = {
        "plan": made,
        "title": "Leek and Cheddar quiche",
        "facts": "Tuesday 16 February, 09:15 to 09:31.",
        "summary": summary(made),
        "remarks": made.remarks,
        "stages": tuple(stage_words(each, at, faults) for each in made.stages),
        "clock_words": "The clock is the class’s.",
        "trays": trays_of(college_recipe("R01"), on_the_clock(college_recipe("R01"), made, at, None)),
        "ovens": (OvenWords("09:07", 5, "Step 5, made before: 180 °C for 14 min.", "Oven 1, lit by 08:51."),),
        "batches": (("Shortcrust paste", 3, 0), ("Seal", 1, 1)),
        "missed": "",
        "cautions": ("Hot oven door.",),
    }
    return SimpleNamespace(**facts | changes)


def words_of(written):
    pages = PdfReader(BytesIO(demonstration_paper(written))).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_everything_stands_on_the_sheet():
    said = words_of(the_written())
    for words in (
        "Demonstration: Leek and Cheddar quiche",
        "Finished between 09:10 and 09:21",
        "The clock is the class’s.",
        "T2",
        "Out of the cold at 09:10.",
        "12 min of it are worked together with the trays above.",
        "Oven 1, lit by 08:51.",
        "Shortcrust paste 3 none",
        "Seal 1 one",
        "09:25",
        "What has gone wrong when you see this: air below?",
        "Stage tray, 4 min.",
        "The last step of the dish is not shown.",
        "Hot oven door.",
        "risk assessment",
    ):
        assert words in said


def test_what_is_not_seen_live_is_told():
    assert "Not seen live: piping." in words_of(the_written(missed="piping"))
    assert "Not seen live" not in words_of(the_written())


def test_a_demonstration_without_trays_has_no_list_of_them():
    assert "Stage trays" not in words_of(the_written(trays=(), batches=()))


def labels_of(written):
    pages = PdfReader(BytesIO(tray_labels(written))).pages
    return len(pages), " ".join(" ".join(page.extract_text() for page in pages).split())


def test_every_tray_has_a_label_with_its_plate_its_hour_and_its_allergens():
    pages, said = labels_of(the_written())
    assert pages == 1
    for words in ("T1", "T3", "As far as step 8", "Out of the cold at 09:10.", "Made by", "milk", "egg"):
        assert words in said


def test_nine_trays_take_two_pages_and_none_says_so():
    assert labels_of(the_written(trays=the_written().trays * 3))[0] == 2
    assert "no tray to label" in labels_of(the_written(trays=()))[1]
