"""How much dusting flour a bench really takes."""

from kitchen.stores.learning.over_issue import propose, taken
from tests.builders.learning import a_lesson_food

GRAM = 1000


def over(*lessons, in_use=20 * GRAM):
    return propose("soft_wheat_flour", "R01", lessons, in_use, GRAM, ("Shortcrust paste",))


def test_what_was_given_because_there_was_too_little_is_shared_out_over_the_batches():
    assert taken(a_lesson_food(more={"not_enough": 90 * GRAM})) == 30 * GRAM


def test_what_came_back_sealed_or_opened_and_unused_was_not_taken():
    back = a_lesson_food(sealed=45 * GRAM, thrown={"opened": 36 * GRAM}, reworked=9 * GRAM)
    assert taken(back) == 10 * GRAM


def test_food_lost_and_given_again_is_no_over_issue():
    burnt = a_lesson_food(
        more={"over_baked": 160 * GRAM}, thrown={"burnt": 160 * GRAM}, spare_used=160 * GRAM
    )
    assert taken(burnt) == 20 * GRAM


def test_more_back_than_was_given_for_it_is_nothing_taken_and_not_less():
    assert taken(a_lesson_food(sealed=900 * GRAM)) == 0


def test_kits_that_left_short_and_were_filled_up_later_took_what_was_planned():
    short = a_lesson_food(issued=1_350 * GRAM, more={"short": 90 * GRAM})
    assert taken(short) == 20 * GRAM


def test_the_middle_of_the_lessons_is_proposed_rounded_up_to_what_is_weighed():
    grams = (80, 90, 95, 99, 1400)
    found = over(*(a_lesson_food(n, more={"not_enough": each * GRAM}) for n, each in enumerate(grams)))
    assert found.middle == 20 * GRAM + 95 * GRAM // 9
    assert found.amount == 31 * GRAM
    assert found.enough and found.changes_something
    assert found.benches == 40
    assert [row.far for row in found.rows] == [True, False, False, False, False]


def test_three_lessons_are_not_enough():
    assert not over(*(a_lesson_food(n) for n in range(3))).enough
    assert over(*(a_lesson_food(n) for n in range(4))).enough


def test_a_lesson_that_teaches_nothing_is_named_with_its_reason_and_not_counted():
    recalled = a_lesson_food(9, more={"not_enough": 900 * GRAM}, out_why="Lot X is held.")
    found = over(a_lesson_food(1), recalled)
    assert [row.lesson for row in found.rows] == ["LESSON1"]
    assert found.left_out == (("Quiche, PC2-A, 16 Mar 2027", "Lot X is held."),)


def test_without_a_lesson_that_teaches_nothing_is_proposed():
    assert over(a_lesson_food(out_why="It was cancelled.")) is None


def test_another_lesson_gives_another_mark():
    assert over(a_lesson_food(1)).mark != over(a_lesson_food(1), a_lesson_food(2)).mark
    assert over(a_lesson_food(1)).mark == over(a_lesson_food(1)).mark
