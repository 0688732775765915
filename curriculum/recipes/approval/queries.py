"""Versions that wait for somebody, and what became of each."""

from django.utils.timezone import localdate

from curriculum.people.models import User
from curriculum.recipes.approval.waiting import LastWord, waits
from curriculum.recipes.models import Said, Version
from curriculum.recipes.queries import in_writing


def history_of(version: Version) -> list[Said]:
    """What became of a version, newest first, with who did it. One query."""
    return list(version.said.select_related("by").order_by("-pk"))


def waiting_words(version: Version) -> str:
    """Who waits for whom with this version, in words; no query when its ``said`` was prefetched."""
    said = list(version.said.all())
    last = said[-1] if said else None
    return waits(
        version.state,
        version.written_by.name,
        version.checked_by.name if version.checked_by is not None else "",
        localdate(version.sent_at) if version.sent_at is not None else None,
        LastWord(last.what, last.by.name, localdate(last.at), last.words) if last is not None else None,
    )


def stands(version: Version) -> tuple[str, str]:
    """(shape, words) of a version that is being written; no query when its ``said`` was prefetched."""
    if version.state == Version.State.CHECKED:
        return "doing", "checked, to be approved"
    if version.sent_at is not None:
        return "waiting", "sent, to be checked"
    return ("swap", "sent back") if _was_sent_back(version) else ("todo", "draft")


def to_look_at(user: User) -> list[Version]:
    """Versions sent or checked that somebody else than their writer looks at, where this person may.

    Longest waiting first. Two queries.
    """
    waiting = in_writing().exclude(written_by=user).exclude(state=Version.State.DRAFT, sent_at=None)
    return list(waiting.defer("sheet").order_by("sent_at", "pk"))


def sent_back_to(user: User) -> list[Version]:
    """Drafts that this person wrote last and that were sent back since. Two queries."""
    drafts = in_writing().filter(written_by=user, state=Version.State.DRAFT, sent_at=None).defer("sheet")
    return [each for each in drafts if _was_sent_back(each)]


def _was_sent_back(version: Version) -> bool:
    said = list(version.said.all())
    return bool(said) and said[-1].what == Said.What.SENT_BACK
