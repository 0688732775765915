"""A demonstration in words that a technician can work by."""

from dataclasses import replace

from kitchen.timeplan.demonstration_words import (
    FaultWords,
    ahead_words,
    keeps_words,
    shown_words,
    stage_words,
    summary,
)
from tests.kitchen.timeplan.test_demonstration import the_quiche

NAMES = {"A": "Shortcrust paste", "B": "Filling", "C": "Custard", "D": "Seal"}
NINE_FIFTEEN = 9 * 60 + 15


def test_a_shell_that_keeps_a_quarter_of_an_hour_has_a_first_and_a_last_minute():
    shell = ahead_words(the_quiche().ahead[1], NINE_FIFTEEN, NAMES)
    assert shell.when == "Finished between 09:10 and 09:21; it takes 80 min with its waits."
    assert shell.keeps == "Keeps 15 min."
    assert shell.components == "Shortcrust paste"
    assert shell.use == "Steps 1, 2, 4 and 5. Shown at 09:21."


def test_a_paste_may_be_made_the_day_before():
    paste = ahead_words(the_quiche().ahead[0], NINE_FIFTEEN, NAMES)
    assert paste.when == "Ready by 09:15: begun by 08:38, or the day before; it takes 37 min with its waits."
    assert "not shown by itself" in paste.use
    early = ahead_words(the_quiche().ahead[0], 7 * 60 + 15, NAMES)
    assert early.when.startswith("Made the day before, ready by 07:15")


def test_what_would_be_finished_before_midnight_is_said_in_hours():
    long = replace(the_quiche().ahead[1], keeps_minutes=600)
    assert ahead_words(long, NINE_FIFTEEN, NAMES).when.startswith("Finished by 09:21, at most 10 h before")


def test_what_keeps_without_a_limit_is_said():
    assert keeps_words(None) == "No limit is written in the recipe."


def test_a_stage_has_its_clock_its_cue_and_a_question_from_a_fault_of_its_technique():
    fault = FaultWords("Paste has shrunk from the rim.", "It was not rested", "Rest it 20 min in the cold")
    stage = stage_words(the_quiche().stages[2], NINE_FIFTEEN, {"egg_wash_seal": [fault]})
    assert (stage.clock, stage.minutes) == ("09:25", 3)
    assert stage.question == "What has gone wrong when you see this: paste has shrunk from the rim?"
    assert stage.answer == "It was not rested. Rest it 20 min in the cold."
    assert stage.comes_in == "Comes in finished: step\xa05."
    assert stage_words(the_quiche().stages[0], NINE_FIFTEEN, {}).question == ""


def test_a_question_is_of_what_is_particular_to_the_step():
    faults = {
        "pinning_out": [FaultWords("Cracks", "Cold", "Wait")],
        "lining_ring": [FaultWords("Air below", "Not pressed", "Press")],
    }
    assert "air below" in stage_words(the_quiche().stages[0], NINE_FIFTEEN, faults).question


def test_the_steps_are_named_in_order():
    assert shown_words(the_quiche()) == "Steps 4 and 6 live, steps 5 and 8 as trays."
    one = replace(the_quiche(), stages=the_quiche().stages[1:2])
    assert shown_words(one) == "Nothing live, step 5 as a tray."


def test_a_wait_that_is_over_is_said():
    cooled = replace(the_quiche().ahead[1], step=9, waited_only=True)
    assert ahead_words(cooled, NINE_FIFTEEN, NAMES).title == "As far as the wait of step 9"


def test_the_summary_counts():
    assert summary(the_quiche()) == "Two steps live, three things made before, 53 min of hands to prepare."
