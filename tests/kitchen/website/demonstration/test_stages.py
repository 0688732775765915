"""A stage has one key at every start, and no two stages share one."""

from itertools import product

from kitchen.website.demonstration.stages import key


def test_a_key_is_the_same_at_every_start_and_for_every_machine():
    assert key("main-1", "places") == key("main-1", "places")
    assert str(key("main-1", "places")) == "09946de1-61c4-59cc-b309-e2f7a575f7dc"


def test_lessons_and_stages_do_not_share_keys():
    names = list(product(("main-1", "main-2"), ("book", "places", "kits", "issue", "brief")))
    assert len({key(*each) for each in names}) == len(names)
