"""The demonstration's sheet: everything the page says, for the front of the class."""

from io import BytesIO
from types import SimpleNamespace

from pypdf import PdfReader

from kitchen.timeplan.demonstration_words import FaultWords, ahead_words, stage_words, summary
from kitchen.timeplan.demonstrations.paper import demonstration_paper
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
        "ahead": tuple(ahead_words(each, at, {}) for each in made.ahead),
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
    assert "Made before" not in words_of(the_written(ahead=(), batches=()))
