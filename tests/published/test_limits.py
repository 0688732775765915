"""Published limits of temperature and time: the figure, how strict, and how long.

Nothing here judges a dish. Most were read in copies or adoptions, as each row says.
"""

import pytest

from curriculum import limits

WALES = "Food hygiene regulations 2006 (Wales), schedule 4 (read)"
ENGLAND = "the same in England 2013, schedule 4 (read in a copy)"
IRELAND = "Food hygiene regulations 2006 (Northern Ireland), schedule 4, paragraph 5 (read)"
FSA = "Food Standards Agency, core equivalents of 70 °C for 2 minutes (read in three copies)"
FDA = "FDA Food Code 2022, 3-501.16 (read in adoptions by states)"

#: code, reading in tenths of a degree, seconds it stood, whether it keeps the limit, source.
READINGS = [
    ("cold_hold", 80, None, True, f"{WALES}; {ENGLAND}: an offence above 8 °C"),
    ("cold_hold", 81, None, False, f"{WALES}; {ENGLAND}"),
    ("hot_hold", 630, None, True, f"{WALES}: an offence below 63 °C"),
    ("hot_hold", 629, None, False, WALES),
    ("hot_display", 500, 2 * 3600 - 1, True, f"{WALES}, paragraph 7: less than two hours, once"),
    ("hot_display", 500, 2 * 3600, False, WALES),
    ("cold_display", 150, 4 * 3600 - 1, True, f"{IRELAND}: less than four hours, once"),
    ("cold_display", 150, 4 * 3600, False, IRELAND),
    ("core", 700, 120, True, FSA),
    ("core", 700, 119, False, FSA),
    ("core", 699, 120, False, FSA),
    ("core_quick", 750, 30, True, FSA),
    ("core_quick", 750, 29, False, FSA),
    ("core_quick", 749, 30, False, FSA),
    ("cold_hold_us", 50, None, True, f"{FDA}: 5 °C or less"),
    ("cold_hold_us", 51, None, False, FDA),
    ("hot_hold_us", 570, None, True, f"{FDA}: 57 °C or more"),
    ("hot_hold_us", 569, None, False, FDA),
]


@pytest.mark.parametrize(("code", "decicelsius", "seconds", "keeps", "source"), READINGS)
def test_a_reading_keeps_a_published_limit_or_not(code, decicelsius, seconds, keeps, source):
    assert limits.holds(limits.BY_CODE[code], decicelsius, seconds) is keeps, source


def test_every_limit_names_its_source_its_country_and_how_it_was_seen():
    seen = {"read", "second hand", "from memory", "common practice"}
    for limit in limits.LIMITS:
        assert limit.source and limit.country and limit.seen in seen, limit.code
        assert limit.seen != "read" or "practice" not in limit.source.lower(), limit.code


def test_a_limit_that_is_only_practice_says_so():
    """No figure of a published rule was found for the minutes of cooling down in the United Kingdom."""
    assert limits.BY_CODE["cooling"].seen == "common practice"
    assert "no source" in limits.BY_CODE["cooling"].source


def test_the_caution_defers_to_the_college_and_local_rules():
    assert "own risk assessment" in limits.DEFER and "local rules" in limits.DEFER
