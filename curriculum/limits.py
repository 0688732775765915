"""Every limit of temperature and time with its figure, strictness, country and source.

For cautions on pages and sheets, and for readings. A limit is a fact about a rule that
somebody published, never a judgement of a dish. Beside each stands the college's own
limit, which rules when it is stricter; local codes and the college's risk assessment
come before everything here. Temperatures are tenths of a degree Celsius.

Worked example: the rule for food on display out of hot holding is "below 63 °C for
*less than* two hours, once" (Northern Ireland and Wales regulations of 2006): 119 minutes
keep it, 120 do not.
"""

from dataclasses import dataclass

#: Years from which a person is of full age: Family Law Reform Act 1969, section 1 (England and
#: Wales), from memory. Below it a learner is said to be under 18.
FULL_AGE = 18
DEFER = "Follow your college’s own risk assessment and local rules where they differ."


@dataclass(frozen=True, slots=True)
class Limit:
    """One published limit.

    ``sense`` says how the reading stands to the figure: "at_least", "at_most",
    "below" or "less_than" (strict). ``minutes`` or ``seconds`` belong to it where the rule
    names a time. ``seen`` is "read", "second hand", "from memory" or "common practice".
    """

    code: str
    words: str
    sense: str
    decicelsius: int | None
    seconds: int | None
    country: str
    source: str
    seen: str


LIMITS: tuple[Limit, ...] = (
    Limit(
        "cold_hold",
        "Cold food is kept at 8 °C or colder",
        "at_most",
        80,
        None,
        "United Kingdom",
        "Food hygiene regulations 2006 (Wales), schedule 4; England 2013, schedule 4",
        "read",
    ),
    Limit(
        "cold_target",
        "Aim for 5 °C or colder",
        "at_most",
        50,
        None,
        "United Kingdom",
        "Food Standards Agency guidance, 0 to 5 °C, as carried by nibusinessinfo",
        "read",
    ),
    Limit(
        "frozen_arrival",
        "Frozen food arrives at −15 °C or colder: −18 °C, and 3 °C more for a short time on the way",
        "at_most",
        -150,
        None,
        "United Kingdom",
        "Quick-frozen Foodstuffs Regulations 2007, after Directive 89/108/EEC, article 5",
        "from memory",
    ),
    Limit(
        "hot_hold",
        "Hot food is held at 63 °C or hotter",
        "at_least",
        630,
        None,
        "United Kingdom",
        "Food hygiene regulations 2006 (Wales), schedule 4, paragraph 6",
        "read",
    ),
    Limit(
        "hot_display",
        "Out of hot holding once, for less than two hours",
        "less_than",
        630,
        7200,
        "United Kingdom",
        "Food hygiene regulations 2006 (Wales), schedule 4, paragraph 7",
        "read",
    ),
    Limit(
        "cold_display",
        "Above 8 °C once, for less than four hours",
        "less_than",
        80,
        14400,
        "United Kingdom",
        "Food hygiene regulations 2006 (Northern Ireland), schedule 4, paragraph 5",
        "read",
    ),
    Limit(
        "core_quick",
        "Core at 75 °C for 30 seconds",
        "at_least",
        750,
        30,
        "United Kingdom",
        "Food Standards Agency advice on core equivalents",
        "second hand",
    ),
    Limit(
        "core",
        "Core at 70 °C for two minutes",
        "at_least",
        700,
        120,
        "United Kingdom",
        "Food Standards Agency advice on core equivalents",
        "second hand",
    ),
    Limit(
        "cooling",
        "Cooled within 90 minutes, then chilled",
        "at_most",
        80,
        5400,
        "United Kingdom",
        "Common practice, no source; the college sets its own time",
        "common practice",
    ),
    Limit(
        "egg_out_of_shell",
        "Egg out of its shell is kept at 5 °C or colder and thrown away four hours after it was broken",
        "at_most",
        50,
        14400,
        "United Kingdom",
        "Common practice, no source; the college sets its own time",
        "common practice",
    ),
    Limit(
        "frying_oil",
        "A pan is never filled above one third with oil",
        "at_most",
        None,
        None,
        "United Kingdom",
        "Greater Manchester and Cornwall fire services, advice on deep frying",
        "read",
    ),
    Limit(
        "burn_cooling",
        "A burn is cooled under running water for 20 minutes",
        "at_least",
        None,
        1200,
        "United Kingdom",
        "St John Ambulance trainer in the trade press; North Bristol NHS",
        "read",
    ),
    Limit(
        "cold_hold_us",
        "Cold food is kept at 41 °F (5 °C) or colder",
        "at_most",
        50,
        None,
        "United States",
        "FDA Food Code 3-501.16, as adopted by states",
        "second hand",
    ),
    Limit(
        "hot_hold_us",
        "Hot food is held at 135 °F (57 °C) or hotter",
        "at_least",
        570,
        None,
        "United States",
        "FDA Food Code 3-501.16, as adopted by states",
        "second hand",
    ),
)

BY_CODE = {limit.code: limit for limit in LIMITS}


def holds(limit: Limit, decicelsius: int, seconds: int | None = None) -> bool:
    """Whether one reading keeps the limit; says nothing about the dish.

    For a limit with a time, ``seconds`` is how long the reading stood. ``at_least`` wants
    temperature and time; ``less_than`` allows the other side of the temperature for less
    than the time; ``at_most`` and ``below`` look at the temperature alone.
    """
    if limit.sense == "at_least":
        hot_enough = limit.decicelsius is None or decicelsius >= limit.decicelsius
        return hot_enough and (limit.seconds is None or (seconds or 0) >= limit.seconds)
    if limit.sense == "less_than":
        return seconds is not None and limit.seconds is not None and seconds < limit.seconds
    if limit.sense == "below":
        return limit.decicelsius is not None and decicelsius < limit.decicelsius
    return limit.decicelsius is None or decicelsius <= limit.decicelsius
