"""The page of one food, and what is written down of it."""

from django.contrib import messages
from django.forms import BaseForm
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from curriculum.errors import RuleBroken
from curriculum.foods import access
from curriculum.foods.models import Food
from curriculum.foods.one import actions, forms, queries
from curriculum.foods.one.page import page_of
from curriculum.people.queries import the_college, today_at


@require_safe
def food(request: HttpRequest, food: str) -> HttpResponse:
    """Everything that is known of a food, each figure with whose it is."""
    found = access.food_for(request.user, food)
    today = today_at(the_college())
    known = queries.known_of(found, today)
    context = {
        "food": found,
        "known": known,
        "page": page_of(known, today),
        "may_write": access.may_write(request.user),
    }
    return render(request, "foods/food.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def new_test(request: HttpRequest, food: str) -> HttpResponse:
    """Write a yield test down."""
    found = access.food_to_write(request.user, food)
    today = today_at(the_college())
    form = forms.YieldTestForm(request.POST or None, initial={"on": today})
    if request.method == "POST" and form.is_valid():
        try:
            actions.record_yield_test(
                food=found, said=form.said(), by=request.user, today=today, key=form.cleaned_data["key"]
            )
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.info(request, "The test is written down. The figure in use changes when you choose it.")
            return redirect("foods:food", food=food)
    about = "A test stays as it was written. What is weighed twice is two tests; all of them count by weight."
    return _form(request, found, form, "A yield test", about)


@require_http_methods(["GET", "HEAD", "POST"])
def new_price(request: HttpRequest, food: str) -> HttpResponse:
    """Write a price down."""
    found = access.food_to_write(request.user, food)
    form = forms.PriceForm(request.POST or None, initial={"from_on": today_at(the_college())})
    if request.method == "POST" and form.is_valid():
        try:
            actions.add_price(food=found, said=form.said(), by=request.user, key=form.cleaned_data["key"])
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.info(request, f"The price of {found.name} is written down.")
            return redirect("foods:food", food=food)
    about = "The same pack’s price until now ends the day before. A price that was paid is not changed."
    return _form(request, found, form, "A price", about)


@require_http_methods(["GET", "HEAD", "POST"])
def label(request: HttpRequest, food: str) -> HttpResponse:
    """Write down what a label says."""
    found = access.food_to_write(request.user, food)
    form = forms.LabelForm(request.POST or None, initial=forms.label_initial(found))
    if request.method == "POST" and form.is_valid():
        today = today_at(the_college())
        try:
            actions.write_label(food=found, said=form.said(), by=request.user, today=today)
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.info(request, f"What the label of {found.name} says is on file.")
            return redirect("foods:food", food=food)
    about = (
        "Every recipe with this food reads this label from now on, approved ones as well. "
        "At issue the label of the lot in hand rules."
    )
    return _form(request, found, form, "What the label says", about)


@require_http_methods(["GET", "HEAD", "POST"])
def edit(request: HttpRequest, food: str) -> HttpResponse:
    """Change the figures of a food."""
    found = access.food_to_write(request.user, food)
    form = forms.EditForm(request.POST or None, food=found)
    if request.method == "POST" and form.is_valid():
        try:
            seen = form.cleaned_data["seen"]
            actions.edit_food(food=found, entry=form.entry(), by=request.user, seen=seen)
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.info(request, f"{found.name} is changed.")
            return redirect("foods:food", food=food)
    about = (
        "Approved recipes keep the weights and figures of their sheets; drafts and new versions "
        "take what you write here."
    )
    return _form(request, found, form, "Change the food", about)


@require_POST
def use_own(request: HttpRequest, food: str) -> HttpResponse:
    """Use the share of the college's own tests."""
    found = access.food_to_write(request.user, food)
    actions.use_own_yield(food=found, by=request.user)
    return _used(request, found)


@require_POST
def use_table(request: HttpRequest, food: str, figure: int) -> HttpResponse:
    """Use the share that a table prints."""
    found = access.food_to_write(request.user, food)
    actions.use_table_yield(
        food=found, figure=get_object_or_404(found.yield_figures, pk=figure), by=request.user
    )
    return _used(request, found)


@require_POST
def retire(request: HttpRequest, food: str) -> HttpResponse:
    """Take a food out of the lists."""
    found = actions.retire_food(food=access.food_to_write(request.user, food), by=request.user)
    messages.info(request, f"{found.name} is retired. Recipes that have it keep it.")
    return redirect("foods:food", food=food)


@require_POST
def bring_back(request: HttpRequest, food: str) -> HttpResponse:
    """Put a retired food into the lists again."""
    found = actions.bring_back_food(food=access.food_to_write(request.user, food), by=request.user)
    messages.info(request, f"{found.name} is in the lists again.")
    return redirect("foods:food", food=food)


def _used(request: HttpRequest, found: Food) -> HttpResponse:
    messages.info(
        request, f"The figure in use is now from {found.usable_source}. Approved recipes keep theirs."
    )
    return redirect("foods:food", food=found.code)


def _form(request: HttpRequest, found: Food, form: BaseForm, heading: str, about: str) -> HttpResponse:
    leave_url = reverse("foods:food", kwargs={"food": found.code})
    context = {"food": found, "form": form, "heading": heading, "about": about, "leave_url": leave_url}
    return render(request, "foods/form.html", context)
