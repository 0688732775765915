"""The sentences of the pages of the day."""

from kitchen.timeplan.day.pages import look_words


def test_steps_that_cannot_begin_as_planned_are_counted_and_no_step_is_not_counted():
    hold = ("Bench 1: between step 3 and step 4 food waits 37 min; the recipe allows 15 min.",)
    ends = "As it stands the last bench ends at 15:52."
    assert look_words(0, 0, hold, 952) == f"{hold[0]} {ends}"
    assert look_words(1, 0, (), 952) == f"One step cannot begin as planned. {ends}"
    later = "Two steps cannot begin as planned, the latest 7 min later."
    assert look_words(2, 7, hold, 952) == f"{later} {hold[0]} {ends}"
