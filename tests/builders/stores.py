"""Lots in the stores, lessons whose kits can be made, kits that wait to be issued."""

from dataclasses import dataclass
from datetime import date, time

from curriculum.people.models import Group, Membership, Student, User
from curriculum.recipes.models import Version
from kitchen.lessons.models import Dish, Lesson, Place, PlaceLearner, Shift
from kitchen.rooms.models import Bench, Equipment, Room
from kitchen.stores.actions import accept_kits
from kitchen.stores.entries import LotEntry
from kitchen.stores.lots.actions import receive_lots
from kitchen.stores.models import KitSet, Lot
from tests.builders.book import TERM, a_book, a_person
from tests.builders.recipes import college_food, fixture

QUICHE_DAY = date(2027, 2, 16)
#: The recipes of the main job.
COOKED = ("R01", "V1", "V2", "R03", "V3")


@dataclass
class Stage:
    """One lesson of the main job with the people who act on it."""

    lesson: Lesson
    stores: User
    lecturer: User
    versions: dict[str, Version]


def a_lot(food: str = "butter", code: str = "LT-1", grams: int = 5000, **changes) -> Lot:
    """A lot of one food, its label read, taken in."""
    said = {"label_read_on": TERM, "received_on": TERM} | changes
    entry = LotEntry(code=code, food=food, milligrams=grams * 1000, **said)
    return receive_lots(entries=[entry], by=a_person("hana", "stores"))[0]


def college_lots() -> list[Lot]:
    """Every lot that the demonstration college has in its stores."""
    return receive_lots(
        entries=[_entry(each) for each in fixture("stores.json")["lots"] if each["state"] == "in_store"],
        by=a_person("hana", "stores"),
    )


def the_book() -> dict[str, Version]:
    """The recipes of the main job by code, written when they are not there yet."""
    found = {each.recipe.code: each for each in Version.objects.select_related("recipe")}
    return found if set(COOKED) <= set(found) else a_book(*COOKED)


def quiche_stage(
    benches: tuple[str, ...] = ("R01",) * 5 + ("V1", "V2"), ahead: tuple[int, ...] = (1, 2)
) -> Stage:
    """Seven pairs make quiches, two of them a variant; the stores are full."""
    versions = the_book()
    return a_lesson_of(versions, "R01", benches, portions=8, ahead=ahead)


def a_lesson_of(
    versions: dict[str, Version],
    dish: str,
    benches: tuple[str, ...],
    portions: int,
    ahead: tuple[int, ...] = (),
) -> Stage:
    """A lesson with one pair at each bench, working the recipe that is named for it."""
    lecturer, stores = a_person("marek"), a_person("hana", "stores")
    room = _room(max(12, len(benches)))
    group = Group.objects.create(code=f"G-{dish}", year=2026, name="A group", lecturer=lecturer)
    lesson = Lesson.objects.create(
        code=f"LESS{dish:>4}".replace(" ", "X"),
        title=versions[dish].recipe.title,
        on=QUICHE_DAY,
        starts=time(9),
        minutes=180,
        room=room,
        group=group,
        lecturer=lecturer,
        demonstration_batches=1,
        spare_batches=1,
        state=Lesson.State.APPROVED,
    )
    shift = Shift.objects.create(lesson=lesson, number=1, starts=time(9), minutes=180)
    row = Dish.objects.create(
        lesson=lesson,
        version=versions[dish],
        portions_a_bench=portions,
        working="pair",
        ahead_steps=list(ahead),
    )
    for number, code in enumerate(benches, start=1):
        _place(shift, row, room.benches.get(number=number), versions[code], group)
    return Stage(lesson, stores, lecturer, versions)


def kits_made(stage: Stage) -> KitSet:
    """The kits of the stage, accepted by the stores."""
    return accept_kits(lesson=stage.lesson, by=stage.stores)


def _room(benches: int) -> Room:
    room, made = Room.objects.get_or_create(
        code="juniper", defaults={"name": "Juniper Kitchen", "purpose": "general"}
    )
    if made:
        Bench.objects.bulk_create(Bench(room=room, number=number + 1) for number in range(benches))
        counts = next(
            each["equipment"] for each in fixture("rooms.json")["rooms"] if each["code"] == "juniper"
        )
        Equipment.objects.bulk_create(Equipment(room=room, at_first=each["count"], **each) for each in counts)
    return room


def _place(shift: Shift, dish: Dish, bench: Bench, version: Version, group: Group) -> None:
    place = Place.objects.create(
        shift=shift, bench=bench, dish=dish, version=version, code=f"P{Place.objects.count()}B{bench.number}"
    )
    for letter in "ab":
        name = f"{group.code}-{bench.number}{letter}"
        user = User.objects.create_user(username=name, name=f"Learner {name}")
        student = Student.objects.create(user=user, college_number=name)
        Membership.objects.create(group=group, student=student, from_on=TERM)
        PlaceLearner.objects.create(place=place, shift=shift, student=student)


def _entry(lot: dict) -> LotEntry:
    food = college_food(lot["food"])
    read = lot.get("label_read_on")
    return LotEntry(
        code=lot["code"],
        food=lot["food"],
        supplier=lot["supplier"],
        milligrams=lot["milligrams"],
        received_on=date.fromisoformat(lot["received_on"]),
        date_kind=lot["date_kind"],
        dated_on=date.fromisoformat(lot["date"]) if lot.get("date") else None,
        opened_on=date.fromisoformat(lot["opened_on"]) if lot.get("opened_on") else None,
        reserved_free_from=bool(lot.get("reserved_for")),
        contains=food.contains if read else (),
        may_contain=food.may_contain if read else (),
        label_read_on=date.fromisoformat(read) if read else None,
    )
