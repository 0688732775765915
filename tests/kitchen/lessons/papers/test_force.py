"""A print is void part by part, and no more is printed again than has changed."""

from datetime import datetime

import pytest

from kitchen.lessons.papers.force import Issue, Printed, Void, again, facets_of, to_throw_away, voids

AT = datetime(2027, 2, 12, 8, 31)


def part(weight, names="Wren"):
    return facets_of({"weights": weight, "names": names})


def now(**parts):
    return Issue("labels", 3, AT, {key.lstrip("b"): facets for key, facets in parts.items()})


def a_print(key, **parts):
    return Printed(key, "labels", 2, AT, {name.lstrip("b"): facets for name, facets in parts.items()})


FIRST = a_print(1, b1=part(100), b2=part(100), b3=part(100))
#: The worked example: bench 3 gets another weight, bench 4 is new.
NOW = now(b1=part(100), b2=part(100), b3=part(120), b4=part(100))


def test_the_worked_example():
    assert voids(FIRST, NOW) == (Void("3", ("weights",)),)
    assert again([FIRST], NOW) == ("3", "4")


def test_every_facet_that_changed_is_named_in_its_order():
    assert voids(a_print(1, b1=part(100)), now(b1=part(90, "Otto"))) == (Void("1", ("weights", "names")),)


def test_a_part_that_is_no_more_is_void_and_not_printed_again():
    fewer = now(b1=part(100), b2=part(100))
    (gone,) = voids(FIRST, fewer)
    assert (gone.part, gone.gone) == ("3", True)
    assert again([FIRST], fewer) == ()


def test_a_paper_that_is_no_more_is_void_whole():
    assert len(voids(FIRST, None)) == 3


def test_what_was_printed_again_is_not_printed_a_third_time():
    second = a_print(2, b3=part(120), b4=part(100))
    assert again([FIRST, second], NOW) == ()
    assert to_throw_away([FIRST, second], NOW) == ()


def test_what_is_void_again_is_thrown_away_once():
    second = a_print(2, b3=part(110))
    ((thrown, parts),) = to_throw_away([FIRST, second], NOW)
    assert (thrown.key, [each.part for each in parts]) == (2, ["3"])


def test_a_learner_s_print_of_one_bench_asks_for_no_other_bench():
    own = a_print(1, b1=part(100))
    assert again([own], NOW) == ()
    assert again([own], now(b1=part(90), b2=part(1))) == ("1",)


def test_nothing_is_asked_of_a_paper_that_nobody_has_printed():
    assert again([], NOW) == ()


@pytest.mark.parametrize("value", [[1, "2"], {"b": 1, "a": 2}, AT])
def test_the_same_facet_has_the_same_hash_and_another_has_not(value):
    assert facets_of({"x": value}) == facets_of({"x": value})
    assert facets_of({"x": value}) != facets_of({"x": [value]})


def test_only_some_parts_of_an_issue():
    assert set(NOW.only(["3", "9"]).parts) == {"3"}
