import pytest

from tests.published.rows import SEEN, row


def test_a_row_allows_half_of_its_last_digit_and_no_more():
    assert row("near", "2.714", "2.71", "").holds()
    assert not row("far", "2.716", "2.71", "").holds()


def test_an_exact_row_allows_nothing():
    assert row("same", "4.5", "exact 4.5", "").holds()
    assert not row("off", "4.5000001", "exact 4.5", "").holds()


def test_a_tolerance_wider_than_its_source_allows_is_refused():
    with pytest.raises(ValueError, match="wider than its source"):
        row("wide", "2.72", "2.71", "", within="0.01")
    with pytest.raises(ValueError, match="wider than its source"):
        row("wider", "2.72", "2.71", "", within="0.02", because="it was cut")
    assert row("cut", "2.719", "2.71", "", within="0.01", because="it was cut, not rounded").holds()


def test_a_way_of_seeing_that_has_no_name_is_refused():
    with pytest.raises(ValueError, match="how it was seen"):
        row("heard", 1, "1", "", "hearsay")


def test_ways_of_seeing_are_named():
    assert row("x", 1, "1", "").seen in SEEN
