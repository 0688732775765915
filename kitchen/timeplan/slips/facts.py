"""What the page of the chances says: the runs of a plan in words and figures.

For ``views.py``. Shares are said as "92 of 100 such classes", the unit a teacher thinks in.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from curriculum.wording import clock_minutes, counted_words, duration
from kitchen.timeplan.chance import Chance, HoldBroken, Pace, Queue, run_classes
from kitchen.timeplan.class_data import LessonData
from kitchen.timeplan.learned.used import learned_spreads, spread_words
from kitchen.timeplan.plan import BenchPlan, LessonPlan
from kitchen.timeplan.plan_answer import question_and_answer
from kitchen.timeplan.problem import Problem
from kitchen.timeplan.reserves import Reserve, reserves

#: Queues shorter than this in a middling class are not worth a line.
LEAST_QUEUE_MINUTES = 3
#: Rare broken holds are not worth a line.
LEAST_HOLD_SHARE = 0.05
MOST_LINES = 5
STANDS = "Food stands longer than the recipe allows"
SEED = 1
RUNS = 2000


@dataclass(frozen=True, slots=True)
class Line:
    """One docket line: figure, small unit, words, and whether a hand is needed."""

    figure: str
    unit: str
    head: str
    words: str = ""
    hand: bool = False


@dataclass(frozen=True, slots=True)
class Slips:
    """Everything of the page in words."""

    heading: str
    lead: str
    learned: str
    benches: tuple[Line, ...]
    queues: tuple[Line, ...]
    holds: tuple[Line, ...]
    reserves: tuple[Line, ...]


def slips_of(lesson: LessonData, plan: LessonPlan, pace: Pace) -> Slips:
    """The plan run ``RUNS`` times by learners of that pace."""
    problem, answer = question_and_answer(lesson, plan)
    problem = replace(problem, usable_minutes=plan.clear_at - plan.cooking_from)
    learned = learned_spreads(lesson, problem)
    chance = run_classes(problem, answer, pace, runs=RUNS, seed=SEED, learned=learned)
    found = reserves(problem, answer, pace, runs=RUNS, seed=SEED, learned=learned)
    names = {bench.name: bench for bench in plan.benches}
    return Slips(
        heading=_heading(chance),
        lead=_lead(plan, chance),
        learned=spread_words(lesson),
        benches=tuple(
            Line(
                figure=str(_of_hundred(share)),
                unit="of 100",
                head=f"Bench {name}",
                words=_bench_words(plan, names[name], minute),
                hand=share < 0.5,
            )
            for name, share, minute in chance.benches
        ),
        queues=tuple(_queues(problem, lesson, chance.queues)),
        holds=tuple(hold_lines(problem, chance.holds)),
        reserves=tuple(reserve_line(each) for each in found[:MOST_LINES]),
    )


def _bench_words(plan: LessonPlan, bench: BenchPlan, minute: int) -> str:
    late, planned = clock_minutes(plan.cooking_from + minute), clock_minutes(bench.end)
    return f"{bench.dish}. Nine times in ten it has ended by {late}; the plan says {planned}."


def _of_hundred(share: float) -> int:
    """A share as so many of a hundred; only all is 100, only none is 0."""
    rounded = round(share * 100)
    if share < 1:
        rounded = min(rounded, 99)
    return max(rounded, 1) if share > 0 else 0


def _heading(chance: Chance) -> str:
    count = _of_hundred(chance.in_time)
    if count == 100:
        return "Every such class ends in time"
    if count == 0:
        return "No such class ends in time"
    return f"{count} of 100 such classes end in time"


def _lead(plan: LessonPlan, chance: Chance) -> str:
    early, middle, late = (clock_minutes(plan.cooking_from + minute) for minute in chance.finish)
    clear = clock_minutes(plan.clear_at)
    return (
        f"The plan ends at {clock_minutes(plan.finish_at)}, clear-down is at {clear}. Half of the classes"
        f" have ended by {middle}, one in ten by {early}, nine in ten by {late}."
    )


def _queues(problem: Problem, lesson: LessonData, queues: Iterable[Queue]) -> Iterable[Line]:
    names = {appliance.code: appliance.name for appliance in lesson.appliances}
    supplies = {supply.name: supply.words or supply.name for supply in problem.supplies}
    shows = {show.name: show.words for show in problem.demonstrations}
    long = [queue for queue in queues if queue.minutes >= LEAST_QUEUE_MINUTES]
    for queue in long[:MOST_LINES]:
        about = {
            "oven": f"For {names.get(queue.about, queue.about)}",
            "supply": f"For the {supplies.get(queue.about, queue.about)}",
            "lecturer": "For the lecturer, who checks or stands beside",
            "assessor": "For the taster",
            "demonstration": f"Until everybody can watch: {shows.get(queue.about, queue.about)}",
        }[queue.kind]
        share = _of_hundred(queue.share_of_runs)
        words = f"All benches together, in a middling class; somebody waits in {share} of 100."
        yield Line(str(round(queue.minutes)), "min", about, words)


def hold_lines(problem: Problem, holds: Iterable[HoldBroken]) -> Iterable[Line]:
    """Broken holds by the pair of steps: the worst bench and how many benches it concerns."""
    worst: dict[tuple[int | None, int | None], list[HoldBroken]] = {}
    for hold in holds:
        before, after = problem.task[hold.before], problem.task[hold.after]
        if hold.share_of_runs >= LEAST_HOLD_SHARE:
            worst.setdefault((before.step, after.step), []).append(hold)
    for (before, after), found in list(worst.items())[:MOST_LINES]:
        share = max(hold.share_of_runs for hold in found)
        within = before == after
        head = f"In step {before}" if within else f"After step {before}, before step {after}"
        benches = counted_words(len(found), "bench", "benches")
        what = "What follows within the step comes late" if within else STANDS
        words = f"{what} at {benches}; the figure is the worst of them."
        yield Line(str(_of_hundred(share)), "of 100", head, words, hand=share >= 0.5)


def reserve_line(reserve: Reserve) -> Line:
    """A reserve by what it adds to the count of a hundred that the page shows, so that both add up."""
    head = reserve.words[0].upper() + reserve.words[1:]
    words = f"Then {_of_hundred(reserve.in_time)} of 100 classes end in time."
    more = _of_hundred(reserve.in_time) - _of_hundred(reserve.in_time - reserve.gain)
    return Line(f"+{more}" if more > 0 else "under 1", "of 100", head, words)


def group_words(plan: LessonPlan) -> str:
    """What is reckoned, for the sentence under the choice."""
    count = counted_words(len(plan.benches), "bench", "benches")
    return f"{count[0].upper()}{count[1:]}, {RUNS:,} classes, {duration(plan.usable_minutes)} for cooking."
