"""Ovens of a demonstration: lit in time, as late as can be, and never the one that the class needs."""

from dataclasses import replace

from kitchen.timeplan.demonstration import chosen
from kitchen.timeplan.demonstration_data import Shown
from kitchen.timeplan.demonstration_oven import OvenThere, oven_uses, oven_words
from tests.builders.recipes import college_recipe
from tests.kitchen.timeplan.test_demonstration import the_quiche

AT = 9 * 60 + 15


def quiche_uses():
    return oven_uses(college_recipe("R01"), the_quiche(), AT)


def test_a_shell_is_baked_so_that_it_comes_out_for_its_stage():
    shell = next(use for use in quiche_uses() if use.step == 5 and use.ends == AT + 6)
    assert (shell.ahead, shell.starts, sum(stay.minutes for stay in shell.stays)) == (True, AT + 6 - 14, 14)


def test_a_quiche_that_keeps_an_hour_and_a_half_is_baked_on_the_day_and_its_shell_before_it():
    steps = [use.step for use in quiche_uses() if use.ahead]
    assert steps.count(5) == 2 and steps.count(6) == 1 and steps.count(8) == 1
    baked = next(use for use in quiche_uses() if use.step == 8)
    assert baked.ends == AT + 13


def test_what_is_worked_in_front_of_the_class_goes_in_when_its_hands_are_done():
    made = chosen(college_recipe("R01"), (Shown(5, "live", 4),), 10)
    (use,) = [each for each in oven_uses(college_recipe("R01"), made, AT) if not each.ahead]
    assert (use.step, use.starts, use.ends) == (5, AT + 4, AT + 18)


def test_an_oven_is_lit_in_time_and_one_that_the_class_has_is_left_to_it():
    (use,) = [each for each in quiche_uses() if each.step == 5 and each.ends == AT + 6]
    free = OvenThere("Oven 2")
    (words,) = oven_words((use,), (OvenThere("Oven 1", busy=((AT, AT + 60),)), free))
    assert words.oven == "Oven 2, lit by 08:51." and not words.clash
    assert words.clock == "09:07" and "180\xa0°C" in words.words and "Out at 09:21." in words.words


def test_a_free_oven_until_the_class_lights_it_will_do_and_a_minute_less_will_not():
    (use,) = [each for each in quiche_uses() if each.step == 5 and each.ends == AT + 6]
    for until, clash in ((AT + 6, False), (AT + 5, True)):
        (words,) = oven_words((use,), (OvenThere("Oven 1", busy=((until, AT + 90),)),))
        assert words.clash is clash
    assert "None of one oven is free until 09:21" in words.oven


def test_two_bakes_at_once_take_two_ovens():
    (use,) = [each for each in quiche_uses() if each.step == 5 and each.ends == AT + 6]
    one = oven_words((use, use), (OvenThere("Oven 1"),))
    two = oven_words((use, use), (OvenThere("Oven 1"), OvenThere("Oven 2")))
    assert [words.clash for words in one] == [False, True]
    assert [words.clash for words in two] == [False, False]


def test_an_oven_that_is_hot_from_the_bake_before_is_taken_before_another_is_lit():
    (use,) = [each for each in quiche_uses() if each.step == 5 and each.ends == AT + 6]
    again = replace(use, starts=use.ends + 4)
    words = oven_words((use, again), (OvenThere("Oven 1"), OvenThere("Oven 2")))
    assert [each.oven for each in words] == ["Oven 1, lit by 08:51.", "Oven 1, still hot."]
    cooler = replace(again, stays=(replace(use.stays[0], decicelsius=1550),))
    assert oven_words((use, cooler), (OvenThere("Oven 1"), OvenThere("Oven 2")))[1].oven.startswith("Oven 2")


def test_a_room_without_an_oven_says_so():
    assert all(words.clash and "no oven" in words.oven for words in oven_words(quiche_uses(), ()))
