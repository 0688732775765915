"""The middle of several lessons, how wide they lie, and which lie far from the others.

Plain whole numbers in and out. The middle is the median (of an even number the lower middle, so
that it is a figure that happened). One lesson that went wrong cannot move it beyond what the
others say; so no lesson is left out for being far off, it is shown as far off and counts.

Worked example: 24, 26, 30, 31 and 160 g: the middle is 30 g. They lie 6, 4, 0, 1 and 130 g from
it, in the middle 4 g; 160 g is more than four times that away and is said to be far off.
"""

from collections.abc import Iterable, Sequence

#: Fewer lessons propose nothing; one that went wrong is outvoted by three (our own choice, no source).
ENOUGH_LESSONS = 4
#: One test may be a lucky crate, two disagree without saying which (our own choice, no source).
ENOUGH_TESTS = 3
#: So many times the usual distance from the middle is far off (our own choice, no source).
FAR_OFF = 4


def middle(values: Iterable[int]) -> int:
    """The median; of an even number the lower of the two. ValueError of nothing."""
    in_order = sorted(values)
    if not in_order:
        raise ValueError("There is no middle of nothing.")
    return in_order[(len(in_order) - 1) // 2]


def far_off(values: Sequence[int], least: int) -> tuple[bool, ...]:
    """For each value whether it lies far from the others; nothing nearer than ``least`` does.

    With fewer than ``ENOUGH_LESSONS`` nobody can say, so none does.
    """
    if len(values) < ENOUGH_LESSONS:
        return (False,) * len(values)
    at = middle(values)
    usual = middle(abs(each - at) for each in values)
    limit = max(FAR_OFF * usual, least)
    return tuple(abs(each - at) > limit for each in values)
