"""The foods of the book: the list, and a new one."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from curriculum.errors import RuleBroken
from curriculum.foods import access, actions, queries
from curriculum.foods.forms import FoodFilter, FoodForm
from curriculum.foods.listing import line_of
from curriculum.people.queries import the_college, today_at

A_PAGE = 50


@require_safe
def foods(request: HttpRequest) -> HttpResponse:
    """Every food in use: how it is kept and weighed, and what its label declares."""
    access.demand_reader(request.user)
    form = FoodFilter(request.GET)
    said = form.cleaned_data if form.is_valid() else {}
    found = queries.foods_found(
        said.get("q", ""),
        storage=said.get("storage", ""),
        kind=said.get("kind", ""),
        lacks=said.get("lacks", ""),
        today=today_at(the_college()),
    )
    page = Paginator(queries.with_labels(found), A_PAGE).get_page(request.GET.get("page"))
    context = {
        "form": form,
        "page": page,
        "lines": [line_of(queries.food_data(food)) for food in page],
        "asked": any(said.values()),
        "may_write": access.may_write(request.user),
    }
    return render(request, "foods/foods.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest) -> HttpResponse:
    """Add a food. Nothing is declared of it until somebody reads its label."""
    access.demand_writer(request.user)
    form = FoodForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            food = actions.add_food(entry=form.entry(), by=request.user, key=form.cleaned_data["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.info(request, f"{food.name} is in the book. No label is read yet.")
            return redirect("foods:food", food=food.code)
    return render(request, "foods/new.html", {"form": form, "leave_url": reverse("foods:list")})
