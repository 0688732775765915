"""The reasons that a college chooses from: those that are shipped, its own words, and what it retired.

Plain data in, plain data out. A movement keeps code and words; a code is looked for in its own list, and
a reason that was retired is still read, never chosen again.

Worked example: "Burnt or over-baked" is shipped and retired by the college, "Left in the proofer" is its
own: the form offers all shipped reasons but the burnt one, then the proofer, "Something else" last.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from kitchen.stores.moves import reasons

#: The lists by their code, as they are shipped.
SHIPPED: dict[str, tuple[tuple[str, str], ...]] = {
    "waste": reasons.WASTE,
    "difference": reasons.DIFFERENCE,
    "found": reasons.FOUND,
    "more": reasons.MORE,
    "returned": reasons.RETURNED,
}
#: What each list is called on its page.
TITLES = {
    "waste": "Why food is thrown away",
    "difference": "Why a count differs from the book",
    "found": "How food comes to lie there that the book lacks",
    "more": "Why a bench gets more during the lesson",
    "returned": "Why food comes back",
}


@dataclass(frozen=True, slots=True)
class Kept:
    """What the college wrote: own words, or (with a shipped code) that a shipped reason is retired."""

    code: str
    words: str
    retired: bool


@dataclass(frozen=True, slots=True)
class Listed:
    """One reason of a list as it stands now; ``own`` words of the college."""

    code: str
    words: str
    own: bool = False
    retired: bool = False

    @property
    def stays(self) -> bool:
        """Whether nobody may retire it: without "something else" a form could force a wrong reason."""
        return self.code == reasons.OTHER


def listed(which: str, kept: Iterable[Kept]) -> tuple[Listed, ...]:
    """The whole list in order: shipped, own, "something else" last; retired ones among them."""
    rows = {each.code: each for each in kept}
    shipped = [
        Listed(code, words, retired=code in rows and rows[code].retired) for code, words in SHIPPED[which]
    ]
    known = {each.code for each in shipped}
    own = [
        Listed(each.code, each.words, True, each.retired) for each in rows.values() if each.code not in known
    ]
    return tuple(sorted([*shipped, *own], key=lambda each: each.stays))


def offered(rows: Iterable[Listed]) -> tuple[tuple[str, str], ...]:
    """Code and words of what a form offers."""
    return tuple((each.code, each.words) for each in rows if not each.retired)


def same_words(rows: Iterable[Listed], words: str) -> Listed | None:
    """The reason that says the same already, capitals and spaces aside."""
    wanted = " ".join(words.casefold().split())
    return next((each for each in rows if " ".join(each.words.casefold().split()) == wanted), None)
