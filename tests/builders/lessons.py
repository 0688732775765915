"""Lessons to book, classes to place, and what learners avoid."""

from dataclasses import replace
from datetime import date, time

from curriculum.foods.models import Avoidance
from curriculum.people.models import Adjustment, Membership, RoleGrant, Student, User
from curriculum.recipes.models import Recipe, Version
from curriculum.recipes.sheets import sheet_hash, write_sheet
from kitchen.lessons.models import Place, PlaceLearner
from kitchen.lessons.orders import BookingOrder
from kitchen.rooms.models import Bench, Room
from tests.builders.cast import TERM, shortbread


def an_order(cast, **changes) -> BookingOrder:
    """A lesson of the cast's group on the next day, which nothing stands in the way of."""
    order = BookingOrder(
        on=date(2027, 2, 23),
        starts=time(9),
        minutes=180,
        start_minutes=15,
        clear_minutes=30,
        room=cast.room.pk,
        group=cast.group.pk,
        lecturer=cast.lecturer.pk,
        version=cast.recipe_version.pk,
        portions_a_bench=8,
        working="pair",
    )
    return replace(order, **changes)


def a_room(code: str = "medlar", name: str = "Medlar Kitchen", benches: int = 2) -> Room:
    """Another kitchen with benches."""
    room = Room.objects.create(code=code, name=name, purpose="kitchen", seats=benches * 2)
    Bench.objects.bulk_create(Bench(room=room, number=number + 1) for number in range(benches))
    return room


def avoids(cast, student: Student, **what) -> Avoidance:
    """A learner avoids something from the first day of term."""
    return Avoidance.objects.create(student=student, from_on=TERM, noted_by=cast.lecturer, **what)


def a_variant(cast, *, leaves_out: str = "milk", label_read: bool = True) -> Version:
    """The shortbread with margarine in place of butter, approved to teach."""
    ordinary = shortbread()
    margarine = replace(
        ordinary.food("butter"),
        code="margarine",
        name="Margarine",
        contains=(),
        label_read_on=TERM if label_read else None,
    )
    lines = (ordinary.components[0].lines[0], replace(ordinary.components[0].lines[1], food="margarine"))
    data = replace(
        ordinary,
        code="shortbread_plain",
        title="Shortbread without milk",
        components=(replace(ordinary.components[0], lines=lines),),
        foods=(ordinary.foods[0], margarine),
        variant_of="shortbread",
        free_from=(leaves_out,),
    )
    recipe = Recipe.objects.create(
        code=data.code, title=data.title, level="foundation", variant_of=cast.recipe_version.recipe
    )
    sheet = write_sheet(data)
    return Version.objects.create(
        recipe=recipe,
        number=1,
        state=Version.State.APPROVED,
        portions_stated=8,
        portions_obtainable=8,
        written_by=cast.lecturer,
        checked_by=cast.manager,
        sheet=sheet,
        sheet_hash=sheet_hash(sheet),
    )


def more_learners(cast, count: int, group=None) -> list[Student]:
    """So many more learners in the group."""
    made = []
    for index in range(count):
        user = User.objects.create_user(username=f"more{index}", name=f"Learner M{index:03d}")
        RoleGrant.objects.create(user=user, role="student", from_on=TERM)
        student = Student.objects.create(user=user, college_number=f"M{index:03d}", born_on=date(2004, 3, 2))
        Membership.objects.create(group=group or cast.group, student=student, from_on=TERM)
        made.append(student)
    return made


def an_adjustment(cast, student: Student, **what) -> Adjustment:
    """An adjustment agreed with a learner: a quarter more time unless something else is said."""
    what = what or {"kind": "extra_time", "percent": 25}
    return Adjustment.objects.create(student=student, from_on=TERM, agreed_by=cast.lecturer, **what)


def benches(cast, count: int) -> list[Place]:
    """So many benches of the cast's lesson with somebody at each; the first one is there already."""
    shift = cast.lesson.shifts.get()
    for number, student in enumerate(more_learners(cast, count - 1), start=2):
        bench, _ = Bench.objects.get_or_create(room=cast.room, number=number)
        place = Place.objects.create(
            shift=shift, bench=bench, dish=cast.dish, version=cast.recipe_version, code=f"BENCHN{number:02d}"
        )
        PlaceLearner.objects.create(place=place, shift=shift, student=student)
    return list(Place.objects.filter(shift=shift))
