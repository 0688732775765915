"""How far a lesson has come, and what its lecturer, the stores or a learner does next.

For the first pages and the page of a lesson: plain data in, words out. The stations
of a lesson are Booked, Places, Time plan, Requisition, Kits, Taught, Marked and Feedback out.
"""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Progress:
    """What stands in the books about one lesson; counts, and states as stored."""

    learners: int = 0
    placed: int = 0
    plan_fits: bool | None = None
    requisition: str = ""
    kits: int = 0
    kits_blocked: int = 0
    lines: int = 0
    lines_weighed: int = 0
    issued: bool = False
    attended: int = 0
    sittings: int = 0
    submitted: int = 0
    handed_back: int = 0


@dataclass(frozen=True, slots=True)
class Station:
    """One station: its name, the shape and word of its state, and what is known."""

    name: str
    state: str
    words: str
    ahead: bool


@dataclass(frozen=True, slots=True)
class Task:
    """One thing to do: who does it, by when, in words, and the page by url name."""

    what: str
    why: str
    url_name: str
    copper: bool = False


def places_station(progress: Progress) -> Station:
    """Whether every learner stands at a bench."""
    if progress.placed == 0:
        return Station("Places", "todo", "nobody placed", True)
    if progress.placed < progress.learners:
        return Station("Places", "doing", f"{progress.placed} of {progress.learners} placed", False)
    return Station("Places", "done", f"{progress.placed} placed", False)


def plan_station(progress: Progress) -> Station:
    """Whether a time plan was accepted, and whether it fits."""
    if progress.plan_fits is None:
        return Station("Time plan", "todo", "not accepted", True)
    if not progress.plan_fits:
        return Station("Time plan", "late", "does not fit", False)
    return Station("Time plan", "done", "fits", False)


def requisition_station(progress: Progress) -> Station:
    """How far the requisition has come."""
    if progress.requisition == "approved":
        return Station("Requisition", "done", "approved", False)
    if progress.requisition in ("submitted", "draft"):
        return Station("Requisition", "doing", progress.requisition, False)
    if progress.requisition == "queried":
        return Station("Requisition", "late", "queried", False)
    return Station("Requisition", "todo", "not made", True)


def kits_station(progress: Progress) -> Station:
    """Whether kits are made, weighed and issued."""
    if progress.issued:
        return Station("Kits", "done", "issued", False)
    if progress.kits == 0:
        return Station("Kits", "todo", "not made", True)
    if progress.kits_blocked:
        return Station("Kits", "stopped", f"{progress.kits_blocked} held back", False)
    return Station("Kits", "doing", f"{progress.lines_weighed} of {progress.lines} lines weighed", False)


def marked_station(progress: Progress) -> Station:
    """How many sheets are in."""
    if progress.sittings == 0:
        return Station("Marked", "todo", "no sheets", True)
    if progress.submitted < progress.sittings:
        return Station("Marked", "doing", f"{progress.submitted} of {progress.sittings} sheets in", False)
    return Station("Marked", "done", f"{progress.submitted} sheets in", False)


def stations_of(progress: Progress, booked_on: date) -> list[Station]:
    """All stations of a lesson in their order."""
    taught = progress.attended > 0
    out = progress.handed_back
    return [
        Station("Booked", "done", f"{booked_on.day} {booked_on:%b}", False),
        places_station(progress),
        plan_station(progress),
        requisition_station(progress),
        kits_station(progress),
        Station(
            "Taught", "done" if taught else "todo", f"{progress.attended} there" if taught else "", not taught
        ),
        marked_station(progress),
        Station("Feedback out", "done" if out else "todo", f"{out} handed back" if out else "", not out),
    ]


def lecturer_tasks(progress: Progress, past: bool) -> list[Task]:
    """What the lecturer of this lesson still has to do, the first first."""
    tasks = []
    if progress.placed < progress.learners and not past:
        left = progress.learners - progress.placed
        tasks.append(Task("Give every learner a place", f"{left} without a bench.", "lessons:places"))
    if progress.plan_fits is None and not past:
        tasks.append(Task("Make the time plan", "No plan is accepted yet.", "timeplan:plan"))
    if progress.plan_fits is False:
        tasks.append(
            Task("Make the lesson fit", "The accepted plan is longer than the slot.", "timeplan:plan", True)
        )
    if progress.requisition in ("", "draft", "queried") and not past:
        tasks.append(Task("Submit the requisition", "The stores have nothing to approve yet.", "stores:kits"))
    if progress.sittings and progress.submitted < progress.sittings and progress.attended:
        left = progress.sittings - progress.submitted
        tasks.append(Task("Finish the mark sheets", f"{left} not submitted.", "marking:lesson"))
    if progress.submitted > progress.handed_back:
        left = progress.submitted - progress.handed_back
        tasks.append(Task("Hand back feedback", f"{left} not handed back.", "feedback:lesson"))
    return tasks


def stores_tasks(progress: Progress) -> list[Task]:
    """What the stores still have to do for this lesson, the first first."""
    if progress.requisition == "submitted":
        return [Task("Approve or query the requisition", "It was submitted.", "stores:requisition")]
    if progress.issued or progress.requisition != "approved":
        return []
    tasks = []
    if progress.kits == 0:
        tasks.append(Task("Make the kits", "The requisition is approved.", "stores:kits"))
    if progress.kits_blocked:
        tasks.append(
            Task(
                "Read the labels",
                f"{progress.kits_blocked} kits are held back until then.",
                "stores:kits",
                True,
            )
        )
    if progress.kits and progress.lines_weighed < progress.lines:
        left = progress.lines - progress.lines_weighed
        tasks.append(Task("Weigh out", f"{left} lines to go.", "stores:weigh"))
    elif progress.kits:
        tasks.append(Task("Issue the kits", "Every line is weighed.", "stores:issue"))
    return tasks
