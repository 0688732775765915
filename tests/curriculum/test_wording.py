from datetime import date, time
from fractions import Fraction

import pytest

from curriculum import wording


@pytest.mark.parametrize(
    ("milligrams", "words"),
    [
        (104_000, "104 g"),
        (2_500, "2.5 g"),
        (300, "0.3 g"),
        (0, "0 g"),
        (1_557_500, "1,557.5 g"),
        (-40_000, "\u221240 g"),
        (12_500_000, "12,500 g"),
        (Fraction(2_250), "2.3 g"),
    ],
)
def test_a_weight_is_written_in_grams_with_one_decimal_at_most(milligrams, words):
    assert wording.amount(milligrams) == words


@pytest.mark.parametrize(
    ("milligrams", "words"), [(9_999_000, "9,999 g"), (10_000_000, "10 kg"), (12_545_000, "12.545 kg")]
)
def test_the_stores_speak_of_kilograms_from_ten_thousand_grams_on(milligrams, words):
    assert wording.amount(milligrams, stores=True) == words


def test_the_exact_weight_has_two_decimals():
    assert wording.exact_amount(Fraction(275_000, 3)) == "91.67 g"
    assert wording.exact_amount(1000) == "1 g"


def test_a_range_names_its_unit_once():
    assert wording.amount_range(230_000, 260_000) == "230 to 260 g"


@pytest.mark.parametrize(
    ("minutes", "words"),
    [(0, "0 min"), (14, "14 min"), (120, "120 min"), (121, "2 h 01"), (221, "3 h 41"), (180, "3 h")],
)
def test_a_duration_is_in_minutes_up_to_two_hours(minutes, words):
    assert wording.duration(minutes) == words


def test_minutes_of_a_cook_are_hours_and_minutes():
    assert (wording.since_start(30), wording.since_start(125)) == ("0 h 30", "2 h 05")


def test_the_clock_has_twenty_four_hours():
    assert wording.clock(time(13, 5)) == "13:05"
    assert wording.clock_minutes(9 * 60 + 35) == "09:35"
    assert wording.clock_minutes(24 * 60 + 10) == "00:10"


def test_a_date_has_its_year_only_when_it_is_another():
    day = date(2026, 11, 18)
    assert wording.long_date(day, date(2026, 1, 1)) == "Wednesday 18 November"
    assert wording.long_date(day, date(2027, 1, 1)) == "Wednesday 18 November 2026"
    assert wording.short_date(day, date(2026, 1, 1)) == "18 Nov"
    assert wording.short_date(day) == "18 Nov 2026"


@pytest.mark.parametrize(
    ("pence", "words"), [(444, "£4.44"), (5, "£0.05"), (120_400, "£1,204.00"), (-50, "\u2212£0.50")]
)
def test_money_is_in_pounds_and_pence(pence, words):
    assert wording.money(pence) == words


def test_temperatures_have_a_space_and_a_real_minus():
    assert wording.temperature(1800) == "180\xa0°C"
    assert wording.temperature(-180) == "\u221218\xa0°C"
    assert wording.temperature(625) == "62.5\xa0°C"
    assert wording.temperature_range(750, 820) == "75 to 82\xa0°C"
    assert wording.temperature_range(750, None) == "at least 75\xa0°C"
    assert wording.temperature_range(None, 50) == "at most 5\xa0°C"
    assert wording.temperature_range(800, 800) == "80\xa0°C"
    assert wording.temperature_range(None, None) == ""


def test_a_holding_time_is_in_seconds_below_a_minute():
    assert [wording.seconds(n) for n in (30, 120, 150)] == ["30 s", "2 min", "2 min 30 s"]


def test_shares_and_marks():
    assert wording.per_cent(Fraction(1, 20)) == "5 %"
    assert wording.per_cent(Fraction(1, 3), 1) == "33.3 %"
    assert wording.points(72_500) == "72.5"


def test_a_list_ends_with_and():
    assert wording.listed([]) == ""
    assert wording.listed(["egg"]) == "egg"
    assert wording.listed(["egg", "milk", "wheat"]) == "egg, milk and wheat"
    assert wording.listed(["egg", "milk"], last="or") == "egg or milk"


def test_numbers_up_to_twelve_are_words_in_sentences():
    assert wording.number(12) == "twelve" and wording.number(13) == "13"
    assert wording.counted(1, "egg") == "1 egg" and wording.counted(5, "egg") == "5 eggs"
    assert wording.counted_words(7, "bench", "benches") == "seven benches"


def test_a_sentence_has_a_capital_and_one_full_stop():
    assert wording.sentence("rest it ") == "Rest it."
    assert wording.sentence("Rest it.") == "Rest it."
    assert wording.sentence("") == ""


def test_words_are_compared_without_case_and_marks():
    assert wording.plain("Crème FRAÎCHE") == "creme fraiche"
    assert wording.plain("饺子") == "饺子"


@pytest.mark.parametrize(
    ("one", "many"),
    [
        ("wedge", "wedges"),
        ("dish", "dishes"),
        ("portion of four pieces", "portions of four pieces"),
        ("small glass", "small glasses"),
        ("pastry", "pastries"),
        ("tray", "trays"),
    ],
)
def test_a_unit_has_its_plural(one, many):
    assert wording.plural(one) == many
