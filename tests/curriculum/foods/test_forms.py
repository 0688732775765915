"""Fields in which people write weights: what they show, they take back."""

import pytest

from curriculum.foods.forms import WeightField


@pytest.mark.parametrize("milligrams", [56_699, 1_500, 260_000, 1, 85_049, 1_234_567])
def test_a_weight_that_is_shown_can_be_sent_back_as_it_is(milligrams):
    field = WeightField()
    assert field.clean(field.prepare_value(milligrams)) == milligrams
