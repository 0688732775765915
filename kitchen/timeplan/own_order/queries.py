"""What the pages of own orders of work read: the class round a bench, what was written, what is hidden."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from curriculum.errors import RuleBroken
from curriculum.people.models import Student
from curriculum.people.queries import the_college, today_at
from curriculum.recipes.data import StayData, StepData
from curriculum.wording import clock_minutes, temperature
from kitchen.lessons.models import Lesson, PlaceLearner
from kitchen.timeplan.class_data import BenchData, LessonData
from kitchen.timeplan.drafts import basis_of
from kitchen.timeplan.kept import read_plan
from kitchen.timeplan.lesson_problem import way_of
from kitchen.timeplan.own_order.judging import PLATE, Around, Judged, around, judged
from kitchen.timeplan.own_order.models import OwnOrder, OwnOrderSetting
from kitchen.timeplan.own_order.sheet import OrderSheet, StepFacts, sheet_of
from kitchen.timeplan.own_order.written import CleanLine, StepLine, WrittenOrder, read_order
from kitchen.timeplan.plan import LessonPlan
from kitchen.timeplan.queries import accepted_row, lesson_data


@dataclass(frozen=True)
class ClassOrders:
    """The lesson that orders are written for, with its accepted plan where that is of it as it is."""

    lesson: Lesson
    data: LessonData
    plan: LessonPlan | None
    around: Around
    assessed: bool
    time_zone: str

    def bench_of(self, place: PlaceLearner) -> BenchData:
        """The learner's bench. RuleBroken where the class is not planned with it."""
        name = str(place.place.bench.number)
        bench = next((each for each in self.data.benches if each.name == name), None)
        if bench is None or place.shift.number != 1:
            raise RuleBroken(
                "no_bench_in_the_plan",
                "The time plan has no bench of yours: only the first shift is planned. Ask your lecturer.",
            )
        return bench

    @property
    def zone(self) -> ZoneInfo:
        """The college's time zone."""
        return ZoneInfo(self.time_zone)

    @property
    def between(self) -> str:
        """ "Cooking is from 09:15 to 11:30."."""
        first = self.data.cooking_from
        last = clock_minutes(first + self.data.usable_minutes)
        rest, begins = self.data.break_counted, first + self.data.break_from
        said = (
            f" The break is from {clock_minutes(begins)} to {clock_minutes(begins + rest)}." if rest else ""
        )
        return f"Cooking is from {clock_minutes(first)} to {last}.{said}"

    def plan_at(self, bench: str) -> dict[int, int]:
        """When the accepted plan begins each step of a bench, in minutes of the day."""
        if self.plan is None:
            return {}
        bars = [bar for each in self.plan.benches if each.name == bench for bar in each.bars]
        first: dict[int, int] = {}
        for bar in sorted(bars, key=lambda bar: bar.start):
            first.setdefault(bar.step or PLATE, bar.start)
        return first


@dataclass(frozen=True)
class OrderDesk:
    """One learner's order with everything that its pages say: what was asked, written, found."""

    class_: ClassOrders
    place: PlaceLearner
    bench: BenchData
    steps: tuple[StepFacts, ...]
    row: OwnOrder | None
    written: WrittenOrder
    judged: Judged

    @property
    def saved(self) -> int:
        """How often the order was kept so far: what the next form is based on."""
        return self.row.saved if self.row else 0

    @property
    def may_write(self) -> bool:
        """Whether it is still being written."""
        return self.row is None or not self.row.is_handed_in

    def is_plan_hidden(self, today: date) -> bool:
        """Whether the learner may not see the site's plan yet."""
        return hides_plan(self.class_.lesson, self.class_.assessed, self.row, today)

    @property
    def is_of_another_version(self) -> bool:
        """Whether the learner works another recipe now than the one it was written for."""
        return self.row is not None and self.row.version_id != self.place.place.version_id

    @property
    def sheet(self) -> OrderSheet:
        """The order in three columns, without the site's times."""
        return sheet_of(self.written, self.steps, broken=self._broken)

    @property
    def sheet_beside_plan(self) -> OrderSheet:
        """The order in three columns with the site's times beside it."""
        plan_at = self.class_.plan_at(self.bench.name)
        return sheet_of(self.written, self.steps, plan_at, self._broken)

    @property
    def _broken(self) -> set[int]:
        return {step for each in self.judged.breaks for step in each.steps}


def assessed_setting(lesson: Lesson) -> bool:
    """Whether own orders of a lesson are assessed: as its lecturer said, else as the lesson is. One query."""
    said = OwnOrderSetting.objects.filter(lesson=lesson).values_list("own_order_assessed", flat=True).first()
    return lesson.assessed if said is None else said


def assessed_lessons(lessons: Iterable[Lesson]) -> set[int]:
    """Which of these lessons have their own orders assessed, by key. One query."""
    lessons = list(lessons)
    rows = OwnOrderSetting.objects.filter(lesson__in=lessons)
    said = dict(rows.values_list("lesson", "own_order_assessed"))
    return {lesson.pk for lesson in lessons if said.get(lesson.pk, lesson.assessed)}


def plan_hidden_now(place: PlaceLearner) -> bool:
    """Whether this learner may not see the site's plan yet. Three queries."""
    lesson = place.shift.lesson
    row = newest_order(lesson, place.student)
    return hides_plan(lesson, assessed_setting(lesson), row, today_at(the_college()))


def hides_plan(lesson: Lesson, assessed: bool, row: OwnOrder | None, today: date) -> bool:
    """Where orders are assessed: until one's own is handed in, or the day of the lesson is over."""
    return assessed and today <= lesson.on and (row is None or not row.is_handed_in)


def hidden_from(lesson: Lesson) -> int:
    """How many learners may not see the site's plan yet, as it stands now. Four queries at most."""
    today, assessed = today_at(the_college()), assessed_setting(lesson)
    if not hides_plan(lesson, assessed, None, today):
        return 0
    rows = newest_of_class(lesson)
    places = (place.student_id for place in places_of_class(lesson))
    return sum(hides_plan(lesson, assessed, rows.get(student), today) for student in places)


def newest_order(lesson: Lesson, student: Student) -> OwnOrder | None:
    """The learner's order that counts: the last one opened. One query."""
    rows = OwnOrder.objects.filter(lesson=lesson, student=student)
    return rows.select_related("opened_by").order_by("-number").first()


def newest_of_student(student: Student, lessons: Iterable[Lesson]) -> dict[int, OwnOrder]:
    """One learner's orders that count, by lesson. One query."""
    rows = OwnOrder.objects.filter(student=student, lesson__in=list(lessons)).order_by("number")
    return {row.lesson_id: row for row in rows}


def newest_of_class(lesson: Lesson) -> dict[int, OwnOrder]:
    """The orders that count of every learner of the lesson, by learner. One query."""
    rows = OwnOrder.objects.filter(lesson=lesson).select_related("opened_by").order_by("number")
    return {row.student_id: row for row in rows}


def places_of_class(lesson: Lesson) -> list[PlaceLearner]:
    """Who stands where in the lesson, in bench order. One query."""
    rows = PlaceLearner.objects.filter(shift__lesson=lesson, student__erased_at=None)
    rows = rows.select_related("student__user", "shift", "place__bench", "place__version__recipe")
    return list(rows.order_by("shift__number", "place__bench__number", "student__user__name", "pk"))


def class_orders(lesson: Lesson) -> ClassOrders:
    """The class as the check reads it; a fixed number of queries.

    RuleBroken as ``lesson_data`` raises it: a lesson that is only shown, or has no dish.
    """
    data, row = lesson_data(lesson), accepted_row(lesson)
    stands = row is not None and row.inputs.get("basis") == basis_of(data)
    plan = read_plan(row.answer) if stands else None
    zone = the_college().time_zone
    return ClassOrders(lesson, data, plan, around(data, plan), assessed_setting(lesson), zone)


def desk_of(class_: ClassOrders, place: PlaceLearner, row: OwnOrder | None) -> OrderDesk:
    """What the pages show of one learner's order; no query."""
    bench = class_.bench_of(place)
    order = read_order(row.lines) if row else WrittenOrder()
    found = judged(class_.around, bench.name, order)
    return OrderDesk(class_, place, bench, steps_of(class_.data, bench), row, order, found)


def desks_of_class(class_: ClassOrders) -> list[OrderDesk]:
    """Every learner's order of the first shift, in bench order. Two queries."""
    rows = newest_of_class(class_.lesson)
    places = [place for place in places_of_class(class_.lesson) if place.shift.number == 1]
    return [desk_of(class_, place, rows.get(place.student_id)) for place in places]


def own_desk(place: PlaceLearner) -> OrderDesk:
    """The learner's own order; a fixed number of queries."""
    lesson = place.shift.lesson
    return desk_of(class_orders(lesson), place, newest_order(lesson, place.student))


def steps_of(lesson: LessonData, bench: BenchData) -> tuple[StepFacts, ...]:
    """What the learner is asked about: every step of the bench, and the plate where it is marked."""
    kinds = {each.kind for each in lesson.appliances} | {"ring" for a in lesson.appliances if a.kind == "hob"}
    found = [_step_facts(step, kinds) for step in lesson.steps_of(bench)]
    if lesson.minutes_a_plate:
        found.append(StepFacts(PLATE, "Bring the plate to the pass to be tasted and marked.", 0))
    return tuple(found)


def _step_facts(step: StepData, kinds: set[str]) -> StepFacts:
    way = way_of(step, kinds)
    words = step.words if way is step.ways[0] or not way.words else way.words
    stays = tuple(_stay_words(stay) for stay in step.stays)
    return StepFacts(step.position, words, way.active_minutes, stays, step.wait_first)


def _stay_words(stay: StayData) -> str:
    """Where food stays: "35 min in the oven at 155 °C fan", "25 min on the bench"."""
    if stay.appliance_kind is None:
        return f"{stay.minutes} min on the bench"
    if stay.door == "off_and_shut":
        return f"{stay.minutes} min in the oven, off and shut"
    where = "on the ring" if stay.appliance_kind == "ring" else f"in the {_kind_words(stay.appliance_kind)}"
    heat = "" if stay.decicelsius is None else f" at {temperature(stay.decicelsius)} {stay.heat}".rstrip()
    return f"{stay.minutes} min {where}{heat}"


def _kind_words(kind: str) -> str:
    return kind.replace("_", " ")


def order_of(steps: Iterable[StepFacts], said: dict[str, str], cleaning_lines: int) -> WrittenOrder:
    """What a form says, by field, as an order of work."""
    cleaning = (
        CleanLine(*(said.get(f"clean_{name}_{number}", "") for name in ("at", "minutes", "task")))
        for number in range(1, cleaning_lines + 1)
    )
    return WrittenOrder(
        steps=tuple(
            StepLine(
                each.step,
                *(said.get(f"{name}_{each.step}", "") for name in ("at", "task", "points", "meanwhile")),
            )
            for each in steps
        ),
        cleaning=tuple(line for line in cleaning if not line.is_empty),
        contingency=said.get("contingency", ""),
    )
