"""Fields in which people write weights: what they show, they take back."""

import pytest
from django.core.exceptions import ValidationError

from curriculum.foods.forms import LengthField, WeightField


@pytest.mark.parametrize("milligrams", [56_699, 1_500, 260_000, 1, 85_049, 1_234_567])
def test_a_weight_that_is_shown_can_be_sent_back_as_it_is(milligrams):
    field = WeightField()
    assert field.clean(field.prepare_value(milligrams)) == milligrams


@pytest.mark.parametrize("typed", ["240", "80.1", "999"])
def test_a_tin_typed_in_millimetres_is_refused_with_the_lengths_there_are(typed):
    with pytest.raises(ValidationError, match=r"Write a figure from 0\.1 to 80\."):
        LengthField().clean(typed)
    assert LengthField().clean("24") == 240 and LengthField().clean("80 cm") == 800
