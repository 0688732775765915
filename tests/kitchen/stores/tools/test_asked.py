"""What a requisition asks for beside food, by thing and place."""

from kitchen.stores.tools.asked import AskedLine, same, things_of

LENT = AskedLine("flan_tin", 2, "Saffron Kitchen", 2, "Short of 3 flan tins.")
REST = AskedLine("flan_tin", 0, "", 1, "Short of 3 flan tins.")
KNIFE = AskedLine("peeler", 0, "", 1, "Short of 1 peeler.")


def test_lines_of_one_thing_are_one_entry_and_knives_come_first():
    peeler, tins = things_of([LENT, REST, KNIFE])
    assert (peeler.what, peeler.loans, peeler.short) == ("1 peeler", "", 1)
    assert (tins.what, tins.loans, tins.short) == ("3 flan tins", "2 from Saffron Kitchen", 1)
    assert tins.words == "Short of 3 flan tins."


def test_how_many_and_how_many_short_make_a_difference_and_who_lends_or_which_words_do_not():
    again = AskedLine("flan_tin", 3, "Copper Room", 2, "Other words.")
    assert same([LENT, REST], [REST, again])
    assert not same([LENT], [LENT, REST])
    assert not same([LENT], [AskedLine("flan_tin", 2, "Saffron Kitchen", 1)])
    assert not same([LENT, REST], [AskedLine("flan_tin", 2, "Saffron Kitchen", 3)])
    assert not same([LENT], [AskedLine("tart_ring", 2, "Saffron Kitchen", 2)])
