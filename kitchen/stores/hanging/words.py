"""What hangs on a lesson that is cancelled or moved to another day, in words, with what to do.

For the page that asks before a lesson is cancelled, the lesson's own pages and the stores' list.
Nothing is put back, taken off or thrown away by itself: the book says where each thing is until a
person has done it. Plain data in, words out.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date

from curriculum import wording


@dataclass(frozen=True, slots=True)
class Ordered:
    """A line of an order drafted or sent that holds food of the lesson: "3 packs of 1,500 g flour"."""

    order: str
    supplier: str
    on: date
    sent: bool
    packs: str


@dataclass(frozen=True, slots=True)
class Bowl:
    """A lot made for the lesson of which something is left: "beaten egg, 800 g", until when it keeps."""

    lot: str
    words: str
    until: str


@dataclass(frozen=True, slots=True)
class Facts:
    """What the stores hold for a lesson.

    ``asked_for`` is the day for which its requisition was submitted; ``waiting`` is the number of one
    that the stores have not approved, beside one that is or alone. ``kit_set`` is the number of
    the kits that stand, 0 for none; ``lines_weighed`` of them are on trays; ``kits_out`` have left
    and are not all back. ``things_out`` of small equipment are counted out and not back; the knives
    and peelers among them are named in ``knives_out``: ("2 chef knives",).
    """

    on: date
    requisition: int = 0
    approved: bool = False
    waiting: int = 0
    asked_for: date | None = None
    kit_set: int = 0
    lines_weighed: int = 0
    kits_out: int = 0
    orders: tuple[Ordered, ...] = ()
    bowls: tuple[Bowl, ...] = ()
    prints: int = 0
    things_out: int = 0
    knives_out: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Hanging:
    """One thing that hangs on the lesson: what, what to do, and the url name of the page where it is done."""

    what: str
    do: str
    page: str = ""
    key: str = field(default="", compare=False)


def if_cancelled(facts: Facts) -> tuple[Hanging, ...]:
    """What hangs on a lesson that nobody cooks in."""
    return tuple(_if_cancelled(facts))


def if_moved(facts: Facts) -> tuple[Hanging, ...]:
    """What hangs on a lesson that is on another day than its requisition was submitted for."""
    if facts.asked_for is None or facts.asked_for == facts.on:
        return ()
    return tuple(_if_moved(facts, facts.asked_for))


def _if_cancelled(facts: Facts) -> Iterator[Hanging]:
    if facts.waiting:
        yield Hanging(
            f"Requisition number {facts.waiting} is submitted and not approved.",
            "Nobody has to decide about it any more, and nothing of it is bought.",
        )
    if facts.approved:
        yield Hanging(
            f"Requisition number {facts.requisition} is approved.",
            "No week counts it any more. What is ordered already stays ordered.",
        )
    for each in facts.orders:
        yield Hanging(_ordered(each), _take_off(each), "stores:order", each.order)
    yield from _kits(facts)
    yield from _things(facts)
    for bowl in facts.bowls:
        yield Hanging(
            f"Lot {bowl.lot} was made for this lesson: {bowl.words}, to be used by {bowl.until}.",
            "It serves no other lesson. Throw it away, and write it off as waste.",
            "stores:lot",
            bowl.lot,
        )
    if facts.prints:
        prints = wording.counted_words(facts.prints, "paper")
        yield Hanging(
            wording.sentence(f"{prints} of it {'was' if facts.prints == 1 else 'were'} printed"),
            "All are void: throw them away.",
        )


def _kits(facts: Facts) -> Iterator[Hanging]:
    if facts.kits_out:
        kits = wording.counted_words(facts.kits_out, "kit")
        has = "has" if facts.kits_out == 1 else "have"
        yield Hanging(
            wording.sentence(f"{kits} of set {facts.kit_set} {has} left the stores"),
            "They must come back. Enter what came back: what is sealed and was kept cold goes back to its "
            "lots, the rest is waste. Until then the book says that it is out.",
            "stores:back",
        )
    elif facts.lines_weighed:
        lines = wording.counted_words(facts.lines_weighed, "line")
        one = facts.lines_weighed == 1
        yield Hanging(
            wording.sentence(f"{lines} of set {facts.kit_set} {'is' if one else 'are'} weighed out on trays"),
            "Nothing has left its lot in the book. Empty the trays: what is clean and was kept cold goes "
            "back to the pack it came from, what is not is written off as waste.",
            "stores:kits",
        )
    elif facts.kit_set:
        yield Hanging(
            f"Kits of set {facts.kit_set} are made, and nothing is weighed.",
            "Nothing is to be put back; nothing of them leaves the stores.",
        )


def _things(facts: Facts) -> Iterator[Hanging]:
    if facts.things_out:
        one = facts.things_out == 1
        things = wording.counted_words(facts.things_out, "thing")
        yield Hanging(
            wording.sentence(f"{things} of its small equipment {'is' if one else 'are'} counted out"),
            f"{_knives_first(facts.knives_out)}Count them in; what does not come back stays open until "
            "somebody finds it.",
            "stores:lesson_equipment",
        )


def _knives_first(knives: tuple[str, ...]) -> str:
    """The knives by name, before anything else that is to be done; empty where none is out."""
    return f"Find first what cuts: {wording.listed(knives)}. " if knives else ""


def _ordered(each: Ordered) -> str:
    state = "was sent" if each.sent else "is to be sent"
    return (
        f"Order {each.order} to {each.supplier} for {wording.long_date(each.on, each.on)} {state} "
        f"and holds {each.packs}."
    )


def _take_off(each: Ordered) -> str:
    if each.sent:
        return "Agree with the supplier that less comes, or find the lesson that uses it."
    return "Other lessons may need it too: look at the week, then take off by hand what nobody needs."


def _if_moved(facts: Facts, asked_for: date) -> Iterator[Hanging]:
    was, now = (wording.long_date(day, day) for day in (asked_for, facts.on))
    yield Hanging(
        f"Requisition number {facts.requisition} was submitted for {was}; the lesson is on {now}.",
        "The lecturer submits it anew: which stock still keeps and who delivers in time are other questions "
        "on another day.",
        "stores:requisition",
    )
    for each in facts.orders:
        if each.on > facts.on:
            yield Hanging(
                _ordered(each), "It comes after the lesson: agree another day.", "stores:order", each.order
            )
    if facts.kits_out:
        yield Hanging(
            wording.sentence(f"{wording.counted_words(facts.kits_out, 'kit')} left the stores for {was}"),
            "They must come back, or stand chilled as the college's own rules allow; enter what came back, "
            "then the kits are made and issued again.",
            "stores:back",
        )
    elif facts.lines_weighed:
        yield Hanging(
            f"Kits of set {facts.kit_set} are weighed for {was}.",
            "Look at the dates and at what has stood open, then make the kits again.",
            "stores:kits",
        )
    yield from _things(facts)
    for bowl in facts.bowls:
        yield Hanging(
            f"Lot {bowl.lot} was made for {was}: {bowl.words}, to be used by {bowl.until}.",
            "Throw away what does not keep until the lesson.",
            "stores:lot",
            bowl.lot,
        )
