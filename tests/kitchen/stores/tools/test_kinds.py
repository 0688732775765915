"""Things are called as a cook calls them, and knives are counted first."""

import pytest

from kitchen.stores.tools.kinds import GROUPS, KNIVES, counted, group_of, many_of, name_of, order_of


@pytest.mark.parametrize(
    ("item", "many"),
    [
        ("flan_tin_fluted_24", "flan tins fluted 24"),
        ("chef_knife", "chef knives"),
        ("pastry_brush", "pastry brushes"),
        ("nozzle_plain_6", "nozzles plain 6"),
        ("tub_with_lid", "tubs with lid"),
        ("bench_scale", "bench scales"),
        ("24", "24s"),
    ],
)
def test_several_of_a_thing_are_named_by_its_noun(item, many):
    assert many_of(item) == many


def test_one_is_counted_as_one_and_more_as_several():
    assert (counted(1, "chef_knife"), counted(2, "chef_knife")) == ("1 chef knife", "2 chef knives")
    assert name_of("tart_ring_22") == "tart ring 22"


@pytest.mark.parametrize(
    ("item", "title"),
    [
        ("filleting_knife", "Knives and peelers"),
        ("peeler", "Knives and peelers"),
        ("palette_knife", "Other small equipment"),
        ("piping_bag", "Nozzles and bags"),
        ("dariole_mould_100", "Tins, rings and moulds"),
        ("whisk", "Other small equipment"),
    ],
)
def test_a_thing_belongs_to_the_group_that_its_words_name(item, title):
    assert group_of(item).title == title


def test_knives_stand_before_everything_else():
    things = ["whisk", "cake_tin_20", "nozzle_star", "peeler", "chef_knife"]
    assert sorted(things, key=order_of) == ["chef_knife", "peeler", "nozzle_star", "cake_tin_20", "whisk"]
    assert GROUPS[0] is KNIVES
