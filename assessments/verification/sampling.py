"""Which sittings a verifier looks at: what must be seen, and a draw that anybody can repeat.

Every sitting that was not passed and every total within so many points of a band is in;
then one for each assessor and band not yet covered, drawn by the written seed. Whoever
has the record (seed, rule, sittings) draws the same names.

Worked example: totals 38, 61 and 90 by one assessor with bands from 0, 40, 60 and 75 and a
margin of 2 points. 38 is a fail, 61 is within 2 of 60; 90 is neither, and the draw takes
it as the only "distinction" of that assessor.
"""

import random
from collections.abc import Iterable
from dataclasses import dataclass

#: A total this near to where a band begins is looked at: 2 points. Common practice, no source;
#: the verifier writes another margin where the awarding body asks for one.
MARGIN_MILLI_POINTS = 2_000


@dataclass(frozen=True, slots=True)
class Candidate:
    """One sitting to draw from. ``milli_total`` is None where a scheme has no points."""

    code: str
    assessor: str
    band: str
    milli_total: int | None
    lowest_band: str
    band_starts: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Drawn:
    """A sitting of the sample and why it is in it."""

    code: str
    why: str


def drawn(
    candidates: Iterable[Candidate], seed: str, margin_milli: int = MARGIN_MILLI_POINTS
) -> tuple[Drawn, ...]:
    """The sample, in the order of the sittings' codes."""
    found = sorted(candidates, key=lambda each: each.code)
    taken: dict[str, str] = {}
    for each in found:
        why = _must(each, margin_milli)
        if why:
            taken[each.code] = why
    covered = {(each.assessor, each.band) for each in found if each.code in taken}
    lots = random.Random(seed)
    for group in sorted({(each.assessor, each.band) for each in found} - covered):
        members = [each.code for each in found if (each.assessor, each.band) == group]
        taken[lots.choice(members)] = f"drawn: {group[1]}, {group[0]}"
    return tuple(Drawn(each.code, taken[each.code]) for each in found if each.code in taken)


def _must(candidate: Candidate, margin_milli: int) -> str:
    if candidate.band == candidate.lowest_band:
        return f"not passed: {candidate.band}"
    total = candidate.milli_total
    for start in candidate.band_starts:
        if total is not None and start and abs(total - start) <= margin_milli:
            return f"within {margin_milli // 1000} points of a band"
    return ""
