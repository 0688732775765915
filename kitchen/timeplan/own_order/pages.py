"""The facts of the pages of own orders of work: states, breaks and remarks in words.

For ``views.py``: no query, no request. A ``desk`` is a ``queries.OrderDesk``, a ``class_`` a
``queries.ClassOrders``.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from curriculum.paper import name_on_paper
from curriculum.wording import counted_words, listed
from kitchen.timeplan.own_order.judging import PLATE, Judged
from kitchen.timeplan.pages import lesson_facts
from kitchen.timeplan.words import free_from_words

NOT_LOOKED_AT = "Not looked at yet"


@dataclass(frozen=True, slots=True)
class State:
    """How far an order is: the shape of its state, the word, and a sentence."""

    kind: str
    word: str
    words: str


@dataclass(frozen=True, slots=True)
class ClassLine:
    """One learner on the lecturer's list."""

    bench: int
    name: str
    college_number: str
    dish: str
    state: State
    finding: str
    breaks: int


def state_of(row: Any, zone: Any) -> State:
    """The state of an order (None: not begun)."""
    if row is None:
        return State("todo", "Not begun", "Nothing is kept yet.")
    if row.is_handed_in:
        at = when(row.handed_in_at, zone)
        return State("done", "Handed in", f"{at[:1].upper()}{at[1:]}.")
    if row.opened_by is not None:
        opened = f"Opened again by {row.opened_by.name} {when(row.opened_at, zone)}: {row.opened_why}"
        return State("doing", "Opened again", opened if opened.endswith(".") else f"{opened}.")
    return State("doing", "Being written", f"Kept {when(row.saved_at, zone)}.")


def when(at: datetime, zone: Any) -> str:
    """ "on 16 February at 10:14", by the college's clock."""
    local = at.astimezone(zone)
    return f"on {local.day} {local:%B} at {local:%H:%M}"


def finding(judged: Judged) -> str:
    """What was found, in one sentence for a list."""
    if not judged.looked_at:
        return f"{NOT_LOOKED_AT}."
    found = []
    if judged.breaks:
        found.append(f"{counted_words(len(judged.breaks), 'rule breaks', 'rules break')}")
    if judged.missing:
        found.append(f"{counted_words(len(judged.missing), 'step has', 'steps have')} no time")
    if judged.troubles:
        count = counted_words(len(judged.troubles), "entry", "entries")
        found.append(f"{count} cannot be used")
    if not found:
        return "Nothing breaks."
    words = listed(found)
    return f"{words[:1].upper()}{words[1:]}."


def heading(judged: Judged) -> str:
    """The heading over what was found."""
    if not judged.looked_at:
        return NOT_LOOKED_AT
    if judged.breaks:
        words = counted_words(len(judged.breaks), "rule breaks", "rules break")
        return words[:1].upper() + words[1:]
    if judged.missing or judged.troubles:
        return "Nothing breaks so far" if judged.any_timed else NOT_LOOKED_AT
    return "Nothing breaks"


def missing_words(judged: Judged) -> str:
    """ "No time yet: steps 3 and 5, the plate at the pass."."""
    steps = [str(step) for step in judged.missing if step != PLATE]
    parts = [f"step{'s' if len(steps) > 1 else ''} {listed(steps)}"] if steps else []
    parts += ["the plate at the pass"] if PLATE in judged.missing else []
    it = "them" if len(judged.missing) > 1 else "it"
    return f"No time yet: {', '.join(parts)}. What waits for {it} is not looked at." if parts else ""


def found_facts(judged: Judged) -> dict[str, Any]:
    """What was found, for the part of the page that says so."""
    return {"judged": judged, "heading": heading(judged), "missing": missing_words(judged)}


def own_page(desk: Any, hidden: bool) -> dict[str, Any]:
    """The page on which a learner writes."""
    lesson = desk.class_.lesson
    return found_facts(desk.judged) | {
        "lesson": lesson,
        "desk": desk,
        "title": desk.bench.recipe.title,
        "facts": f"{lesson_facts(lesson)} Bench {desk.bench.name}.",
        "between": desk.class_.between,
        "free_from": free_from_words(desk.bench.recipe.free_from),
        "state": state_of(desk.row, desk.class_.zone),
        "hidden": hidden,
        "sheet": desk.sheet if desk.row else None,
    }


def learner_page(desk: Any) -> dict[str, Any]:
    """One learner's order beside the plan, for who reads it."""
    student, lesson = desk.place.student, desk.class_.lesson
    return found_facts(desk.judged) | {
        "lesson": lesson,
        "desk": desk,
        "student": student,
        "title": desk.bench.recipe.title,
        "facts": f"{lesson_facts(lesson)} Bench {desk.bench.name}, {desk.bench.recipe.title}.",
        "state": state_of(desk.row, desk.class_.zone),
        "sheet": desk.sheet_beside_plan if desk.row else None,
    }


def class_page(class_: Any, desks: Iterable[Any]) -> dict[str, Any]:
    """The list of a lesson's learners."""
    lines = [_class_line(desk) for desk in desks]
    handed_in = sum(line.state.kind == "done" for line in lines)
    return {
        "facts": lesson_facts(class_.lesson),
        "lines": lines,
        "of": f"{handed_in} of {len(lines)} handed in." if lines else "",
        "assessed": class_.assessed,
        "assessed_words": assessed_words(class_.assessed),
        "planned": class_.plan is not None,
    }


def _class_line(desk: Any) -> ClassLine:
    student = desk.place.student
    return ClassLine(
        bench=desk.place.place.bench.number,
        name=student.user.name,
        college_number=student.college_number,
        dish=desk.bench.recipe.title,
        state=state_of(desk.row, desk.class_.zone),
        finding=finding(desk.judged) if desk.row else "",
        breaks=len(desk.judged.breaks) if desk.row else 0,
    )


def assessed_words(assessed: bool) -> str:
    """What the setting of a lesson means."""
    if assessed:
        return (
            "Own orders of work are assessed in this lesson: each learner sees the site’s plan of their"
            " bench only after handing in their own."
        )
    return "Own orders of work are not assessed in this lesson: learners see the site’s plan of their bench."


def hidden_words(count: int) -> str:
    """Beside what shows the plan to everybody, while learners must not see it yet; empty for none."""
    if not count:
        return ""
    who = counted_words(count, "learner has", "learners have")
    return (
        f"Own orders of work are assessed, and {who} not handed {'one' if count == 1 else 'theirs'} in yet."
        " The projector, the pictures and the strips would show them the site’s plan."
    )


def paper_facts(desk: Any) -> dict[str, str]:
    """The head of the paper."""
    user, lesson = desk.place.student.user, desk.class_.lesson
    return {
        "title": desk.bench.recipe.title,
        "facts": f"{name_on_paper(user.printed_name)}. {lesson_facts(lesson)}",
        "plate": desk.bench.name,
        "free_from": free_from_words(desk.bench.recipe.free_from),
    }
