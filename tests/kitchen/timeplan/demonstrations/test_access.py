"""What is not there is not found."""

import pytest
from django.http import Http404

from kitchen.timeplan.demonstrations.access import dish_to_show, standing_plan
from tests.builders.cast import build_cast
from tests.kitchen.timeplan.demonstrations.test_actions import accept

pytestmark = pytest.mark.django_db


def test_a_lesson_without_a_dish_has_no_demonstration():
    cast = build_cast()
    assert dish_to_show(cast.lesson).dish == cast.dish
    cast.place.delete()
    cast.dish.delete()
    with pytest.raises(Http404):
        dish_to_show(cast.lesson)


def test_only_an_accepted_demonstration_is_printed():
    cast = build_cast()
    with pytest.raises(Http404):
        standing_plan(cast.lesson)
    row = accept(cast)
    assert standing_plan(cast.lesson) == row
