"""How a class is led: in how many waves, which steps the lecturer calls on the fives, and the plan.

For ``fits.py``, the pages and the demo command. A class is led in as few start times as
fit the slot. All steps are called on the fives when that fits; when it does not, some are
called by the minute, and none of those could go back on the fives. What that costs is the
plan's finish against its bound, which is of the class that nobody leads.

Worked example: a demonstration of 6 minutes, then 124 minutes of steps. On the fives the
first step begins at 10 and the last ends at 136, one minute over a slot of 135. With two
steps called by the minute it ends at 131.
"""

from dataclasses import dataclass, replace

from kitchen.timeplan.answer import Answer
from kitchen.timeplan.bounds import Bound, best_bound, longest_chain
from kitchen.timeplan.byhand import NoPlanByHand, plan_by_hand
from kitchen.timeplan.choices import settled
from kitchen.timeplan.class_data import LessonData
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.lesson_problem import problem_of
from kitchen.timeplan.plan import LessonPlan, lesson_plan
from kitchen.timeplan.problem import Problem
from kitchen.timeplan.solver import NoPlan, Solved, by_hand_only, solve

#: Nudges of demonstrations while ways to lead are compared.
NUDGES_TO_COMPARE = 8


@dataclass(frozen=True, slots=True)
class Lead:
    """One way to lead the class, with the rule's answer to it (None: the rule found none)."""

    waves: int
    by_the_minute: frozenset[int]
    problem: Problem
    answer: Answer | None

    @property
    def finish(self) -> int:
        """Finish of the rule's answer; very long where there is none."""
        return self.answer.finish(self.problem) if self.answer else 10**6


@dataclass(frozen=True, slots=True)
class Planned:
    """A lesson planned: the plan for people, and the question and answer behind it.

    ``problem`` is the question with its choices made; ``question`` leaves them open, and what
    is proved is proved of it.
    """

    plan: LessonPlan
    problem: Problem
    solved: Solved
    question: Problem


def plan_lesson(lesson: LessonData, effort: Effort | None = Effort()) -> Planned:  # noqa: B008
    """The lesson's plan, whether it fits or not; effort None asks only our own rule.

    RoomLacks when the room has nothing of a kind that is needed; NoPlan when no order keeps
    every hold.
    """
    lead = choose_lead(lesson)
    solved = _solve(lead, effort)
    if solved.finish_minutes > lesson.usable_minutes >= solved.bound_minutes and effort is not None:
        lead, solved = _last_try(lesson, lead, solved, effort)
    single = settled(lead.problem, solved.answer.ways)
    plan = lesson_plan(lesson, single, solved, lead.waves, lead.by_the_minute)
    return Planned(plan, single, replace(solved, answer=replace(solved.answer, ways={})), lead.problem)


def choose_lead(lesson: LessonData) -> Lead:
    """The fewest waves that fit; else the fewest steps by the minute that fit; else the shortest."""
    leads = [_lead(lesson, waves) for waves in range(1, max(1, lesson.waves_most) + 1)]
    for lead in leads:
        if lead.finish <= lesson.usable_minutes:
            return lead
    best = min(leads, key=lambda lead: (lead.finish, lead.waves))
    if best.answer and best_bound(best.problem).minutes > lesson.usable_minutes:
        return best
    return _loosened(lesson, best)


def _loosened(lesson: LessonData, best: Lead) -> Lead:
    """As few steps by the minute as fit: first all, then one after another back on the fives."""
    loose = frozenset(_called_steps(best.problem))
    found = _lead(lesson, best.waves, loose)
    if found.finish > lesson.usable_minutes:
        return best if best.answer or not found.answer else found
    chain = {best.problem.task[name].step for name in longest_chain(best.problem).tasks}
    for step in sorted(loose, key=lambda step: (step in chain, -step)):
        tried = _lead(lesson, best.waves, loose - {step})
        if tried.finish <= lesson.usable_minutes:
            found, loose = tried, loose - {step}
    return found


def chain_of(lesson: LessonData) -> Bound:
    """The longest chain of steps that any bench must do one after another."""
    return longest_chain(problem_of(lesson).free())


def _lead(lesson: LessonData, waves: int, loose: frozenset[int] = frozenset()) -> Lead:
    problem = problem_of(lesson, waves, loose)
    try:
        answer = plan_by_hand(problem, NUDGES_TO_COMPARE, enough=lesson.usable_minutes)
        return Lead(waves, loose, problem, answer)
    except NoPlanByHand:
        return Lead(waves, loose, problem, None)


def _called_steps(problem: Problem) -> list[int]:
    return sorted({t.step for t in problem.tasks if t.step is not None and t.name in problem.on_the_clock})


def _solve(lead: Lead, effort: Effort | None) -> Solved:
    return (
        by_hand_only(lead.problem, lead.answer)
        if effort is None
        else solve(lead.problem, effort, lead.answer)
    )


def _last_try(lesson: LessonData, lead: Lead, solved: Solved, effort: Effort) -> tuple[Lead, Solved]:
    """All steps by the minute, in as many waves as allowed: what is left when nothing else fitted."""
    loose = frozenset(_called_steps(problem_of(lesson)))
    last = _lead(lesson, lesson.waves_most, loose)
    try:
        again = _solve(last, effort)
    except NoPlan:
        return lead, solved
    return (last, again) if again.finish_minutes < solved.finish_minutes else (lead, solved)
