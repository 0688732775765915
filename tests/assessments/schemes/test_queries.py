"""What is cooked in a lesson, as a brief sees it."""

import pytest

from assessments.schemes.queries import cooked_in
from tests.builders.cast import build_cast

pytestmark = pytest.mark.django_db


def test_a_brief_sees_every_step_that_the_learners_work():
    cast = build_cast()
    whole = [step.position for step in cooked_in(cast.lesson)[0].recipe.steps]
    assert whole == list(range(1, len(whole) + 1))
    assert len(whole) > 1


def test_steps_done_ahead_for_the_learners_are_not_marked():
    cast = build_cast()
    cast.dish.ahead_steps = [1]
    cast.dish.save()
    assert 1 not in [step.position for step in cooked_in(cast.lesson)[0].recipe.steps]


def test_a_dish_over_two_lessons_is_marked_on_the_steps_of_this_one():
    cast = build_cast()
    cast.dish.taught_steps = [1]
    cast.dish.save()
    assert [step.position for step in cooked_in(cast.lesson)[0].recipe.steps] == [1]
