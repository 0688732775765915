"""Feedback as it is kept: the draft a lecturer writes on, and what was handed back, frozen.

Both are JSON of shape 1, each with one reader. A draft holds only the words that the
lecturer changed, by place and by the mark they were written for; when a mark changes, its
words are drafted anew.
"""

from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, replace

from assessments.feedback.advice import Advice
from assessments.schemes.points import Outcome

#: The shape that is written today.
SHAPE = 1


class UnreadableFeedback(ValueError):
    """The kept feedback has a shape that nobody can read."""


@dataclass(frozen=True, slots=True)
class Words:
    """A lecturer's words about one mark, with the mark they were written for."""

    place: str
    milli: int
    seen: str = ""
    why: str = ""
    do: str = ""


@dataclass(frozen=True, slots=True)
class DraftData:
    """What a lecturer has written so far about one sitting."""

    words: tuple[Words, ...] = ()
    next_time: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class LineGiven:
    """One line of the arithmetic as it was shown."""

    words: str
    figure: str
    kind: str


@dataclass(frozen=True, slots=True)
class HandedBackData:
    """Everything a learner was given, in words; nothing of it is looked up again.

    ``total`` is empty where a scheme has no points. ``practise`` comes weakest first.
    """

    title: str
    dish: str
    cooked_on: str
    learner: str
    scheme: str
    total: str
    most: str
    band: str
    next_time: str
    note: str
    practise: tuple[Advice, ...]
    well: tuple[Advice, ...]
    lines: tuple[LineGiven, ...]
    remarks: tuple[str, ...]
    marker: str
    beside: tuple[str, ...]


def read_draft(kept: Mapping | None) -> DraftData:
    """The draft that kept JSON holds; an empty one for nothing kept. UnreadableFeedback otherwise."""
    if not kept:
        return DraftData()
    _demand_shape(kept)
    return DraftData(
        tuple(Words(**each) for each in kept.get("words", ())),
        kept.get("next_time", ""),
        kept.get("note", ""),
    )


def write_draft(draft: DraftData) -> dict:
    """A draft as plain JSON values."""
    return {"shape": SHAPE, **_plain(asdict(draft))}


def merged(drafted: Iterable[Advice], draft: DraftData) -> tuple[Advice, ...]:
    """The drafted advice with the lecturer's words where they still belong to the same mark."""
    kept = {(words.place, words.milli): words for words in draft.words}
    made = []
    for advice in drafted:
        words = kept.get((advice.place, advice.milli))
        made.append(replace(advice, seen=words.seen, why=words.why, do=words.do) if words else advice)
    return tuple(made)


def lines_given(outcome: Outcome) -> tuple[LineGiven, ...]:
    """The arithmetic of an outcome as words and figures."""
    return tuple(LineGiven(line.words, line.figure, line.kind) for line in outcome.lines)


def write_handed_back(data: HandedBackData) -> dict:
    """What was handed back as plain JSON values."""
    return {"shape": SHAPE, **_plain(asdict(data))}


def read_handed_back(kept: Mapping) -> HandedBackData:
    """What kept JSON holds. UnreadableFeedback for another shape or an unknown field."""
    _demand_shape(kept)
    values = {name: value for name, value in kept.items() if name != "shape"}
    try:
        for name in ("practise", "well"):
            values[name] = tuple(Advice(**each) for each in values[name])
        values["lines"] = tuple(LineGiven(**each) for each in values["lines"])
        for name in ("remarks", "beside"):
            values[name] = tuple(values[name])
        return HandedBackData(**values)
    except (KeyError, TypeError) as error:
        raise UnreadableFeedback(f"The feedback cannot be read: {error}.") from error


def _demand_shape(kept: Mapping) -> None:
    if kept.get("shape") != SHAPE:
        raise UnreadableFeedback(f"Feedback of shape {kept.get('shape')!r} cannot be read.")


def _plain(values: dict) -> dict:
    """Tuples as lists, as JSON gives them back."""
    return {name: list(value) if isinstance(value, tuple) else value for name, value in values.items()}
