"""The papers of a lesson in words: what each says now, what was printed, what is void and why.

Plain data in, words out; times arrive as the college's own.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from kitchen.lessons.papers.force import Issue, Printed, again, to_throw_away, voids
from kitchen.lessons.papers.words import of_words, part_words, short, why_words


@dataclass(frozen=True, slots=True)
class Copy:
    """One print of a paper: when and by whom, which parts are void and why; nothing void is in force."""

    code: str
    words: str
    void: str
    why: str
    whole: bool


@dataclass(frozen=True, slots=True)
class PaperRow:
    """One paper: of what it is now, its prints (the latest first), which parts must be printed again."""

    paper: str
    name: str
    of: str
    copies: tuple[Copy, ...]
    again: str
    url: str = ""

    @property
    def state(self) -> str:
        """One word: "void", "printed", "unprinted" or "none" (there is no such paper now)."""
        if self.again:
            return "void"
        if not self.of and not self.url:
            return "none"
        return "printed" if self.copies else "unprinted"


@dataclass(frozen=True, slots=True)
class Made:
    """A print as the page needs it: who made it and its code, beside what stood on it."""

    printed: Printed
    code: str
    by: str
    of_at: datetime | None


def paper_row(
    paper: str, name: str, made: Sequence[Made], now: Issue | None, at: datetime | None, url: str
) -> PaperRow:
    """One paper with its prints; ``at`` is the time of the set or plan that it is of now."""
    parts = again([each.printed for each in made], now) if now is not None else ()
    return PaperRow(
        paper=paper,
        name=name,
        of=of_words(paper, now.number, at) if now is not None else "",
        copies=tuple(copy_of(each, now, at) for each in reversed(made)),
        again=(part_words(paper, parts) or "the whole sheet") if parts else "",
        url=url if now is not None else "",
    )


def copy_of(made: Made, now: Issue | None, at: datetime | None) -> Copy:
    """One print in words."""
    printed, found = made.printed, voids(made.printed, now)
    parts = part_words(printed.paper, tuple(printed.parts))
    of = of_words(printed.paper, printed.number, made.of_at)
    words = ", ".join(each for each in (of, parts) if each)
    when = f"printed {short(printed.at)} by {made.by}"
    since = f" since {short(at)}" if at is not None and now is not None and at > printed.at else ""
    void = part_words(printed.paper, [each.part for each in found]) or "the whole sheet"
    return Copy(
        code=made.code,
        words=f"{words}, {when}" if words else when,
        void=f"{void}{since}" if found else "",
        why=why_words(found),
        whole=len(found) == len(printed.parts),
    )


def thrown_away(
    names: Mapping[str, str], made: Iterable[Made], now: Mapping[str, Issue]
) -> tuple[tuple[str, str], ...]:
    """What must be thrown away, as (what, why): ("kit labels, set 2 of 12 Feb 08:31, kits 3 and 5", …)."""
    by_paper: dict[str, list[Made]] = {}
    for each in made:
        by_paper.setdefault(each.printed.paper, []).append(each)
    rows = []
    for paper, mine in by_paper.items():
        times = {each.printed.key: each for each in mine}
        for printed, found in to_throw_away([each.printed for each in mine], now.get(paper)):
            of = of_words(paper, printed.number, times[printed.key].of_at)
            parts = part_words(paper, [each.part for each in found])
            copy = f"print {times[printed.key].code} of {short(printed.at)}"
            what = ", ".join(each for each in (names[paper], of, parts, copy) if each)
            rows.append((what, why_words(found)))
    return tuple(rows)
