"""Pages of groups and learners: what they avoid, what was agreed; noting and ending both."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.foods.actions import end_avoidance, note_avoidance
from curriculum.people.actions import agree_adjustment, end_adjustment
from curriculum.people.queries import the_college, today_at
from curriculum.records.actions import note_health_read
from kitchen.website.learners import access, queries
from kitchen.website.learners.forms import AdjustForm, AvoidForm


@require_safe
def groups(request: HttpRequest) -> HttpResponse:
    """Every group, those the person leads marked."""
    access.demand_group_reader(request.user)
    found = queries.groups(today_at(the_college()))
    return render(request, "website/learners/groups.html", {"groups": found})


@require_safe
def group(request: HttpRequest, group: str) -> HttpResponse:
    """One group: its learners, what was agreed, and diets for whoever needs them."""
    found = access.group_to_read(request.user, group)
    today = today_at(the_college())
    diets = access.may_read_diets_of(request.user, found)
    lines = queries.member_lines(found, today, diets=diets)
    if diets:
        read = [line.student for line in lines if line.on_file]
        note_health_read(reader=request.user, students=read, page="group", day=today)
    facts = {
        "group": found,
        "lines": lines,
        "diets": diets,
        "opens": access.opens_learners(request.user, found),
    }
    return render(request, "website/learners/group.html", facts)


@require_safe
def learner(request: HttpRequest, learner: str) -> HttpResponse:
    """One learner."""
    found = access.learner_to_read(request.user, learner)
    today = today_at(the_college())
    diets = access.may_read_diet_of(request.user, found)
    page = queries.learner_page(found, today, diets=diets)
    note_health_read(reader=request.user, students=[found], page="learner", day=today)
    facts = {"page": page, "may_write": access.leads(request.user, found), "today": today}
    return render(request, "website/learners/learner.html", facts)


@require_http_methods(["GET", "HEAD", "POST"])
def avoids(request: HttpRequest, learner: str) -> HttpResponse:
    """Note what a learner avoids."""
    found = access.learner_to_write(request.user, learner)
    form = AvoidForm(request.POST or None, initial={"from_on": today_at(the_college())})
    if request.method == "POST" and form.is_valid():
        note_avoidance(student=found, by=request.user, **form.facts())
        messages.success(request, "It is noted. Look at the diets of the lessons that are booked.")
        return redirect("learners:learner", learner=found.college_number)
    return render(request, "website/learners/avoids.html", _form(form, found))


@require_http_methods(["GET", "HEAD", "POST"])
def agreed(request: HttpRequest, learner: str) -> HttpResponse:
    """Agree an adjustment with a learner."""
    found = access.learner_to_write(request.user, learner)
    form = AdjustForm(request.POST or None, initial={"from_on": today_at(the_college())})
    if request.method == "POST" and form.is_valid():
        agree_adjustment(student=found, by=request.user, **form.cleaned_data)
        messages.success(request, "It is agreed.")
        return redirect("learners:learner", learner=found.college_number)
    return render(request, "website/learners/agreed.html", _form(form, found))


@require_POST
def end_avoids(request: HttpRequest, learner: str, row: int) -> HttpResponse:
    """From tomorrow the learner avoids this no more; the row stays."""
    found = access.learner_to_write(request.user, learner)
    avoidance = access.avoidance_of(found, row)
    end_avoidance(avoidance=avoidance, until_on=today_at(the_college()), by=request.user)
    messages.success(request, "It ends today.")
    return redirect("learners:learner", learner=found.college_number)


@require_POST
def end_agreed(request: HttpRequest, learner: str, row: int) -> HttpResponse:
    """An adjustment ends today; the row stays."""
    found = access.learner_to_write(request.user, learner)
    adjustment = access.adjustment_of(found, row)
    end_adjustment(adjustment=adjustment, until_on=today_at(the_college()), by=request.user)
    messages.success(request, "It ends today.")
    return redirect("learners:learner", learner=found.college_number)


def _form(form: object, student: object) -> dict:
    back = reverse("learners:learner", kwargs={"learner": student.college_number})
    return {"form": form, "student": student, "leave_url": back}
