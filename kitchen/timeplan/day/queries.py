"""A class in progress as the day's pages read it: the plan that stands, what was tapped, the minute.

The day's clock: the lesson's own times are the wall's when "The class begins" is tapped
within an hour of them. Tapped at any other time (a demonstration college, a lesson that was
put off) that tap is the lesson's start, and the page's clock counts from there.
"""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from functools import cached_property
from zoneinfo import ZoneInfo

from curriculum.errors import RuleBroken
from curriculum.people.queries import the_college
from curriculum.recipes.queries import recipes_data
from curriculum.techniques.models import Technique
from kitchen.lessons.models import Lesson
from kitchen.rooms.models import Appliance
from kitchen.timeplan.answer import Answer
from kitchen.timeplan.day.live import Deed, Live, live, standing
from kitchen.timeplan.day.told import Told
from kitchen.timeplan.kept import read_plan, read_question
from kitchen.timeplan.lesson_problem import part_name, show_name, taste_name
from kitchen.timeplan.models import DayEvent, LearnedMinutes, PlanState, TimePlan, What
from kitchen.timeplan.plan import LessonPlan
from kitchen.timeplan.plan_answer import answer_of
from kitchen.timeplan.problem import Problem
from kitchen.timeplan.queries import accepted_row

#: Begun within so many minutes of its time a lesson goes by the wall's clock.
AN_HOUR = timedelta(minutes=60)


@dataclass(frozen=True)
class InProgress:
    """A lesson with its accepted plan and its events.

    ``zero`` is the instant at which cooking may begin (None: the class has not begun); ``ovens``
    are their names by code.
    """

    lesson: Lesson
    row: TimePlan
    plan: LessonPlan
    problem: Problem
    answer: Answer
    events: tuple[DayEvent, ...]
    deeds: tuple[Deed, ...]
    zero: datetime | None
    at: datetime
    ovens: dict[str, str]

    @property
    def now(self) -> int:
        """The minute of the class; before it began, that of its start-up."""
        if self.zero is None:
            return self.plan.starts - self.plan.cooking_from
        return minute_after(self.zero, self.at)

    @cached_property
    def state(self) -> Live:
        """How the class stands now."""
        return live(self.problem, self.answer, self.deeds, self.now)

    @cached_property
    def told(self) -> Told:
        """The plan and the state, for the rows of a page."""
        return Told(self.plan, self.state, self.ovens)

    @property
    def last_number(self) -> int:
        """Number of the last event; 0 before any."""
        return self.events[-1].number if self.events else 0

    @property
    def last(self) -> DayEvent | None:
        """The last event that counts: what "Undo" would take back."""
        numbers = [deed.number for deed in standing(self.deeds)]
        return next((e for e in reversed(self.events) if numbers and e.number == numbers[-1]), None)

    @property
    def midnight(self) -> datetime | None:
        """The instant at which the page's clock would have shown 00:00."""
        return self.zero - timedelta(minutes=self.plan.cooking_from) if self.zero else None

    def deed_of(self, event: DayEvent) -> Deed:
        """The event as a deed, with its minute."""
        return next(deed for deed in self.deeds if deed.number == event.number)

    @cached_property
    def first_starts(self) -> dict[str, int]:
        """Planned starts of the plan by which the class began. One query."""
        rows = plans_of(self.lesson)
        numbers = [event.plan_id for event in self.events if event.what == What.BEGAN]
        first = next((row for row in rows if row.pk in numbers), self.row)
        return dict(answer_of(read_plan(first.answer)).starts)

    @cached_property
    def techniques(self) -> dict[int, tuple[str, ...]]:
        """Techniques by step of the lesson's dish, of those that stand in the book."""
        dish = self.lesson.dishes.select_related("version__recipe").order_by("pk").first()
        recipe = recipes_data([dish.version])[dish.version_id]
        known = self.technique_names.keys()
        return {step.position: tuple(t for t in step.techniques if t in known) for step in recipe.steps}

    @cached_property
    def technique_names(self) -> dict[str, str]:
        """Every technique of the book, by code. One query."""
        return dict(Technique.objects.values_list("code", "name"))

    @cached_property
    def level(self) -> str:
        """The level of the dish's recipe. One query."""
        return self.lesson.dishes.order_by("pk").values_list("version__recipe__level", flat=True).first()

    @cached_property
    def kept_paces(self) -> dict[str, LearnedMinutes]:
        """Paces that stand, by technique, at this level. One query."""
        rows = LearnedMinutes.objects.filter(state=PlanState.ACCEPTED, level=self.level)
        return {row.technique.code: row for row in rows.select_related("technique", "by")}


def minute_after(zero: datetime, at: datetime) -> int:
    """Whole minutes from one instant to another, rounded down."""
    return int((at - zero).total_seconds() // 60)


def in_progress(lesson: Lesson, at: datetime) -> InProgress:
    """The class as it stands at an instant, in a fixed number of queries. RuleBroken without a plan."""
    row = accepted_row(lesson)
    if row is None and lesson.kind == Lesson.Kind.DEMONSTRATION:
        raise RuleBroken(
            "only_shown",
            "This lesson is shown, nobody cooks at a bench. Its clock is on the page of the demonstration.",
        )
    if row is None:
        raise RuleBroken(
            "no_plan", "There is no accepted time plan to run yet. Accept one on the time plan’s page."
        )
    plan = read_plan(row.answer)
    events = events_of(lesson)
    zero = zero_of(lesson, plan, events)
    ovens = dict(Appliance.objects.filter(room=lesson.room_id, kind="oven").values_list("code", "name"))
    return InProgress(
        lesson=lesson,
        row=row,
        plan=plan,
        problem=read_question(row.inputs["question"]).unpinned(),
        answer=replace(answer_of(plan, ovens), ways={}),
        events=events,
        deeds=tuple(_deed(event, zero) for event in events),
        zero=zero,
        at=at,
        ovens=ovens,
    )


def events_of(lesson: Lesson) -> tuple[DayEvent, ...]:
    """Everything that was tapped, in order. One query."""
    rows = DayEvent.objects.filter(lesson=lesson).select_related("place__bench", "appliance", "undoes", "by")
    return tuple(rows.order_by("number"))


def happened_at(event: DayEvent) -> datetime:
    """When it happened: the moment of the tap where that was sent later."""
    return event.device_at or event.at


def zero_of(lesson: Lesson, plan: LessonPlan, events: tuple[DayEvent, ...]) -> datetime | None:
    """The instant at which cooking may begin, by the day's clock. One query when it has begun."""
    undone = {event.undoes_id for event in events if event.what == What.UNDO}
    began = next((e for e in events if e.what == What.BEGAN and e.pk not in undone), None)
    if began is None:
        return None
    zone = ZoneInfo(the_college().time_zone)
    planned = datetime.combine(lesson.on, lesson.starts, zone)
    begins = planned if abs(happened_at(began) - planned) <= AN_HOUR else happened_at(began)
    return begins + timedelta(minutes=plan.cooking_from - plan.starts)


def _deed(event: DayEvent, zero: datetime | None) -> Deed:
    return Deed(
        number=event.number,
        what=event.what,
        minute=minute_after(zero, happened_at(event)) if zero else 0,
        task=task_of(event),
        bench=str(event.place.bench.number) if event.place else "",
        oven=event.appliance.code if event.appliance else "",
        minutes=event.minutes or 0,
        undoes=event.undoes.number if event.undoes else None,
    )


def task_of(event: DayEvent) -> str:
    """The name in the question of what an event is about; empty when of no step."""
    if event.step is None:
        return ""
    return task_named(str(event.place.bench.number) if event.place else "", event.step, event.part)


def task_named(bench: str, step: int, part: int | None) -> str:
    """The name in the question of a part of a bench's step (0 is the pass), or of a demonstration."""
    if not bench:
        return show_name(step)
    return part_name(bench, step, part or 0) if step else taste_name(bench)


def plans_of(lesson: Lesson) -> tuple[TimePlan, ...]:
    """Every plan that was ever accepted, the first first. One query."""
    return tuple(TimePlan.objects.filter(lesson=lesson).order_by("number"))
