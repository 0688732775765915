"""What is to be done next with a week, in the order in which it presses: plain words for the page.

Drafts that are too late or to be sent come first, then what cannot come, then what is to be
accepted, then requisitions that nobody has approved.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from curriculum.wording import clock, counted, long_date, money


@dataclass(frozen=True, slots=True)
class Todo:
    """One thing to do: its state with the word, the sentence, where it is done, and until when."""

    state: str
    word: str
    words: str
    target: str
    when: str = ""


@dataclass(frozen=True, slots=True)
class Draft:
    """An order that waits to be sent: its code, to whom, until when, and its page."""

    code: str
    supplier: str
    send_by: datetime
    target: str


def send_first(drafts: Iterable[Draft], now: datetime) -> tuple[Todo, ...]:
    """The drafts, the most urgent first."""
    return tuple(
        Todo(
            "late" if now > each.send_by else "waiting",
            "Too late" if now > each.send_by else "To be sent",
            f"Send order {each.code} to {each.supplier}."
            if now <= each.send_by
            else f"Ring {each.supplier}: order {each.code} was not sent in time.",
            each.target,
            f"by {clock(each.send_by.time())} on {long_date(each.send_by.date(), now.date())}",
        )
        for each in sorted(drafts, key=lambda draft: (draft.send_by, draft.code))
    )


def then_accept(
    drops: Sequence[tuple[datetime, int]],
    refused: Sequence[tuple[str, int]],
    late: int,
    waiting: int,
    monday: date,
) -> tuple[Todo, ...]:
    """What cannot come, what is proposed (until when the first is sent, packs), and what is not approved."""
    found = []
    if late:
        found.append(Todo("late", "Too late", f"{counted(late, 'food')} cannot come in time.", "#late"))
    for number, (supplier, short) in enumerate(refused, 1):
        why = f"short by {money(short)}" if short else "other orders need the same foods"
        words = f"No order can be placed with {supplier}: {why}."
        found.append(Todo("stopped", "Stopped", words, f"#refused-{number}"))
    if drops:
        until, orders = min(until for until, _ in drops), counted(len(drops), "order")
        words = f"Look at {orders} below and accept {'it' if len(drops) == 1 else 'them'}."
        when = f"the first is sent by {clock(until.time())} on {long_date(until.date(), monday)}"
        found.append(Todo("waiting", "To be accepted", words, "#order", when))
    if waiting:
        lessons, have = counted(waiting, "lesson"), "has" if waiting == 1 else "have"
        words = f"{lessons} of this week {have} no approved requisition."
        found.append(Todo("waiting", "Not counted", words, "#waiting"))
    return tuple(found)
