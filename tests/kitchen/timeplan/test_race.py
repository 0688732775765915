"""Searcher and prover: they end when a plan is as short as what is proved, and not before."""

from kitchen.timeplan.race import Race
from kitchen.timeplan.solver import Effort, solve
from tests.builders.timeplan import two_benches


class Looking:
    """A solver that only knows whether it was told to stop."""

    stopped = False

    def stop_search(self):
        self.stopped = True


def race(best, bound):
    found, (one, other) = Race(best, bound), (Looking(), Looking())
    found.join(one)
    found.join(other)
    return found, one, other


def test_both_stop_when_they_meet():
    told, one, other = race(140, 120)
    told.found(133)
    told.proved(130)
    assert not one.stopped
    told.proved(133)
    assert one.stopped
    assert other.stopped


def test_a_plan_that_reaches_the_bound_ends_it_too():
    told, one, _ = race(140, 133)
    told.found(133)
    assert one.stopped


def test_a_longer_plan_or_a_weaker_bound_takes_nothing_back():
    told, one, _ = race(140, 120)
    told.found(150)
    told.proved(100)
    assert (told.best, told.bound, one.stopped) == (140, 120, False)


def test_side_by_side_the_answer_is_proved_as_in_turn():
    beside = solve(two_benches(), Effort(seconds=3.0, workers=2))
    in_turn = solve(two_benches(), Effort(work=1.0))
    assert (beside.finish_minutes, beside.bound_minutes) == (in_turn.finish_minutes, in_turn.bound_minutes)
    assert beside.status == "proved"
