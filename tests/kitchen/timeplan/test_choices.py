"""Steps with several ways: a question with its choices made, the least of them, and what is refused."""

from dataclasses import replace

import pytest

from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.bounds import best_bound, heads, latest_starts
from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.choices import choosing, chosen_together, done, first_choices, least, settled
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.problem import Bake, Bench, Oven, Problem, Stay, Supply, Task, Window
from kitchen.timeplan.solver import cannot_end_by, solve
from kitchen.timeplan.ways import Way
from tests.builders.timeplan import shortest_by_trying, tiny_class_with_ways, two_benches

BY_HAND = Way(18, name="hand")


def six_benches(**more):
    """The worked example of the module: two mixers, 14 minutes at one of them or 18 by hand."""
    benches = tuple(Bench(str(n)) for n in range(1, 7))
    tasks = tuple(
        Task(f"{b.name}/1/0", 14, b.name, hands=True, uses=(("mixer", 1),), step=1, ways=(BY_HAND,))
        for b in benches
    )
    return Problem(tasks, benches=benches, supplies=(Supply("mixer", 2, "mixers"),), **more)


def test_the_worked_example_ends_after_eighteen_minutes_and_all_at_the_mixers_after_forty_two():
    problem = six_benches()
    assert plan_by_hand(settled(problem, {})).finish(settled(problem, {})) == 42
    assert plan_by_hand(problem).finish(problem) == 18
    solved = solve(problem, Effort(work=0.4))
    assert (solved.finish_minutes, solved.bound_minutes) == (18, 18)
    assert len(solved.answer.ways) == 4


def test_a_settled_question_has_no_choice_left_and_one_without_any_is_itself():
    problem = settled(six_benches(), {"2/1/0": 1})
    assert not choosing(problem)
    assert (problem.task["1/1/0"].minutes, problem.task["2/1/0"].minutes) == (14, 18)
    assert problem.task["2/1/0"].uses == ()
    plain = two_benches()
    assert settled(plain, {}) is plain and least(plain) is plain


def test_the_least_of_all_ways_needs_no_more_than_any():
    tasks = (
        Task("a", 5, "1", hands=True, lecturer=True, uses=(("x", 2),), ways=(Way(7, (("x", 1),), True),)),
        Task("b", 9, "1", hands=True, uses=(("x", 1),), ways=(Way(4),)),
    )
    problem = least(Problem(tasks, benches=(Bench("1"),), supplies=(Supply("x", 2),)))
    assert (problem.task["a"].minutes, problem.task["a"].uses, problem.task["a"].lecturer) == (
        5,
        (("x", 1),),
        True,
    )
    assert (problem.task["b"].minutes, problem.task["b"].uses) == (4, ())


def test_benches_that_begin_together_choose_together():
    problem = six_benches(together=(("1/1/0", "2/1/0"),))
    assert sorted(chosen_together(problem))[0] == ("1/1/0", "2/1/0")
    assert len(list(chosen_together(problem))) == 5
    starts = {task.name: 60 * i for i, task in enumerate(problem.tasks)} | {"2/1/0": 0}
    apart = check(problem, Answer(starts, {}, {"1/1/0": 1}))
    assert [found.code for found in apart] == ["wave_ways"]
    assert check(problem, Answer(starts, {}, {"1/1/0": 1, "2/1/0": 1})) == []


@pytest.mark.parametrize("ways", [{"1/1/0": 2}, {"1/1/0": -1}, {"nobody": 1}])
def test_a_way_that_the_task_does_not_have_is_refused(ways):
    starts = {task.name: 60 * i for i, task in enumerate(six_benches().tasks)}
    assert "no_such_way" in {found.code for found in check(six_benches(), Answer(starts, {}, ways))}


def test_the_check_counts_the_minutes_and_machines_of_the_way_that_is_taken():
    problem = six_benches()
    starts = dict.fromkeys(problem.task, 0)
    by_hand = {f"{n}/1/0": 1 for n in range(3, 7)}
    assert check(problem, Answer(starts, {}, by_hand)) == []
    assert Answer(starts, {}, by_hand).finish(problem) == 18
    fewer = {name: way for name, way in by_hand.items() if name != "3/1/0"}
    assert {found.code for found in check(problem, Answer(starts, {}, fewer))} == {"supply"}


def test_first_choices_are_the_usual_the_other_and_machines_for_the_first_who_fit():
    usual, other, mixed = first_choices(six_benches())
    assert usual == {}
    assert set(other.values()) == {1} and len(other) == 6
    assert sorted(mixed) == ["3/1/0", "4/1/0", "5/1/0", "6/1/0"]
    assert list(first_choices(two_benches())) == [{}]


@pytest.mark.parametrize("seed", range(30))
def test_what_is_bounded_holds_whichever_way_is_taken(seed):
    problem = tiny_class_with_ways(seed)
    answer = plan_by_hand(problem)
    assert check(problem, answer) == []
    assert best_bound(problem).minutes <= shortest_by_trying(problem, answer.finish(problem))


def mixed_before_a_cold_oven():
    """Two benches mix, 4 minutes at the one mixer or 10 by hand, and bake at once: hot at minute 16."""
    tasks, windows = [], []
    for bench in "12":
        mix = Task(f"{bench}mix", 4, bench, hands=True, uses=(("mixer", 1),), ways=(Way(10, name="hand"),))
        tasks += [mix, Task(f"{bench}bake", 20, bench, bake=Bake((Stay(20, 1800),)))]
        windows.append(Window(f"{bench}mix", f"{bench}bake", 0, 0))
    benches, oven = (Bench("1"), Bench("2")), (Oven("o", 2, heat_seconds=60),)
    return Problem(tuple(tasks), tuple(windows), benches, oven, (Supply("mixer", 1),))


def test_what_must_not_wait_may_begin_sooner_by_hand_and_no_proof_forbids_it():
    problem = mixed_before_a_cold_oven()
    starts = {"1mix": 12, "2mix": 6, "1bake": 16, "2bake": 16}
    answer = Answer(starts, {"1bake": "o", "2bake": "o"}, {"2mix": 1})
    assert check(problem, answer) == [] and answer.finish(problem) == 36
    assert all(head <= starts[name] for name, head in heads(problem).items())
    assert heads(settled(problem, {}))["2mix"] == 12
    assert not cannot_end_by(problem, 36, Effort(work=0.4))
    assert cannot_end_by(problem, 35, Effort(work=0.4))


def test_what_follows_at_once_is_due_as_late_as_the_longest_way_ends():
    problem = mixed_before_a_cold_oven()
    tasks = tuple(replace(task, latest=30) if task.name == "1mix" else task for task in problem.tasks)
    assert latest_starts(replace(problem, tasks=tasks))["1bake"] == 40


def test_a_bake_has_one_way_and_a_way_lasts_and_uses_something_known():
    with pytest.raises(ValueError, match="one way"):
        Task("a", 5, "1", bake=Bake((Stay(5, 1800),)), ways=(Way(3),))
    with pytest.raises(ValueError, match="lasts 0"):
        Way(0)
    with pytest.raises(ValueError, match="no unit"):
        Way(1, (("x", 0),))
    with pytest.raises(ValueError, match="nothing is known"):
        Problem((Task("a", 5, "1", hands=True, ways=(Way(3, (("x", 1),)),)),), benches=(Bench("1"),))
    task = six_benches().tasks[0]
    assert done(task, 1) == replace(task, minutes=18, uses=(), ways=())
