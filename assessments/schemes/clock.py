"""The candidate's own clock: extra time, deadline, and started minutes late.

Extra time is a share of the working time: 165 minutes with 25 % more are 206.25 minutes,
so who starts at 09:15 is due at 12:41:15. A started minute counts whole: a plate
presented at 12:22:00 for 12:00 is 22 minutes late, one presented at 12:22:01 is 23.
"""

import math
from datetime import datetime, timedelta
from fractions import Fraction


def allowed_minutes(minutes: int, extra_per_mille: int = 0) -> Fraction:
    """The working time with extra time, exactly."""
    return Fraction(minutes * (1000 + extra_per_mille), 1000)


def deadline(start: datetime, minutes: int, extra_per_mille: int = 0) -> datetime:
    """When the plate is due for this candidate."""
    seconds = allowed_minutes(minutes, extra_per_mille) * 60
    return start + timedelta(microseconds=int(seconds * 1_000_000))


def elapsed_minutes(start: datetime, presented: datetime) -> Fraction:
    """Minutes from the candidate's start until the plate was presented."""
    return Fraction((presented - start) // timedelta(microseconds=1), 60_000_000)


def started_minutes_late(elapsed: Fraction, allowed: Fraction) -> int:
    """Whole minutes late, a started one counted whole; 0 for who is in time."""
    return max(0, math.ceil(elapsed - allowed))


def minutes_outside(elapsed: Fraction, allowed: Fraction, window: int) -> Fraction:
    """Minutes outside the window that closes at the deadline; early and late both count."""
    opens = allowed - window
    return max(Fraction(0), opens - elapsed, elapsed - allowed)
