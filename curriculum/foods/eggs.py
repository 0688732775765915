"""Eggs, and every other food that is bought whole and used in parts.

For kits and orders. A recipe speaks of beaten egg, white and yolk by weight; a bench is
given eggs in their shells. One piece gives a beaten egg, or a white *and* a yolk: white
and yolk come out of the same piece, beaten egg takes a piece of its own. A lemon gives
juice and zest in the same way.

So pieces = beaten / beaten per piece + the larger of (white / white per piece) and
(yolk / yolk per piece), and only then up to whole pieces, once for the bench.

Worked example: 240 g beaten (50 g a piece) and 100 g yolk (18 g a piece) are
4.8 + 5.56 = 10.36, so 11 eggs. A meringue of 150 g white (30 g a piece) with a curd of
40 g yolk and 100 g beaten is 2 + the larger of 5 and 2.22 = 7 eggs.

Eggs are pooled in the order, not in a bowl: pooling over benches adds the exact pieces
first and rounds the sum.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from curriculum.foods.rounding import whole_pieces

#: Shell as a share of an egg in its shell: USDA SR28 (2015), refuse of 01123, 12 %.
SHELL_PER_MILLE = 120
#: Least milligrams in the shell for each class: Reg. (EC) 589/2008, article 4. Under 53 g is small.
SIZE_CLASSES: tuple[tuple[str, int], ...] = (
    ("very large", 73_000),
    ("large", 63_000),
    ("medium", 53_000),
    ("small", 0),
)
#: How the code of a part ends that takes the whole inside of a piece.
WHOLE_PARTS = ("_beaten", "_whole")


@dataclass(frozen=True, slots=True)
class PartNeed:
    """So many milligrams of one part, of which one whole piece gives ``milligrams_per_piece``."""

    part: str
    milligrams: Fraction
    milligrams_per_piece: int

    @property
    def pieces(self) -> Fraction:
        """Exact pieces that give this much of this part."""
        return Fraction(self.milligrams) / self.milligrams_per_piece

    @property
    def takes_all(self) -> bool:
        """Whether a piece used for this part gives nothing else."""
        return self.part.endswith(WHOLE_PARTS)


def size_class(in_shell_milligrams: int) -> str:
    """The class of an egg of that weight in its shell: 72.5 g is large, 73 g very large."""
    for name, least in SIZE_CLASSES:
        if in_shell_milligrams >= least:
            return name
    raise ValueError("An egg weighs more than nothing.")


def in_shell(edible_milligrams: Fraction | int) -> Fraction:
    """Milligrams in the shell of an egg whose inside weighs ``edible_milligrams``."""
    return Fraction(edible_milligrams) * 1000 / (1000 - SHELL_PER_MILLE)


def exact_pieces(needs: Iterable[PartNeed]) -> Fraction:
    """Exact whole pieces that give all the parts: parts of the same piece are had together."""
    own, shared = _by_part(needs)
    return sum(own.values(), Fraction(0)) + max(shared.values(), default=Fraction(0))


def pieces_needed(needs: Iterable[PartNeed]) -> int:
    """Whole pieces to hand out for all the parts of one bench, or of one order."""
    return whole_pieces(exact_pieces(needs))


def left_over(needs: Iterable[PartNeed], gives: dict[str, int]) -> dict[str, Fraction]:
    """Milligrams left of each separated part, when each broken piece gives ``gives`` of it.

    Only pieces that are separated leave something: whole pieces are broken for the larger
    part, the smaller is what remains.
    """
    needs = tuple(needs)
    _, shared = _by_part(needs)
    broken = whole_pieces(max(shared.values(), default=Fraction(0)))
    used: dict[str, Fraction] = defaultdict(Fraction)
    for need in needs:
        used[need.part] += Fraction(need.milligrams)
    return {part: broken * Fraction(each) - used[part] for part, each in gives.items()}


def _by_part(needs: Iterable[PartNeed]) -> tuple[dict[str, Fraction], dict[str, Fraction]]:
    own: dict[str, Fraction] = defaultdict(Fraction)
    shared: dict[str, Fraction] = defaultdict(Fraction)
    for need in needs:
        (own if need.takes_all else shared)[need.part] += need.pieces
    return own, shared
