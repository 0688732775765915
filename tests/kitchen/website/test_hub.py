"""The page of a lesson in words."""

from datetime import date, time

from kitchen.lessons.models import Lesson
from kitchen.stores.models import KitSet
from kitchen.timeplan.models import TimePlan
from kitchen.website.hub import plan_words, shortage_words, times_of


def a_lesson():
    return Lesson(
        on=date(2027, 2, 16),
        starts=time(9, 0),
        minutes=180,
        start_minutes=15,
        clear_minutes=30,
        code="ABCDEFGH",
    )


def test_the_slot_is_start_cooking_break_and_clear_down():
    lesson = a_lesson()
    lesson.break_after, lesson.break_minutes = 80, 10
    assert times_of(lesson) == {
        **{"starts": "09:00", "cooking": "09:15", "ready": "11:30", "ends": "12:00"},
        **{"break_from": "10:20", "break_until": "10:30"},
    }


def test_a_plan_that_fits_says_what_is_in_hand_and_what_no_plan_beats():
    words = plan_words(a_lesson(), TimePlan(finish_minutes=131, bound_minutes=130))
    assert words == (
        "The last bench is done at 11:26, after 131 minutes of cooking. "
        "4 minutes are in hand. No plan can end before minute 130."
    )


def test_a_plan_that_does_not_fit_says_by_how_much():
    assert "26 minutes too long" in plan_words(a_lesson(), TimePlan(finish_minutes=161, bound_minutes=161))


def test_shortages_of_food_and_of_equipment_are_named():
    kits = KitSet(
        shortages=[
            {"what": "food", "name": "White fondant icing paste", "short_milligrams": 600_000},
            {"what": "equipment", "name": "flan tins", "short": 2, "needed": 9},
        ]
    )
    assert shortage_words(kits) == ["600 g of White fondant icing paste.", "2 of 9 flan tins."]


def test_without_a_plan_or_kits_nothing_is_said():
    assert plan_words(a_lesson(), None) == ""
    assert shortage_words(None) == []
