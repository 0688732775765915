"""A sample is drawn from finished sittings, recorded with its seed, and repeated from the record."""

import uuid

import pytest

from assessments.verification.actions import draw_sample
from assessments.verification.models import Sample
from curriculum.errors import RuleBroken
from tests.builders.cast import build_cast
from tests.builders.marking import WEAK, marked, opened

pytestmark = pytest.mark.django_db


@pytest.fixture
def cast():
    return build_cast()


def draw(cast, **more):
    return draw_sample(**{"lessons": [cast.lesson.code], "seed": "20270308", "by": cast.verifier, **more})


def test_a_fail_is_in_the_sample_with_its_reason(cast):
    sitting = marked(cast, WEAK)
    (item,) = draw(cast).items.all()
    assert (item.sitting, item.why) == (sitting, "not passed: not passed")


def test_the_record_is_enough_to_draw_the_same_names_again(cast):
    marked(cast)
    first = draw(cast)
    rule = first.rule
    again = draw(cast, lessons=rule["lessons"], seed=rule["seed"], margin_points=rule["margin_points"])
    assert [item.sitting_id for item in again.items.all()] == [item.sitting_id for item in first.items.all()]


def test_a_form_sent_twice_draws_once(cast):
    marked(cast)
    key = uuid.uuid4()
    assert draw(cast, key=key) == draw(cast, key=key)
    assert Sample.objects.count() == 1


def test_unfinished_sittings_are_not_drawn(cast):
    opened(cast)
    with pytest.raises(RuleBroken, match="No sitting of these lessons is finished yet"):
        draw(cast)
