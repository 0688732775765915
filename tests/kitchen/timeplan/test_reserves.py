"""Which reserve buys most, on the same learners."""

from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.chance import Pace
from kitchen.timeplan.problem import Bench, Problem, Supply, Task, Window
from kitchen.timeplan.reserves import reserves

SPREAD = Pace(1000, 200, 150)


def test_the_reserve_at_the_queue_buys_most_and_one_without_a_queue_nothing():
    tasks = tuple(
        task
        for n in range(1, 7)
        for task in (
            Task(f"{n}/make", 10, str(n), hands=True),
            Task(f"{n}/shown", 4, str(n), hands=True, lecturer=True, uses=(("ring", 1),)),
        )
    )
    problem = Problem(
        tasks,
        tuple(Window(f"{n}/make", f"{n}/shown") for n in range(1, 7)),
        tuple(Bench(str(n)) for n in range(1, 7)),
        supplies=(Supply("ring", 6, "rings"),),
        usable_minutes=36,
    )
    answer = plan_by_hand(problem)
    assert answer.finish(problem) == 34
    found = reserves(problem, answer, SPREAD)
    assert found[0].code in ("lecturer", "minutes_15")
    assert "lecturer" in [reserve.code for reserve in found]
    assert "supply_ring" not in [reserve.code for reserve in found]
    assert all(reserve.gain > 0 for reserve in found)


def test_a_class_without_a_slot_needs_no_reserve():
    problem = Problem((Task("a", 5, "1", hands=True),), benches=(Bench("1"),))
    assert reserves(problem, plan_by_hand(problem), SPREAD) == ()
