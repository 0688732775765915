"""Who waits for whom with a version that is being written, in one or two sentences.

For the list of what is being written, the page of a version and the first pages.
"""

from dataclasses import dataclass
from datetime import date

from curriculum.wording import sentence, short_date


@dataclass(frozen=True, slots=True)
class LastWord:
    """The last thing that became of a version: what (a code), by whom, when, with which words."""

    what: str
    by: str
    on: date
    words: str


def waits(state: str, writer: str, checker: str, sent: date | None, last: LastWord | None) -> str:
    """The sentences; ``checker`` may be empty, ``sent`` is the day on which a draft was sent."""
    if state == "checked":
        return f"{checker} has checked it. It waits for somebody other than {writer} to approve it."
    if state != "draft":
        return ""
    if sent is not None:
        noted = f" “{last.words}”" if last is not None and last.what == "sent" and last.words else ""
        return f"Sent {short_date(sent)}.{noted} It waits for somebody other than {writer} to check it."
    if last is not None and last.what == "sent_back":
        return f"{last.by} sent it back {short_date(last.on)}: {quoted(last.words)} It waits for {writer}."
    return f"It waits for {writer}, who is writing it."


def quoted(words: str) -> str:
    """Somebody's words as a sentence within quotation marks."""
    return f"“{sentence(words)}”"
