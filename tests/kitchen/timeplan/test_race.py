"""Searcher and prover: they end when a plan is as short as what is proved, and not before."""

from kitchen.timeplan import solver
from kitchen.timeplan.bounds import best_bound
from kitchen.timeplan.byhand import plan_by_hand
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.race import Race
from tests.builders.timeplan import tiny_class

#: A tiny class with a bake, of which the bound on paper does not prove the plan by hand.
LEAVES_A_GAP = 10


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


def test_side_by_side_the_answer_is_proved_as_in_turn(monkeypatch):
    """A class whose plan by hand leaves a gap, so that both have to look."""
    problem = tiny_class(LEAVES_A_GAP)
    by_hand = plan_by_hand(problem, 16)
    assert by_hand.finish(problem) > best_bound(problem).minutes
    ran = []

    def noted(best, bound):
        ran.append(Race(best, bound))
        return ran[-1]

    monkeypatch.setattr(solver, "Race", noted)
    beside = solver.solve(problem, Effort(seconds=3.0, workers=2), by_hand)
    assert [len(race.looking) for race in ran] == [2]
    in_turn = solver.solve(problem, Effort(work=1.0))
    assert (beside.finish_minutes, beside.status) == (in_turn.finish_minutes, "proved")
