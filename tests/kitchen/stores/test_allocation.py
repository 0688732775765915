"""The earliest date that still covers the day goes first; what is not there is said.

Earliest date first, ties by receipt, refusal past use-by and warning past best-before:
common practice, no source; that the two dates are different data: titles of the GS1
identifiers 17 (use by) and 15 (best before).
"""

from collections import Counter
from dataclasses import replace
from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from kitchen.stores.allocation import Allocation, Draw, LineNeed, LotData, Use, allocate, barred
from tests.builders.kits import ECLAIR_DAY, QUICHE_DAY, college_lots, eclair_kits, line_needs, quiche_kits

DAY = date(2027, 3, 1)
OLD = date(2027, 1, 5)


def lot(code, grams=1000, **changes):
    return LotData(code, "butter", grams * 1000, OLD, **changes)


def drawn(need_grams, lots, **changes):
    need = LineNeed("line", "butter", need_grams * 1000, **changes)
    return allocate([need], lots, DAY)


def test_the_quiches_take_the_butter_that_ends_today_and_then_the_next_lot():
    answer = allocate(line_needs(quiche_kits()), college_lots(), QUICHE_DAY)
    assert answer.by_lot("unsalted_butter") == (("LS-2207", 1_000_000), ("LS-2219", 440_000))
    assert answer.shortages == ()


def test_the_eclairs_are_short_of_600_g_white_fondant_and_leave_the_butter_past_its_date():
    used = allocate(line_needs(quiche_kits()), college_lots(), QUICHE_DAY)
    gone = Counter()
    for draw in used.draws:
        gone[draw.lot] += draw.milligrams
    lots = [
        replace(each, on_hand_milligrams=each.on_hand_milligrams - gone[each.code]) for each in college_lots()
    ]
    answer = allocate(line_needs(eclair_kits()), lots, ECLAIR_DAY)
    assert answer.by_lot("unsalted_butter") == (("LS-2219", 930_000),)
    assert [(short.food, short.short_milligrams) for short in answer.shortages] == [
        ("white_fondant", 600_000)
    ]


def test_a_lot_past_its_use_by_is_refused_and_one_past_its_best_before_is_used_with_a_warning():
    past = drawn(10, [lot("A", date_kind="use_by", dated_on=DAY - timedelta(1))])
    assert past.draws == () and past.shortages[0].left_out == ("Lot A is past its use-by date of 28 Feb.",)
    stale = drawn(10, [lot("A", date_kind="best_before", dated_on=DAY - timedelta(1))])
    assert stale.warnings == ("Lot A is past its best-before date of 28 Feb: look at it, then decide.",)
    assert drawn(10, [lot("A", date_kind="use_by", dated_on=DAY)]).warnings == ()


def test_a_lot_that_names_more_than_its_food_is_left_for_the_next_one_and_says_what_would_help():
    answer = drawn(10, [lot("A", names_more=("almond",)), lot("B")], free_from=True)
    assert [draw.lot for draw in answer.draws] == ["B"]
    words = barred(lot("A", names_more=("almond",)), DAY)
    assert words.startswith("The label of lot A names almond, ") and "Read the label again" in words


def test_an_unread_lot_waits_for_its_label():
    answer = allocate([LineNeed("k", "butter", 1000)], [lot("A", 1, unread=True)], QUICHE_DAY)
    assert answer.draws == ()
    assert answer.shortages[0].left_out == ("Lot A waits for its label: nobody has read it.",)


def test_a_substitute_goes_into_the_lessons_it_was_accepted_for_and_no_other():
    stand_in = lot("S", 1, only_for=("MINE",))
    assert barred(stand_in, Use(QUICHE_DAY, "MINE")) == ""
    assert "not accepted for this lesson" in barred(stand_in, Use(QUICHE_DAY, "OTHER"))
    assert "and no other" in barred(stand_in, QUICHE_DAY)
    assert "for no lesson" in barred(replace(stand_in, only_for=()), Use(QUICHE_DAY, "MINE"))


def test_ties_of_the_date_go_to_the_earliest_receipt():
    late, early = lot("A", date_kind="use_by", dated_on=DAY), lot("B", date_kind="use_by", dated_on=DAY)
    early = replace(early, received_on=OLD - timedelta(1))
    assert drawn(10, [late, early]).draws[0].lot == "B"


def test_lots_without_a_date_go_last():
    assert drawn(10, [lot("A"), lot("B", date_kind="use_by", dated_on=DAY)]).draws[0].lot == "B"


def test_held_lots_are_never_used_and_reserved_ones_only_for_free_from_kits():
    assert drawn(10, [lot("A", held=True)]).shortages[0].left_out == ("Lot A is held.",)
    assert drawn(10, [lot("A", reserved_free_from=True)]).draws == ()
    kept = [lot("A", date_kind="use_by", dated_on=DAY), lot("B", reserved_free_from=True)]
    assert drawn(10, kept, free_from=True).draws[0].lot == "B"


def test_a_free_from_kit_takes_an_unopened_or_reserved_pack_and_never_an_open_one():
    lots = [lot("A", opened=True, date_kind="use_by", dated_on=DAY), lot("B")]
    assert drawn(10, lots, free_from=True).draws[0].lot == "B"
    refused = drawn(10, lots[:1], free_from=True)
    assert refused.draws == () and "Lot A is open already" in refused.shortages[0].left_out[0]
    kept = [lot("A", opened=True, reserved_free_from=True)]
    assert drawn(10, kept, free_from=True).draws[0].lot == "A"
    assert drawn(10, lots[:1]).draws[0].lot == "A"


def test_what_stands_weighed_is_drawn_from_its_own_lots_before_the_earliest_date():
    lots = [lot("A", date_kind="use_by", dated_on=DAY), lot("B")]
    answer = drawn(10, lots, weighed_from=(("B", 6_000),))
    assert [(draw.lot, draw.milligrams) for draw in answer.draws] == [("B", 6_000), ("A", 4_000)]
    held = drawn(10, [lots[0], replace(lots[1], held=True)], weighed_from=(("B", 6_000),))
    assert [draw.lot for draw in held.draws] == ["A"]


def test_a_weight_of_a_free_from_kit_keeps_its_lot_although_the_pack_is_open_by_now():
    opened = [lot("A", opened=True)]
    assert drawn(10, opened, free_from=True, weighed_from=(("A", 10_000),)).draws[0].lot == "A"
    more = drawn(10, opened, free_from=True, weighed_from=(("A", 4_000),))
    assert sum(draw.milligrams for draw in more.draws) == 4_000


def test_a_weight_goes_before_a_line_that_stands_earlier_and_is_not_weighed():
    needs = [LineNeed(1, "butter", 800_000), LineNeed(2, "butter", 500_000, weighed_from=(("A", 500_000),))]
    answer = allocate(needs, [lot("A")], DAY)
    assert {draw.key: draw.milligrams for draw in answer.draws} == {1: 500_000, 2: 500_000}


def test_what_stands_weighed_for_other_lessons_is_not_there_and_the_shortage_says_so():
    answer = drawn(900, [lot("A", aside_milligrams=300_000)])
    assert sum(draw.milligrams for draw in answer.draws) == 700_000
    assert answer.shortages[0].left_out == ("300 g of lot A stand weighed on other trays.",)


def test_two_lots_used_are_two_draws_of_one_line():
    answer = drawn(1500, [lot("A", date_kind="use_by", dated_on=DAY), lot("B")])
    assert [(draw.lot, draw.milligrams) for draw in answer.draws] == [("A", 1_000_000), ("B", 500_000)]


def test_an_egg_is_never_split_between_lots():
    lots = [replace(lot("A"), on_hand_milligrams=100_000, date_kind="use_by", dated_on=DAY), lot("B")]
    answer = allocate([LineNeed("eggs", "butter", 3 * 57_000, unit_milligrams=57_000)], lots, DAY)
    assert [(draw.lot, draw.milligrams // 57_000) for draw in answer.draws] == [("A", 1), ("B", 2)]


def test_a_lot_that_comes_in_later_is_not_there_yet():
    assert barred(replace(lot("A"), received_on=DAY + timedelta(1)), DAY) == "Lot A comes in only on 2 Mar."
    assert barred(replace(lot("A"), received_on=DAY), DAY) == ""


def test_an_opened_lot_is_used_on_its_last_day_and_not_after():
    assert barred(lot("A", opened=True, last_on=DAY), DAY) == ""
    assert "keeps until 28 Feb" in barred(lot("A", opened=True, last_on=DAY - timedelta(1)), DAY)


def broken_laws(needs, lots, answer: Allocation) -> list[str]:
    """The laws of an allocation, in words; empty when they all hold."""
    broken = []
    by_lot, by_food = Counter(), Counter()
    for draw in answer.draws:
        by_lot[draw.lot] += draw.milligrams
        by_food[draw.food] += draw.milligrams
    if any(by_lot[each.code] > each.free_milligrams for each in lots):
        broken.append("more than a lot holds")
    short = {each.food: each.short_milligrams for each in answer.shortages}
    for food in {need.food for need in needs}:
        needed = sum(need.milligrams for need in needs if need.food == food)
        if by_food[food] + short.get(food, 0) != needed:
            broken.append("issued and short are not what was needed")
    kinds = {need.key: need.free_from for need in needs}
    data = {each.code: each for each in lots}
    if any(barred(data[draw.lot], DAY, kinds[draw.key], weighed=True) for draw in answer.draws):
        broken.append("a barred lot was used")
    unweighed = {need.key for need in needs if not need.weighed_from}
    if any(
        kinds[draw.key] and data[draw.lot].opened and not data[draw.lot].reserved_free_from
        for draw in answer.draws
        if draw.key in unweighed
    ):
        broken.append("an open pack went into a free-from kit")
    return broken


LOTS = st.builds(
    LotData,
    code=st.sampled_from("ABCDEF"),
    food=st.sampled_from(("butter", "flour")),
    on_hand_milligrams=st.integers(0, 3000),
    received_on=st.sampled_from((OLD, DAY, DAY + timedelta(2))),
    date_kind=st.sampled_from(("use_by", "best_before")),
    dated_on=st.dates(DAY - timedelta(3), DAY + timedelta(3)),
    held=st.booleans(),
    reserved_free_from=st.booleans(),
    opened=st.booleans(),
    aside_milligrams=st.integers(0, 1000),
)
WEIGHED = st.lists(st.tuples(st.sampled_from("ABCDEF"), st.integers(1, 1500)), max_size=2)
NEEDS = st.builds(
    LineNeed,
    key=st.integers(),
    food=st.sampled_from(("butter", "flour", "salt")),
    milligrams=st.integers(1, 2000),
    free_from=st.booleans(),
    weighed_from=WEIGHED.map(lambda rows: tuple(dict(rows).items())),
)


@given(
    st.lists(NEEDS, max_size=8, unique_by=lambda need: need.key),
    st.lists(LOTS, max_size=6, unique_by=lambda lot: lot.code),
)
def test_the_laws_of_an_allocation_hold(needs, lots):
    assert broken_laws(needs, lots, allocate(needs, lots, DAY)) == []


def test_planted_violations_are_caught_by_the_laws():
    needs, lots = [LineNeed(1, "butter", 500)], [replace(lot("A"), on_hand_milligrams=400)]
    assert "more than a lot holds" in broken_laws(needs, lots, Allocation((Draw(1, "A", "butter", 500),), ()))
    assert "issued and short are not what was needed" in broken_laws(needs, lots, Allocation((), ()))
    held = [replace(lots[0], held=True)]
    assert "a barred lot was used" in broken_laws(needs, held, Allocation((Draw(1, "A", "butter", 100),), ()))
    opened = [replace(lots[0], opened=True)]
    free = [replace(needs[0], free_from=True)]
    taken = Allocation((Draw(1, "A", "butter", 100),), ())
    assert "an open pack went into a free-from kit" in broken_laws(free, opened, taken)
