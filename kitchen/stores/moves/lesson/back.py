"""What comes back of a lesson: shared out over the issues it came from.

Plain data in, plain data out; whole milligrams. A row of the page is one lot; it went to
several kit lines, and what comes back is written against those lines, the kits that were to
spare or shown first and the benches last, so that no line gets more than it took.

Worked example: 200 g came to the spare kit and 300 g to bench 1, and 350 g came back: 200 g are
the spare kit's and 150 g the bench's.
"""

from collections.abc import Iterable
from dataclasses import dataclass

#: Whose food comes back first: what nobody cooked, then what was shown, then the benches.
FIRST_BACK = ("spare", "supplementary", "stage_tray", "demonstration", "ahead", "bench")

#: What becomes of opened food beside the reasons of waste.
REWORK = "rework"


@dataclass(frozen=True, slots=True)
class Out:
    """What one kit line still has out of one lot (keys), with the kind of its kit."""

    lot: int
    kit_line: int
    kind: str
    milligrams: int


@dataclass(frozen=True, slots=True)
class CameBack:
    """What came back of one lot (its key): sealed and cold, opened, and what becomes of the opened.

    ``opened_to`` is ``REWORK`` or the words of a reason of waste, ``opened_code`` its code.
    ValueError for nonsense.
    """

    lot: int
    sealed_milligrams: int = 0
    opened_milligrams: int = 0
    opened_to: str = ""
    opened_code: str | None = None

    def __post_init__(self) -> None:
        if min(self.sealed_milligrams, self.opened_milligrams) < 0 or not self.milligrams:
            raise ValueError("Something comes back, and nothing less.")
        if self.opened_milligrams and not self.opened_to:
            raise ValueError("What was opened becomes something.")

    @property
    def milligrams(self) -> int:
        """Everything that came back of the lot."""
        return self.sealed_milligrams + self.opened_milligrams


def shared_out(milligrams: int, outs: Iterable[Out]) -> list[tuple[int, int]]:
    """So much over the lines it is out with: pairs of kit line and milligrams, in the order they give.

    ValueError when more comes back than is out.
    """
    shares = []
    for out in sorted(outs, key=lambda each: (FIRST_BACK.index(each.kind), each.kit_line)):
        take = min(milligrams, out.milligrams)
        if take:
            shares.append((out.kit_line, take))
            milligrams -= take
    if milligrams:
        raise ValueError("More comes back than is out.")
    return shares


def less(outs: Iterable[Out], shares: Iterable[tuple[int, int]]) -> list[Out]:
    """What is still out after these shares came back."""
    taken = dict(shares)
    left = (
        Out(each.lot, each.kit_line, each.kind, each.milligrams - taken.get(each.kit_line, 0))
        for each in outs
    )
    return [each for each in left if each.milligrams]
