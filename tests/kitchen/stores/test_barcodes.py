"""Bar codes: what a scanner sends and what people type, read back or refused with place and reason."""

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitchen.stores.barcodes import SEPARATOR, check_digit, read
from kitchen.stores.identifiers import CHECKED, IDENTIFIERS, PREDEFINED, ROWS

YEAR = 2027
#: GS1 General Specifications, character set 82 (from memory), without brackets, which separate here.
SET_82 = "!\"%&'*+,-./0123456789:;<=>?ABCDEFGHIJKLMNOPQRSTUVWXYZ_abcdefghijklmnopqrstuvwxyz"


def found(words, year=YEAR):
    """identifier -> value of everything that was read; nothing may be in the way."""
    reading = read(words, year)
    assert reading.troubles == ()
    return {each.ai: each.value for each in reading.elements}


def why(words):
    """The one reason why a code cannot be read."""
    (trouble,) = read(words, YEAR).troubles
    return trouble.why


# check-values, section 12: run there with two packages, or read in their documents
@pytest.mark.parametrize(
    ("body", "digit"),
    [
        ("629104150021", 3),
        ("501234567890", 0),
        ("0629104150021", 3),
        ("1629104150021", 0),
        ("9889876543210", 6),
        ("0952123454321", 3),
        ("0950110153000", 3),
        ("3842587609507", 4),
    ],
)
def test_the_check_digit_is_the_published_one(body, digit):
    assert check_digit(body) == digit


def test_the_worked_example_is_read_whole():
    # check-values, section 12: worked GS1-128, both packages agree
    reading = read("010950110153000315271231310300250010LOT42", YEAR)
    assert reading.gtin == "09501101530003"
    assert reading.best_before == date(2027, 12, 31)
    assert reading.milligrams == 2_500_000
    assert reading.batch == "LOT42"
    assert reading.use_by is None and reading.troubles == () and reading.doubts == ()


@pytest.mark.parametrize("gap", [SEPARATOR, "<FNC1>", "<gs>", "{GS}", "^]", "\u241d", "\\x1d"])
def test_the_published_string_with_prefix_and_separator_is_read(gap):
    # check-values, section 12: published parse, lot and net weight on both sides of the price
    reading = read(f"]C1 01 04012345678901 17 150129 10 ABC123 {gap} 3932 978 4711 {gap} 3103 000525", 2015)
    assert (reading.gtin, reading.use_by, reading.batch) == (
        "04012345678901",
        date(2015, 1, 29),
        "ABC123",
    )
    assert reading.milligrams == 525_000
    price = next(each for each in reading.elements if each.ai == "3932")
    assert (price.amount, price.value[:3]) == (Fraction("47.11"), "978")


def test_the_form_with_brackets_is_read():
    # check-values, section 12: published parse
    reading = read("(01)38425876095074(17)181119(37)1", 2018)
    assert (reading.gtin, reading.use_by, reading.count) == ("38425876095074", date(2018, 11, 19), 1)


@pytest.mark.parametrize("prefix", ["]C1", "]d2", "]Q3", "]e0", "]J1"])
def test_each_prefix_of_an_element_string_is_taken_off(prefix):
    assert found(f"{prefix}10A1{SEPARATOR}17270301") == {"10": "A1", "17": "270301"}


def test_a_prefix_of_another_kind_is_handed_back():
    assert "prefix" in why("]A0ABC")
    assert read("]E06291041500213", YEAR).gtin == "06291041500213"


@pytest.mark.parametrize(
    ("typed", "gtin"),
    [
        ("6291041500213", "06291041500213"),
        ("06291041500213", "06291041500213"),
        ("16291041500210", "16291041500210"),
        ("5012345678900", "05012345678900"),
        ("036000291452", "00036000291452"),
        ("96385074", "00000096385074"),
    ],
)
def test_plain_numbers_are_numbers_of_packs(typed, gtin):
    # the last two: the usual examples of a UPC-A and of an EAN-8 (from memory)
    assert read(typed, YEAR).gtin == gtin
    assert read(f" {typed[:3]} {typed[3:]} ", YEAR).gtin == gtin


def test_our_own_codes_are_told_from_numbers():
    assert read("2ab3cd4e", YEAR).ours == "2AB3CD4E"
    assert read("2AB3CD4I", YEAR).ours == ""


def test_a_wrong_check_digit_says_which_it_should_be():
    assert "is 4 and should be 3" in why("6291041500214")
    assert "is 4 and should be 3" in why("(01)06291041500214")
    assert "should be 3" in why("]C10106291041500214")


def test_what_is_behind_a_wrong_number_is_read_all_the_same():
    reading = read("010629104150021417270301", YEAR)
    assert [each.at for each in reading.troubles] == [1]
    assert reading.use_by == date(2027, 3, 1) and reading.gtin == ""


@pytest.mark.parametrize(
    ("digits", "day"),
    [
        ("270200", date(2027, 2, 28)),
        ("280200", date(2028, 2, 29)),
        ("271200", date(2027, 12, 31)),
        ("770101", date(2077, 1, 1)),
        ("780101", date(1978, 1, 1)),
        ("000101", date(2000, 1, 1)),
    ],
)
def test_day_00_is_the_last_of_the_month_and_years_lie_within_half_a_century(digits, day):
    assert read(f"(17){digits}", YEAR).use_by == day


def test_the_window_of_years_reaches_over_the_century():
    # 51 to 99 ahead belong to the century before, 50 to 99 behind to the next (from memory)
    assert read("(17)010101", 2060).use_by == date(2101, 1, 1)
    assert read("(17)100101", 2060).use_by == date(2110, 1, 1)
    assert read("(17)110101", 2060).use_by == date(2011, 1, 1)


@pytest.mark.parametrize("digits", ["271301", "270230", "270001", "27AB01"])
def test_what_is_no_date_is_handed_back(digits):
    assert why(f"(17){digits}")


@pytest.mark.parametrize(
    ("words", "milligrams"),
    [
        ("3100000002", 2_000_000),
        ("3105250000", 2_500_000),
        ("3203001000", 453_592),
        ("3203000005", 2_268),
        ("3303002500", None),
    ],
)
def test_weights_stand_where_their_point_stands(words, milligrams):
    assert read(words, YEAR).milligrams == milligrams


def test_a_number_that_is_cut_off_says_how_much_is_there():
    assert "has 14 characters at least, and 5 came with the scan" in why("0112345")


def test_a_batch_that_is_too_long_misses_its_separator():
    assert "separator" in why("10" + "A" * 21)


def test_a_batch_that_ends_like_a_date_is_doubted():
    reading = read("10LOT4217270301", YEAR)
    assert reading.batch == "LOT4217270301" and "separator" in reading.doubts[0]
    assert read("1727030110LOT4217270301", YEAR).doubts == ()


def test_identifiers_that_are_not_known_are_kept_as_read():
    reading = read(f"(7040)1ABC(4321)1(10)A{SEPARATOR}", YEAR)
    assert [(each.ai, each.value, each.known) for each in reading.elements] == [
        ("7040", "1ABC", False),
        ("4321", "1", False),
        ("10", "A", True),
    ]
    plain = read(f"]C170401ABC{SEPARATOR}10A", YEAR)
    assert [(each.ai, each.value, each.known) for each in plain.elements] == [
        ("70", "401ABC", False),
        ("10", "A", True),
    ]


def test_the_same_thing_twice_with_two_values_is_handed_back():
    assert "twice: A and B" in why("(10)A(10)B")
    assert found("(10)A(10)A") == {"10": "A"}


def test_the_place_of_a_trouble_is_where_it_was_typed():
    (trouble,) = read("(10) A1 (17) 279999", YEAR).troubles
    assert (trouble.at, trouble.text) == (9, "(17)279999")


@pytest.mark.parametrize("words", ["", "  ", SEPARATOR, "hello there", "]C1", "(01", "1"])
def test_what_is_no_code_is_refused_in_words(words):
    reading = read(words, YEAR)
    assert reading.elements == () and reading.troubles[0].why.endswith(".")


def test_what_needs_no_separator_has_the_length_of_its_row():
    for code, known in IDENTIFIERS.items():
        if code[:2] in PREDEFINED:
            assert known.least == known.most == PREDEFINED[code[:2]] - len(code), code
    assert all(CHECKED[code] <= IDENTIFIERS[code].most for code in CHECKED)


def test_no_identifier_begins_like_a_shorter_one():
    codes = {row[0].rstrip("n") for row in ROWS}
    assert not [(a, b) for a in codes for b in codes if a != b and b.startswith(a)]


# --- properties -------------------------------------------------------------------------


def digits(size):
    return st.text("0123456789", min_size=size, max_size=size)


def checked(size):
    return digits(size - 1).map(lambda body: f"{body}{check_digit(body)}")


def days():
    return st.dates(date(1978, 1, 1), date(2077, 12, 31)).map(lambda day: f"{day:%y%m%d}")


VALUES = {
    "01": checked(14),
    "02": checked(14),
    "00": checked(18),
    "410": checked(13),
    "11": days(),
    "13": days(),
    "15": days(),
    "17": days(),
    "3103": digits(6),
    "3202": digits(6),
    "3600": digits(6),
    "10": st.text(SET_82, min_size=1, max_size=20),
    "21": st.text(SET_82, min_size=1, max_size=20),
    "37": st.integers(1, 99_999_999).map(str),
    "3922": st.integers(0, 10**15 - 1).map(str),
    "400": st.text(SET_82, min_size=1, max_size=30),
    "99": st.text(SET_82, min_size=1, max_size=90),
}
#: After these a separator stands unless they are last (check-values, section 12).
OPEN_ENDED = {"10", "21", "37", "3922", "400", "99"}
said = st.lists(st.sampled_from(sorted(VALUES)), min_size=1, max_size=6, unique=True).flatmap(
    lambda ais: st.tuples(*(st.tuples(st.just(ai), VALUES[ai]) for ai in ais))
)


def typed_like_a_separator(pairs):
    whole = "".join(value for _, value in pairs).lower()
    return any(form in whole for form in ("<gs>", "<fnc1>"))


def built(pairs):
    """The element string of these pairs, by the rule of the standard."""
    last = len(pairs) - 1
    return "".join(
        f"{ai}{value}{SEPARATOR if ai in OPEN_ENDED and place < last else ''}"
        for place, (ai, value) in enumerate(pairs)
    )


@given(said)
def test_what_is_built_is_read_back(pairs):
    if not typed_like_a_separator(pairs):
        assert found("]C1" + built(pairs)) == dict(pairs)
        assert found("".join(f"({ai}){value}" for ai, value in pairs)) == dict(pairs)


@given(said, st.data())
def test_no_change_of_a_code_makes_reading_it_fail(pairs, data):
    text = list("]d2" + built(pairs))
    for _ in range(data.draw(st.integers(1, 4))):
        place = data.draw(st.integers(0, len(text) - 1))
        text[place] = data.draw(st.sampled_from(["", "x", "9", SEPARATOR, "(", "\u0663", "\0", "é"]))
    reading = read("".join(text), YEAR)
    assert all(each.why.endswith(".") and each.at >= 1 for each in reading.troubles)


@given(st.text(max_size=60))
def test_any_text_is_read_or_handed_back(words):
    reading = read(words, YEAR)
    assert reading.elements or reading.troubles or reading.ours


@given(st.sampled_from([8, 12, 13, 14]).flatmap(checked), st.data())
def test_one_wrong_digit_is_always_caught(number, data):
    place = data.draw(st.integers(0, len(number) - 1))
    other = data.draw(st.sampled_from([each for each in "0123456789" if each != number[place]]))
    wrong = number[:place] + other + number[place + 1 :]
    assert read(wrong, YEAR).gtin == "" and "should be" in why(wrong)
    assert "should be" in why(f"(01){wrong.zfill(14)}")


@given(checked(14), st.integers(0, 12))
def test_two_neighbours_that_changed_places_are_caught_unless_they_differ_by_five(number, place):
    a, b = number[place], number[place + 1]
    swapped = number[:place] + b + a + number[place + 2 :]
    missed = abs(int(a) - int(b)) in (0, 5)
    assert (read(f"01{swapped}", YEAR).troubles == ()) is missed
