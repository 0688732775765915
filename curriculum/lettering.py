"""Words for paper: their voices, the font of each character, lines of a given width.

For ``curriculum.paper``, which brings the fonts. Words are a string or a tuple of strings
and ``Ink`` (a string in a voice of its own), so that a name such as "<b>" is printed as it
stands. Each character is set in the first font of its chain that has it; what no font has is
told by ``unprintable`` before anybody prints, and is set as its number ("[U+13000]").

Words that run from right to left are shaped and turned for an English line; their letters
stand in the file in the order in which they are seen.
"""

import re
import unicodedata
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

import arabic_reshaper
from bidi import get_display


@dataclass(frozen=True, slots=True)
class Ink:
    """Some words in a voice: "plain", "strong", "sign" or "tick" (a box); ``ruled`` is underlined."""

    text: str
    voice: str = "plain"
    ruled: bool = False


Words = str | Ink | tuple[str | Ink, ...]
#: What stands on one line, in order.
Line = tuple[tuple[Ink, str], ...]
#: (font, letter) -> has the font that letter?
Has = Callable[[str, str], bool]
#: (words, font, size in points) -> width in points.
Width = Callable[[str, str, float], float]
#: A box to tick, set like a letter.
TICK = Ink("\u2610", "tick")
#: Zero-width letters that part or join their neighbours.
JOINERS = "\u200c\u200d"
#: The space in "155 °C", where a line is never broken, whoever wrote it.
_BEFORE_DEGREES = re.compile(r"(?<=\d) (?=°[CF])")


def strong(text: str) -> Ink:
    """Words in bold."""
    return Ink(text, "strong")


def sign(text: str) -> Ink:
    """Words in the letter of signs and plates."""
    return Ink(text, "sign")


def allergen(text: str) -> Ink:
    """An allergen in words, emphasised: bold with a rule below."""
    return Ink(text, "strong", ruled=True)


def joined(*parts: Words) -> Words:
    """Several words as one."""
    return tuple(each for part in parts for each in (part if isinstance(part, tuple) else (part,)))


def listed(inks: Sequence[Ink]) -> Words:
    """Inks with commas between them."""
    return joined(*(part for ink in inks for part in (", ", ink)))[1:]


@lru_cache(maxsize=20_000)
def letters_of(text: str) -> str:
    """The letters as written, composed; what only steers a screen is left out, any blank is a space.

    A joiner stays after a letter of a script that has no capitals (Persian, Hindi), whose shape it changes.
    """
    composed = _BEFORE_DEGREES.sub("\xa0", unicodedata.normalize("NFC", text))
    return "".join(
        each if each in JOINERS and _is_caseless(before) else _letter(each)
        for before, each in zip(" " + composed, composed, strict=False)
    )


def _is_caseless(letter: str) -> bool:
    return unicodedata.category(letter) in ("Lo", "Mn", "Mc")


def _letter(each: str) -> str:
    kind = unicodedata.category(each)
    if each in "\n\xa0":
        return each
    if kind in ("Zs", "Zl", "Zp") or each == "\t":
        return " "
    return "" if kind in ("Cc", "Cf", "Cs", "Co") else each


class Lettering:
    """The fonts of each voice, best first, and how to ask them; what was set once is remembered."""

    def __init__(self, chains: dict[str, tuple[str, ...]], has: Has, width: Width) -> None:
        self.chains, self.has, self.width = chains, has, width
        self.font_of = lru_cache(maxsize=20_000)(self._font_of)
        self.runs = lru_cache(maxsize=20_000)(self._runs)
        self.width_of = lru_cache(maxsize=50_000)(self._width_of)
        self.lines = lru_cache(maxsize=5_000)(self._lines)

    def _font_of(self, letter: str, voice: str) -> str | None:
        """The first font of the chain that has the letter, or None."""
        if letter in "\n\xa0 " + JOINERS:
            return self.chains[voice][0]
        return next((font for font in self.chains[voice] if self.has(font, letter)), None)

    def unprintable(self, texts: Iterable[str]) -> tuple[str, ...]:
        """Letters that no font has, each once."""
        seen = dict.fromkeys(letter for text in texts for letter in letters_of(text))
        return tuple(letter for letter in seen if self.font_of(letter, "plain") is None)

    def _runs(self, text: str, voice: str) -> tuple[tuple[str, str], ...]:
        """(font, letters) in the order in which they are drawn from left to right."""
        turned = any(unicodedata.bidirectional(letter) in ("R", "AL") for letter in text)
        letters = get_display(arabic_reshaper.reshape(text), base_dir="L") if turned else text
        made: list[tuple[str, str]] = []
        for letter in letters:
            if letter in JOINERS and not (made and self.has(made[-1][0], letter)):
                continue
            font = self.font_of(letter, voice)
            drawn = letter if font else f"[U+{ord(letter):04X}]"
            font = font or self.chains[voice][0]
            if made and (made[-1][0] == font or self._joins(letter, made[-1][0])):
                made[-1] = (made[-1][0], made[-1][1] + drawn)
            else:
                made.append((font, drawn))
        return tuple(made)

    def _joins(self, letter: str, font: str) -> bool:
        """A mark above or below a letter stays in the letter's font where that has it."""
        return (letter in JOINERS or bool(unicodedata.combining(letter))) and self.has(font, letter)

    def _width_of(self, ink: Ink, text: str, size: float) -> float:
        """Points that some words of an ink take."""
        if ink.voice == "tick":
            return size
        return sum(self.width(drawn, font, size) for font, drawn in self.runs(text, ink.voice))

    def _lines(self, words: Words, size: float, width: float) -> tuple[Line, ...]:
        """Words broken into lines of at most that width in points; a longer word is cut."""
        setter = _Setter(self, size, width)
        for atom in _atoms(words):
            setter.put(atom)
        return tuple(merged(line) for line in setter.lines)


class _Setter:
    """Fills lines with what may not be broken, one after another."""

    def __init__(self, lettering: Lettering, size: float, width: float) -> None:
        self.lettering, self.size, self.width = lettering, size, width
        self.lines: list[list[tuple[Ink, str]]] = [[]]
        self.used = 0.0

    def put(self, atom: Line) -> None:
        """One atom: a line end, a space, or words that stay together."""
        wide = sum(self.lettering.width_of(ink, text, self.size) for ink, text in atom)
        if atom[0][1] == "\n":
            self._new_line()
        elif atom[0][1] == " ":
            self._add(atom, wide if self.lines[-1] else 0.0)
        elif self.used + wide <= self.width:
            self._add(atom, wide)
        elif wide <= self.width:
            self._new_line()
            self._add(atom, wide)
        else:
            self._cut(atom)

    def _new_line(self) -> None:
        self.lines.append([])
        self.used = 0.0

    def _add(self, atom: Line, wide: float) -> None:
        if self.lines[-1] or atom[0][1] != " ":
            self.lines[-1] += atom
            self.used += wide

    def _cut(self, atom: Line) -> None:
        if self.lines[-1]:
            self._new_line()
        for ink, text in atom:
            for letter in text:
                wide = self.lettering.width_of(ink, letter, self.size)
                if self.lines[-1] and self.used + wide > self.width:
                    self._new_line()
                self._add(((ink, letter),), wide)


def merged(line: Iterable[tuple[Ink, str]]) -> Line:
    """Neighbours of the same ink as one, so that words of one name are turned together."""
    made: list[tuple[Ink, str]] = []
    for ink, text in line:
        if made and made[-1][0] == ink and ink.voice != "tick":
            made[-1] = (ink, made[-1][1] + text)
        else:
            made.append((ink, text))
    return tuple(made)


def _atoms(words: Words) -> Iterator[Line]:
    """What is never broken, such as "(milk)", with " " and line ends between."""
    atom: list[tuple[Ink, str]] = []
    for part in words if isinstance(words, tuple) else (words,):
        ink = part if isinstance(part, Ink) else Ink(part)
        for chunk in re.findall(r"\n| +|[^ \n]+", letters_of(ink.text)):
            if chunk.strip(" \n"):
                atom.append((ink, chunk))
                continue
            if atom:
                yield tuple(atom)
            yield ((ink, chunk[0]),)
            atom = []
    if atom:
        yield tuple(atom)
