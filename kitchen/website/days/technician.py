"""What the technician does next: what is made ahead first, then the kits and the dates."""

from datetime import date

from curriculum.people.models import User
from curriculum.wording import amount, listed
from kitchen.lessons.models import Dish, Lesson
from kitchen.timeplan.demonstration_kept import batches_of, read_demonstration
from kitchen.timeplan.models import DemonstrationPlan
from kitchen.website import queries
from kitchen.website.days.parts import DayLine, DayPage, DaySection, figure_of, lesson_url, number_words
from kitchen.website.days.stores import stores_day


def ahead_line(dish: Dish, milligrams: int | None, today: date) -> DayLine:
    """Steps of a dish that are done before the lesson, and by which day."""
    lesson = dish.lesson
    by = dish.ahead_on or lesson.on
    steps = listed(str(step) for step in dish.ahead_steps)
    word = "Step" if len(dish.ahead_steps) == 1 else "Steps"
    weight = (
        f"{amount(milligrams, stores=True)} in the kits to prepare."
        if milligrams
        else "No kits are made yet."
    )
    return DayLine(
        figure="Today" if by == today else f"{by:%a} {by.day}",
        words=f"{word} {steps} of {dish.version.recipe.title}",
        url=lesson_url("stores:kits", lesson),
        detail=f"For {lesson.group.code} on {lesson.on:%a} {lesson.on.day} {lesson.on:%b}. {weight}",
        state="late" if by < today else "todo",
        state_words="Overdue" if by < today else "To make",
        hand=by < today,
    )


def stage_line(plan: DemonstrationPlan, today: date) -> DayLine:
    """What a demonstration wants made before, and where its times stand."""
    batches = batches_of(read_demonstration(plan.answer))
    things = listed(f"as far as step {batch.step}" for batch in batches)
    return DayLine(
        figure=figure_of(plan.lesson, today),
        words=f"Stages to show: {plan.lesson.title}",
        url=lesson_url("timeplan:demonstration", plan.lesson),
        detail=f"{number_words(len(batches), 'thing')} made before: {things}."
        if batches
        else "Nothing is made before.",
        state="todo",
        state_words="To make",
    )


def coming(lessons: list[Lesson], today: date) -> list[Lesson]:
    """The lessons of today and later."""
    return [lesson for lesson in lessons if lesson.on >= today]


def technician_day(user: User, today: date) -> DayPage:
    """What is made ahead by day, the stages of demonstrations, then what the stores see too."""
    lessons = coming(queries.lessons_to_supply(today), today)
    weights = queries.weighed_ahead(lessons)
    ahead = [
        ahead_line(dish, weights.get(dish.lesson_id), today)
        for dish in queries.dishes_with_steps_ahead(lessons)
    ]
    stages = [stage_line(plan, today) for plan in queries.demonstrations_of(lessons)]
    page = stores_day(user, today)
    sections = [
        DaySection("To make ahead", ahead, "No dish of the next two weeks has steps done ahead."),
        DaySection("For the demonstrations", stages, "No demonstration plan is accepted."),
    ]
    facts = f"{number_words(len(ahead) + len(stages), 'thing')} to make ahead."
    return DayPage(facts, page.next, sections + page.sections)
