"""A count of the stores against the book: what differs, and when a reason is asked.

Plain data in, plain data out; whole milligrams. The book is opening + received - issued +
returned - wasted, and stands on the lot; the count is what lies there. What stands weighed on
trays and has not left is still in the book, so it is added to what lies there.

Worked example: the book has 5,000 g, 4,850 g lie there: 150 g less, 3 % of the book, so a
reason is asked. 4,950 g would be 1 %: written without one.

Source of the threshold: our own figure, no source; a scale of the stores and what sticks to a
bag explain about as much.
"""

from dataclasses import dataclass
from fractions import Fraction

from curriculum import wording

#: A difference above this share of the book asks for a reason.
ASKED_ABOVE = Fraction(2, 100)


@dataclass(frozen=True, slots=True)
class Counted:
    """One lot as it was counted: its code, what lies there, and how many movements the page had seen.

    ``weighed_milligrams`` is what the page said stands weighed on trays out of it. ``reason`` is the
    words why it differs, empty when nobody said, with their code in the list.
    ValueError below nothing.
    """

    lot: str
    milligrams: int
    moves: int
    reason: str = ""
    reason_code: str | None = None
    weighed_milligrams: int = 0

    def __post_init__(self) -> None:
        if self.milligrams < 0:
            raise ValueError("Less than nothing cannot lie there.")


@dataclass(frozen=True, slots=True)
class Difference:
    """What is there less what the book says, in milligrams, with the words for both.

    ``counted_milligrams`` is what lies there and what of it stands weighed on trays.
    """

    book_milligrams: int
    counted_milligrams: int
    unit_milligrams: int = 0
    weighed_milligrams: int = 0

    @property
    def milligrams(self) -> int:
        """More (+) or less (-) than the book."""
        return self.counted_milligrams - self.book_milligrams

    @property
    def asks_why(self) -> bool:
        """Whether a reason is asked: more than a fiftieth of the book, or anything in an empty lot."""
        return abs(self.milligrams) > ASKED_ABOVE * self.book_milligrams

    @property
    def words(self) -> str:
        """ "150 g less", "2 pieces more", "as in the book"."""
        if not self.milligrams:
            return "as in the book"
        how = "more" if self.milligrams > 0 else "less"
        return f"{amount_words(abs(self.milligrams), self.unit_milligrams)} {how}"

    @property
    def why_words(self) -> str:
        """What stands at the field of the reason: figures, then what to do."""
        book = amount_words(self.book_milligrams, self.unit_milligrams)
        there = amount_words(self.counted_milligrams, self.unit_milligrams)
        share = f", more than {wording.per_cent(ASKED_ABOVE)} of the book" if self.book_milligrams else ""
        trays = self.weighed_milligrams
        trays = f", {amount_words(trays, self.unit_milligrams)} of it on trays" if trays else ""
        return f"{book} in the book, {there} counted{trays}: {self.words}{share}. Count again, or say why."


def amount_words(milligrams: int, unit_milligrams: int = 0) -> str:
    """As it lies there: "6 pieces" for what is counted (``unit_milligrams`` of one), else "150 g"."""
    whole = unit_milligrams and milligrams % unit_milligrams == 0
    return wording.counted(milligrams // unit_milligrams, "piece") if whole else wording.amount(milligrams)
