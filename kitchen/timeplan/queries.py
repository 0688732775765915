"""What the time plan reads: a lesson as the calculation needs it, plans, drafts, work under way."""

from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from django.db.models import Q
from django.utils import timezone

from curriculum.errors import RuleBroken
from curriculum.people.models import Adjustment, AdjustmentKind
from curriculum.people.queries import members_of, the_college
from curriculum.recipes.data import RecipeData
from curriculum.recipes.queries import recipes_data
from curriculum.records.models import Job
from curriculum.wording import clock, short_date
from kitchen.lessons.models import Dish, Lesson, Place
from kitchen.lessons.pages.queries import is_under_18
from kitchen.lessons.queries import places_of
from kitchen.rooms.models import Appliance, Closure
from kitchen.rooms.queries import listed_of
from kitchen.timeplan.class_data import ApplianceData, BenchData, LessonData, ShownData
from kitchen.timeplan.demonstration_kept import shown_steps
from kitchen.timeplan.demonstrations.queries import accepted_demonstration
from kitchen.timeplan.drafts import Draft, basis_of, draft_of, read_draft
from kitchen.timeplan.kept import read_plan
from kitchen.timeplan.learned.queries import paces_for
from kitchen.timeplan.models import PlanState, TimePlan
from kitchen.timeplan.paces import read_paces
from kitchen.timeplan.pins.queries import pins_of
from kitchen.timeplan.plan import ON_THE_DAY, LessonPlan

#: Kind of the long work that plans a lesson.
KIND = "time_plan"


def lesson_data(lesson: Lesson) -> LessonData:
    """A lesson with its benches, recipes and room as the calculation reads it; a fixed number of queries.

    Where nobody is placed yet the benches follow from the group and from how it works.
    RuleBroken when the lesson is only shown, has no dish or nobody to cook it.
    """
    if lesson.kind == Lesson.Kind.DEMONSTRATION:
        raise RuleBroken(
            "only_shown",
            "This lesson is shown, nobody cooks at a bench. Its clock is on the page of the demonstration.",
        )
    dishes = list(lesson.dishes.select_related("version__recipe").order_by("pk"))
    if not dishes:
        raise RuleBroken("no_dish", "This lesson has no dish yet, so there is nothing to plan.")
    places = [place for place in places_of(lesson) if place.shift.number == 1]
    recipes = recipes_data([*(dish.version for dish in dishes), *(place.version for place in places)])
    extra = extra_minutes(lesson)
    placed = _placed(places, dishes[0], recipes, extra, lesson.on)
    benches = placed or _imagined(lesson, dishes[0], recipes, extra)
    if not benches:
        raise RuleBroken("no_cooks", "Nobody is in the group of this lesson, so there is nothing to plan.")
    college = the_college()
    return LessonData(
        code=lesson.code,
        title=lesson.title,
        benches=tuple(benches),
        appliances=tuple(appliances_of(lesson)),
        room=lesson.room.name,
        room_benches=lesson.room.benches.count(),
        room_degrees=lesson.room.decicelsius,
        **_slot(lesson),
        listed=listed_of(college),
        **_of_dish(dishes[0]),
        shown=shown_of(lesson),
        waves_most=college.waves_at_most,
        minutes_a_plate=lesson.minutes_a_plate if lesson.assessed else 0,
        paces=paces_for(lesson, recipes.values()),
        pins=pins_of(lesson),
    )


def _of_dish(dish: Dish) -> dict[str, Any]:
    """Steps done ahead and steps taught, and how many portions are plates, for ``LessonData``."""
    steps = {"ahead": tuple(sorted(dish.ahead_steps)), "taught": tuple(sorted(dish.taught_steps))}
    return steps | {"plates": dish.plates}


def _slot(lesson: Lesson) -> dict[str, int]:
    """The minutes of the lesson, and who may stand beside, under the names of ``LessonData``."""
    same = ("minutes", "start_minutes", "clear_minutes", "contingency_minutes")
    same += ("break_after", "break_minutes", "supervisors")
    starts = lesson.starts.hour * 60 + lesson.starts.minute
    return {"starts": starts} | {name: getattr(lesson, name) for name in same}


def extra_minutes(lesson: Lesson) -> dict[int, int]:
    """Extra time in per cent by learner of an assessed lesson; practice has none. One query."""
    if not lesson.assessed:
        return {}
    rows = Adjustment.objects.filter(kind=AdjustmentKind.EXTRA_TIME, from_on__lte=lesson.on)
    rows = rows.filter(Q(until_on=None) | Q(until_on__gte=lesson.on))
    return dict(rows.values_list("student", "percent"))


def _placed(
    places: list[Place], main: Dish, recipes: dict[int, RecipeData], extra: dict[int, int], on: date
) -> list[BenchData]:
    """One bench for each place with learners, in bench order; extra time makes its hands slower."""
    benches = []
    for place in places:
        names = tuple(row.student.user.name for row in place.learners.all())
        if names:
            young = any(is_under_18(row.student, on) for row in place.learners.all())
            other = tuple(place.dish.ahead_steps) if place.dish_id != main.pk else None
            recipe, bench = recipes[place.version_id], str(place.bench.number)
            pace = 1000 + 10 * max(extra.get(row.student_id, 0) for row in place.learners.all())
            cooks, portions = min(2, len(names)), place.dish.portions_a_bench
            benches.append(BenchData(bench, recipe, names, cooks, pace, other, young, portions))
    return benches


def _imagined(
    lesson: Lesson, dish: Dish, recipes: dict[int, RecipeData], extra: dict[int, int]
) -> list[BenchData]:
    """Benches before anybody is placed: one learner or two each, in the order of the class list."""
    members = list(members_of(lesson.group, lesson.on))
    size = 2 if dish.working == Dish.Working.PAIR else 1
    benches = []
    for number, group in enumerate((members[i : i + size] for i in range(0, len(members), size)), 1):
        names = tuple(student.user.name for student in group)
        young = any(is_under_18(student, lesson.on) for student in group)
        pace = 1000 + 10 * max(extra.get(student.pk, 0) for student in group)
        made = {"under_18": young, "portions": dish.portions_a_bench, "pace_per_mille": pace}
        benches.append(BenchData(str(number), recipes[dish.version_id], names, len(names), **made))
    return benches


def appliances_of(lesson: Lesson) -> list[ApplianceData]:
    """The appliances of the lesson's room that are not closed during it. Two queries."""
    zone = ZoneInfo(the_college().time_zone)
    begins = datetime.combine(lesson.on, lesson.starts, zone)
    ends = begins + timedelta(minutes=lesson.minutes)
    closures = Closure.objects.filter(Q(until_at=None) | Q(until_at__gt=begins), from_at__lt=ends)
    closed = set(closures.filter(room=lesson.room_id).values_list("appliance", flat=True))
    rows = Appliance.objects.filter(room=lesson.room_id)
    return [_appliance(row) for row in rows if row.pk not in closed]


def _appliance(row: Appliance) -> ApplianceData:
    return ApplianceData(
        code=row.code,
        name=row.name,
        kind=row.kind,
        units=row.units,
        heat_seconds_per_10=row.heat_seconds_per_10,
        cool_seconds_per_10=row.cool_seconds_per_10,
        least_decicelsius=row.least_decicelsius,
        most_decicelsius=row.most_decicelsius,
        heats=tuple(row.heat),
        may_stand_off=row.can_stand_off_and_shut,
    )


def shown_of(lesson: Lesson) -> tuple[ShownData, ...]:
    """What the accepted demonstration shows to the whole class; empty without one. One query."""
    row = accepted_demonstration(lesson)
    return shown_steps(row.answer) if row else ()


def accepted_row(lesson: Lesson) -> TimePlan | None:
    """The plan that stands, with who accepted it. One query."""
    rows = TimePlan.objects.filter(lesson=lesson, state=PlanState.ACCEPTED)
    return rows.select_related("by").first()


@dataclass(frozen=True, slots=True)
class Ruling:
    """The plan that rules, as it is handed out, its number and time, and the words on every paper of it."""

    plan: LessonPlan
    stamp: str
    number: int
    at: datetime


def ruling_plan(lesson: Lesson) -> Ruling | None:
    """The plan that stands, a re-plan of the day included; None when none was accepted. One query."""
    row = accepted_row(lesson)
    if row is None:
        return None
    return Ruling(read_plan(row.answer).handed_out(), stamp_of(row), row.number, row.at)


def lesson_moved_on(lesson: Lesson) -> bool:
    """Whether the lesson has changed since its plan was accepted; a plan of the day follows the day."""
    row = accepted_row(lesson)
    if row is None or row.status == ON_THE_DAY:
        return False
    try:
        return row.inputs.get("basis") != basis_of(lesson_data(lesson))
    except RuleBroken:
        return True


def stamp_of(row: TimePlan) -> str:
    """Which plan a paper is of: "Plan 3, 16 Feb 10:42"; printed papers of another plan are void."""
    at = timezone.localtime(row.at)
    return f"Plan {row.number}, {short_date(at.date())} {clock(at.time())}"


def jobs_of(lesson: Lesson) -> list[Job]:
    """Long work on this lesson, the latest first. One query."""
    return list(Job.objects.filter(kind=KIND, inputs__lesson=lesson.pk).order_by("-pk")[:10])


@dataclass(frozen=True, slots=True)
class PlanPage:
    """What the page of a lesson's time plan shows.

    ``shown`` is the plan on the page: the one that stands while the lesson is as it was,
    else the draft's. ``moved_on``: a plan stands, but the lesson has changed since;
    ``other_paces``: nothing has but the paces that it is planned by.
    """

    data: LessonData
    row: TimePlan | None
    draft: Draft
    running: Job | None
    failed: Job | None
    moved_on: bool
    shown: LessonPlan | None
    other_paces: bool = False

    @property
    def stands(self) -> bool:
        """Whether the plan on the page is the accepted one."""
        return self.row is not None and not self.moved_on

    @property
    def can_accept(self) -> bool:
        """Whether there is a plan to accept: for benches that are there, and no worse than what stands."""
        if self.draft.plan is None or len(self.data.benches) > self.data.room_benches:
            return False
        if self.row is not None and self.row.status == ON_THE_DAY:
            return False
        return not self.stands or self.draft.plan.finish_minutes < self.row.finish_minutes

    @property
    def can_print(self) -> bool:
        """Whether the plan on the page is one to hand out: accepted, or fitting."""
        return self.shown is not None and (self.stands or self.draft.fits)


def plan_page(lesson: Lesson) -> PlanPage:
    """Everything of the page; our own rule answers where nothing longer has been looked for."""
    data = lesson_data(lesson)
    basis, row, jobs = basis_of(data), accepted_row(lesson), jobs_of(lesson)
    draft = _finished_draft(jobs, basis) or draft_of(data)
    open_states = (Job.State.WAITING, Job.State.RUNNING)
    moved_on = row is not None and row.inputs.get("basis") != basis
    stands = row is not None and not moved_on
    return PlanPage(
        data=data,
        row=row,
        draft=draft,
        running=next((job for job in jobs if job.state in open_states), None),
        failed=jobs[0] if jobs and jobs[0].state == Job.State.FAILED else None,
        moved_on=moved_on,
        shown=read_plan(row.answer) if stands else draft.plan,
        other_paces=moved_on and _is_of_other_paces(data, row),
    )


def _is_of_other_paces(data: LessonData, row: TimePlan) -> bool:
    """Whether the lesson would be as it was with the paces that the plan was computed from."""
    paces = read_paces(row.inputs.get("paces", ()))
    return basis_of(replace(data, paces=paces)) == row.inputs.get("basis")


def _finished_draft(jobs: list[Job], basis: str) -> Draft | None:
    """The latest draft that long work made of the lesson as it is now."""
    done = (Job.State.DONE, Job.State.STOPPED)
    answers: list[dict[str, Any]] = [job.answer for job in jobs if job.state in done]
    return next((read_draft(answer) for answer in answers if answer.get("basis") == basis), None)
