"""What was counted out and in, in words."""

from random import Random

from kitchen.stores.tools.counting import Handed, counts_of, given_to_benches

KNIVES = Handed(1, "chef_knife", "Juniper Kitchen", out=12, back=12)
AT_3 = Handed(
    1, "chef_knife", "Juniper Kitchen", 2, 1, place=33, bench="3", names=("A. Wharf", "B. Tolworth")
)
TINS = Handed(2, "flan_tin", "Saffron Kitchen", out=8, back=5, lost=1)


def test_knives_out_and_in_are_summed_over_benches():
    assert counts_of([TINS, AT_3, KNIVES]).knives == "Knives and peelers: 14 out, 13 in."


def test_what_is_not_back_is_said_with_who_had_the_bench():
    assert AT_3.open_words == (
        "1 chef knife of Juniper Kitchen is not back. Bench 3 had 2: A. Wharf and B. Tolworth."
    )
    assert TINS.open_words == "2 flan tins of Saffron Kitchen are not back."
    assert KNIVES.open_words == ""
    nobody = Handed(1, "peeler", "Juniper Kitchen", 1, place=4, bench="4")
    assert nobody.open_words.endswith("Bench 4 had 1: nobody is placed there.")


def test_groups_come_knives_first_and_say_what_is_written_off():
    counts = counts_of([TINS, KNIVES])
    assert [words for _, words, _ in counts.groups] == [
        "Knives and peelers: 12 out, 12 in.",
        "Tins, rings and moulds: 8 out, 5 in, 1 written off.",
    ]
    assert counts.open == (TINS,)
    assert counts.begun and not counts_of([]).begun
    assert counts_of([TINS]).knives == ""


def test_benches_stand_in_their_order_and_the_class_first():
    lines = [
        Handed(1, "peeler", "J", 1, place=n, bench=bench) for n, bench in ((5, "10"), (4, "2.2"), (3, "2"))
    ]
    ordered = counts_of([*lines, Handed(1, "peeler", "J", 1)]).lines
    assert [line.bench for line in ordered] == ["", "2", "2.2", "10"]
    assert [line.with_whom for line in ordered][:2] == ["The class", "Bench 2"]


def test_a_count_goes_bench_by_bench_and_the_rest_to_the_class():
    assert given_to_benches(16, [(7, 2)] * 1 + [(8, 2)]) == {7: 2, 8: 2, 0: 12}
    assert given_to_benches(3, [(7, 2), (8, 2), (9, 2)]) == {7: 2, 8: 1}
    assert given_to_benches(0, [(7, 2)]) == {}


def test_given_out_it_is_always_the_whole_count_and_no_bench_has_more_than_its_recipe_lists():
    dice = Random(3)
    for _ in range(200):
        benches = [(key, dice.randint(0, 3)) for key in range(1, dice.randint(1, 8))]
        count = dice.randint(0, 20)
        given = given_to_benches(count, benches)
        assert sum(given.values()) == count
        assert all(given.get(key, 0) <= wanted for key, wanted in benches)
        assert 0 not in given or all(given.get(key, 0) == wanted for key, wanted in benches)
