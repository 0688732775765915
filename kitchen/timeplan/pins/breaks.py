"""What breaks when things are fixed that cannot all hold: the smallest set of them, and of rules, proved.

For the page "Fix by hand" and the long work. It asks as ``why_not.py`` does, with each fixed
thing as one more member:

1. With everything in force no plan is there (of any length, or, where the lesson fits without
   what is fixed, none that ends in its slot); that is proved, or nothing is said.
2. The work of the benches at which nothing is fixed is left out, then how the class is led, the
   slot, one fixed thing after another and one rule after another, each for good as long as it
   stays proved that there is no plan. What cannot be left out, because a plan is found without
   it, is kept.
3. So what is left is irreducible: proved impossible together, possible without any one.
4. Each fixed thing in it is let go alone, with all else of the lesson in force: where a plan is
   found then, that is what to let go.

Worked example: two bakes of 20 minutes are fixed to one oven at minutes 30 and 55, at 180 and
150 °C; the oven cools in six minutes and gets five. The two starts, the two ovens and "ovens
that hold one heat at a time" are in the way together, and letting go of any of the four helps.
"""

from dataclasses import dataclass, replace

from kitchen.timeplan.answer import check
from kitchen.timeplan.bounds import best_bound, far, heads, latest_starts
from kitchen.timeplan.byhand import NoPlanByHand, plan_by_hand
from kitchen.timeplan.effort import Effort
from kitchen.timeplan.pins.data import PinData
from kitchen.timeplan.pins.pinned import fixed_by
from kitchen.timeplan.problem import Problem
from kitchen.timeplan.solver import NoPlan, cannot_end_by, solve
from kitchen.timeplan.why_not import members, with_only

OTHERS, SLOT = "others", "slot"
Member = str | PinData


@dataclass(frozen=True, slots=True)
class Breaks:
    """Fixed things and rules that cannot all hold, each needed for it.

    ``question`` is the question with only these in force, ``limit`` the minute by which it
    cannot end. ``let_go`` holds (fixed thing, finish of the plan found without it alone).
    """

    pins: tuple[PinData, ...]
    rules: tuple[str, ...]
    question: Problem
    limit: int
    let_go: tuple[tuple[PinData, int], ...]


@dataclass(frozen=True)
class Asked:
    """The lesson's question without anything fixed, what is fixed, and how hard to look."""

    problem: Problem
    pins: tuple[PinData, ...]
    start_minutes: int
    effort: Effort

    def members(self, slot: bool) -> tuple[Member, ...]:
        """Everything that could be in the way, what is left out first standing first."""
        rules = members(self.problem)
        first = [rule for rule in rules if rule == "lead"]
        first += [SLOT] if slot and self.problem.usable_minutes is not None else []
        return (OTHERS, *first, *self.pins, *(rule for rule in rules if rule != "lead"))

    def question(self, kept: tuple[Member, ...]) -> Problem:
        """The question with only these members in force."""
        pins = tuple(each for each in kept if isinstance(each, PinData))
        problem = self.problem if OTHERS in kept else only_benches(self.problem, pins)
        fixed = fixed_by(problem, pins, self.start_minutes).problem
        rules = tuple(each for each in kept if isinstance(each, str))
        return with_only(fixed, rules)

    def limit(self, question: Problem, kept: tuple[Member, ...]) -> int:
        """The end of the slot, or a minute by which every plan could have ended."""
        usable = self.problem.usable_minutes
        return usable if SLOT in kept and usable is not None else far(question)

    def impossible(self, kept: tuple[Member, ...]) -> bool:
        """Whether it is proved that no plan with these in force ends by the limit."""
        question = self.question(kept)
        limit = self.limit(question, kept)
        if contradicts(question) or best_bound(question).minutes > limit:
            return True
        return cannot_end_by(question, limit, self.effort, with_ovens=True)

    def ends(self, kept: tuple[Member, ...]) -> int | None:
        """Finish of a plan with these in force that ends by the limit, found and checked."""
        finish = self.ends_by_hand(kept)
        if finish is not None:
            return finish
        question = self.question(kept)
        limit = self.limit(question, kept)
        if contradicts(question) or best_bound(question).minutes > limit:
            return None
        try:
            answer = solve(question, replace(self.effort, holding=False)).answer
        except NoPlan:
            return None
        finish = answer.finish(question)
        return None if check(question, answer) or finish > limit else finish

    def ends_by_hand(self, kept: tuple[Member, ...]) -> int | None:
        """Finish of the rule's plan with these in force, if it ends by the limit."""
        question = self.question(kept)
        limit = self.limit(question, kept)
        if contradicts(question):
            return None
        try:
            answer = plan_by_hand(question, nudges=6, enough=limit)
        except NoPlanByHand:
            return None
        finish = answer.finish(question)
        return finish if finish <= limit and not check(question, answer) else None


def what_breaks(
    problem: Problem,
    pins: tuple[PinData, ...],
    start_minutes: int,
    slot: bool,
    effort: Effort = Effort(seconds=0.6, workers=1),  # noqa: B008
) -> Breaks | None:
    """An irreducible set of fixed things and rules that cannot all hold; None when none is proved.

    ``problem`` is the question without anything fixed, as it is led; ``slot`` says whether the
    end of the lesson counts. ``effort`` is for each question asked.
    """
    asked = Asked(problem, pins, start_minutes, effort)
    whole = asked.members(slot)
    kept = next((each for each in (whole[1:], whole) if pins and asked.impossible(each)), None)
    kept = kept and _irreducible(asked, _many_at_once(asked, kept))
    if not kept:
        return None
    found = tuple(each for each in kept if isinstance(each, PinData))
    if not found:
        return None
    question = asked.question(kept)
    return Breaks(
        pins=found,
        rules=tuple(each for each in kept if isinstance(each, str)),
        question=question,
        limit=asked.limit(question, kept),
        let_go=tuple(_alone(asked, whole, found)),
    )


def _many_at_once(asked: Asked, kept: tuple[Member, ...]) -> tuple[Member, ...]:
    """What stays when whole lots of rules can be left out together: supplies, then people and waits."""
    supplies = tuple(each for each in kept if isinstance(each, str) and each.startswith("supply:"))
    for lot in (supplies, ("hands", "waits", "holds", "lecturer", "assessor", "lead")):
        fewer = tuple(each for each in kept if each not in lot)
        if len(fewer) < len(kept) and asked.impossible(fewer):
            kept = fewer
    return kept


def _irreducible(asked: Asked, kept: tuple[Member, ...]) -> tuple[Member, ...] | None:
    """What cannot be left out, one after another; None where it stays open for one of them."""
    for member in kept:
        fewer = tuple(other for other in kept if other != member)
        if asked.ends_by_hand(fewer) is not None:
            continue
        if asked.impossible(fewer):
            kept = fewer
        elif asked.ends(fewer) is None:
            return None
    return kept


def _alone(asked: Asked, whole: tuple[Member, ...], found: tuple[PinData, ...]) -> list[tuple[PinData, int]]:
    """Fixed things without which, everything else in force, there is a plan; the shortest first."""
    ends = [(pin, asked.ends(tuple(each for each in whole if each != pin))) for pin in found]
    return sorted(((pin, end) for pin, end in ends if end is not None), key=lambda each: each[1])


def only_benches(problem: Problem, pins: tuple[PinData, ...]) -> Problem:
    """The question with only the benches at which something is fixed; of a demonstration, who needs it."""
    named = {pin.bench for pin in pins} | {pin.other_bench for pin in pins}
    tasks = tuple(t for t in problem.tasks if t.bench in named) or problem.tasks
    names = {t.name for t in tasks}
    groups = (tuple(name for name in group if name in names) for group in problem.together)
    shows = {show.name for show in problem.demonstrations}
    return replace(
        problem,
        tasks=tasks,
        windows=tuple(w for w in problem.windows if {w.before, w.after} <= names),
        benches=tuple(b for b in problem.benches if b.name in {t.bench for t in tasks}),
        together=tuple(group for group in groups if len(group) > 1),
        on_the_clock=problem.on_the_clock & (names | shows),
    )


def contradicts(problem: Problem) -> bool:
    """Whether something fixed begins before what must come before it, by chains and holds alone."""
    head, due = heads(problem), latest_starts(problem)
    return any(head[name] > minute for name, minute in due.items())
