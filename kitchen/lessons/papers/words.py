"""The words of prints: which paper of which set, which parts, why they are void."""

from collections.abc import Iterable, Sequence
from datetime import datetime

from curriculum import wording
from kitchen.lessons.papers.force import WHOLE, Void

#: What a paper is of, and what one of its parts is called ("bench 3").
OF = {
    "labels": ("set", "kit"),
    "issue_sheet": ("set", ""),
    "requisition": ("number", ""),
    "recipes": ("", "bench"),
    "lecturer": ("plan", ""),
    "strips": ("plan", "bench"),
    "wall": ("plan", ""),
}


def of_words(paper: str, number: int, at: datetime | None) -> str:
    """ "set 2 of 12 Feb 08:31"; empty for a paper that has no number. ``at`` is local time."""
    of, _ = OF[paper]
    if not of or not number:
        return ""
    when = f" of {short(at)}" if at else ""
    return f"{of} {number}{when}"


def short(at: datetime) -> str:
    """ "12 Feb 08:31"."""
    return f"{wording.short_date(at.date(), at.date())} {wording.clock(at.time())}"


def part_words(paper: str, parts: Sequence[str]) -> str:
    """ "benches 3 and 5", "kits 3, 5 and S"; empty for a sheet that has no parts."""
    _, name = OF[paper]
    named = [part for part in parts if part != WHOLE]
    if not named or not name:
        return ""
    many = {"bench": "benches"}.get(name, f"{name}s")
    return f"{name if len(named) == 1 else many} {wording.listed(_spans(named))}"


def _spans(named: Sequence[str]) -> list[str]:
    """Three numbers and more in a row as "1 to 7"; the rest as they are."""
    spans: list[list[str]] = []
    for part in named:
        follows = spans and part.isdigit() and spans[-1][-1].isdigit() and int(part) == int(spans[-1][-1]) + 1
        if follows:
            spans[-1].append(part)
        else:
            spans.append([part])
    return [word for span in spans for word in ([f"{span[0]} to {span[-1]}"] if len(span) > 2 else span)]


def begun(words: str) -> str:
    """With a capital first, and the rest as it is: "Set 2 of 12 Feb 08:31"."""
    return words[:1].upper() + words[1:]


def why_words(voids: Iterable[Void]) -> str:
    """ "Changed since: weights and names; some are no more." """
    listed = list(voids)
    facets = tuple(dict.fromkeys(name for each in listed for name in each.facets))
    said = [f"changed since: {wording.listed(facets)}"] if facets else []
    if any(each.gone for each in listed):
        said.append("it is no more" if not facets else "some are no more")
    return wording.sentence("; ".join(said))
