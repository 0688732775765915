"""The pages of lessons: the list, booking and changing, benches, diets, the register."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.errors import RuleBroken
from curriculum.people.queries import the_college, today_at
from curriculum.people.roles import LECTURER
from curriculum.records.actions import note_health_read
from kitchen.lessons import access, actions
from kitchen.lessons.forms import (
    AnotherDishForm,
    CancelForm,
    ListForm,
    PlacesForm,
    RegisterForm,
)
from kitchen.lessons.pages import queries as pages
from kitchen.lessons.pages.forms import BookForm, ChangeForm
from kitchen.lessons.queries import LessonClass, class_of, learners_of, order_of


@require_safe
def lessons_by_week(request: HttpRequest) -> HttpResponse:
    """Lessons by week: a lecturer's own first, everybody's on request."""
    held = access.reader_of_lessons(request.user)
    today = today_at(the_college())
    form = ListForm(request.GET, own=LECTURER in held)
    page = pages.lessons_page(
        request.user, mine=form.mine(), group=form.of_group(), first=form.first() or today
    )
    facts = {
        "form": form,
        "page": page,
        "today": today,
        "may_book": access.may_book(held),
        "kept": form.kept(),
    }
    return render(request, "lessons/list.html", facts)


@require_http_methods(["GET", "HEAD", "POST"])
def book(request: HttpRequest) -> HttpResponse:
    """Book a lesson; what stands in the way is said at its field."""
    access.booker(request.user)
    form = BookForm(request.POST or None, initial=pages.usual_booking(request.user))
    if request.method == "POST" and form.is_valid():
        key = form.cleaned_data["key"]
        try:
            made = actions.book_lesson(order=form.order(), by=request.user, key=key)
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, pages.booked_words(made))
            return redirect("lessons:places", lesson=made.code)
    return render(request, "lessons/book.html", {"form": form, "leave_url": reverse("lessons:list")})


@require_http_methods(["GET", "HEAD", "POST"])
def change(request: HttpRequest, lesson: str) -> HttpResponse:
    """Change a lesson: day, time, room, people, dish, what is done ahead."""
    found = access.lesson_to_change(request.user, lesson)
    current = order_of(found)
    form = ChangeForm(request.POST or None, current=current, steps=pages.steps_ahead(current.version))
    if request.method == "POST" and form.is_valid():
        key = form.cleaned_data["key"]
        try:
            actions.change_lesson(lesson=found, order=form.order(), by=request.user, key=key)
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(
                request, "The lesson was changed. Look at its benches, kits and time plan again."
            )
            return redirect("lessons:places", lesson=found.code)
    return render(request, "lessons/change.html", {"form": form, **pages.head_of(found)})


@require_http_methods(["GET", "HEAD", "POST"])
def cancel(request: HttpRequest, lesson: str) -> HttpResponse:
    """Ask, with the consequence in words, then cancel."""
    found = access.lesson_to_change(request.user, lesson)
    form = CancelForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        actions.cancel_lesson(lesson=found, why=form.cleaned_data["why"], by=request.user)
        messages.success(request, f"{found.title} of {found.group.code} is cancelled.")
        return redirect("lessons:list")
    learners = learners_of(found)
    facts = {"form": form, "learners": len(learners), **pages.head_of(found)}
    return render(request, "lessons/cancel.html", facts)


@require_http_methods(["GET", "HEAD", "POST"])
def places(request: HttpRequest, lesson: str) -> HttpResponse:
    """Who stands at which bench: kept places, or a proposal that nobody has kept yet."""
    found = access.lesson_to_supply(request.user, lesson)
    teaching = access.teaches(request.user, found)
    whole = class_of(found)
    page = pages.places_page(whole, again="again" in request.GET)
    form = PlacesForm(request.POST or None, found=whole, proposed=page.placed)
    if request.method == "POST":
        access.lesson_to_teach(request.user, lesson)
        if form.is_valid():
            try:
                key = form.cleaned_data["key"]
                actions.place_learners(lesson=found, places=form.placed(), by=request.user, key=key)
            except RuleBroken as error:
                form.refuse(error)
            else:
                messages.success(request, "The benches are kept.")
                return redirect("lessons:places", lesson=found.code)
    _note_read(request, whole, "places")
    facts = {"form": form, "rows": form.rows(page.lines), "page": page, "teaching": teaching}
    return render(request, "lessons/places.html", facts | pages.head_of(found))


@require_safe
def diets(request: HttpRequest, lesson: str) -> HttpResponse:
    """Each learner's diet against every line; may contain apart; other dishes for whoever cannot."""
    found = access.lesson_to_supply(request.user, lesson)
    whole = class_of(found)
    page = pages.diets_page(whole, pages.book_for(whole))
    _note_read(request, whole, "diets")
    teaching = access.teaches(request.user, found)
    facts = {"page": page, "teaching": teaching, **pages.head_of(found)}
    return render(request, "lessons/diets.html", facts)


@require_POST
def another_dish(request: HttpRequest, lesson: str) -> HttpResponse:
    """Cook another dish of the book in the same lesson."""
    found = access.lesson_to_teach(request.user, lesson)
    form = AnotherDishForm(request.POST)
    form.demand_valid()
    version = access.dish_of_the_book(form.cleaned_data["recipe"])
    actions.add_dish(
        lesson=found,
        version=version,
        portions_a_bench=version.portions_stated,
        by=request.user,
        key=form.cleaned_data["key"],
    )
    messages.success(request, f"{version.recipe.title} is cooked too. Put the learners to it here.")
    return redirect("lessons:places", lesson=found.code)


@require_http_methods(["GET", "HEAD", "POST"])
def attendance(request: HttpRequest, lesson: str) -> HttpResponse:
    """The register at the bench: one tap a learner, a new row each time."""
    found = access.lesson_to_teach(request.user, lesson)
    if request.method == "POST":
        form = RegisterForm(request.POST)
        form.demand_valid()
        said = form.cleaned_data
        student = access.learner_of(found, said["learner"])
        actions.take_attendance(
            lesson=found, student=student, state=said["state"], by=request.user, key=said["key"]
        )
        if not request.htmx:
            return redirect("lessons:attendance", lesson=found.code)
    page = pages.register_page(found, today_at(the_college()))
    template = "lessons/register.html" if request.method == "POST" else "lessons/attendance.html"
    return render(request, template, {"page": page, **pages.head_of(found)})


def _note_read(request: HttpRequest, whole: LessonClass, page: str) -> None:
    """Note that this person read what these learners avoid."""
    students = [learner.student for learner in whole.learners if learner.avoids]
    note_health_read(reader=request.user, students=students, page=page, day=today_at(the_college()))
