"""The lines of a mark's arithmetic, and what the steps write on while they reckon."""

from dataclasses import dataclass, field
from fractions import Fraction

from assessments.schemes.content import CriterionContent
from assessments.schemes.figures import points


@dataclass(frozen=True, slots=True)
class SumLine:
    """One line of the arithmetic: words and a figure, thousandths of a point behind it.

    ``kind``: criterion, part (of the criterion above), rule, sum, total, met, notyet, again.
    ``of_milli`` is the most this line can earn, None where that means nothing.
    """

    code: str
    words: str
    figure: str
    kind: str = "criterion"
    milli: Fraction | None = None
    of_milli: int | None = None


@dataclass(slots=True)
class Working:
    """What is known so far while a card is reckoned; one for each reckoning, thrown away after."""

    earned: dict[str, Fraction] = field(default_factory=dict)
    lines: list[SumLine] = field(default_factory=list)
    missing: list[str] = field(default_factory=list)
    again: list[str] = field(default_factory=list)
    waiting: set[str] = field(default_factory=set)
    remarks: list[str] = field(default_factory=list)
    available: int = 0
    total: Fraction | None = None
    before_cap: int | None = None
    band: str | None = None
    gated: bool = False
    stopped: bool = False
    all_met: bool = True

    def earn(
        self, criterion: CriterionContent, words: str, milli: Fraction, of_milli: int | None = None
    ) -> None:
        """Note what a criterion earned, with its line."""
        most = (criterion.milli_points or 0) if of_milli is None else of_milli
        self.earned[criterion.code] = milli
        self.available += most
        self.lines.append(earned_line(criterion.code, words, milli, most, "criterion"))


def earned_line(code: str, words: str, milli: Fraction, of_milli: int, kind: str) -> SumLine:
    """A line "so many of so many points"."""
    return SumLine(code, words, f"{points(milli)} of {points(of_milli)}", kind, milli, of_milli)


def sentence(remark: str) -> str:
    """A remark of a scheme as the beginning of a line."""
    return remark[:1].upper() + remark[1:]
