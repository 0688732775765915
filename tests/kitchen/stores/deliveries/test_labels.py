"""What a label that was read names beyond the label of the book."""

import pytest

from kitchen.stores.deliveries.labels import kinds_beyond
from kitchen.stores.made.bowls import Label


@pytest.mark.parametrize(
    ("contains", "may_contain", "more"),
    [
        ((), (), ()),
        (("milk",), (), ()),
        (("milk", "soya"), (), ("soya",)),
        (("almond",), (), ("almond",)),
        (("milk",), ("almond",), ()),
        ((), ("milk",), ()),
        (("soya",), ("soya", "egg"), ("soya", "egg")),
        (("wheat", "rye"), (), ()),
    ],
)
def test_what_is_contained_and_what_may_be_are_held_against_the_book(contains, may_contain, more):
    book = Label(("milk", "gluten"), ("almond",))
    assert kinds_beyond(Label(contains, may_contain), book) == more
