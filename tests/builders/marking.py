"""A lesson that can be marked: kept schemes, a checked brief, open sheets, marks given.

Everything is made through actions, on top of the cast. ``marked`` gives a whole card and
submits it; ``GOOD`` and ``WEAK`` are cards of the scheme of one hundred points.
"""

from collections.abc import Iterable
from uuid import uuid4

from assessments.marking.actions import give_mark, open_sittings, submit_sheet
from assessments.marking.models import Sheet, Sitting
from assessments.marking.queries import sitting_data
from assessments.schemes.actions import check_briefs, keep_scheme, write_briefs
from assessments.schemes.models import SchemeVersion
from curriculum.people.models import Student, User
from curriculum.techniques.models import Fault, Technique
from kitchen.lessons.models import Place, PlaceLearner
from kitchen.rooms.models import Bench
from tests.builders.cast import Cast
from tests.builders.schemes import scheme_json

#: The shortbread of the cast trains one technique, so the scheme here marks one for all 30 points.
ONE_TECHNIQUE = {"technique_count": 1, "milli_points_per_technique": 30_000}

GOOD = {
    "organisation": 3,
    "hygiene": 2,
    "technique.rubbing_in": 3,
    "appearance": 8,
    "texture": 8,
    "flavour": 7,
    "portion_weight": 35,
    "timing": 100,
}
WEAK = {**GOOD, "hygiene": 1, "technique.rubbing_in": 1, "texture": 5}


def kept_scheme(cast: Cast, code: str = "hundred_points") -> SchemeVersion:
    """A scheme of the college, kept; fitted to a dish of one technique."""
    content = scheme_json(code)
    for criterion in content["criteria"]:
        if criterion["kind"] == "judgement_by_technique":
            criterion |= ONE_TECHNIQUE
    return keep_scheme(content=content, by=cast.manager)


def a_fault() -> Fault:
    """One fault of the technique of the cast's dish."""
    technique = Technique.objects.get(code="rubbing_in")
    technique.cue = "Fine crumbs that hold when pressed"
    technique.save()
    fault, _ = Fault.objects.get_or_create(
        code="rubbing_in_1",
        defaults={
            "technique": technique,
            "seen": "The crumb is greasy and clumps",
            "cause": "The fat was soft and warm hands worked it too long",
            "remedy": "Chill the bowl for ten minutes, then rub with the fingertips only",
        },
    )
    return fault


def briefed(cast: Cast, code: str = "hundred_points") -> None:
    """The lesson of the cast with a brief that the verifier has checked."""
    write_briefs(lesson=cast.lesson, scheme_version=kept_scheme(cast, code), by=cast.lecturer)
    check_briefs(lesson=cast.lesson, by=cast.verifier)


def opened(cast: Cast, code: str = "hundred_points") -> Sitting:
    """Open sheets for the lesson of the cast; the sitting of its learner."""
    a_fault()
    briefed(cast, code)
    open_sittings(lesson=cast.lesson, by=cast.lecturer)
    return Sitting.objects.get(student=cast.learner, brief__lesson=cast.lesson)


def first_sheet(sitting: Sitting) -> Sheet:
    """The first marker's sheet."""
    return sitting.sheets.get(part=Sheet.Part.FIRST)


def filled(sheet: Sheet, marks: dict | None = None, faults: dict | None = None) -> Sheet:
    """Give these marks (in natural units) on a sheet; faults by place."""
    wanted = {slot.place for slot in sitting_data(sheet.sitting).slots(sheet.part)}
    for place, value in (marks or GOOD).items():
        if place in wanted:
            give_mark(
                sheet=sheet,
                place=place,
                milli=int(value * 1000),
                faults=(faults or {}).get(place, ()),
                by=sheet.marker,
                key=uuid4(),
            )
    return sheet


def marked(cast: Cast, marks: dict | None = None, faults: dict | None = None) -> Sitting:
    """The learner's sitting with one submitted sheet."""
    sitting = Sitting.objects.filter(student=cast.learner, brief__lesson=cast.lesson).first() or opened(cast)
    sheet = filled(first_sheet(sitting), marks, faults)
    submit_sheet(sheet=sheet, by=sheet.marker)
    sitting.refresh_from_db()
    return sitting


def more_learners(cast: Cast, numbers: Iterable[int]) -> None:
    """One more learner at a bench of their own for each number."""
    for number in numbers:
        place = Place.objects.create(
            shift=cast.place.shift,
            bench=Bench.objects.create(room=cast.room, number=50 + number),
            dish=cast.dish,
            version=cast.recipe_version,
            code=f"MORE{number:04d}",
        )
        user = User.objects.create_user(username=f"more{number}", name=f"More {number}")
        learner = Student.objects.create(user=user, college_number=f"M{number:03d}")
        PlaceLearner.objects.create(place=place, shift=cast.place.shift, student=learner)
