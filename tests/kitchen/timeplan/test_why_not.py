"""Irreducible reasons on planted cases, each verified from both sides by other means than the search."""

from dataclasses import replace

import pytest

from kitchen.timeplan.answer import check
from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.problem import (
    Bake,
    Bench,
    Demonstration,
    Oven,
    Pause,
    Problem,
    Stay,
    Supply,
    Task,
    Window,
)
from kitchen.timeplan.solver import cannot_end_by, solve
from kitchen.timeplan.ways import Way
from kitchen.timeplan.why_not import members, why_not, with_only
from kitchen.timeplan.why_words import called, why_words

STEADY = Effort(work=0.6)
BENCHES = tuple(Bench(str(n)) for n in range(1, 9))


def a_row(*steps, windows=(), usable=100, ovens=(), **more):
    """Eight benches that do the same steps; a step is (name, minutes, what is said of the task)."""
    tasks, found = [], []
    for bench in BENCHES:
        for name, minutes, said in steps:
            tasks.append(Task(f"{bench.name}/{name}", minutes, bench.name, **said))
        found += [
            Window(f"{bench.name}/{a}", f"{bench.name}/{b}", least, most) for a, b, least, most in windows
        ]
    return Problem(tuple(tasks), tuple(found), BENCHES, ovens, usable_minutes=usable, **more)


def hot(minutes, degrees=180):
    return {"bake": Bake((Stay(minutes, 10 * degrees),))}


def an_oven(trays):
    return (Oven("oven", trays, cold_decicelsius=1800),)


SHELVES = a_row(
    ("work", 15, {"hands": True}),
    ("bake", 30, hot(30)),
    windows=(("work", "bake", 5, None),),
    ovens=an_oven(2),
)
LECTURER = a_row(("work", 10, {"hands": True}), ("check", 12, {"hands": True, "lecturer": True}), usable=90)
BOIL = ("boil", 20, {"hands": True, "uses": (("ring", 1),)})
RINGS = a_row(
    ("boil", 20, {"hands": True, "uses": (("ring", 1),)}), supplies=(Supply("ring", 2, "rings"),), usable=70
)
WAITS = a_row(("rest", 70, {}), ("do", 40, {"hands": True}), windows=(("rest", "do", 0, None),))

BREAK = a_row(("work", 40, {"hands": True}), ("on", 40, {"hands": True}), usable=90, breaks=(Pause(40, 20),))

CASES = {
    "break": (BREAK, [("hands", "break")]),
    "shelves": (SHELVES, [("shelves",)]),
    "lecturer": (LECTURER, [("lecturer",)]),
    "rings": (RINGS, [("supply:ring",)]),
    "waits": (WAITS, [("waits",)]),
}


@pytest.mark.parametrize(("problem", "wanted"), CASES.values(), ids=CASES)
def test_the_planted_reason_is_found(problem, wanted):
    assert [reason.members for reason in why_not(problem, STEADY)] == wanted


@pytest.mark.parametrize("problem", [case for case, _ in CASES.values()], ids=CASES)
def test_with_the_members_it_is_impossible_and_without_any_one_it_is_not(problem):
    """Verified by the whole solver and by the check, not by the questions that the search asked."""
    for reason in why_not(problem, STEADY):
        question = with_only(problem, reason.members)
        solved = solve(question, Effort(work=2.0, holding=False))
        assert solved.bound_minutes > problem.usable_minutes
        assert solved.finish_minutes >= reason.at_least
        for member, finish in reason.without:
            fewer = with_only(problem, tuple(m for m in reason.members if m != member))
            answer = plan_by_hand(fewer)
            assert check(fewer, answer) == []
            assert answer.finish(fewer) <= problem.usable_minutes
            assert finish <= problem.usable_minutes


def test_a_machine_is_in_the_way_only_where_no_other_way_is_quick_enough():
    by_hand = replace(RINGS, tasks=tuple(replace(t, ways=(Way(60, name="slow"),)) for t in RINGS.tasks))
    assert why_not(replace(by_hand, usable_minutes=70), STEADY) == ()
    slow = replace(RINGS, tasks=tuple(replace(t, ways=(Way(90, name="slow"),)) for t in RINGS.tasks))
    assert [reason.members for reason in why_not(slow, STEADY)] == [("supply:ring",)]
    assert not with_only(slow, ()).tasks[0].ways[0].uses


def test_two_things_that_only_together_are_in_the_way_are_one_reason():
    """The demonstration alone fits and the lecturer's checks alone fit; one after another they do not."""
    problem = replace(
        a_row(("check", 9, {"hands": True, "lecturer": True}), usable=90),
        demonstrations=(Demonstration("show", 25),),
    )
    (reason,) = why_not(problem, STEADY)
    assert set(reason.members) == {"shows", "lecturer"}
    assert dict(reason.without)["shows"] == 72
    assert reason.at_least == 97


def test_two_reasons_beside_each_other_are_both_told():
    both = a_row(
        ("check", 12, {"hands": True, "lecturer": True}),
        BOIL,
        supplies=(Supply("ring", 2, "rings"),),
        usable=70,
    )
    assert {reason.members for reason in why_not(both, STEADY)} == {("lecturer",), ("supply:ring",)}


def test_a_chain_of_hands_needs_no_member():
    problem = a_row(("a", 60, {"hands": True}), ("b", 60, {"hands": True}), windows=(("a", "b", 0, None),))
    (reason,) = why_not(problem, STEADY)
    assert reason.members == ()
    assert reason.at_least == 120
    assert why_words(problem, reason).startswith("Nothing but the order of the steps is in the way")


def test_what_fits_has_no_reason_and_neither_has_a_class_without_a_slot():
    assert why_not(replace(SHELVES, usable_minutes=240), STEADY) == ()
    assert why_not(replace(SHELVES, usable_minutes=None), STEADY) == ()


def test_a_member_that_is_lifted_wrongly_is_caught():
    """Planted: a lift that leaves the shelves in force would still be impossible."""
    lifted = with_only(SHELVES, tuple(m for m in members(SHELVES) if m != "shelves"))
    assert plan_by_hand(lifted).finish(lifted) <= 100
    assert cannot_end_by(with_only(SHELVES, ("shelves",)), 119, STEADY)
    assert not cannot_end_by(with_only(SHELVES, ("shelves",)), 120, STEADY)


def test_the_sentence_names_the_members_both_proofs_and_the_minutes():
    (reason,) = why_not(LECTURER, STEADY)
    assert why_words(LECTURER, reason) == (
        "In the way, alone: the lecturer, who checks or stands beside. It is proved that no plan with this"
        " ends before minute 96; the slot leaves 90, so at least 6 minutes are missing. Without it this"
        " reason is gone."
    )
    assert called(RINGS, "supply:ring") == "the rings"


def test_any_members_are_lifted_together_from_a_step_that_uses_a_machine_beside_the_lecturer():
    """A step of hands that lost its hands waits; where waits are lifted too it takes nothing any more."""
    said = {"hands": True, "lecturer": True, "uses": (("mixer", 1),)}
    problem = a_row(("mix", 10, said), supplies=(Supply("mixer", 1),))
    for kept in ((), ("lecturer",), ("supply:mixer",)):
        assert with_only(problem, kept).tasks


def test_the_change_from_one_heat_to_another_is_named_where_it_alone_stands_in_the_way():
    """220 and 150 °C in one oven with room for both: 60 minutes at best, and 50 are there."""
    tasks = tuple(
        Task(f"{bench}/bake", 20, str(bench), bake=Bake((Stay(20, heat),)))
        for bench, heat in enumerate((2200, 1500), 1)
    )
    problem = Problem(tasks, (), (Bench("1"), Bench("2")), (Oven("O", 4),), usable_minutes=50)
    assert solve(problem, Effort(seconds=1)).bound_minutes == 60
    assert "heats" in {member for reason in why_not(problem) for member in reason.members}
    assert why_not(replace(problem, usable_minutes=60)) == ()
