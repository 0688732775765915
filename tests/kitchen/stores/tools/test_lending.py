"""What is free of a thing, and who lends it: compared with going through every minute and every choice."""

from itertools import combinations, product
from random import Random

import pytest

from kitchen.stores.tools.lending import Asking, Hold, Lender, Loan, free_in, hinders, lend, start_times

ROOM, OTHER = 1, 2
NINE, TEN, NOON, ONE = 540, 600, 720, 780


def asking(starts=NINE, ends=NOON, lesson="B", room=OTHER):
    return Asking(lesson, room, starts, ends)


def hold(starts, ends, count, lesson="A", place=ROOM, own=True):
    return Hold(lesson, place, starts, ends, own, {"tin": count})


def free(holds, ask=None, there=6, wash=30):
    return free_in(ROOM, {"tin": there}, holds, ask or asking(), wash)["tin"]


def test_what_nobody_holds_is_free():
    assert free([]) == 6


def test_what_a_lesson_at_the_same_time_uses_is_not_there():
    assert free([hold(TEN, ONE, 4)]) == 2


def test_a_lesson_that_ends_too_late_for_washing_stands_in_the_way_and_one_in_time_does_not():
    assert free([hold(420, NINE - 29, 4)]) == 2
    assert free([hold(420, NINE - 30, 4)]) == 6
    assert free([hold(NOON + 29, ONE, 4)]) == 2
    assert free([hold(NOON + 30, ONE, 4)]) == 6


def test_tins_that_one_lesson_gives_back_before_another_begins_are_counted_once():
    first, second = hold(NINE, 560, 4, "A"), hold(600, 660, 4, "C")
    assert free([first, second]) == 2
    assert free([first, hold(580, 660, 4, "C")]) == 0


def test_never_less_than_none_is_free():
    assert free([hold(NINE, NOON, 9)]) == 0


def test_in_one_room_the_earlier_lesson_goes_first():
    morning, afternoon = hold(NINE, NOON, 4, "A"), hold(NOON + 10, 900, 4, "C")
    late = asking(NOON + 10, 900, "C", ROOM)
    early = asking(NINE, NOON, "A", ROOM)
    assert free([morning, afternoon], late) == 2
    assert free([morning, afternoon], early) == 6


def test_what_is_lent_away_stands_in_the_way_of_the_rooms_own_lesson():
    lent = hold(NOON + 10, 900, 2, "C", own=False)
    assert free([lent], asking(NINE, NOON, "A", ROOM)) == 4


def test_a_lessons_own_holds_never_stand_in_its_way():
    assert free([hold(NINE, NOON, 5, "B", own=False)]) == 6


def minute_by_minute(there, holds, ask, wash):
    """The same without moments: every minute of the lesson and its washing is looked at."""
    most = 0
    for minute in range(ask.starts, ask.ends + wash):
        held = 0
        for each in holds:
            ours = each.own and each.place == ask.room
            first = not ours or (each.starts, each.lesson) < (ask.starts, ask.lesson)
            if each.lesson != ask.lesson and first and each.starts <= minute < each.ends + wash:
                held += each.counts["tin"]
        most = max(most, held)
    return max(0, there - most)


def test_on_random_days_as_many_are_free_as_minute_by_minute():
    dice, differing = Random(20270216), 0
    for _ in range(400):
        wash, there = dice.choice([0, 5, 12]), dice.randint(0, 9)
        holds = [
            hold(
                start := dice.randint(0, 40),
                start + dice.randint(1, 25),
                dice.randint(0, 4),
                name,
                own=dice.random() < 0.6,
            )
            for name in "ACDEF"[: dice.randint(0, 5)]
        ]
        begins = dice.randint(0, 40)
        ask = asking(begins, begins + dice.randint(1, 25), dice.choice("BC"), dice.choice([ROOM, OTHER]))
        found = free(holds, ask, there, wash)
        assert found == minute_by_minute(there, holds, ask, wash)
        differing += found != there
    assert differing > 100


def test_one_place_that_has_enough_lends_alone_and_the_stores_before_a_room():
    lenders = [Lender(1, "Saffron", 9), Lender(2, "Juniper", 3), Lender(3, "Stores", 2, stores=True)]
    assert lend(2, lenders) == (Loan(3, "Stores", 2),)
    assert lend(3, lenders) == (Loan(1, "Saffron", 3),)


def test_what_nobody_has_stays_short():
    assert lend(5, [Lender(1, "Saffron", 2), Lender(2, "Juniper", 1)]) == (
        Loan(1, "Saffron", 2),
        Loan(2, "Juniper", 1),
    )
    assert lend(5, []) == ()


def test_on_random_places_no_choice_of_fewer_places_lends_as_much():
    dice = Random(7)
    for _ in range(300):
        lenders = [
            Lender(key, f"Room {key}", dice.randint(0, 5), stores=key == 0)
            for key in range(dice.randint(0, 5))
        ]
        short = dice.randint(1, 9)
        loans = lend(short, lenders)
        got = sum(loan.count for loan in loans)
        assert got == min(short, sum(each.free for each in lenders))
        assert all(0 < loan.count <= lenders[loan.place].free for loan in loans)
        enough = [
            chosen
            for size in range(len(lenders) + 1)
            for chosen in combinations(lenders, size)
            if sum(each.free for each in chosen) >= got
        ]
        fewest = min(map(len, enough))
        assert len(loans) == fewest
        stores_can = any(
            len(chosen) == fewest and any(each.stores and each.free for each in chosen) for chosen in enough
        )
        assert any(loan.place == 0 for loan in loans) == stores_can


@pytest.mark.parametrize(
    ("by_bench", "beside", "there", "times"),
    [
        ((1,) * 7, 1, 5, 2),
        ((1,) * 7, 1, 4, 3),
        ((1,) * 7, 1, 3, None),
        ((1,), 1, 1, None),
        ((2, 1, 1), 0, 2, 2),
    ],
)
def test_two_or_three_start_times_would_do(by_bench, beside, there, times):
    assert start_times(by_bench, beside, there) == times


def best_of_every_split(by_bench, beside, there):
    """The fewest start times of every way to part the benches."""
    for times in (2, 3):
        if times > len(by_bench):
            return None
        for split in product(range(times), repeat=len(by_bench)):
            loads = [
                sum(n for n, at in zip(by_bench, split, strict=True) if at == each) for each in range(times)
            ]
            if max(loads) + beside <= there:
                return times
    return None


def test_start_times_are_never_promised_where_no_way_to_part_the_benches_would_do():
    dice, equal = Random(11), 0
    for _ in range(200):
        by_bench = [dice.randint(1, 3) for _ in range(dice.randint(1, 6))]
        beside, there = dice.randint(0, 2), dice.randint(0, 9)
        said, best = start_times(by_bench, beside, there), best_of_every_split(by_bench, beside, there)
        assert said == best or best is not None and (said is None or said > best)
        equal += said == best
    assert equal > 190


def test_a_hold_of_another_place_is_left_alone():
    assert free([hold(NINE, NOON, 4, place=OTHER)]) == 6
    assert hinders(hold(NINE, NOON, 4, place=OTHER), asking(room=3), 30)
