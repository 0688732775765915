"""What the pages of lessons show: the list by week, the booking form, benches, diets, the register."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from django.db.models import Count, Max, Min, Q, QuerySet

from curriculum.errors import RuleBroken
from curriculum.limits import FULL_AGE
from curriculum.people.models import Group, Student, User
from curriculum.people.queries import members_of, the_college, today_at
from curriculum.recipes.data import RecipeData
from curriculum.recipes.models import Version
from curriculum.recipes.queries import book_data, latest_approved, recipe_data
from curriculum.wording import clock, counted_words, listed, long_date
from kitchen.lessons.diet_table import DietRow, Eater, diet_table
from kitchen.lessons.diets import Mark, unread_foods, workable
from kitchen.lessons.models import Attendance, Lesson
from kitchen.lessons.places import Placed, propose
from kitchen.lessons.queries import (
    Learner,
    LessonClass,
    attendance_of,
    bench_numbers,
    cooks_of,
    seats_of,
    slot_of,
)
from kitchen.lessons.weeks import earlier_page, monday_of, page_of_weeks, week_words
from kitchen.rooms.models import Room


def dishes_to_book() -> QuerySet[Version]:
    """Recipes approved to teach that are dishes by themselves, by title."""
    return latest_approved().filter(recipe__variant_of=None)


def rooms_to_book() -> QuerySet[Room]:
    """Rooms with benches, with how many."""
    return Room.objects.annotate(bench_count=Count("benches")).filter(bench_count__gt=0)


def groups_to_book() -> QuerySet[Group]:
    """The groups of the college."""
    return Group.objects.order_by("code", "-year")


def people_with(role: str) -> QuerySet[User]:
    """Whoever holds a role today, by name."""
    today = today_at(the_college())
    held = Q(grants__until_on=None) | Q(grants__until_on__gte=today)
    return (
        User.objects.filter(held, grants__role=role, grants__from_on__lte=today, is_active=True)
        .distinct()
        .order_by("name")
    )


def steps_ahead(version: int) -> list[tuple[int, str]]:
    """The steps of a version (by key) that may be done before the lesson: (position, words)."""
    return [
        (step.position, f"Step {step.position}. {step.words}")
        for step in recipe_data(Version.objects.get(pk=version)).steps
        if step.ahead_possible
    ]


def usual_booking(user: User) -> dict:
    """What the booking form begins with: the person as lecturer, their only group, the college's minutes.

    Who leads several groups chooses: a slip would book the wrong class.
    """
    college = the_college()
    groups = list(Group.objects.filter(lecturer=user).order_by("-year", "code")[:2])
    return {
        "lecturer": user.pk,
        "group": groups[0].pk if len(groups) == 1 else None,
        "start_minutes": college.lesson_start_minutes,
        "clear_minutes": college.lesson_clear_down_minutes,
    }


def booked_words(lesson: Lesson) -> str:
    """What was booked, in one sentence."""
    return (
        f"{lesson.title} for {lesson.group.code} is booked on {long_date(lesson.on)} at "
        f"{clock(lesson.starts)} in {lesson.room.name}. Put the learners to their benches."
    )


@dataclass(frozen=True, slots=True)
class LessonsPage:
    """One page of the list: lessons by week, and where the pages before and after begin."""

    weeks: list[tuple[str, list[Lesson]]]
    first: date
    last: date
    count: int
    earlier: date | None
    later: date | None


def lessons_page(user: User, *, mine: bool, group: str, first: date) -> LessonsPage:
    """Lessons of four weeks from the week of ``first``: all, or the person's own. Four queries."""
    lessons = Lesson.objects.select_related("room", "group", "lecturer", "cover")
    if mine:
        lessons = lessons.filter(Q(lecturer=user) | Q(cover=user))
    if group:
        lessons = lessons.filter(group__code=group)
    begins, ends = page_of_weeks(first)
    shown = list(lessons.filter(on__gte=begins, on__lte=ends).order_by("on", "starts", "pk"))
    term = the_college().term_starts_on
    weeks = [
        (week_words(monday, term), list(of_week))
        for monday, of_week in groupby(shown, key=lambda lesson: monday_of(lesson.on))
    ]
    before = lessons.filter(on__lt=begins).aggregate(Max("on"))["on__max"]
    after = lessons.filter(on__gt=ends).aggregate(Min("on"))["on__min"]
    return LessonsPage(weeks, begins, ends, len(shown), earlier_page(before), after and monday_of(after))


def head_of(lesson: Lesson) -> dict:
    """What the head of every page of a lesson says; the page of the lesson itself lies one step up."""
    day = f"{long_date(lesson.on)}, {slot_of(lesson).words}"
    who = f"{lesson.group.code}, {lesson.lecturer.name}"
    cover = f", covered by {lesson.cover.name}" if lesson.cover else ""
    return {"lesson": lesson, "facts": f"{day}. {lesson.room.name}. {who}{cover}.", "leave_url": "../"}


@dataclass(frozen=True, slots=True)
class LearnerLine:
    """One learner on the page of benches: what is on file and what they can be put to."""

    learner: Learner
    on_file: tuple[tuple[str, bool], ...]
    shape: str
    found: str
    facts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlacesPage:
    """The benches of a lesson as kept, or as proposed; ``refusal`` says why nothing could be proposed."""

    placed: list[Placed]
    kept: bool
    refusal: str
    lines: dict[int, LearnerLine]
    titles: dict[str, str]


def places_page(found: LessonClass, *, again: bool) -> PlacesPage:
    """Kept places where there are any and nothing else is asked for, else a proposal."""
    kept = [_placed(place) for place in found.places]
    titles = {each.code: each.title for dish in found.dishes for each in (dish.recipe, *dish.variants)}
    lines = {learner.student.pk: _line(found, learner) for learner in found.learners}
    if kept and not again:
        return PlacesPage(kept, True, "", lines, titles)
    try:
        pairs = found.dishes[0].dish.working == "pair"
        proposed = propose(seats_of(found), cooks_of(found), pairs=pairs, apart=found.apart)
    except RuleBroken as error:
        return PlacesPage(kept, False, error.message, lines, titles)
    return PlacesPage(list(proposed), False, "", lines, titles)


def _placed(place: object) -> Placed:
    cooks = tuple(row.student_id for row in place.learners.all())
    return Placed(place.bench.number, place.version.recipe.code, cooks)


def _line(found: LessonClass, learner: Learner) -> LearnerLine:
    on_file = tuple((each.words, bool(each.kind)) for each in learner.avoids)
    main = found.dishes[0]
    can = workable(learner.avoids, main.recipe, main.variants)
    if main.recipe.code in can:
        shape, words = ("todo", "Nothing declared against it") if on_file else ("", "")
    elif can:
        shape, words = "swap", "Needs the variant"
    else:
        shape, words = "cannot", "Cannot work it"
    return LearnerLine(learner, on_file, shape, words, facts_of(learner.student, found.lesson.on))


def facts_of(student: Student, on: date) -> tuple[str, ...]:
    """What the room must know of a learner on a day: adjustments, the hand, the age under 18."""
    facts = [_adjustment(each) for each in student.adjustments.all()]
    if student.left_handed:
        facts.append("left-handed")
    age = age_on(student.born_on, on)
    if age is not None and age < FULL_AGE:
        facts.append(f"{age} years old")
    return tuple(facts)


def _adjustment(adjustment: object) -> str:
    percent = f" {adjustment.percent} %" if adjustment.percent else ""
    return f"{adjustment.get_kind_display()}{percent}"


def is_under_18(student: Student, on: date) -> bool:
    """Whether a learner is known to be under 18 on a day."""
    age = age_on(student.born_on, on)
    return age is not None and age < FULL_AGE


def age_on(born_on: date | None, on: date) -> int | None:
    """Whole years on a day; None when the birthday is not known."""
    if born_on is None:
        return None
    return on.year - born_on.year - ((on.month, on.day) < (born_on.month, born_on.day))


@dataclass(frozen=True, slots=True)
class DietsPage:
    """The diets of a lesson: rows, what may be contained, what is not answered, what nobody has read."""

    dish: str
    rows: list[DietRow]
    may_contain: list[tuple[str, Mark]]
    not_answered: list[tuple[str, Mark]]
    unread: list[tuple[str, tuple[str, ...]]]
    nothing_on_file: str


def book_for(found: LessonClass) -> list[RecipeData]:
    """The book, read only when somebody of the class cannot work the dish."""
    main = found.dishes[0]
    stuck = any(not workable(each.avoids, main.recipe, main.variants) for each in found.learners)
    return [each for each in book_data() if each.variant_of is None] if stuck else []


def diets_page(found: LessonClass, book: Iterable[RecipeData]) -> DietsPage:
    """Everything the diets page says."""
    with_file = [learner for learner in found.learners if learner.avoids]
    dishes = [(each.recipe, each.variants) for each in found.dishes]
    rows = diet_table([_eater(found, learner) for learner in with_file], dishes, list(book))
    without = len(found.learners) - len(with_file)
    worked = {place.version.recipe.code for place in found.places} | {
        each.recipe.code for each in found.dishes
    }
    recipes = [each for recipe, variants in dishes for each in (recipe, *variants) if each.code in worked]
    return DietsPage(
        dish=found.dishes[0].recipe.title,
        rows=rows,
        may_contain=[(row.name, mark) for row in rows for mark in row.may_contain],
        not_answered=[(row.name, mark) for row in rows for mark in row.not_answered],
        unread=[(each.title, unread_foods(each)) for each in recipes if unread_foods(each)],
        nothing_on_file=f"{counted_words(without, 'learner').capitalize()} of the class "
        f"{'has' if without == 1 else 'have'} nothing on file.",
    )


def _eater(found: LessonClass, learner: Learner) -> Eater:
    place = found.bench_of(learner.student)
    return Eater(
        name=learner.name,
        avoids=learner.avoids,
        bench=place.bench.number if place else None,
        works=place.version.recipe.code if place else "",
        note=learner.student.emergency_note,
    )


@dataclass(frozen=True, slots=True)
class RegisterRow:
    """One learner of the register with the last word on them."""

    student: Student
    bench: int | None
    state: str
    words: str
    facts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RegisterPage:
    """The register: rows by bench, a sentence of counts, and whether it is open yet."""

    rows: list[RegisterRow]
    counts: str
    is_open: bool
    states: tuple[tuple[str, str], ...]


#: How the states are said on their buttons.
STATES = (("present", "Present"), ("late", "Late"), ("absent", "Absent"), ("left", "Left early"))


def register_page(lesson: Lesson, today: date) -> RegisterPage:
    """The register of a lesson; learners at benches first, in bench order. Four queries."""
    last, benches = attendance_of(lesson), bench_numbers(lesson)
    rows = [_register_row(student, benches, last, lesson) for student in members_of(lesson.group, lesson.on)]
    rows.sort(key=lambda row: (row.bench is None, row.bench or 0, row.student.user.name))
    return RegisterPage(rows, _counts(rows), lesson.on <= today, STATES)


def _register_row(
    student: Student, benches: dict[int, int], last: dict[int, Attendance], lesson: Lesson
) -> RegisterRow:
    row = last.get(student.pk)
    said = dict(STATES)[row.state] if row else ""
    return RegisterRow(
        student, benches.get(student.pk), row.state if row else "", said, facts_of(student, lesson.on)
    )


def _counts(rows: list[RegisterRow]) -> str:
    """ "Twelve present, one late, one not said yet."."""
    told = [(words.lower(), sum(row.state == state for row in rows)) for state, words in STATES]
    told.append(("not said yet", sum(not row.state for row in rows)))
    return f"{listed(f'{count} {words}' for words, count in told if count)}.".capitalize()
