"""A plan keeps what it was computed from, and the page says what is another number now."""

from datetime import date

import pytest

from kitchen.stores.orders.changed import Changed, changes, hash_of, inputs_of, needs_in
from kitchen.stores.orders.week import Need, Served

DAY = date(2027, 2, 16)


def inputs(**grams):
    return inputs_of(Served(Need("L1", DAY, food, mg * 1000), 0, 0, 0) for food, mg in grams.items())


def test_more_less_new_and_gone_are_named_and_the_rest_is_not():
    found = changes(inputs(butter=10, flour=20, salt=1), inputs(butter=15, flour=20, milk=3))
    assert found == (
        Changed(("L1", DAY, "butter"), 10_000, 15_000),
        Changed(("L1", DAY, "milk"), 0, 3_000),
        Changed(("L1", DAY, "salt"), 1_000, 0),
    )


def test_the_same_inputs_have_the_same_hash_and_others_another():
    assert hash_of(inputs(butter=1)) == hash_of(inputs(butter=1)) != hash_of(inputs(butter=2))


def test_a_shape_that_nobody_knows_is_refused():
    with pytest.raises(ValueError):
        needs_in({"shape": 9, "lines": []})
