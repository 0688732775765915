"""Own orders of work: writing and handing in one's own; the lecturer reads them beside the plan."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.errors import RuleBroken
from curriculum.people.queries import the_college, today_at
from kitchen.timeplan.own_order import access, actions, pages, queries
from kitchen.timeplan.own_order.forms import (
    AssessedForm,
    HandInForm,
    OpenAgainForm,
    OrderForm,
    standing_form,
)
from kitchen.timeplan.own_order.paper import order_paper


@require_http_methods(["GET", "HEAD", "POST"])
def own(request: HttpRequest, lesson: str) -> HttpResponse:
    """A learner's own order: written here, kept, and told what breaks."""
    place = access.own_place(request.user, lesson)
    desk = queries.own_desk(place)
    form = OrderForm(desk, request.POST) if request.method == "POST" else standing_form(desk)
    facts = {"elsewhere": False}
    if request.method == "POST" and form.is_valid():
        try:
            _save(request, place, form)
        except RuleBroken as error:
            facts["elsewhere"] = error.code == "kept_elsewhere"
            form.not_done = "Not kept yet."
            form.keep_in_its_place()
            form.refuse(error)
        else:
            messages.success(request, "Kept as you wrote it.")
            return redirect("timeplan:own_order", lesson=lesson)
    facts |= pages.own_page(desk, desk.is_plan_hidden(today_at(the_college())))
    return render(request, "timeplan/own_order.html", facts | {"form": form})


def _save(request: HttpRequest, place: access.PlaceLearner, form: OrderForm) -> queries.OwnOrder:
    return actions.save_order(
        lesson=place.shift.lesson,
        student=place.student,
        version=place.place.version,
        order=form.order(),
        based_on=form.cleaned_data["based_on"],
        by=request.user,
        key=form.cleaned_data["key"],
    )


@require_POST
def hand_in(request: HttpRequest, lesson: str) -> HttpResponse:
    """Hand in one's own order as it was last kept."""
    place = access.own_place(request.user, lesson)
    sent = HandInForm(request.POST)
    sent.demand_valid()
    actions.hand_in_order(
        lesson=place.shift.lesson,
        student=place.student,
        based_on=sent.cleaned_data["based_on"],
        by=request.user,
        key=sent.cleaned_data["key"],
    )
    messages.success(request, "Your order of work is handed in.")
    return redirect("timeplan:own_order", lesson=lesson)


@require_safe
def own_paper(request: HttpRequest, lesson: str) -> HttpResponse:
    """One's own order as PDF, in large letters where that is agreed."""
    desk = queries.own_desk(access.own_place(request.user, lesson))
    return _pdf(desk, request.user.large_print)


@require_safe
def orders(request: HttpRequest, lesson: str) -> HttpResponse:
    """Every learner's order of a lesson: handed in or not, and what breaks."""
    found = access.lesson_to_read(request.user, lesson)
    facts = {"lesson": found, "teaching": access.teaches(request.user, found)}
    try:
        class_ = queries.class_orders(found)
    except RuleBroken as nothing:
        return render(request, "timeplan/own_orders_nothing.html", facts | {"words": nothing.message})
    rows = queries.desks_of_class(class_)
    return render(request, "timeplan/own_orders.html", facts | pages.class_page(class_, rows))


@require_POST
def assessed(request: HttpRequest, lesson: str) -> HttpResponse:
    """Say whether the learners' own orders of the lesson are assessed."""
    found = access.lesson_to_teach(request.user, lesson)
    form = AssessedForm(request.POST)
    form.demand_valid()
    setting = actions.say_whether_assessed(
        lesson=found, assessed=form.cleaned_data["own_order_assessed"], by=request.user
    )
    messages.success(request, pages.assessed_words(setting.own_order_assessed))
    return redirect("timeplan:own_orders", lesson=lesson)


@require_safe
def order_of(request: HttpRequest, lesson: str, learner: str) -> HttpResponse:
    """One learner's order beside the site's plan, with what breaks."""
    found = access.lesson_to_read(request.user, lesson)
    return _order_page(request, found, access.place_in(found, learner), OpenAgainForm())


@require_POST
def open_again(request: HttpRequest, lesson: str, learner: str) -> HttpResponse:
    """Open a handed-in order again, with the reason."""
    found = access.lesson_to_teach(request.user, lesson)
    place, form = access.place_in(found, learner), OpenAgainForm(request.POST)
    if form.is_valid():
        said = {"why": form.cleaned_data["why"], "key": form.cleaned_data["key"]}
        actions.open_order_again(lesson=found, student=place.student, by=request.user, **said)
        messages.success(request, f"{place.student.user.name} can write on.")
        return redirect("timeplan:own_order_of", lesson=lesson, learner=learner)
    return _order_page(request, found, place, form)


@require_safe
def order_of_paper(request: HttpRequest, lesson: str, learner: str) -> HttpResponse:
    """One learner's order as PDF."""
    found = access.lesson_to_read(request.user, lesson)
    place = access.place_in(found, learner)
    class_ = queries.class_orders(found)
    desk = queries.desk_of(class_, place, queries.newest_order(found, place.student))
    return _pdf(desk, place.student.user.large_print)


def _order_page(
    request: HttpRequest, lesson: access.Lesson, place: access.PlaceLearner, form: OpenAgainForm
) -> HttpResponse:
    desk = queries.desk_of(queries.class_orders(lesson), place, queries.newest_order(lesson, place.student))
    facts = pages.learner_page(desk) | {"form": form, "teaching": access.teaches(request.user, lesson)}
    facts["leave_url"] = reverse("timeplan:own_orders", kwargs={"lesson": lesson.code})
    return render(request, "timeplan/own_order_read.html", facts)


def _pdf(desk: queries.OrderDesk, large: bool) -> HttpResponse:
    content = order_paper(desk.sheet, large=large, **pages.paper_facts(desk))
    name = f"order-of-work-{desk.class_.lesson.code}.pdf"
    headers = {"Content-Disposition": f'inline; filename="{name}"'}
    return HttpResponse(content, content_type="application/pdf", headers=headers)
