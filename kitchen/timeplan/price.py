"""What leading a class costs in minutes: the same class led in one wave, two or three, and by nobody.

For the page of the plan, at once by our own rule, and for the long work, which looks longer.
Led by nobody there are no waves and no clock on the fives: every bench begins a step as soon
as it can. The rule, in prose:

1. The price of a plan is its finish less that of the shortest plan led by nobody that was
   found; it is never more than the finish less what no plan at all can beat.
2. A plan of one way of leading that is legal in another counts there too. Every led plan is
   legal where nobody leads, so that one is never longer.
3. What no plan of a way can beat is proved with its waves and its clock, the ovens taken as one
   pool of shelves; it is never below what no plan at all can beat.

Worked example: led in two waves on the fives 172 min, led by nobody 165, and no plan is
shorter than 160. The price of leading is 7 min as far as was found, and 12 at most.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.bounds import best_bound
from kitchen.timeplan.byhand import NoPlanByHand, plan_by_hand
from kitchen.timeplan.class_data import LessonData
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.model import build
from kitchen.timeplan.plan import LessonPlan
from kitchen.timeplan.plan_answer import answer_of
from kitchen.timeplan.problem import Problem
from kitchen.timeplan.solver import NoPlan, solve, solver_module

#: Nudges of demonstrations of the rule's plans. Our own choice, no source.
NUDGES = 8
#: Seconds of the long work for each way of leading: for shorter plans, then for the proof. Our own choice,
#: no source.
SEARCH_SECONDS, PROOF_SECONDS = 2.0, 0.8


@dataclass(frozen=True, slots=True)
class Led:
    """One way to lead, with the finish of the shortest plan found and what none of it can beat.

    ``waves`` 0: led by nobody; ``by_the_minute``: steps off the clock. ``finish_minutes`` is None
    where no plan was found; ``searched`` says whether more than our own rule looked.
    """

    waves: int
    finish_minutes: int | None
    bound_minutes: int
    searched: bool = False
    by_the_minute: tuple[int, ...] = ()


def prices_at_once(lesson: LessonData) -> tuple[Led, ...]:
    """Led by nobody, then in one wave and more, by our own rule. RoomLacks as ``problem_of`` raises it."""
    ways = _ways(lesson)
    answers: dict[int, Answer] = {}
    for waves, problem in ways.items():
        try:
            answers[waves] = plan_by_hand(problem, NUDGES)
        except NoPlanByHand:
            continue
    bound = best_bound(ways[0]).minutes
    return tuple(_led(waves, problem, answers, bound) for waves, problem in ways.items())


def better_prices(lesson: LessonData, plan: LessonPlan) -> Iterator[tuple[Led, ...]]:
    """The same, better with each way that was searched; ``plan`` is the best plan known of the lesson."""
    ways = _ways(lesson)
    answers = {-1: answer_of(plan)}
    led = {each.waves: each for each in prices_at_once(lesson)}
    bound = max(plan.bound_minutes, led[0].bound_minutes)
    for waves, problem in ways.items():
        first = _shortest(problem, answers)
        try:
            solved = solve(problem, Effort(seconds=SEARCH_SECONDS, holding=False), first)
        except NoPlan:
            continue
        answers[waves] = solved.answer
        bound = max(bound, solved.bound_minutes)
        own = bound if waves == 0 else led_bound(problem, solved.answer, bound)
        led[waves] = Led(waves, solved.finish_minutes, own, searched=True)
        yield with_plan(tuple(led.values()), plan)


def with_plan(prices: tuple[Led, ...], plan: LessonPlan) -> tuple[Led, ...]:
    """The prices with a plan that is known: its way of leading and led by nobody are no longer than it.

    A plan with steps called by the minute is a way of its own, put last.
    """
    bound = max(plan.bound_minutes, *(each.bound_minutes for each in prices if each.waves == 0))
    out = []
    for each in prices:
        known = [minutes for minutes in (each.finish_minutes,) if minutes is not None]
        if each.waves == 0 or (each.waves == plan.waves and not plan.by_the_minute):
            known.append(plan.finish_minutes)
        least = min(known, default=None)
        out.append(replace(each, finish_minutes=least, bound_minutes=max(each.bound_minutes, bound)))
    if plan.by_the_minute:
        out.append(Led(plan.waves, plan.finish_minutes, bound, by_the_minute=plan.by_the_minute))
    return tuple(out)


def led_bound(problem: Problem, answer: Answer, known: int, seconds: float = PROOF_SECONDS) -> int:
    """What no plan of this very question can beat; ``known`` where no more was proved in the time."""
    cp = solver_module()
    finish = answer.finish(problem)
    if cp is None or finish <= known:
        return known
    built = build(cp, problem, finish, pooled=True)
    built.model.add(built.finish >= known)
    solver = cp.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = seconds
    if solver.solve(built.model) not in (cp.OPTIMAL, cp.FEASIBLE, cp.UNKNOWN):
        return known
    return max(known, -int(-solver.best_objective_bound // 1))


def _ways(lesson: LessonData) -> dict[int, Problem]:
    """The question by waves: 0 is led by nobody; more waves than benches are no other way."""
    most = max(1, min(lesson.waves_most, len(lesson.benches)))
    led = {waves: problem_of(lesson, waves) for waves in range(1, most + 1)}
    return {0: led[1].free(), **led}


def _led(waves: int, problem: Problem, answers: dict[int, Answer], bound: int) -> Led:
    shortest = _shortest(problem, answers)
    return Led(waves, shortest.finish(problem) if shortest else None, bound)


def _shortest(problem: Problem, answers: dict[int, Answer]) -> Answer | None:
    """The shortest of the answers that is legal for this question."""
    in_order = sorted(answers.values(), key=lambda answer: answer.finish(problem))
    return next((answer for answer in in_order if not check(problem, answer)), None)
