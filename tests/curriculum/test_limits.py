"""Limits: strict where the rule is strict, and each with a source."""

import pytest

from curriculum.limits import BY_CODE, LIMITS, holds


@pytest.mark.parametrize(
    "code, decicelsius, seconds, kept",
    [
        # Wales 2006, schedule 4 paragraph 7: less than two hours.
        ("hot_display", 550, 119 * 60, True),
        ("hot_display", 550, 120 * 60, False),
        # Northern Ireland 2006, schedule 4 paragraph 5: less than four hours.
        ("cold_display", 120, 239 * 60, True),
        ("cold_display", 120, 240 * 60, False),
        # Wales 2006, schedule 4 paragraph 2: an offence above 8 °C, so 8.0 keeps it.
        ("cold_hold", 80, None, True),
        ("cold_hold", 81, None, False),
        # Food Standards Agency: 70 °C for two minutes.
        ("core", 700, 120, True),
        ("core", 700, 119, False),
        ("core", 699, 600, False),
        ("hot_hold", 630, None, True),
        ("hot_hold", 629, None, False),
        # Common practice, no source: egg out of its shell at 5 °C or colder.
        ("egg_out_of_shell", 50, None, True),
        ("egg_out_of_shell", 51, None, False),
    ],
)
def test_a_reading_keeps_a_limit_or_does_not(code, decicelsius, seconds, kept):
    assert holds(BY_CODE[code], decicelsius, seconds) is kept


def test_every_limit_names_its_source_country_and_how_it_was_seen():
    for limit in LIMITS:
        assert limit.source and limit.country
        assert limit.seen in {"read", "second hand", "from memory", "common practice"}


def test_common_practice_is_never_sold_as_a_published_rule():
    for limit in LIMITS:
        assert (limit.seen == "common practice") == limit.source.startswith("Common practice")
