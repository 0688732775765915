"""Feedback as its pages and its paper show it."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from assessments.feedback.advice import Advice, lacks
from assessments.feedback.content import HandedBackData, LineGiven
from assessments.marking.shown import outcome_words
from assessments.marking.sittings import SittingData, differences
from curriculum.wording import listed, long_date


@dataclass(frozen=True, slots=True)
class AdviceShown:
    """One piece of advice: the mark as figure and "of", and the lines under its name."""

    figure: str
    of: str
    name: str
    lines: tuple[tuple[str, str], ...]
    moves: str
    again: str


@dataclass(frozen=True, slots=True)
class HandedBackShown:
    """What a learner reads."""

    title: str
    dish: str
    learner: str
    cooked: str
    scheme: str
    total: str
    most: str
    band: str
    next_time: str
    note: str
    practise: tuple[AdviceShown, ...]
    well: tuple[AdviceShown, ...]
    lines: tuple[LineGiven, ...]
    marked: str


@dataclass(frozen=True, slots=True)
class FeedbackLine:
    """One learner on the page of a lesson's feedback."""

    row: Any
    result: str
    state: str
    words: str
    ready: bool
    given_at: Any


def handed_back_shown(data: HandedBackData) -> HandedBackShown:
    """Frozen feedback in the order in which it is read."""
    beside = f", and by {listed(data.beside)}" if data.beside else ""
    return HandedBackShown(
        title=data.title,
        dish=data.dish,
        learner=data.learner,
        cooked=long_date(date.fromisoformat(data.cooked_on)),
        scheme=data.scheme,
        total=data.total,
        most=data.most,
        band=data.band,
        next_time=data.next_time,
        note=data.note,
        practise=tuple(advice_shown(each) for each in data.practise),
        well=tuple(advice_shown(each) for each in data.well),
        lines=data.lines,
        marked=f"Marked by {data.marker}{beside}, by the scheme “{data.scheme}”.",
    )


def advice_shown(advice: Advice) -> AdviceShown:
    """One mark with what was seen, why, what to do and what to wait for; empty lines are left out."""
    figure, _, of = advice.given.partition(" of ")
    lines = (
        ("Seen", advice.seen),
        ("Why", advice.why),
        ("Do", advice.do),
        ("Wait for", advice.cue if advice.kind == "practise" else ""),
    )
    return AdviceShown(
        figure=figure if of else advice.given,
        of=of,
        name=advice.name,
        lines=tuple(line for line in lines if line[1]),
        moves=advice.moves,
        again=advice.again,
    )


def wanting(advice: Iterable[Advice]) -> list[str]:
    """What the draft still lacks before it can be handed back."""
    return [words for each in advice for words in lacks(each)]


def feedback_line(row: Any, given: Any, draft: Any) -> FeedbackLine:
    """How far one learner's feedback has come. ``row`` holds the sitting and its data."""
    data: SittingData = row.data
    state, words, ready = _state(data, given, draft)
    result = outcome_words(data.record(), data) if data.all_in else ""
    return FeedbackLine(row, result, state, words, ready, given.at if given else None)


def _state(data: SittingData, given: Any, draft: Any) -> tuple[str, str, bool]:
    if given:
        return "done", "handed back", False
    if not data.all_in:
        return "waiting", "sheets are not all in", False
    if differences(data):
        return "swap", "a mark is to be agreed", False
    return ("doing", "draft kept", True) if draft else ("todo", "drafted from the marks", True)
