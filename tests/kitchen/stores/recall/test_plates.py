"""A kit with a bench reaches that bench, a shared one every bench of its lesson; both ways agree."""

from hypothesis import given
from hypothesis import strategies as st

from kitchen.stores.recall.plates import KitAt, PlaceAt, plates_of

PLACES = [PlaceAt(1, 1), PlaceAt(2, 1), PlaceAt(3, 2)]


def test_a_kit_with_a_bench_reaches_it_alone():
    assert plates_of([KitAt(10, 1, 2)], PLACES) == {2: (10,)}


def test_a_shared_kit_reaches_every_bench_of_its_lesson():
    assert plates_of([KitAt(10, 1, None), KitAt(11, 1, 2)], PLACES) == {1: (10,), 2: (10, 11)}


def round_trip_breaks(kits, places, forward):
    """Kits that a bench of theirs does not lead back to, by a rule written a second time."""
    plates = forward(kits, places)
    return [
        (kit.kit, place.place)
        for kit in kits
        for place in places
        if (kit.lesson == place.lesson and (kit.place is None or kit.place == place.place))
        != (kit.kit in plates.get(place.place, ()))
    ]


@given(st.lists(st.sampled_from([(1, None), (1, 1), (1, 2), (2, None), (2, 3)]), max_size=8))
def test_forward_then_backward_gives_the_start(drawn):
    kits = [KitAt(number, *each) for number, each in enumerate(drawn)]
    assert round_trip_breaks(kits, PLACES, plates_of) == []


def test_a_way_that_forgets_shared_kits_is_caught():
    def forgets(kits, places):
        return plates_of([kit for kit in kits if kit.place is not None], places)

    assert round_trip_breaks([KitAt(1, 1, None)], PLACES, forgets)


def test_a_shared_kit_that_was_given_by_name_reached_those_benches_and_no_others():
    said = KitAt(1, 1, None, frozenset({2}))
    assert plates_of([said], [PlaceAt(1, 1), PlaceAt(2, 1), PlaceAt(3, 9)]) == {2: (1,)}
    assert plates_of([KitAt(1, 1, None, frozenset())], [PlaceAt(1, 1)]) == {}
    assert plates_of([KitAt(1, 1, None)], [PlaceAt(1, 1), PlaceAt(2, 1)]) == {1: (1,), 2: (1,)}
