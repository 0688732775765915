"""Two thousand lines of known meaning, and readers with a fault that the same harness finds."""

import re
from dataclasses import replace
from fractions import Fraction

import pytest

from curriculum.foods.handwriting import scaled_words
from curriculum.foods.measures import read_line
from tests.builders.amount_lines import judged, lines

MANY = 2_000


def test_no_line_breaks_the_reader_and_none_is_misread_in_silence():
    found = judged(lines(MANY, 1))
    assert not found["crashed"], found["crashed"][0]
    assert not found["misread"], found["misread"][0]
    assert not found["unread"], found["unread"][0]
    assert len(found["right"]) > MANY / 2 and len(found["handed_back"]) > MANY / 5


def _juxtaposed(text, system):
    """Reads "1 1/2" as a half, as a general package does."""
    return read_line(re.sub(r"\d+ (\d/\d)", r"\1", text), system)


def _cups_are_us(text, system):
    return read_line(text, system or "us")


def _never_in_doubt(text, system):
    return replace(read_line(text, system), trouble="")


def _larger_end(text, system):
    read = read_line(text, system)
    return replace(read, amount=read.amount and replace(read.amount, least=read.amount.most))


def _spoon_of_twenty(text, system):
    return read_line(text, "australian" if system == "metric" else system)


def _ten_times(text, system):
    read = read_line(text, system)
    if read.amount is None or read.amount.most < 1000:
        return read
    return replace(read, amount=replace(read.amount, most=read.amount.most * Fraction(10)))


@pytest.mark.parametrize(
    "fault", [_juxtaposed, _cups_are_us, _never_in_doubt, _larger_end, _spoon_of_twenty, _ten_times]
)
def test_a_reader_with_a_planted_fault_is_caught(fault):
    assert judged(lines(MANY, 1), fault)["misread"]


def test_a_reader_that_breaks_is_caught():
    def breaks(text, system):
        return read_line(text, system) if text.isascii() else 1 / 0

    assert judged(lines(200, 1), breaks)["crashed"]


def test_the_lines_are_the_same_for_the_same_seed():
    assert list(lines(50, 7)) == list(lines(50, 7)) != list(lines(50, 8))


@pytest.mark.parametrize(
    ("text", "system", "amount", "food", "note"),
    [
        ("1 (400 g) tin chopped tomatoes", None, 400, "chopped tomatoes", ""),
        ("2 tins (400 g each) tomatoes", None, 800, "tomatoes", ""),
        ("400 g tin of tomatoes", None, 400, "tomatoes", ""),
        ("250 g / 9 oz butter", None, 250, "butter", ""),
        ("1 x 400g/14oz tin tomatoes", None, 400, "tomatoes", ""),
        ("200 g-250 g butter", None, 250, "butter", ""),
        ("about 200 g butter", None, 200, "butter", "about"),
        ("100 g 70% dark chocolate", None, 100, "70% dark chocolate", ""),
        ("100 g 00 flour", None, 100, "00 flour", ""),
        ("1 stick butter", "us", Fraction(45359237, 400_000), "butter", ""),
        ("1 lb plus 3 oz flour", None, Fraction(45359237 * 19, 1_600_000), "flour", ""),
    ],
)
def test_what_cooks_write_besides_is_a_weight(text, system, amount, food, note):
    line = read_line(text, system)
    assert (line.amount.milligrams / 1000, line.food, line.note, line.trouble) == (amount, food, note, "")


@pytest.mark.parametrize(
    ("text", "count", "unit", "food", "note"),
    [
        ("2 large cloves of garlic", 2, "clove", "garlic", "large"),
        ("1 stick of celery", 1, "stick", "celery", ""),
        ("a small bunch of parsley", 1, "bunch", "parsley", "small"),
        ("a large pinch of salt", 1, "pinch", "salt", "large"),
        ("2 x lemons", 2, "piece", "lemons", ""),
        ("½ a lemon", Fraction(1, 2), "piece", "lemon", ""),
        ("two and a half lemons", Fraction(5, 2), "piece", "lemons", ""),
        ("the juice of 2 lemons", 2, "piece", "lemons juice", ""),
        ("finely grated zest of half a lemon", Fraction(1, 2), "piece", "lemon zest", ""),
    ],
)
def test_what_is_counted_keeps_what_was_said_of_it(text, count, unit, food, note):
    line = read_line(text, "us")
    assert (line.amount.most, line.amount.unit.one, line.food, line.note) == (count, unit, food, note)
    assert not line.trouble


@pytest.mark.parametrize(
    ("text", "system", "place"),
    [
        ("  1 cup plain flour", None, "cup"),
        ("- 2 fl oz milk", None, "fl oz"),
        ("3 T sugar", None, "T"),
        ("1 tbps sugar", "metric", "tbps"),
        ("2 large 400 g tins tomatoes", None, "large 400 g tins tomatoes"),
        ("1,500 g flour", None, "1,500 g"),
        ("½ tsp", "us", "½ tsp"),
        ("1 lb  3 oz plain flour", None, "1 lb  3 oz"),
        ("salt, to taste", None, "to taste"),
        ("10\u202e0 g flour", None, "\u202e"),
    ],
)
def test_a_line_says_at_which_place_its_amount_or_its_trouble_stands(text, system, place):
    line = read_line(text, system)
    assert text[line.begins : line.ends] == place


def test_the_amount_is_kept_as_it_was_written():
    assert read_line("  1½  cups plain flour", "us").written == "1½  cups"
    assert read_line("- about 2 x 400 g tins tomatoes").written == "2 x 400 g tins"


@pytest.mark.parametrize(
    "text",
    ["250 g / 20 oz butter", "1 kg or 500", "1-1/2 cups", "two hundred nuts", "2 tsp each cumin and mace"],
)
def test_what_contradicts_itself_is_handed_back(text):
    assert read_line(text, "us").trouble


def test_the_amount_as_it_was_written_can_be_read_and_scaled_by_itself():
    for line in judged(lines(MANY, 1))["right"]:
        read = read_line(line.text, line.system)
        alone = "stick" not in line.text  # of butter or of celery: only the food says
        if line.kind not in ("noise", "damaged") and alone:
            assert scaled_words(read.written, line.system or "", 2), (line, read.written)
