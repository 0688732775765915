"""Lessons of the cast that run: a plan that was accepted, a class that began, taps at given minutes."""

from datetime import timedelta

from django.utils import timezone

from curriculum.people.models import Membership, RoleGrant, Student, User
from kitchen.lessons.models import Place, PlaceLearner
from kitchen.rooms.models import Appliance, Bench
from kitchen.timeplan.actions import accept_draft
from kitchen.timeplan.day.actions import Said, tap
from kitchen.timeplan.day.queries import in_progress
from kitchen.timeplan.queries import plan_page
from tests.builders.cast import TERM


def more_benches(cast, count: int) -> None:
    """So many benches more, each with one learner of the class at the lesson's dish."""
    shift = cast.lesson.shifts.get()
    for number in range(2, count + 2):
        bench, _ = Bench.objects.get_or_create(room=cast.room, number=number)
        user = User.objects.create_user(username=f"cook{number}", name=f"Cook{number} Fernhill")
        RoleGrant.objects.create(user=user, role="student", from_on=TERM)
        student = Student.objects.create(user=user, college_number=f"N3{number:02}", born_on="2005-05-04")
        Membership.objects.create(group=cast.group, student=student, from_on=TERM)
        code = f"PLCBEN{'ABCDEFGHJKMNPQRSTVWXYZ23456789'[number % 30]}{'ABCDEFGH'[number // 30]}"
        place = Place.objects.create(
            shift=shift, bench=bench, dish=cast.dish, version=cast.recipe_version, code=code
        )
        PlaceLearner.objects.create(place=place, shift=shift, student=student)


def second_oven(cast) -> Appliance:
    """Another oven like the first."""
    return Appliance.objects.create(
        room=cast.room,
        code="oven-2",
        name="Oven 2",
        kind="oven",
        units=2,
        heat=["fan"],
        least_decicelsius=500,
        most_decicelsius=2500,
    )


def planned(cast):
    """The lesson with its plan accepted."""
    return accept_draft(lesson=cast.lesson, draft=plan_page(cast.lesson).draft, by=cast.lecturer)


def begun(cast, minutes: int = 0):
    """The class began so many minutes ago."""
    planned(cast)
    return tapped(cast, "began", ago=minutes)


def tapped(cast, what: str, bench: str = "", step: int | None = None, part: int | None = None, **more):
    """One tap of the lecturer, ``ago`` minutes ago."""
    ago = more.pop("ago", 0)
    moment = timezone.now() - timedelta(minutes=ago) if ago else None
    said = Said(what, bench, step, part, device_at=moment, **more)
    return tap(lesson=cast.lesson, said=said, by=cast.lecturer)


def now_of(cast):
    """The class as it stands now."""
    return in_progress(cast.lesson, timezone.now())
