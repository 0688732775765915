"""The time plan's answer: at once by our own rule, better by the solver, always with a bound.

For pages, commands and benchmarks. ``solve`` takes any question; ``Effort`` says how long.
OR-tools is imported inside one function; where it is not installed, or is blocked, the
answer is the rule's (``byhand``) and the bound is the one on paper (``bounds``).

The bound is always of the real question: waves, the clock on the fives and the ovens'
phases only make plans longer, so it is taken from the question without them.
"""

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from time import monotonic
from types import ModuleType
from typing import Any

from kitchen.timeplan.answer import Answer, check, holding_minutes
from kitchen.timeplan.bounds import best_bound
from kitchen.timeplan.byhand import NoPlanByHand, one_pass, plan_by_hand
from kitchen.timeplan.choices import settled
from kitchen.timeplan.effort import USUAL, Clock, Effort, search_share
from kitchen.timeplan.model import build, hint
from kitchen.timeplan.problem import Problem
from kitchen.timeplan.proof import horizon, is_exact, is_its_own_relaxation, prove, relax, sooner
from kitchen.timeplan.race import Race
from kitchen.timeplan.stages import (
    FEW_BAKES,
    fewer_changes,
    fewest_other_ways,
    heat_changes,
    less_holding,
    phases_needed,
)
from kitchen.timeplan.tidy import tidied

#: Up to so many pairs of a bake and an oven, pieces of a plan are bettered between looks at the whole:
#: thirty benches of five dishes end at 174 minutes so, at 183 without. Beyond, each piece takes longer
#: than it is worth: thirty benches of two dishes end at 233 so, at 225 without (20 s of one core).
MOST_TRAYS_BY_PIECES = 400
#: Nudges of demonstrations where no clock decides how many.
NUDGES = 16


@dataclass(frozen=True, slots=True)
class Solved:
    """A legal answer with its finish, the proven bound, and how it was found.

    ``status`` is "proved" when nothing shorter exists, "found" when the solver looked and
    left a gap, "by hand" when only our own rule answered. ``first_seconds`` is when the
    first legal answer was there.
    """

    answer: Answer
    finish_minutes: int
    bound_minutes: int
    status: str
    first_seconds: float
    seconds: float
    holding_before: int
    holding_after: int

    @property
    def gap_minutes(self) -> int:
        """Minutes between the answer and what nobody can beat."""
        return self.finish_minutes - self.bound_minutes


class NoPlan(Exception):
    """No legal plan was found in the time given, or there is none."""


def solver_module() -> ModuleType | None:
    """The solver, or None where it is not installed."""
    try:
        from ortools.sat.python import cp_model
    except ImportError:
        return None
    return cp_model


def solve(problem: Problem, effort: Effort = USUAL, first: Answer | None = None) -> Solved:
    """The best plan that the effort finds. NoPlan when there is none to give.

    ``first`` is a legal answer to begin with, when one is known.
    """
    began = monotonic()
    answer = first or _at_once(problem)
    first_seconds = monotonic() - began
    answer = first or _nudged(problem, answer, effort, first_seconds)
    bound = best_bound(problem).minutes
    cp = solver_module()
    if cp is None:
        return _solved(problem, answer, answer, bound, "by hand", first_seconds, began)
    left = Clock(effort, began, monotonic)
    if answer is None or answer.finish(problem) > bound:
        answer, bound = _looked(cp, problem, answer, bound, effort, left)
    if answer is None:
        raise NoPlan("No legal plan was found in the time given.")
    short = answer
    if effort.holding:
        if any(answer.ways.values()):
            answer = fewest_other_ways(
                cp, problem, answer, effort.workers, lambda solver: left.limit(solver, 0.3)
            )
        single, chosen = settled(problem, answer.ways), replace(answer, ways={})
        short = replace(_easier(cp, single, chosen, effort, left), ways=answer.ways)
    return _solved(problem, answer, short, bound, "found", first_seconds, began)


def _looked(
    cp: ModuleType, problem: Problem, answer: Answer | None, bound: int, effort: Effort, left: "Clock"
) -> tuple[Answer | None, int]:
    """A shorter answer and a better bound: side by side where there are cores for it, else in turn."""
    whole = is_its_own_relaxation(problem)
    if answer is not None and not whole and effort.work is None and effort.workers > 1:
        race = Race(answer.finish(problem), bound)
        with ThreadPoolExecutor(1) as second:
            prover = second.submit(prove, cp, problem, answer, bound, left, race)
            found, proved = _shorter(cp, problem, answer, bound, effort, left, race)
            relaxed, other = prover.result()
            return sooner(problem, found, other), max(bound, proved, relaxed)
    if answer is not None and whole:
        answer = _quickly(cp, problem, answer, effort, left)
    bound, answer = relax(cp, problem, answer, bound, left)
    if answer is None or answer.finish(problem) > bound:
        answer, proved = _shorter(cp, problem, answer, bound, effort, left)
        bound = max(bound, proved)
    return answer, bound


def _easier(cp: ModuleType, problem: Problem, answer: Answer, effort: Effort, left: "Clock") -> Answer:
    """At the same finish: food stands less, then the ovens change their heat less often."""
    if problem.demonstrations or holding_minutes(problem, answer) > 0:
        answer = less_holding(cp, problem, answer, effort.workers, lambda solver: left.limit(solver, 0.75))
    if heat_changes(problem, answer) > 0:
        answer = fewer_changes(cp, problem, answer, effort.workers, lambda solver: left.limit(solver, 0.9))
    return answer


def _solved(
    problem: Problem,
    before: Answer | None,
    after: Answer | None,
    bound: int,
    status: str,
    first_seconds: float,
    began: float,
) -> Solved:
    if before is None or after is None:
        raise NoPlan("Our own rule finds no order that keeps every hold; a longer search may find one.")
    tidy = tidied(settled(problem, after.ways), after)
    if heat_changes(problem, tidy) <= heat_changes(problem, after):
        after = tidy
    broken = check(problem, after)
    if broken:
        raise AssertionError(f"an answer of ours breaks a rule: {broken[0].words}")
    finish = after.finish(problem)
    return Solved(
        answer=after,
        finish_minutes=finish,
        bound_minutes=bound,
        status="proved" if finish == bound else status,
        first_seconds=first_seconds,
        seconds=monotonic() - began,
        holding_before=holding_minutes(problem, before),
        holding_after=holding_minutes(problem, after),
    )


def _at_once(problem: Problem) -> Answer | None:
    """One pass of our own rule: a legal answer in a fraction of a second at any size."""
    try:
        return one_pass(problem)
    except NoPlanByHand:
        return None


def _nudged(problem: Problem, answer: Answer | None, effort: Effort, pass_seconds: float) -> Answer | None:
    """The rule with its demonstrations placed, for an eighth of the seconds; never longer than before."""
    share = effort.seconds / 8 / max(pass_seconds, 0.002)
    nudges = NUDGES if effort.work is not None else max(2, min(2 * NUDGES, int(share)))
    try:
        placed = plan_by_hand(problem, nudges)
    except NoPlanByHand:
        return answer
    if answer is None or placed.finish(problem) <= answer.finish(problem):
        return placed
    return answer


def _quickly(cp: ModuleType, problem: Problem, answer: Answer, effort: Effort, left: Clock) -> Answer:
    """A short look by all workers for a good answer, before one of them goes on to prove."""
    built = build(cp, problem, horizon(problem, answer), pooled=True)
    hint(built, answer)
    solver = cp.CpSolver()
    solver.parameters.num_workers = effort.workers
    left.limit(solver, 0.16)
    return built.answer(solver) if solver.solve(built.model) in (cp.OPTIMAL, cp.FEASIBLE) else answer


def _shorter(
    cp: ModuleType,
    problem: Problem,
    answer: Answer | None,
    bound: int,
    effort: Effort,
    left: Clock,
    race: Race | None = None,
) -> tuple[Answer | None, int]:
    """A shorter answer than the one known, or the same; and a bound where the model proves one."""
    phases = phases_needed(problem, answer)
    built = build(cp, problem, horizon(problem, answer), pooled=False, phases=phases)
    built.model.add(built.finish >= bound)
    if answer is not None:
        hint(built, answer)
    solver = cp.CpSolver()
    solver.parameters.num_workers = 1 if race else effort.workers
    left.limit(solver, search_share(effort))
    if race and _trays_to_place(problem) <= MOST_TRAYS_BY_PIECES:
        _by_pieces_too(solver)
    status = solver.solve(built.model, _told(cp, solver, race))
    if status not in (cp.OPTIMAL, cp.FEASIBLE):
        return answer, bound
    found = built.answer(solver)
    if problem == problem.free() and is_exact(problem, phases, built.horizon):
        bound = max(bound, -int(-solver.best_objective_bound // 1))
    return found, bound


def _trays_to_place(problem: Problem) -> int:
    """How many pairs of a bake and an oven the search chooses among."""
    return len(problem.ovens) * sum(task.bake is not None for task in problem.tasks)


def _by_pieces_too(solver: Any) -> None:
    """One worker that looks at the whole and, in turn, lets pieces of the best plan move."""
    solver.parameters.interleave_search = True
    solver.parameters.interleave_batch_size = 1
    solver.parameters.subsolvers.append("no_lp")


def _told(cp: ModuleType, solver: Any, race: Race | None) -> Any:
    """What tells the race of every plan that a search finds; None outside a race."""
    if race is None:
        return None
    solver.parameters.linearization_level = 0
    race.join(solver)

    class Told(cp.CpSolverSolutionCallback):
        """Called by the solver at each plan it finds."""

        def on_solution_callback(self) -> None:
            race.found(round(self.objective_value))

    return Told()


def by_hand_only(problem: Problem, first: Answer | None = None) -> Solved:
    """The rule's answer and the bound on paper: what the first page shows at once."""
    began = monotonic()
    answer = first or _nudged(problem, _at_once(problem), Effort(work=0.0), 0.0)
    bound = best_bound(problem).minutes
    return _solved(problem, answer, answer, bound, "by hand", monotonic() - began, began)


def cannot_end_by(
    problem: Problem, minutes: int, effort: Effort = USUAL, *, with_ovens: bool = False
) -> bool:
    """Whether it is proved that no plan of this very question, as it is led, ends by that minute.

    ``with_ovens``: their heats and doors are looked at too, where few enough bakes allow a proof.
    False also when nothing was proved in the time given, or the solver is not there.
    """
    if best_bound(problem).minutes > minutes:
        return True
    cp = solver_module()
    if cp is None:
        return False
    bakes = sum(task.bake is not None for task in problem.tasks)
    pooled = not with_ovens or not 0 < bakes <= FEW_BAKES
    built = build(cp, problem, minutes, pooled=pooled, phases=max(1, bakes))
    solver = cp.CpSolver()
    solver.parameters.num_workers = 1
    Clock(effort, monotonic(), monotonic).limit(solver, 1.0)
    return solver.solve(built.model) == cp.INFEASIBLE
