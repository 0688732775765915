"""What was written is read back as it was typed, and what cannot be read is named at its field."""

import pytest

from kitchen.timeplan.own_order.written import (
    CleanLine,
    StepLine,
    WrittenOrder,
    kept_order,
    read_or_none,
    read_order,
    unreadable,
)
from tests.builders.own_order import GOOD


def test_an_order_comes_back_as_it_was_kept():
    assert read_order(kept_order(GOOD)) == GOOD


def test_a_shape_that_nobody_wrote_is_refused():
    with pytest.raises(ValueError, match="shape 2"):
        read_order(kept_order(GOOD) | {"shape": 2})


def test_a_time_that_is_none_is_named_at_its_field_with_what_was_typed():
    order = WrittenOrder((StepLine(3, "25:99"), StepLine(4, "09:20"), StepLine(5)), (CleanLine("soon", "x"),))
    found = {trouble.field: trouble.words for trouble in unreadable(order)}
    assert list(found) == ["at_3", "clean_at_1", "clean_minutes_1"]
    assert [each.about for each in unreadable(order)] == ["Step 3", "Cleaning 1", "Cleaning 1"]
    assert "“25:99”" in found["at_3"]


def test_an_order_without_such_a_time_has_nothing_to_name():
    assert list(unreadable(GOOD)) == []


def test_times_are_minutes_of_the_day():
    assert [read_or_none(words) for words in ("09:20", "", "25:99")] == [560, None, None]


def test_a_step_without_a_line_has_an_empty_one():
    assert GOOD.line(9) == StepLine(9)
