"""What stands in the database about a worked lesson, as plain values and in plain words.

Both are read from the database, never remembered from the work, so that a second start
says what the first said.
"""

from dataclasses import dataclass

from assessments.marking.models import Sheet
from curriculum import wording
from kitchen.lessons.models import Lesson
from kitchen.lessons.queries import places_taken
from kitchen.stores.models import Kit, KitSet
from kitchen.timeplan.models import TimePlan


@dataclass(frozen=True, slots=True)
class Short:
    """One thing that is short: a food in milligrams, or a piece of equipment in pieces."""

    name: str
    milligrams: int = 0
    pieces: int = 0

    @property
    def words(self) -> str:
        """ "White fondant icing paste, 600 g"."""
        much = wording.amount(self.milligrams) if self.milligrams else str(self.pieces)
        return f"{self.name}, {much}"


@dataclass(frozen=True, slots=True)
class Worked:
    """One lesson as far as it came. ``plan`` is None while no time plan is accepted."""

    title: str
    benches: int
    kits: int
    shortages: tuple[Short, ...]
    marked: int
    plan: TimePlan | None

    def values(self) -> dict:
        """The lesson for a machine."""
        plan = self.plan and {
            "status": self.plan.status,
            "finish_minutes": self.plan.finish_minutes,
            "bound_minutes": self.plan.bound_minutes,
        }
        return {
            "title": self.title,
            "benches": self.benches,
            "kits": self.kits,
            "shortages": [_short_values(each) for each in self.shortages],
            "marked": self.marked,
            "plan": plan,
        }


def _short_values(short: Short) -> dict:
    much = {"milligrams": short.milligrams} if short.milligrams else {"pieces": short.pieces}
    return {"name": short.name, **much}


def worked(lesson: Lesson) -> Worked:
    """What came of a lesson: its benches, kits, shortages, marks and accepted plan."""
    kit_set = KitSet.objects.filter(lesson=lesson, state=KitSet.State.ACCEPTED).first()
    kits = Kit.objects.filter(kit_set=kit_set, kind=Kit.Kind.BENCH) if kit_set else Kit.objects.none()
    return Worked(
        title=lesson.title,
        benches=places_taken().filter(shift__lesson=lesson).count(),
        kits=kits.count(),
        shortages=tuple(_short(each) for each in kit_set.shortages) if kit_set else (),
        marked=Sheet.objects.filter(sitting__brief__lesson=lesson).exclude(submitted_at=None).count(),
        plan=TimePlan.objects.filter(lesson=lesson, state="accepted").first(),
    )


def _short(each: dict) -> Short:
    return Short(each["name"], each.get("short_milligrams", 0), each.get("short", 0))
