"""What a class loses of a food while it works it."""

import pytest

from kitchen.stores.learning.wastage import common_words, lost, propose, share
from tests.builders.learning import a_lesson_food

GRAM = 1000
WORKED = {"R01": ("blind_baking", "rubbing_in"), "R05": ("rubbing_in",)}


def propositions(*lessons, in_use=None):
    return propose("soft_wheat_flour", lessons, WORKED, in_use or {})


def test_what_was_burnt_and_given_again_counts_once_the_larger_of_the_two():
    burnt = a_lesson_food(more={"over_baked": 180 * GRAM}, thrown={"burnt": 150 * GRAM})
    assert (lost(burnt), share(burnt)) == (180 * GRAM, 125)
    assert lost(a_lesson_food(more={"dropped": 10 * GRAM}, thrown={"dropped": 40 * GRAM})) == 40 * GRAM


def test_a_spare_kit_that_did_not_come_back_is_lost_only_where_a_loss_was_written_down():
    """Planted: eggs of an untouched spare kit were called lost, since nobody wrote where they went."""
    assert lost(a_lesson_food(spare_used=160 * GRAM)) == 0
    assert lost(a_lesson_food(spare_used=160 * GRAM, thrown={"burnt": 20 * GRAM})) == 160 * GRAM
    assert lost(a_lesson_food(spare_used=160 * GRAM, more={"over_baked": 20 * GRAM})) == 180 * GRAM


@pytest.mark.parametrize("reason", ["late", "short", "not_enough", "other"])
def test_what_was_given_for_another_reason_was_not_lost(reason):
    assert lost(a_lesson_food(more={reason: 160 * GRAM})) == 0


@pytest.mark.parametrize("reason", ["trim", "opened", "out_of_date", "over_made", "test_piece"])
def test_what_was_thrown_away_for_another_reason_was_not_lost(reason):
    assert lost(a_lesson_food(thrown={reason: 160 * GRAM})) == 0


def test_no_share_is_more_than_everything():
    assert share(a_lesson_food(more={"dropped": 10**9})) == 1000


def test_the_middle_is_rounded_up_to_a_whole_per_cent():
    lessons = [a_lesson_food(n, more={"dropped": each * GRAM}) for n, each in enumerate((0, 60, 90, 120))]
    (found,) = propositions(*lessons)
    assert (found.middle, found.amount) == (41, 50)


def test_techniques_of_the_same_lessons_share_a_proposal_and_others_have_their_own():
    quiches = [a_lesson_food(n, more={"dropped": 90 * GRAM}) for n in range(4)]
    both, alone = propositions(*quiches), propositions(*quiches, a_lesson_food(7, recipe="R05"))
    assert [(each.of, each.others) for each in both] == [("blind_baking", ("rubbing_in",))]
    assert [(each.of, each.others, len(each.rows)) for each in alone] == [
        ("blind_baking", (), 4),
        ("rubbing_in", (), 5),
    ]


def test_the_technique_that_has_an_allowance_stands_for_those_of_the_same_lessons():
    quiches = [a_lesson_food(n, more={"dropped": 90 * GRAM}) for n in range(4)]
    (found,) = propositions(*quiches, in_use={"rubbing_in": 70})
    assert (found.of, found.in_use, found.changes_something) == ("rubbing_in", 70, False)


def test_an_allowance_of_the_food_alone_is_in_use_for_every_technique_that_has_none():
    quiches = [a_lesson_food(n, more={"dropped": 90 * GRAM}) for n in range(4)]
    assert [each.in_use for each in propositions(*quiches, in_use={"": 50})] == [50]
    assert [each.in_use for each in propositions(*quiches, in_use={"": 50, "rubbing_in": 30})] == [30]


def test_classes_that_lose_nothing_propose_nothing_more_than_nothing():
    (found,) = propositions(*(a_lesson_food(n) for n in range(4)))
    assert (found.amount, found.changes_something) == (0, False)


def test_common_practice_stands_beside_it_and_says_that_it_has_no_source():
    dry, fresh = (common_words(kind).replace("\u00a0", "~") for kind in ("ambient", "chilled"))
    assert dry.startswith("3~to~5~% of food that is weighed dry, 10~to~20~%")
    assert fresh.startswith("5~to~10~% of fresh food")
    assert "no source" in common_words("frozen")
