"""Why a class does not fit: the smallest set of things that together make it impossible, proved.

For the long work behind the time plan's page. What stands in the way is rarely one thing:
an oven is only short because the paste may not wait, and a check only late because the
lecturer demonstrates. The method, in prose:

1. Everything that could stand in the way is a *member*: shelves of the ovens, their heats,
   each kind of machine, the lecturer, the tasting, the demonstrations, holds, waits, hands,
   and how the class is led. A question can be asked with some members in force and the
   others lifted.
2. With all members in force no plan ends in the slot; that is proved, or nothing is said.
3. One member after another is lifted for good as long as it stays proved that no plan ends
   in the slot. A member is kept when without it a plan is found.
4. What is left is irreducible: together these make it impossible (proved), and without any
   one of them there is a plan (found and checked).
5. Then these are lifted and the rest is looked at again, for a second reason beside the first.

Worked example: eight trays of 30 minutes for one oven of two shelves, 100 minutes: four
rounds are 120. Lifting the lecturer, the waits and the hands leaves that as it is; lifting
the shelves gives a plan of 45 minutes. So the shelves alone are in the way, 20 minutes short.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from kitchen.timeplan.answer import Answer, check
from kitchen.timeplan.bounds import best_bound
from kitchen.timeplan.byhand import NoPlanByHand, plan_by_hand
from kitchen.timeplan.choices import every_way
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.problem import Problem, Supply, Task
from kitchen.timeplan.solver import NoPlan, cannot_end_by, solve
from kitchen.timeplan.ways import Way

SHELVES = "oven shelves"
#: Reasons beside one another that are looked for.
MOST_REASONS = 3


@dataclass(frozen=True, slots=True)
class InTheWay:
    """Members that together make the class impossible, each needed for it.

    ``at_least`` is the minute before which no plan with only these in force ends (``usable``
    and one more where only that was proved). ``without`` holds, for each member, the finish
    of a plan that was found and checked with the others in force. No members: the steps
    alone, one after another, are too long.
    """

    members: tuple[str, ...]
    at_least: int
    without: tuple[tuple[str, int], ...]


def why_not(problem: Problem, effort: Effort = Effort(seconds=1.5)) -> tuple[InTheWay, ...]:  # noqa: B008
    """Irreducible reasons why the class does not end in its slot; empty when none is proved.

    Each is verified both ways by solving. ``effort`` is for each question asked.
    """
    if problem.usable_minutes is None:
        return ()
    found: list[InTheWay] = []
    left = members(problem)
    while len(found) < MOST_REASONS:
        reason = _one(problem, left, effort)
        if reason is None:
            break
        found.append(reason)
        left = tuple(member for member in left if member not in reason.members)
        if not reason.members:
            break
    return tuple(found)


def members(problem: Problem) -> tuple[str, ...]:
    """Codes of everything that could stand in the way, what nobody can change first."""
    out = ["hands"] if any(task.hands for task in problem.tasks) else []
    if any(window.least for window in problem.windows) or any(map(_is_waiting, problem.tasks)):
        out.append("waits")
    if any(window.longest is not None for window in problem.windows):
        out.append("holds")
    if problem != problem.free():
        out.append("lead")
    out += ["break"] if problem.breaks else []
    out += ["shows"] if problem.demonstrations else []
    out += ["assessor"] if any(task.assessor for task in problem.tasks) else []
    out += [f"supply:{supply.name}" for supply in problem.supplies]
    out += ["heats", "shelves"] if any(task.bake for task in problem.tasks) else []
    out += ["lecturer"] if any(way.lecturer for t in problem.tasks for way in (t, *t.ways)) else []
    return tuple(out)


def with_only(problem: Problem, kept: tuple[str, ...]) -> Problem:
    """The question with only these members in force and all others lifted."""
    for member in members(problem):
        if member not in kept and member not in ("heats", "shelves"):
            problem = _LIFTED[member.split(":")[0]](problem, member.partition(":")[2])
    return _ovens_as(problem, "heats" in kept, "shelves" in kept)


def _is_waiting(task: Task) -> bool:
    return not task.hands and task.bake is None and task.minutes > 0


def _changed(problem: Problem, change: Callable[[Task], Task]) -> Problem:
    return replace(problem, tasks=tuple(map(change, problem.tasks)))


def _each_way(problem: Problem, change: Callable[[Way], Way]) -> Problem:
    return _changed(problem, lambda task: every_way(task, change) if task.by_people or task.uses else task)


def _no_waits(problem: Problem, _: str) -> Problem:
    gone = {"minutes": 0, "ways": (), "uses": (), "lecturer": False, "assessor": False}
    shorter = _changed(problem, lambda t: replace(t, **gone) if _is_waiting(t) else t)
    return replace(shorter, windows=tuple(replace(window, least=0) for window in problem.windows))


def _no_holds(problem: Problem, _: str) -> Problem:
    return replace(problem, windows=tuple(replace(window, longest=None) for window in problem.windows))


def _no_shows(problem: Problem, _: str) -> Problem:
    unshown = _changed(problem, lambda t: replace(t, shown_by=None))
    names = {show.name for show in problem.demonstrations}
    return replace(unshown, demonstrations=(), on_the_clock=problem.on_the_clock - names)


def _no_supply(problem: Problem, name: str) -> Problem:
    free = _each_way(problem, lambda way: replace(way, uses=tuple(u for u in way.uses if u[0] != name)))
    return replace(free, supplies=tuple(s for s in problem.supplies if s.name != name))


#: How each member is lifted: (question, name of a supply) to the question without it.
_LIFTED: dict[str, Callable[[Problem, str], Problem]] = {
    "hands": lambda problem, _: _changed(problem, lambda t: replace(t, hands=False)),
    "waits": _no_waits,
    "holds": _no_holds,
    "lead": lambda problem, _: problem.free(),
    "break": lambda problem, _: replace(problem, breaks=()),
    "shows": _no_shows,
    "assessor": lambda problem, _: _changed(problem, lambda t: replace(t, assessor=False)),
    "supply": _no_supply,
    "lecturer": lambda problem, _: _each_way(problem, lambda way: replace(way, lecturer=False)),
}


def _ovens_as(problem: Problem, heats: bool, shelves: bool) -> Problem:
    """Ovens with their heats but shelves for all; only their shelves, any heat; or neither."""
    trays = sum(task.bake.trays for task in problem.tasks if task.bake)
    if not trays or (heats and shelves):
        return problem
    if heats:
        return replace(problem, ovens=tuple(replace(oven, trays=trays) for oven in problem.ovens))
    there = sum(oven.trays for oven in problem.ovens)

    def cold(task: Task) -> Task:
        taken = ((SHELVES, task.bake.trays),) if task.bake and shelves else ()
        return replace(task, bake=None, only_ovens=(), uses=(*task.uses, *taken))

    supplies = (*problem.supplies, *((Supply(SHELVES, there),) if shelves else ()))
    return replace(problem, supplies=supplies, ovens=(), tasks=tuple(map(cold, problem.tasks)))


def _one(problem: Problem, left: tuple[str, ...], effort: Effort) -> InTheWay | None:
    """One irreducible reason among these members; None when nothing is proved of them together."""
    usable = problem.usable_minutes or 0
    kept = left
    if not _impossible(problem, kept, effort):
        return None
    without: dict[str, int] = {}
    for member in left:
        fewer = tuple(other for other in kept if other != member)
        finish = _ends(problem, fewer, effort)
        if finish is not None and finish <= usable:
            without[member] = finish
        elif _impossible(problem, fewer, effort):
            kept = fewer
        else:
            return None
    bound = best_bound(with_only(problem, kept)).minutes
    pairs = tuple((member, without[member]) for member in kept)
    return InTheWay(kept, max(bound, usable + 1), pairs)


def _impossible(problem: Problem, kept: tuple[str, ...], effort: Effort) -> bool:
    """Proved also where only the change from one heat to another stands in the way."""
    question, usable = with_only(problem, kept), problem.usable_minutes or 0
    return cannot_end_by(question, usable, effort, with_ovens="heats" in kept)


def _ends(problem: Problem, kept: tuple[str, ...], effort: Effort) -> int | None:
    """Finish of a legal plan with these members in force, the first that fits or the best found."""
    question, usable = with_only(problem, kept), problem.usable_minutes or 0
    answer: Answer | None = None
    try:
        answer = plan_by_hand(question, nudges=6, enough=usable)
        if answer.finish(question) <= usable:
            return answer.finish(question)
    except NoPlanByHand:
        pass
    if best_bound(question).minutes > usable:
        return None
    try:
        solved = solve(question, replace(effort, holding=False), answer)
    except NoPlan:
        return None
    return None if check(question, solved.answer) else solved.finish_minutes
