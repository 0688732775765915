"""What the first pages and the page of a lesson show; a fixed number of queries each."""

from collections.abc import Iterable
from datetime import date, timedelta

from django.db.models import Count, F, Max, OuterRef, Q, QuerySet, Subquery, Sum

from assessments.feedback.models import HandedBack
from assessments.marking.models import Sheet, Sitting
from assessments.schemes.models import Brief
from assessments.verification.models import Sample
from curriculum.people.models import Membership, Student, User
from kitchen.lessons.models import Attendance, Dish, Lesson, Place, PlaceLearner
from kitchen.lessons.queries import places_taken
from kitchen.stores.models import Kit, KitLine, KitSet, Lot, Requisition, Weighing
from kitchen.stores.requisitions.actions import ENDED
from kitchen.timeplan.models import DemonstrationPlan, TimePlan
from kitchen.website.stations import Progress

#: How far ahead a first page looks, in days. Common practice, no source.
DAYS_AHEAD = 14
#: How far back a lecturer's page looks, and a learner's page back and ahead. Common practice, no source.
DAYS_BACK, LEARNER_DAYS_BACK, LEARNER_DAYS_AHEAD = 28, 7, 28
#: A use-by this near is named on the stores' page. Common practice, no source.
USE_SOON_DAYS = 7


def lessons_between(first: date, last: date) -> QuerySet[Lesson]:
    """Lessons of these days that are not cancelled, with room, group and lecturer."""
    return (
        Lesson.objects.filter(on__gte=first, on__lte=last)
        .exclude(state=Lesson.State.CANCELLED)
        .select_related("room", "group", "lecturer", "cover")
        .order_by("on", "starts")
    )


def lessons_of_lecturer(user: User, today: date) -> list[Lesson]:
    """The lecturer's own and covered lessons, from four weeks back to two weeks ahead."""
    return list(
        lessons_between(today - timedelta(days=DAYS_BACK), today + timedelta(days=DAYS_AHEAD)).filter(
            Q(lecturer=user) | Q(cover=user)
        )
    )


def lessons_to_supply(today: date) -> list[Lesson]:
    """The lessons that stores and technician prepare now."""
    return list(lessons_between(today, today + timedelta(days=DAYS_AHEAD)))


def counts(rows: Iterable[dict], value: str = "n") -> dict[int, int]:
    """Rows of {lesson, n} as a dictionary."""
    return {row["lesson"]: row[value] for row in rows}


def weighed_lines(lessons: list[Lesson]) -> dict[int, int]:
    """Lines of the accepted kits whose last weighing stands, by lesson."""
    latest = Weighing.objects.filter(kit_line=OuterRef("pk")).order_by("-number")
    return counts(
        KitLine.objects.filter(kit__kit_set__lesson__in=lessons, kit__kit_set__state=KitSet.State.ACCEPTED)
        .annotate(last_undone=Subquery(latest.values("undone")[:1]))
        .filter(last_undone=False)
        .values(lesson=F("kit__kit_set__lesson"))
        .annotate(n=Count("id"))
    )


def attended(lessons: list[Lesson]) -> dict[int, int]:
    """Learners whose last word in the attendance book is present, late or left, by lesson."""
    found: dict[tuple[int, int], str] = {}
    rows = Attendance.objects.filter(lesson__in=lessons).order_by("number")
    for lesson, student, state in rows.values_list("lesson", "student", "state"):
        found[lesson, student] = state
    there: dict[int, int] = {}
    for (lesson, _), state in found.items():
        there[lesson] = there.get(lesson, 0) + (state != Attendance.State.ABSENT)
    return there


def members_by_group(lessons: list[Lesson]) -> dict[int, int]:
    """How many learners each group of these lessons has."""
    groups = {lesson.group_id for lesson in lessons}
    rows = Membership.objects.filter(group__in=groups, until_on=None).values("group").annotate(n=Count("id"))
    return {row["group"]: row["n"] for row in rows}


def placed(lessons: list[Lesson]) -> dict[int, int]:
    """Learners with a bench, by lesson."""
    rows = PlaceLearner.objects.filter(shift__lesson__in=lessons).values(lesson=F("shift__lesson"))
    return counts(rows.annotate(n=Count("id")))


def requisition_states(lessons: list[Lesson]) -> dict[int, str]:
    """The state of the latest requisition that stands, by lesson."""
    rows = Requisition.objects.filter(lesson__in=lessons).exclude(state__in=ENDED)
    return dict(rows.order_by("number").values_list("lesson", "state"))


def kit_facts(lessons: list[Lesson]) -> dict[int, dict]:
    """Kits of the accepted sets by lesson: how many, how many held back, whether issued, lines to weigh.

    Water from the tap is no line to weigh, here as on the pages of the stores.
    """
    sets = KitSet.objects.filter(lesson__in=lessons, state=KitSet.State.ACCEPTED)
    from_stock = KitLine.objects.filter(kit__kit_set__in=sets, stock_milligrams__gt=0)
    lines = from_stock.values(lesson=F("kit__kit_set__lesson"))
    line_counts = counts(lines.annotate(n=Count("id")))
    rows = (
        Kit.objects.filter(kit_set__in=sets)
        .values(lesson=F("kit_set__lesson"), issued_at=F("kit_set__issued_at"))
        .annotate(kits=Count("id"), blocked=Count("id", filter=~Q(blocked_why="")))
    )
    return {row["lesson"]: row | {"lines": line_counts.get(row["lesson"], 0)} for row in rows}


def sheet_facts(lessons: list[Lesson]) -> dict[int, dict]:
    """First markers' sheets by lesson: how many, how many submitted."""
    rows = Sheet.objects.filter(sitting__brief__lesson__in=lessons, part=Sheet.Part.FIRST)
    grouped = rows.values(lesson=F("sitting__brief__lesson"))
    return {row["lesson"]: row for row in grouped.annotate(n=Count("id"), submitted=Count("submitted_at"))}


def handed_back(lessons: list[Lesson]) -> dict[int, int]:
    """Sittings whose feedback was handed back, by lesson."""
    rows = HandedBack.objects.filter(sitting__brief__lesson__in=lessons, number=1)
    return counts(rows.values(lesson=F("sitting__brief__lesson")).annotate(n=Count("id")))


def progress_of(lessons: list[Lesson]) -> dict[int, Progress]:
    """How far each lesson has come; a fixed number of queries, however many lessons."""
    members, places, there = members_by_group(lessons), placed(lessons), attended(lessons)
    plans = dict(TimePlan.objects.filter(lesson__in=lessons, state="accepted").values_list("lesson", "fits"))
    asked, weighed = requisition_states(lessons), weighed_lines(lessons)
    kits, sheets, back = kit_facts(lessons), sheet_facts(lessons), handed_back(lessons)
    return {
        lesson.pk: Progress(
            learners=members.get(lesson.group_id, 0),
            placed=places.get(lesson.pk, 0),
            plan_fits=plans.get(lesson.pk),
            requisition=asked.get(lesson.pk, ""),
            kits=kits.get(lesson.pk, {}).get("kits", 0),
            kits_blocked=kits.get(lesson.pk, {}).get("blocked", 0),
            lines=kits.get(lesson.pk, {}).get("lines", 0),
            lines_weighed=weighed.get(lesson.pk, 0),
            issued=kits.get(lesson.pk, {}).get("issued_at") is not None,
            attended=there.get(lesson.pk, 0),
            sittings=sheets.get(lesson.pk, {}).get("n", 0),
            submitted=sheets.get(lesson.pk, {}).get("submitted", 0),
            handed_back=back.get(lesson.pk, 0),
        )
        for lesson in lessons
    }


def lots_held() -> list[Lot]:
    """Lots that are held back from use."""
    return list(Lot.objects.filter(held=True, on_hand_milligrams__gt=0).select_related("food")[:12])


def places_of_student(student: Student, today: date) -> list[PlaceLearner]:
    """The learner's places from a week back to four weeks ahead, the next first."""
    return list(
        PlaceLearner.objects.filter(
            student=student,
            shift__lesson__on__gte=today - timedelta(days=LEARNER_DAYS_BACK),
            shift__lesson__on__lte=today + timedelta(days=LEARNER_DAYS_AHEAD),
        )
        .exclude(shift__lesson__state=Lesson.State.CANCELLED)
        .select_related("shift__lesson__room", "place__bench", "place__version__recipe")
        .order_by("shift__lesson__on", "shift__lesson__starts")
    )


def handed_back_to(student: Student) -> list[HandedBack]:
    """Feedback that this learner was given, the latest first, each sitting once."""
    latest = HandedBack.objects.filter(sitting=OuterRef("sitting")).order_by("-number").values("pk")[:1]
    return list(
        HandedBack.objects.filter(sitting__student=student, pk=Subquery(latest))
        .select_related("sitting__brief__lesson", "by")
        .order_by("-at")[:6]
    )


def briefs_to_check(user: User) -> list[Brief]:
    """Briefs that another person wrote and nobody has checked."""
    return list(
        Brief.objects.filter(checked_by=None)
        .exclude(written_by=user)
        .select_related("lesson__group", "scheme_version__scheme", "written_by")
        .order_by("lesson__on")[:20]
    )


def sheets_to_mark(user: User) -> list[Sheet]:
    """Sheets of this marker that are not in yet."""
    return list(
        Sheet.objects.filter(marker=user, submitted_at=None)
        .select_related("sitting__brief__lesson", "sitting__student__user")
        .order_by("sitting__brief__lesson__on")[:30]
    )


def submitted_lessons() -> list[dict]:
    """Lessons with submitted sheets, for the verifier: lesson, how many, and the last one in."""
    return list(
        Sitting.objects.filter(sheets__submitted_at__isnull=False)
        .values(
            "brief__lesson__code", "brief__lesson__title", "brief__lesson__on", "brief__lesson__group__code"
        )
        .annotate(n=Count("id", distinct=True), last=Max("sheets__submitted_at"))
        .order_by("-brief__lesson__on")[:20]
    )


def samples_open() -> list[Sample]:
    """Samples drawn, the latest first."""
    return list(Sample.objects.annotate(n=Count("items")).select_related("by").order_by("-at")[:20])


def places_in(lesson: Lesson) -> list[Place]:
    """The places of a lesson in bench order, with learners and the version cooked there."""
    return list(
        places_taken()
        .filter(shift__lesson=lesson)
        .select_related("bench", "version__recipe", "shift")
        .prefetch_related("learners__student__user")
        .order_by("shift__number", "bench__number")
    )


def accepted_plan(lesson: Lesson) -> TimePlan | None:
    """The time plan that stands."""
    return TimePlan.objects.filter(lesson=lesson, state="accepted").select_related("by").first()


def accepted_kits(lesson: Lesson) -> KitSet | None:
    """The kit set that stands, with its kits."""
    return (
        KitSet.objects.filter(lesson=lesson, state=KitSet.State.ACCEPTED)
        .prefetch_related("kits__place__bench", "kits__version__recipe")
        .first()
    )


def accepted_demonstration(lesson: Lesson) -> DemonstrationPlan | None:
    """The demonstration plan that stands."""
    return DemonstrationPlan.objects.filter(lesson=lesson, state="accepted").first()


def dishes_in(lesson: Lesson) -> list[Dish]:
    """What is cooked in a lesson."""
    return list(lesson.dishes.select_related("version__recipe"))


def dishes_with_steps_ahead(lessons: list[Lesson]) -> list[Dish]:
    """Dishes with steps done before the lesson, the first day first; not once the kits are issued."""
    issued = KitSet.objects.filter(state=KitSet.State.ACCEPTED, issued_at__isnull=False)
    return list(
        Dish.objects.filter(lesson__in=lessons)
        .exclude(ahead_steps=[])
        .exclude(lesson__in=issued.values("lesson"))
        .select_related("lesson__group", "lesson__room", "version__recipe")
        .order_by("ahead_on", "lesson__on", "lesson__starts")
    )


def weighed_ahead(lessons: list[Lesson]) -> dict[int, int]:
    """Milligrams in the kits to prepare ahead, by lesson, as far as kits are accepted."""
    rows = KitLine.objects.filter(
        kit__kind=Kit.Kind.AHEAD, kit__kit_set__state=KitSet.State.ACCEPTED, kit__kit_set__lesson__in=lessons
    )
    grouped = rows.values(lesson=F("kit__kit_set__lesson")).annotate(n=Sum("milligrams"))
    return counts(grouped)


def demonstrations_of(lessons: list[Lesson]) -> list[DemonstrationPlan]:
    """The demonstration plans that stand for these lessons, the first lesson first."""
    return list(
        DemonstrationPlan.objects.filter(lesson__in=lessons, state="accepted")
        .select_related("lesson__group", "lesson__room")
        .order_by("lesson__on", "lesson__starts")
    )
