"""What the page of the time plan says of a plan or a draft, in sentences.

For the pages and the papers: every figure is already in the plan; here it becomes words.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from curriculum.wording import clock_minutes, counted_words, duration, listed
from kitchen.timeplan.fits import step_words
from kitchen.timeplan.plan import ON_THE_DAY, LessonPlan
from kitchen.timeplan.ways_out import WayOut

STATUS_WORDS = {
    "proved": "Proved: no plan is shorter.",
    "found": "Found by the solver; a shorter one may exist.",
    "by hand": "Made by our own rule; a longer search may find a shorter one.",
    "on the day": "Made while the class ran: what had begun stayed where it was.",
}


@dataclass(frozen=True, slots=True)
class Figure:
    """One line of the slip beside the verdict."""

    words: str
    figure: str
    is_sum: bool = False


def heading(plan: LessonPlan | None, fits: bool) -> str:
    """ "It fits, with 4 min in hand", "It does not fit: at least 26 min are missing"."""
    if plan is None:
        return "It cannot be planned yet"
    if fits and plan.spare_minutes:
        return f"It fits, with {duration(plan.spare_minutes)} in hand"
    if fits:
        return "It fits exactly"
    missing = plan.bound_minutes - plan.usable_minutes
    if missing > 0:
        return f"It does not fit: at least {duration(missing)} {'is' if missing == 1 else 'are'} missing"
    over = f": {duration(plan.minutes_over)} too long" if plan.minutes_over else ""
    return f"It does not fit{over}"


def lead_words(plan: LessonPlan) -> str:
    """When the last bench has finished, and what nobody can beat."""
    best = clock_minutes(plan.cooking_from + plan.bound_minutes)
    last = f"The last bench has finished at {clock_minutes(plan.finish_at)}, if nothing slips."
    if plan.gap_minutes == 0:
        return f"{last} No plan can end earlier."
    return f"{last} No plan can end earlier than {best}."


def lead_by_words(plan: LessonPlan) -> str:
    """How the class is led: waves, the fives, steps ahead; a plan made on the day is led as it stands."""
    waves = (
        "All benches begin each step together."
        if plan.waves == 1
        else f"The benches begin in {counted_words(plan.waves, 'wave')}."
    )
    clock = f" Steps are called on the {_clock_words(plan.clock_minutes)}."
    if plan.status == ON_THE_DAY:
        waves, clock = "Each bench goes on from where it stands.", " Steps are called by the minute."
    elif plan.by_the_minute:
        off = step_words(plan.by_the_minute)
        verb = "are" if len(plan.by_the_minute) > 1 else "is"
        clock = (
            f" Steps are called on the {_clock_words(plan.clock_minutes)}; {off.lower()} {verb} called by the"
        )
        clock += " minute, since all would not fit otherwise."
    ahead = f" {step_words(plan.ahead)} {'are' if len(plan.ahead) > 1 else 'is'} done before the lesson."
    rest = f" Everybody has a break from {clock_minutes(plan.break_at)} to {clock_minutes(plan.break_end)}."
    return waves + clock + (ahead if plan.ahead else "") + (rest if plan.break_minutes else "")


def _clock_words(minutes: int) -> str:
    return {5: "fives", 10: "tens"}.get(minutes, f"{minutes} minutes")


def slip(plan: LessonPlan, chain_minutes: int) -> tuple[Figure, ...]:
    """The figures of a plan, with the spare or the missing minutes as their sum."""
    lines = [
        Figure("For cooking", f"{plan.usable_minutes} min"),
        *_break_and_contingency(plan),
        Figure("Longest chain of steps", f"{chain_minutes} min"),
        Figure("This plan", f"{plan.finish_minutes} min"),
        Figure("No plan is shorter than", f"{plan.bound_minutes} min"),
        Figure("Between the two", f"{plan.gap_minutes} min"),
    ]
    if plan.minutes_over:
        return (*lines, Figure("This plan is too long by", f"{plan.minutes_over} min", True))
    return (*lines, Figure("In hand", f"{plan.spare_minutes} min", True))


def _break_and_contingency(plan: LessonPlan) -> tuple[Figure, ...]:
    """What the slot holds besides: a break among the minutes for cooking, minutes kept free after them."""
    found = [
        ("Break within it", plan.break_minutes),
        ("Kept free before clear-down", plan.contingency_minutes),
    ]
    return tuple(Figure(words, f"{minutes} min") for words, minutes in found if minutes)


def ways_words(ways: Iterable[WayOut]) -> str:
    """A sentence before the list of ways out."""
    count = len(list(ways))
    if count == 0:
        return (
            "No way out was found: not with steps ahead, in pairs, on two days, in a longer slot, with one"
            " more oven, with somebody beside the lecturer or without a break."
        )
    if count == 1:
        return "One way out, planned and checked."
    ways = counted_words(count, "way").capitalize()
    return f"{ways} out, the least trouble first, each planned and checked."


def void_words(number: int) -> str:
    """Which printed sheets no longer count; empty for the first plan."""
    return f"Printed sheets of any plan before plan {number} are void: print them again." * (number > 1)


def progress_words(progress: dict) -> str:
    """How far long work is: the best so far, and what nothing can beat."""
    if "finish_minutes" not in progress:
        return progress.get("words", "Waiting for a worker to take it.")
    best, bound = progress["finish_minutes"], progress["bound_minutes"]
    left = progress["usable_minutes"]
    return f"Best so far: {best} min. No plan is shorter than {bound} min. The slot leaves {left} min."


def free_from_words(kinds: Iterable[str], names: Iterable[str] = ()) -> str:
    """ "FREE FROM MILK AND EGG", with the names behind it; empty when nothing is left out."""
    left_out = [kind.replace("_", " ").upper() for kind in kinds]
    if not left_out:
        return ""
    whose = listed(names)
    return f"FREE FROM {listed(left_out, 'AND')}" + (f", {whose}" if whose else "")
