"""What is read of a lesson comes in an order that does not depend on the database."""

import pytest

from kitchen.lessons.models import PlaceLearner
from kitchen.lessons.queries import places_of
from tests.builders.stores import quiche_stage

pytestmark = pytest.mark.django_db


def names(place):
    return [learner.student.user.name for learner in place.learners.all()]


def test_the_learners_of_a_bench_come_by_name_whoever_was_written_first(django_assert_num_queries):
    lesson = quiche_stage().lesson
    for place in places_of(lesson):
        rows = list(place.learners.all())
        PlaceLearner.objects.filter(place=place).delete()
        for row in reversed(rows):
            PlaceLearner.objects.create(place=place, shift=row.shift, student=row.student)
    with django_assert_num_queries(2):
        found = [names(place) for place in places_of(lesson)]
    assert any(len(pair) == 2 for pair in found)
    assert found == [sorted(pair) for pair in found]
