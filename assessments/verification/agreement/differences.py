"""How far two markers of the same plates lie apart: the mean of the differences and their limits.

Formulas: J. M. Bland and D. G. Altman, Lancet 1986;327:307-310.

Worked example: marks 6, 7, 5 and 8 by one, 5, 7, 4 and 7 by the other. The first gives 0.75 more
on average; the differences 1, 0, 1, 1 have a standard deviation of 0.5, so nineteen of twenty
differences are looked for between -0.23 and 1.73.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean, stdev

#: Standard deviations each side that hold 95 of 100 of a normal distribution.
NINETEEN_OF_TWENTY = 1.96


@dataclass(frozen=True, slots=True)
class Differences:
    """Of pairs of marks, first less second, in the unit of the marks.

    ``spread`` is the standard deviation (n - 1); it and the limits are None with one pair. ``same``
    and ``within_a_step`` count pairs.
    """

    pairs: int
    mean: float
    spread: float | None
    lower: float | None
    upper: float | None
    same: int
    within_a_step: int

    @property
    def per_cent_within(self) -> int:
        """Pairs at most one step apart, in whole per cent."""
        return round(100 * self.within_a_step / self.pairs)


def differences(pairs: Sequence[tuple[float, float]], step: float = 1) -> Differences:
    """The differences of pairs. ValueError for none: then there is nothing to say."""
    if not pairs:
        raise ValueError("No plate was marked by both.")
    apart = [first - second for first, second in pairs]
    mean, spread = fmean(apart), stdev(apart) if len(apart) > 1 else None
    return Differences(
        pairs=len(apart),
        mean=mean,
        spread=spread,
        lower=None if spread is None else mean - NINETEEN_OF_TWENTY * spread,
        upper=None if spread is None else mean + NINETEEN_OF_TWENTY * spread,
        same=sum(each == 0 for each in apart),
        within_a_step=sum(abs(each) <= step for each in apart),
    )
