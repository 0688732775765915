from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from curriculum.foods import egg_sizes, eggs
from curriculum.foods.egg_sizes import BAKING_BOOK, SHARES, SR28


def test_a_class_has_its_least_egg_and_stays_below_the_next():
    assert egg_sizes.bounds("small") == (0, 53_000)
    assert egg_sizes.bounds("large") == (63_000, 73_000)
    assert egg_sizes.bounds("very large") == (73_000, None)
    with pytest.raises(KeyError):
        egg_sizes.bounds("jumbo")


def test_what_a_class_gives_goes_from_its_least_egg_to_the_next_class():
    least, most = egg_sizes.class_gives("large")
    assert (least.beaten, most.beaten) == (F(55_440), F(64_240))
    assert egg_sizes.class_gives("very large")[1] is None


@given(st.integers(30_000, 90_000), st.sampled_from(sorted(SHARES)), st.integers(1, 100))
def test_eggs_for_what_eggs_give_are_the_eggs(shell, source, count):
    given_ = egg_sizes.what_whole_eggs_give(count, shell, source)
    for part in ("beaten", "white", "yolk"):
        assert egg_sizes.eggs_for(getattr(given_, part), part, shell, source) == count
    assert given_.white + given_.yolk <= given_.beaten
    least, most = egg_sizes.bounds(eggs.size_class(shell))
    assert least <= shell and (most is None or shell < most)


def test_the_two_sources_differ_and_both_are_kept():
    one, other = egg_sizes.gives(60_000, SR28), egg_sizes.gives(60_000, BAKING_BOOK)
    assert one.beaten == other.beaten and one.white > other.white and one.yolk < other.yolk


def test_shares_of_more_than_an_egg_would_be_seen(monkeypatch):
    monkeypatch.setitem(SHARES, "planted", (F(3, 4), F(1, 2)))
    planted = egg_sizes.gives(60_000, "planted")
    assert planted.white + planted.yolk > planted.beaten
