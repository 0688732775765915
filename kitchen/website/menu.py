"""The main menu by role and the menu of a lesson, as data for the base template."""

from dataclasses import dataclass

from django.http import HttpRequest
from django.urls import reverse

from curriculum.people.roles import (
    EXTERNAL,
    LECTURER,
    MANAGER,
    SECOND_MARKER,
    STORES,
    STUDENT,
    TECHNICIAN,
    VERIFIER,
)


@dataclass(frozen=True, slots=True)
class Way:
    """One link of a menu."""

    words: str
    url: str
    current: bool


#: words, url name, roles whose work goes that way
WAYS = (
    ("The day", "website:the_day", None),
    ("Lessons", "lessons:list", {LECTURER, STORES, TECHNICIAN, MANAGER, VERIFIER, SECOND_MARKER}),
    ("Recipes", "recipes:book", {LECTURER, STORES, TECHNICIAN, MANAGER, STUDENT}),
    ("Techniques", "recipes:techniques", {LECTURER, MANAGER, STUDENT}),
    ("Deliveries", "stores:deliveries", {STORES, TECHNICIAN}),
    ("Orders", "stores:orders", {LECTURER, STORES, TECHNICIAN, MANAGER}),
    ("Stock", "stores:stock", {STORES, TECHNICIAN}),
    ("Equipment", "stores:equipment", {STORES, TECHNICIAN}),
    ("Recall", "stores:find_recall", {LECTURER, STORES, TECHNICIAN, MANAGER}),
    ("Labels", "stores:labels", {STORES, TECHNICIAN}),
    ("Foods", "foods:list", {STORES, TECHNICIAN}),
    ("Groups", "learners:groups", {LECTURER, MANAGER}),
    ("Rooms", "rooms:list", {TECHNICIAN, MANAGER}),
    ("Schemes", "schemes:list", {LECTURER, VERIFIER, MANAGER, SECOND_MARKER}),
    ("Samples", "verification:samples", {VERIFIER, EXTERNAL}),
    ("Agreement", "verification:agreements", {VERIFIER, MANAGER, EXTERNAL}),
    ("Feedback", "feedback:list", {STUDENT}),
)

#: words, url name, roles; every page of a lesson shows these.
LESSON_WAYS = (
    ("The lesson", "website:lesson", None),
    ("Places", "lessons:places", {LECTURER, TECHNICIAN, STORES}),
    ("Diets", "lessons:diets", {LECTURER, TECHNICIAN, STORES}),
    ("Kits", "stores:kits", {LECTURER, TECHNICIAN, STORES}),
    ("Papers", "papers:papers", {LECTURER, TECHNICIAN, STORES}),
    ("Equipment", "stores:lesson_equipment", {LECTURER, TECHNICIAN, STORES}),
    ("Used and cost", "stores:lesson_stores", {LECTURER, TECHNICIAN, STORES, MANAGER}),
    ("What became of it", "stores:became", {LECTURER, TECHNICIAN, STORES}),
    ("Time plan", "timeplan:plan", {LECTURER, TECHNICIAN, STORES, MANAGER}),
    ("Orders of work", "timeplan:own_orders", {SECOND_MARKER, VERIFIER, MANAGER}),
    ("Running the class", "timeplan:day", {LECTURER, TECHNICIAN}),
    ("Demonstration", "timeplan:demonstration", {LECTURER, TECHNICIAN, STORES}),
    ("Attendance", "lessons:attendance", {LECTURER}),
    ("Marks", "marking:lesson", {LECTURER, SECOND_MARKER, VERIFIER, MANAGER}),
    ("Feedback", "feedback:lesson", {LECTURER}),
)

#: The pages of one food.
FOOD_WAYS = (("The food", "foods:food"), ("Recipes that use it", "recipes:with_food"))


def ways_of(held: list[str], path: str) -> list[Way]:
    """The main menu of somebody who holds these roles, with the page they are on marked."""
    made = []
    for words, name, roles in WAYS:
        if roles is not None and not roles & set(held):
            continue
        url = reverse(name)
        made.append(Way(words, url, path == url or (url != "/" and path.startswith(url))))
    return made


def lesson_ways(held: list[str], request: HttpRequest) -> list[Way]:
    """The menu of the lesson that the page belongs to; empty on other pages and for learners."""
    match = request.resolver_match
    if match is None or "lesson" not in match.kwargs or held in ([], [STUDENT]):
        return []
    made = []
    for words, name, roles in LESSON_WAYS:
        if roles is not None and not roles & set(held):
            continue
        url = reverse(name, kwargs={"lesson": match.kwargs["lesson"]})
        made.append(Way(words, url, match.view_name == name))
    return made


def food_ways(request: HttpRequest) -> list[Way]:
    """The two pages of a food, while one of them is open: the food, and the recipes that use it."""
    match = request.resolver_match
    if match is None or match.view_name not in {name for _, name in FOOD_WAYS}:
        return []
    return [
        Way(words, reverse(name, kwargs=match.kwargs), match.view_name == name) for words, name in FOOD_WAYS
    ]
