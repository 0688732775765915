"""Places at the benches: a proposal that keeps the rules, and words when a plan does not."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from curriculum.errors import RuleBroken
from kitchen.lessons.places import Cook, Placed, Seat, demand_places, propose, troubles

SEATS = [Seat(number) for number in range(1, 13)]
ALL = ("R01", "V1", "V2")


def cooks(count, **changes):
    """So many learners; ``n3=("V1",)`` says what the third can be put to."""
    return [Cook(n, f"Learner {n}", changes.get(f"n{n}", ALL)) for n in range(1, count + 1)]


def test_fourteen_learners_in_pairs_take_seven_benches_and_the_variants_are_shared():
    places = propose(SEATS, cooks(14, n4=("V1",), n10=("V2",)), pairs=True)
    assert len(places) == 7
    by_recipe = {place.recipe: place for place in places}
    assert 4 in by_recipe["V1"].cooks and 10 in by_recipe["V2"].cooks
    assert all(len(place.cooks) == 2 for place in places)


def test_two_learners_who_need_the_same_variant_share_it():
    places = propose(SEATS, cooks(6, n2=("V1",), n5=("V1",)), pairs=True)
    assert (2, 5) in {tuple(sorted(place.cooks)) for place in places if place.recipe == "V1"}


def test_learners_kept_apart_do_not_share_a_bench():
    places = propose(SEATS, cooks(4), pairs=True, apart=[(1, 2), (3, 4)])
    assert not any(set(place.cooks) in ({1, 2}, {3, 4}) for place in places)


def test_an_odd_learner_works_alone_and_one_who_cannot_is_not_placed():
    places = propose(SEATS, cooks(4, n2=()), pairs=True)
    assert sorted(key for place in places for key in place.cooks) == [1, 3, 4]
    assert sorted(len(place.cooks) for place in places) == [1, 2]


def test_fourteen_single_benches_do_not_fit_a_room_of_twelve():
    with pytest.raises(RuleBroken) as refused:
        propose(SEATS, cooks(14), pairs=False)
    assert refused.value.code == "not_enough_benches"
    assert "14 benches are needed and the room has 12" in refused.value.message


@pytest.mark.parametrize(
    ("places", "code", "words"),
    [
        (
            [Placed(1, "R01", (1,)), Placed(2, "R01", (1,))],
            "learner_twice",
            "Learner 1 is put on bench 1 and on bench 2",
        ),
        ([Placed(1, "R01", (1,)), Placed(1, "R01", (2,))], "bench_twice", "Bench 1 is given out 2 times"),
        ([Placed(40, "R01", (1,))], "bench_unknown", "Bench 40 is not in this room"),
        ([Placed(1, "R01", (1, 3, 4))], "bench_too_small", "Bench 1 takes 2 and 3 are put there"),
        ([Placed(1, "R01", (9,))], "learner_unknown", "somebody who is not in this class"),
        ([Placed(1, "R01", (1, 2))], "kept_apart", "Learner 1 and Learner 2, who do not share a bench"),
        ([Placed(1, "V9", (1,))], "recipe_against_diet", "declared against what Learner 1 avoids"),
    ],
)
def test_a_plan_made_by_hand_is_told_what_is_wrong(places, code, words):
    found = troubles(places, SEATS, cooks(4), apart=[(1, 2)])
    assert [(each.code, words in each.message) for each in found] == [(code, True)]
    with pytest.raises(RuleBroken) as refused:
        demand_places(places, SEATS, cooks(4), apart=[(1, 2)])
    assert refused.value.code == code


CLASSES = st.lists(st.sampled_from((ALL, ("V1",), ("V2",), ("R01", "V2"), ())), max_size=14)
PAIRS_APART = st.lists(
    st.tuples(st.integers(1, 14), st.integers(1, 14)).filter(lambda p: p[0] != p[1]), max_size=6
)


@given(CLASSES, PAIRS_APART)
def test_every_proposal_is_lawful_and_places_everybody_who_can_work(kinds, apart):
    people = [Cook(n, f"Learner {n}", kind) for n, kind in enumerate(kinds, start=1)]
    places = propose([Seat(n) for n in range(1, 15)], people, pairs=True, apart=apart)
    assert troubles(places, [Seat(n) for n in range(1, 15)], people, apart) == ()
    assert sorted(key for place in places for key in place.cooks) == [
        cook.key for cook in people if cook.recipes
    ]


def test_a_class_that_works_in_pairs_is_not_told_to_work_in_pairs():
    with pytest.raises(RuleBroken) as single:
        propose(SEATS[:1], cooks(4), pairs=False)
    with pytest.raises(RuleBroken) as paired:
        propose(SEATS[:1], cooks(4), pairs=True)
    assert "Work in pairs" in single.value.message
    assert "Take a larger room" in paired.value.message and "pairs" not in paired.value.message


def test_planted_violations_are_caught():
    places = propose(SEATS, cooks(4), pairs=True)
    twice = (places[0], replace(places[1], cooks=places[0].cooks))
    assert {each.code for each in troubles(twice, SEATS, cooks(4))} == {"learner_twice"}
    assert {each.code for each in troubles((places[0], places[0]), SEATS, cooks(4))} >= {"bench_twice"}


def test_a_place_in_a_room_of_single_benches_takes_one():
    assert troubles([Placed(1, "R01", (1, 2))], [Seat(1, cooks=1)], cooks(2))[0].code == "bench_too_small"
