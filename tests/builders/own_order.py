"""Orders of work that the learners of the cast write for their shortbread (cooking from 09:15)."""

from curriculum.people.models import Membership, RoleGrant, Student, User
from kitchen.lessons.models import Place, PlaceLearner
from kitchen.rooms.models import Bench
from kitchen.timeplan.own_order.actions import hand_in_order, save_order
from kitchen.timeplan.own_order.written import CleanLine, StepLine, WrittenOrder
from tests.builders.cast import TERM

#: Rubbing in takes 10 min and stands at most 60; two minutes of hands, then 20 in the oven.
GOOD = WrittenOrder(
    steps=(
        StepLine(1, "09:20", "Rub in, press flat", "Cold hands"),
        StepLine(2, "09:40", "Bake", "Oven lit at once", "Wash the bowl"),
    ),
    cleaning=(CleanLine("09:45", "10", "Bowl and bench"),),
    contingency="If my paste crumbles, a teaspoon of water.",
)


def times(first: str, second: str, **more) -> WrittenOrder:
    """The same order with other times."""
    steps = (StepLine(1, first), StepLine(2, second, meanwhile="Wash the bowl"))
    return WrittenOrder(
        steps, more.get("cleaning", GOOD.cleaning), more.get("contingency", "If it crumbles.")
    )


def kept(cast, order=GOOD, student=None, based_on=0, key=None):
    """An order as its learner kept it."""
    student = student or cast.learner
    return save_order(
        lesson=cast.lesson,
        student=student,
        version=cast.recipe_version,
        order=order,
        based_on=based_on,
        by=student.user,
        key=key,
    )


def handed_in(cast, order=GOOD, student=None):
    """An order that was handed in."""
    student = student or cast.learner
    row = kept(cast, order, student)
    return hand_in_order(lesson=cast.lesson, student=student, based_on=row.saved, by=student.user)


def assess(cast):
    """The lesson becomes an assessed one."""
    cast.lesson.kind, cast.lesson.assessed = "assessed", True
    cast.lesson.save()


def one_more_bench(cast, number) -> Student:
    """A learner more, at a bench of their own with that number."""
    shift, user = (
        cast.lesson.shifts.get(),
        User.objects.create_user(username=f"own{number}", name=f"Own {number}"),
    )
    RoleGrant.objects.create(user=user, role="student", from_on=TERM)
    student = Student.objects.create(user=user, college_number=f"P{number}")
    Membership.objects.create(group=cast.group, student=student, from_on=TERM)
    bench = Bench.objects.create(room=cast.room, number=number)
    place = Place.objects.create(
        shift=shift, bench=bench, dish=cast.dish, version=cast.recipe_version, code=f"BENCHP{number}"
    )
    PlaceLearner.objects.create(place=place, shift=shift, student=student)
    return student
