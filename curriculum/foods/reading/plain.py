"""What somebody typed, made plain for reading, each letter with its place in the text.

For the reader of amounts. Compatible letters become ordinary ones ("½" is "1/2", "㎏" is "kg", wide
figures are figures), spaces become single. A raised or ringed figure stays what it is: "10²" is
never read as 102. What cannot be seen on a page (control signs, turned writing) is named, not
dropped, because what a person sees would then not be what is read.

Worked example: " 1½  cups" is the plain text "1 1/2 cups"; its letter 6, the "c", stands at place 5.
"""

import unicodedata
from dataclasses import dataclass

#: Ways in which a letter may be another one in disguise and still mean it.
_SAME_LETTER = frozenset(("<fraction>", "<wide>", "<narrow>", "<noBreak>", "<font>", "<square>", "<compat>"))
_AS_TYPED = {"⁄": "/", "∕": "/", "−": "-", "‐": "-", "‑": "-", "’": "'", "㏄": "cc"}
#: Signs without width that change nothing that is seen.
_NO_WIDTH = frozenset("\u00ad\u200b\u200c\u200d\u2060\ufeff\ufe0e\ufe0f")


@dataclass(frozen=True, slots=True)
class Plain:
    """A plain text and, for each of its letters, the place it came from; one place more for the end."""

    text: str
    places: tuple[int, ...]

    def place(self, rest: str) -> int:
        """Where the last letters of the text, ``rest``, begin in what was typed."""
        return self.places[len(self.text) - len(rest)]

    def end_before(self, rest: str) -> int:
        """Where what stands before ``rest`` ends in what was typed, without the space between."""
        read = self.text[: len(self.text) - len(rest)].rstrip()
        return self.places[len(read) - 1] + 1 if read else self.places[0]


def plain(typed: str) -> Plain:
    """What was typed with ordinary letters and single spaces, each with its place."""
    pairs: list[tuple[str, int]] = []
    for place, letter in enumerate(typed):
        for each in _letters(letter, pairs[-1][0] if pairs else ""):
            if each != " " or (pairs and pairs[-1][0] != " "):
                pairs.append((each, place))
    while pairs and pairs[-1][0] == " ":
        pairs.pop()
    return Plain("".join(letter for letter, _ in pairs), (*(place for _, place in pairs), len(typed)))


def hidden_sign(typed: str) -> int | None:
    """The place of the first sign that cannot be seen and might hide something; None without one."""
    for place, letter in enumerate(typed):
        kind = unicodedata.category(letter)
        if kind in ("Cc", "Cf", "Cs", "Co") and letter not in _NO_WIDTH and letter not in "\t\n\r":
            return place
    return None


def _letters(letter: str, before: str) -> str:
    if letter in _NO_WIDTH:
        return ""
    if letter.isspace():
        return " "
    if letter in _AS_TYPED:
        return _AS_TYPED[letter]
    kind, _, _ = unicodedata.decomposition(letter).partition(" ")
    if kind not in _SAME_LETTER:
        return letter
    same = unicodedata.normalize("NFKC", letter).replace("⁄", "/")
    if kind == "<compat>" and any(each.isdigit() for each in same):
        return letter
    if kind == "<fraction>":
        return f" {same}" if before.isdigit() else same
    return same.replace("\u3000", " ")
