"""Each thing stands with what is here, lent and to be borrowed, and says what would do."""

from kitchen.stores.tools.lending import Asking, Hold, Loan
from kitchen.stores.tools.needs import Needed
from kitchen.stores.tools.standing import Day, Place, standings

JUNIPER = Place(1, "Juniper Kitchen", False, {"flan_tin": 7, "chef_knife": 20})
SAFFRON = Place(2, "Saffron Kitchen", False, {"flan_tin": 2})
ASKING = Asking("LESS", 1, 540, 720)
TINS = Needed("flan_tin", (1,) * 8, 1)


def stand(needed=(TINS,), places=(JUNIPER, SAFFRON), holds=(), lent=()):
    return standings(needed, ASKING, Day(places, holds, 30), lent)


def test_what_the_room_lacks_is_offered_from_where_it_is_free():
    (tins,) = stand()
    assert (tins.here, tins.missing, tins.offers, tins.short) == (7, 2, (Loan(2, "Saffron Kitchen", 2),), 0)
    assert tins.words == (
        "Short of 2 flan tins: 9 needed, 7 here. Free elsewhere then: 2 from Saffron Kitchen. Two start "
        "times would do with what is here, when the first benches’ are washed before the next begin."
    )


def test_what_is_lent_already_is_no_more_short():
    (tins,) = stand(lent=[("flan_tin", Loan(2, "Saffron Kitchen", 2))])
    assert (tins.missing, tins.words) == (0, "")


def test_a_place_that_lends_already_lends_only_the_rest():
    (tins,) = stand(
        places=(JUNIPER, Place(2, "Saffron Kitchen", False, {"flan_tin": 1})),
        lent=[("flan_tin", Loan(2, "Saffron Kitchen", 1))],
    )
    assert (tins.missing, tins.offers, tins.short) == (1, (), 1)
    assert "1 borrowed from Saffron Kitchen. No other place has flan tins free then." in tins.words


def test_what_another_lesson_uses_there_cannot_be_borrowed():
    busy = Hold("OTHER", 2, 600, 800, True, {"flan_tin": 1})
    (tins,) = stand(holds=(busy,))
    assert (tins.short, tins.offers) == (1, (Loan(2, "Saffron Kitchen", 1),))
    assert "1 from Saffron Kitchen; 1 stay short." in tins.words


def test_where_nothing_would_do_benches_share():
    (torch,) = stand([Needed("blowtorch", (), 1)])
    assert torch.words == (
        "Short of 1 blowtorch: 1 needed, 0 here. No other place has blowtorches free then. "
        "Let benches share, or take fewer benches."
    )


def test_knives_come_first_and_what_is_there_says_nothing():
    found = stand([TINS, Needed("chef_knife", (1,) * 8)])
    assert [each.item for each in found] == ["chef_knife", "flan_tin"]
    assert found[0].words == ""


def test_a_room_that_keeps_no_equipment_lacks_everything():
    (tins,) = standings([TINS], Asking("LESS", 9, 540, 720), Day((SAFFRON,), (), 30))
    assert (tins.here, tins.missing, tins.short) == (0, 9, 7)


def test_a_place_that_has_everything_that_is_short_lends_it_in_one_walk():
    copper = Place(3, "Copper Room", False, {"scraper": 1, "marble_slab": 1})
    larger = Place(4, "Anise Kitchen", False, {"scraper": 9})
    needed = [Needed("marble_slab", (), 1), Needed("scraper", (), 1)]
    for places in ((JUNIPER, copper, larger), (JUNIPER, larger, copper)):
        assert [each.offers for each in stand(needed, places)] == [(Loan(3, "Copper Room", 1),)] * 2


def test_the_stores_lend_before_a_room_that_could_lend_as_much():
    stores = Place(5, "Lower Stores", True, {"flan_tin": 2})
    (tins,) = stand(places=(JUNIPER, SAFFRON, stores))
    assert tins.offers == (Loan(5, "Lower Stores", 2),)
