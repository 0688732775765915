"""When a bench has its hands free to clean, and what is kept free before clear-down.

For the strip on paper and on the page: a time plan in three columns has rows for cleaning and
for contingency.

Worked example: hands until 09:40, the paste rests until 10:00, a demonstration from 09:50 to
09:55: there are ten minutes to clean from 09:40 and five from 09:55.
"""

from dataclasses import dataclass

from kitchen.timeplan.plan import BenchPlan, LessonPlan

#: Fewer minutes are no time to clean. Common practice, no source.
LEAST = 5


@dataclass(frozen=True, slots=True)
class Free:
    """Minutes of the day in which nothing is asked of a bench: kind is clean or contingency."""

    start: int
    end: int
    kind: str
    before: int = 0

    @property
    def minutes(self) -> int:
        """How long it is."""
        return self.end - self.start

    @property
    def words(self) -> str:
        """The task."""
        if self.kind == "contingency":
            return f"Contingency: {self.minutes} min in which nothing is planned."
        return f"Clean as you go: {self.minutes} min with your hands free."

    @property
    def point(self) -> str:
        """The special point."""
        if self.kind == "contingency":
            return "Who is behind catches up here."
        return f"Wash up, wipe down, bench clear for step {self.before}."


def free_times(plan: LessonPlan, bench: BenchPlan) -> tuple[Free, ...]:
    """Times to clean between the bench's first and last work, then the contingency; by the clock."""
    hands = [bar for bar in bench.bars if bar.kind == "hands"]
    taken = [(bar.start, bar.end, bar.step) for bar in hands]
    last = max((bar.start for bar in hands), default=0)
    taken += [(show.start, show.start + show.minutes, 0) for show in plan.shows if show.start < last]
    if plan.break_minutes and plan.break_at < last:
        taken.append((plan.break_at, plan.break_end, 0))
    taken = sorted(span for span in taken if hands and span[0] >= min(bar.start for bar in hands))
    found, until = [], taken[0][1] if taken else 0
    for number, (start, end, _) in enumerate(taken):
        if start - until >= LEAST:
            found.append(Free(until, start, "clean", next(step for *_, step in taken[number:] if step)))
        until = max(until, end)
    if plan.contingency_minutes:
        found.append(Free(plan.clear_at - plan.contingency_minutes, plan.clear_at, "contingency"))
    return tuple(found)
