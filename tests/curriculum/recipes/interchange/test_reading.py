from dataclasses import replace

import pytest

from curriculum.recipes.interchange import reading
from tests.builders.recipes import college_recipe


def test_what_it_makes_is_counted_by_its_first_word():
    assert reading.yield_words(college_recipe("R09")) == "10 portions of four pieces"
    assert reading.yield_words(college_recipe("R01")) == "8 wedges"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("8", (8, "portion")),
        ("8 wedges", (8, "wedge")),
        ("Serves 4", (4, "portion")),
        ("Makes 24 pastries.", (24, "pastry")),
        ("10 portions of four pieces", (10, "portion of four pieces")),
        ("1 loaf", (1, "loaf")),
        ("4 to 6", (None, "portion")),
        ("4-6 portions", (None, "portion")),
        ("1.5 litres", (None, "portion")),
        ("0", (None, "portion")),
        ("9999", (None, "portion")),
        ("a dozen", (None, "portion")),
        ("", (None, "portion")),
    ],
)
def test_a_yield_is_read_where_it_is_one_count_and_never_guessed(text, read):
    assert reading.read_yield(text) == read


def test_every_yield_that_is_written_is_read_again():
    for unit in ("wedge", "dish", "glass", "pastry", "tray", "roll", "portion of four pieces"):
        for count in (1, 2, 12, 999):
            words = reading.yield_words(_of(unit, count))
            assert reading.read_yield(words) == (count, unit)


def _of(unit, count):
    return replace(college_recipe("R01"), unit=unit, portions_stated=count)


def test_a_long_step_is_parted_at_sentences_and_loses_no_word():
    words = " ".join(f"Sentence {number} is said here." for number in range(60))
    parts = reading.parted_step(words)
    assert len(parts) > 1 and all(len(part) <= reading.LONGEST_STEP for part in parts)
    assert " ".join(parts) == words
    assert "".join(reading.parted_step("x" * 1500)) == "x" * 1500


def test_a_thousand_portions_are_read_and_no_more():
    assert reading.read_yield("1000 portions")[0] == 1000
    assert reading.read_yield("1001 portions")[0] is None
    assert reading.read_yield("0 portions")[0] is None
