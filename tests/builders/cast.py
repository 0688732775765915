"""The cast: one person of each role, one small college, one lesson of its own lecturer.

Small on purpose: two learners, two benches, one biscuit of two foods. What a topic needs
beyond it is built by the topic's own builder.
"""

from dataclasses import dataclass
from datetime import date, time

from curriculum.foods.models import Food, FoodAllergen
from curriculum.people.models import College, Group, Membership, RoleGrant, Student, User
from curriculum.recipes.data import (
    AfterData,
    ComponentData,
    FoodData,
    LineData,
    RecipeData,
    StayData,
    StepData,
    WayData,
)
from curriculum.recipes.models import Recipe, Version
from curriculum.recipes.sheets import sheet_hash, write_sheet
from curriculum.techniques.models import Technique
from kitchen.lessons.models import Dish, Lesson, Place, PlaceLearner, Shift
from kitchen.rooms.models import Appliance, Bench, Room

TODAY = date(2027, 2, 16)
TERM = date(2027, 1, 4)

#: person -> (name, role); the names are invented.
STAFF = {
    "lecturer": ("Ansel Wharfinger", "lecturer"),
    "other_lecturer": ("Britta Tolworth", "lecturer"),
    "cover": ("Corin Maplethorpe", "lecturer"),
    "stores": ("Delia Oxhey", "stores"),
    "technician": ("Emlyn Sarratt", "technician"),
    "second_marker": ("Fenella Croxley", "second_marker"),
    "verifier": ("Gareth Boxmoor", "verifier"),
    "manager": ("Hilde Rickmans", "manager"),
    "external": ("Ivor Chess", "external"),
}


@dataclass
class Cast:
    """Everybody and everything a row of the access matrix may name."""

    college: College
    people: dict[str, User]
    learner: Student
    partner: Student
    other_learner: Student
    group: Group
    other_group: Group
    room: Room
    recipe_version: Version
    lesson: Lesson
    other_lesson: Lesson
    place: Place
    dish: Dish

    def person(self, name: str) -> User | None:
        """The user behind a name of the cast; None for whoever is not signed in."""
        return self.people.get(name)

    def __getattr__(self, name: str) -> User:
        people = self.__dict__.get("people", {})
        if name not in people:
            raise AttributeError(name)
        return people[name]


def build_cast() -> Cast:
    """Everything, in one empty database."""
    college = College.objects.create(
        name="Tillow College",
        short_name="Tillow",
        is_demonstration=True,
        shown_today=TODAY,
        term_starts_on=TERM,
    )
    people = {name: _member_of_staff(name, *facts) for name, facts in STAFF.items()}
    group, other_group = _group("BK1", people["lecturer"]), _group("BK2", people["other_lecturer"])
    learner, partner = _learner("student", "N100", group), _learner("partner", "N101", group)
    other_learner = _learner("other_student", "N200", other_group)
    people |= {"student": learner.user, "other_student": other_learner.user}
    room, version = _room(), _version(people["lecturer"], people["manager"])
    lesson = _lesson("LESSQN22", group, people["lecturer"], room, cover=people["cover"])
    dish, place = _dish(lesson, version, room, [learner, partner])
    other_lesson = _lesson("LESSQN33", other_group, people["other_lecturer"], room, on=date(2027, 2, 17))
    _dish(other_lesson, version, room, [other_learner])
    return Cast(
        college=college,
        people=people,
        learner=learner,
        partner=partner,
        other_learner=other_learner,
        group=group,
        other_group=other_group,
        room=room,
        recipe_version=version,
        lesson=lesson,
        other_lesson=other_lesson,
        place=place,
        dish=dish,
    )


def _member_of_staff(username: str, name: str, role: str) -> User:
    user = User.objects.create_user(username=username, name=name)
    RoleGrant.objects.create(user=user, role=role, from_on=TERM)
    return user


def _group(code: str, lecturer: User) -> Group:
    return Group.objects.create(code=code, year=2026, name=f"Baking {code}", lecturer=lecturer)


def _learner(username: str, number: str, group: Group) -> Student:
    user = _member_of_staff(username, f"Learner {number}", "student")
    student = Student.objects.create(user=user, college_number=number, born_on=date(2005, 5, 4))
    Membership.objects.create(group=group, student=student, from_on=TERM)
    return student


def _room() -> Room:
    room = Room.objects.create(code="quince", name="Quince Kitchen", purpose="bakery", seats=4)
    Bench.objects.bulk_create([Bench(room=room, number=number) for number in (1, 2)])
    Appliance.objects.create(
        room=room,
        code="oven-1",
        name="Oven 1",
        kind="oven",
        units=2,
        heat=["fan"],
        least_decicelsius=500,
        most_decicelsius=2500,
    )
    return room


def _lesson(code: str, group: Group, lecturer: User, room: Room, on: date = TODAY, **more: object) -> Lesson:
    lesson = Lesson.objects.create(
        code=code,
        title="Shortbread",
        on=on,
        starts=time(9),
        minutes=180,
        room=room,
        group=group,
        lecturer=lecturer,
        state=Lesson.State.APPROVED,
        **more,
    )
    Shift.objects.create(lesson=lesson, number=1, starts=time(9), minutes=180)
    return lesson


def _dish(lesson: Lesson, version: Version, room: Room, learners: list[Student]) -> tuple[Dish, Place]:
    dish = Dish.objects.create(lesson=lesson, version=version, portions_a_bench=8, working="pair")
    shift = lesson.shifts.get()
    place = Place.objects.create(
        shift=shift,
        bench=room.benches.first(),
        dish=dish,
        version=version,
        code=f"PLACE{Place.objects.count():03d}".replace("0", "X").replace("1", "Y"),  # keys run on for ever
    )
    for student in learners:
        PlaceLearner.objects.create(place=place, shift=shift, student=student)
    return dish, place


def _version(written_by: User, checked_by: User) -> Version:
    flour = Food.objects.create(code="plain_flour", name="Plain flour", label_read_on=TERM)
    FoodAllergen.objects.create(food=flour, kind="wheat", presence="contains")
    butter = Food.objects.create(code="butter", name="Butter", storage="chilled", label_read_on=TERM)
    FoodAllergen.objects.create(food=butter, kind="milk", presence="contains")
    Technique.objects.create(
        code="rubbing_in", name="Rubbing in", level="foundation", cue="Fine crumbs, no lump of fat."
    )
    sheet = write_sheet(shortbread())
    return Version.objects.create(
        recipe=Recipe.objects.create(code="shortbread", title="Shortbread", level="foundation"),
        number=1,
        state=Version.State.APPROVED,
        portions_stated=8,
        portions_obtainable=8,
        written_by=written_by,
        checked_by=checked_by,
        sheet=sheet,
        sheet_hash=sheet_hash(sheet),
        search_words="shortbread plain flour butter rubbing in",
    )


def shortbread() -> RecipeData:
    """A biscuit of two foods, two steps and one oven."""
    lines = (
        LineData(position=1, food="plain_flour", milligrams=200_000),
        LineData(position=2, food="butter", milligrams=100_000),
    )
    rub = StepData(
        position=1,
        words="Rub the butter into the flour and press flat.",
        ways=(WayData("hand", 10),),
        components=("A",),
        techniques=("rubbing_in",),
        cue="Fine crumbs that hold when pressed.",
    )
    bake = StepData(
        position=2,
        words="Bake.",
        ways=(WayData("hand", 2),),
        stays=(StayData(20, "oven", 1600, "fan"),),
        after=(AfterData(1, 0, 60),),
        components=("A",),
        cue="Pale gold at the edge.",
    )
    return RecipeData(
        code="shortbread",
        title="Shortbread",
        number=1,
        level="foundation",
        portions_stated=8,
        portions_obtainable=8,
        portion_milligrams=35_000,
        components=(ComponentData("A", "Paste", "portions", lines),),
        steps=(rub, bake),
        foods=(
            FoodData("plain_flour", "Plain flour", contains=("wheat",), label_read_on=TERM),
            FoodData("butter", "Butter", "chilled", contains=("milk",), label_read_on=TERM),
        ),
    )
