"""What the templates of the day show, from a class in progress.

For ``views.py``: facts in words and rows; a calculation over what ``queries.py`` has read.
"""

from datetime import datetime, timedelta
from typing import Any

from curriculum.errors import RuleBroken
from curriculum.wording import clock_minutes, counted_words
from kitchen.timeplan.day import after, moves
from kitchen.timeplan.day.ovens import oven_rows, show_row
from kitchen.timeplan.day.page import bench_rows, bench_steps, board_rows
from kitchen.timeplan.day.proposal import kept_proposal, proposal_of
from kitchen.timeplan.day.repair import pushed
from kitchen.timeplan.day.situation import Situation, situation
from kitchen.timeplan.day.solver import replan
from kitchen.timeplan.day.told import LATE_FROM
from kitchen.timeplan.picture import picture

#: How long a device keeps the page for, after the lesson's end and of a class that has not begun; our own
#: choice, no source. A class may run late, and a tablet is opened in the morning for the afternoon.
AFTER_THE_END = timedelta(hours=2)
NOT_BEGUN = timedelta(hours=12)

#: What happened, as the last line of the page says it.
WORDS = {
    "began": "the class began",
    "started": "started",
    "done": "done",
    "failed": "failed",
    "again": "starts again",
    "absent": "one learner fewer",
}


def clock_facts(progress: Any) -> dict[str, Any]:
    """The clock of the page: what it shows, and the instants from which the browser counts on."""
    midnight = progress.midnight
    return {
        "progress": progress,
        "has_begun": progress.zero is not None,
        "clock": clock_minutes(progress.plan.cooking_from + progress.now),
        "midnight_ms": int(midnight.timestamp() * 1000) if midnight else "",
        "server_ms": int(progress.at.timestamp() * 1000),
        "until_ms": int(kept_until(progress).timestamp() * 1000),
        "planned_finish": clock_minutes(progress.plan.finish_at),
        "ends": clock_minutes(progress.plan.ends),
        "last_number": progress.last_number,
    }


def kept_until(progress: Any) -> datetime:
    """Until when a device may show this page without a network: names are on it."""
    if progress.midnight is None:
        return progress.at + NOT_BEGUN
    return progress.midnight + timedelta(minutes=progress.plan.ends) + AFTER_THE_END


def day_page(progress: Any) -> dict[str, Any]:
    """The lecturer's page: clock, benches, ovens, what no longer holds, the last thing done."""
    told = progress.told
    return clock_facts(progress) | {
        "rows": bench_rows(told),
        "show": show_row(told),
        "ovens": oven_rows(told),
        "stands": standing_facts(progress) if progress.zero is not None else None,
        "last": last_words(progress),
    }


def standing_facts(progress: Any) -> dict[str, Any]:
    """Where the class ends as it stands, and whether a new plan should be looked at."""
    told = progress.told
    at = situation(told.state, progress.row.finish_minutes)
    answers = pushed(at) if at is not None else []
    if at is None or not answers:
        nowhere = "Something that is left fits nowhere any more."
        head = "The plan no longer holds"
        return {"finish": "", "look": at is not None, "head": head, "moves": True, "words": nowhere}
    answer = answers[0]
    moved = moves.moves_of(told, at, answer)
    broken = moves.broken_words(told, at, answer)
    by = max((move.after - move.before for move in moved), default=0)
    other_oven = any(move.oven for move in moved)
    finish = told.at(answer.finish(at.problem))
    return {
        "finish": clock_minutes(finish),
        "in_hand": _in_hand(progress, finish),
        "look": bool(broken) or by >= LATE_FROM or other_oven,
        "head": moves.standing_heading(moved),
        "moves": bool(moved),
        "words": look_words(len(moved), by, broken, finish),
    }


def _in_hand(progress: Any, finish: int) -> tuple[str, str]:
    """What the minutes before clear-down are called, and how many they are."""
    spare = progress.plan.clear_at - finish
    return ("In hand before clear-down" if spare >= 0 else "Into clear-down", f"{abs(spare)} min")


def look_words(count: int, by: int, broken: tuple[str, ...], finish: int) -> str:
    """How many steps cannot begin as planned (none: left out), the first hold that broke, the end."""
    words = []
    if count:
        later = f", the latest {by} min later." if by > 0 else "."
        words.append(f"{counted_words(count, 'step').capitalize()} cannot begin as planned{later}")
    words += [*broken[:1], f"As it stands the last bench ends at {clock_minutes(finish)}."]
    return " ".join(words)


def last_words(progress: Any) -> dict[str, Any] | None:
    """The last thing done, and the number that "Undo" takes back."""
    event = progress.last
    if event is None:
        return None
    at = clock_minutes(progress.plan.cooking_from + progress.deed_of(event).minute)
    return {"number": event.number, "words": f"{at} {event_words(progress, event)}"}


def event_words(progress: Any, event: Any) -> str:
    """ "Bench 3, step 4: done." """
    where = []
    if event.place is not None:
        where.append(f"bench {event.place.bench.number}")
    elif event.step is not None:
        where.append("demonstration")
    if event.step is not None:
        where.append(f"step {event.step}" if event.step else "the pass")
    if event.appliance is not None and not where:
        where.append(event.appliance.name)
    what = WORDS[event.what] if event.what != "later" else f"{event.minutes} min more"
    head = ", ".join(where)
    return f"{head[:1].upper()}{head[1:]}: {what}." if head else f"{what[:1].upper()}{what[1:]}."


def bench_page(progress: Any, bench: str) -> dict[str, Any]:
    """One bench of the plan: its steps with their buttons."""
    told = progress.told
    own = next(each for each in told.plan.benches if each.name == bench)
    return clock_facts(progress) | {
        "bench": own,
        "rows": [row for row in bench_rows(told) if row.name == bench],
        "steps": bench_steps(told, own),
        "left": told.state.problem.bench[bench].cooks - told.state.away.get(bench, 0),
        "last": last_words(progress),
    }


def replan_page(progress: Any) -> dict[str, Any]:
    """The proposal in words, and what the page carries to have it accepted."""
    told = progress.told
    if progress.zero is None:
        raise RuleBroken("not_begun", "The class has not begun yet. Tap “The class begins” first.")
    at = situation(told.state, progress.row.finish_minutes)
    if at is None:
        raise RuleBroken("nobody_left", "Nobody is left at any bench, so there is nothing to plan.")
    found = replan(at)
    facts = {"found": found, "kept": None, "moves": (), "broken": (), "finish": "", "planned_finish": ""}
    if found.answer is not None:
        facts |= _answer_facts(progress, at, found)
    return clock_facts(progress) | facts | {"heading": moves.heading(found, facts["moves"])}


def _answer_facts(progress: Any, at: Situation, found: Any) -> dict[str, Any]:
    told = progress.told
    moved = moves.moves_of(told, at, found.answer)
    proposal = proposal_of(found, progress.row.number, progress.last_number)
    finish = told.at(found.answer.finish(at.problem))
    return {
        "moves": moved,
        "broken": moves.broken_words(told, at, found.answer),
        "left_out": moves.left_out_words(told),
        "kept": kept_proposal(proposal) if moved or moves.left_out_words(told) else None,
        "finish": clock_minutes(finish),
        "in_hand": _in_hand(progress, finish),
        "planned_finish": clock_minutes(progress.plan.finish_at),
    }


def board_page(progress: Any) -> dict[str, Any]:
    """The projector's page: bench numbers, steps, minutes, the demonstration."""
    told = progress.told
    rows = [row for row in board_rows(told) if not row.also]
    return clock_facts(progress) | {"rows": rows, "show": show_row(told)}


def after_page(progress: Any) -> dict[str, Any]:
    """The day beside its plan."""
    told = progress.told
    found = _timed(progress)
    return clock_facts(progress) | {
        "steps": after.step_lines(told, found),
        "benches": after.bench_lines(told, progress.first_starts, found),
        "untimed": after.untimed(told.state),
        "paces": [_pace_facts(progress, pace) for pace in _paces(progress, found)],
        "svg": picture(progress.plan),
    }


def _timed(progress: Any) -> tuple[after.Timed, ...]:
    written = progress.row.inputs.get("recipe_minutes")
    return after.timed(progress.told.state, progress.first_starts, written)


def _paces(progress: Any, found: tuple[after.Timed, ...]) -> tuple[after.Pace, ...]:
    return after.paces_of(found, progress.techniques, progress.level)


def _pace_facts(progress: Any, pace: after.Pace) -> dict[str, Any]:
    """A pace for the template: its technique's name, whether it is kept already, and what stands."""
    kept = progress.kept_paces.get(pace.technique)
    return {
        "pace": pace,
        "name": progress.technique_names[pace.technique],
        "kept": kept,
        "is_kept": kept is not None and kept.timings.get(progress.lesson.code) == list(pace.timings),
        "kept_words": after.kept_words(kept.pace_per_mille, kept.count, len(kept.lessons)) if kept else "",
    }


def pace_named(progress: Any, technique: str) -> after.Pace:
    """The pace of a technique in this lesson, or RuleBroken when the day does not teach it."""
    found = _timed(progress)
    for pace in _paces(progress, found):
        if pace.technique == technique:
            return pace
    raise RuleBroken("no_such_pace", "The day has no timed step of that technique.")
