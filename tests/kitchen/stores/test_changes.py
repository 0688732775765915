"""What has changed since kits were made, in sentences a technician can act on."""

from dataclasses import replace
from datetime import timedelta

import pytest

from kitchen.stores.changes import changes, component_names, plated
from kitchen.stores.proposal import BenchAsked, inputs_of
from kitchen.stores.trays import Tray
from kitchen.timeplan.demonstration_kept import for_stores
from tests.kitchen.stores.test_proposal import QUESTION
from tests.kitchen.timeplan.test_demonstration import the_quiche

SHOWN = replace(QUESTION, shown=for_stores(the_quiche()))
MORE = (BenchAsked(13, "3", 3, 1), BenchAsked(14, "4", 4, 1))
NAMES = component_names(QUESTION)


def said(then, now):
    return changes(inputs_of(then), inputs_of(now), NAMES)


def test_the_same_lesson_has_not_changed():
    assert said(SHOWN, SHOWN) == ()


@pytest.mark.parametrize(
    "change, words",
    [
        ({"portions": 10}, "Portions a bench: 8 before, 10 now."),
        ({"spare_batches": 0}, "Batches to spare: 2 before, 0 now."),
        ({"benches": QUESTION.benches[:1]}, "Bench 2 is not worked any more."),
        ({"benches": (*QUESTION.benches, *MORE)}, "Benches 3 and 4 are worked now as well."),
        ({"benches": (replace(QUESTION.benches[0], version=2),)}, "Bench 1 works another recipe now."),
        ({"benches": QUESTION.benches[::-1]}, "Benches were given out again."),
        ({"plates": (0, 0, 1)}, "Plates for the second marker: none a bench before, one now."),
        (
            {"use_on": QUESTION.use_on + timedelta(2)},
            "The lesson was on Tuesday 16 February 2027; it is on Thursday 18 February 2027 now.",
        ),
        ({"ahead_steps": (1,)}, "Done ahead: steps 1 and 2 before, step 1 now."),
        ({"ahead_steps": ()}, "Done ahead: steps 1 and 2 before, nothing now."),
    ],
)
def test_each_change_is_said(change, words):
    assert words in said(QUESTION, replace(QUESTION, **change))


def test_an_accepted_demonstration_says_its_trays_and_its_batches():
    told = said(QUESTION, SHOWN)
    assert told[0] == (
        "Stage trays of the demonstration: none before, as far as step 2, as far as step 5 and as far as "
        "step 8 now."
    )
    assert "Shortcrust paste for the demonstration: one batch before, three now." in told
    assert not any(words.startswith("Leek") for words in told), "one before, one now"


def test_another_demonstration_says_what_is_more_and_what_is_less():
    fewer = replace(SHOWN, shown=replace(SHOWN.shown, trays=SHOWN.shown.trays[:1]))
    told = said(SHOWN, fewer)
    assert "Shortcrust paste for the demonstration: three batches before, one now." in told
    assert any(words.startswith("Savoury custard") and words.endswith("none now.") for words in told)


def test_accepted_trays_carry_the_plates_and_titles_of_the_demonstration():
    tray = Tray(kind="stage_tray", label="T", title="Quiche", lines=())
    third = plated(tray, inputs_of(SHOWN), 3, ordinary=True)
    assert (third.label, third.title) == ("T3", "Quiche, as far as step 8")
    assert plated(tray, inputs_of(QUESTION), 1, ordinary=True) is tray
    bench = Tray(kind="bench", label="1", title="Quiche", lines=())
    assert plated(bench, inputs_of(SHOWN), 1, ordinary=True) is bench


def test_what_is_prepared_ahead_says_how_much_of_it_is_for_trays():
    ahead = Tray(kind="ahead", label="A", title="Quiche", lines=(), batches=7)
    assert plated(ahead, inputs_of(SHOWN), 1, ordinary=True).title == "Quiche, 3 of 7 batches for stage trays"
    assert plated(ahead, inputs_of(SHOWN), 1, ordinary=False).title == "Quiche"
