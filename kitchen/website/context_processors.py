"""The frame around every page: the college, the person's ways, the ways of a lesson."""

from django.http import HttpRequest
from django.urls import reverse

from curriculum.people.access import roles_of
from curriculum.people.models import College
from curriculum.people.roles import ALL, WORDS
from kitchen.lessons.models import Lesson
from kitchen.stores.hanging.queries import hanging_on
from kitchen.website.menu import food_ways, lesson_ways, ways_of


def frame(request: HttpRequest) -> dict:
    """What base.html shows around the page. Nothing about people before sign-in."""
    college = College.objects.filter(pk=1).first()
    user = getattr(request, "user", None)
    if user is None or not user.is_authenticated:
        return {"college": college, "ways": [], "lesson_ways": [], "home_url": reverse("website:the_day")}
    held = [role for role in ALL if role in roles_of(user)]
    return {
        "college": college,
        "home_url": reverse("website:the_day"),
        "sign_out_url": reverse("people:sign_out"),
        "look_url": reverse("people:look_for_me"),
        "without_network_url": reverse("website:without_network"),
        "ways": ways_of(held, request.path),
        "lesson_ways": lesson_ways(held, request),
        "food_ways": food_ways(request),
        "hanging": hanging(request),
        "role_words": ", ".join(WORDS[role] for role in held),
        "room": "dim" if user.dim_room else "",
        "print": "large" if user.large_print else "",
    }


def hanging(request: HttpRequest) -> tuple:
    """What hangs in the stores on the lesson that the page asks to cancel; the page may see the lesson."""
    match = request.resolver_match
    if match is None or match.view_name != "lessons:cancel":
        return ()
    lesson = Lesson.objects.filter(code=match.kwargs["lesson"]).first()
    return hanging_on(lesson, cancelled=True) if lesson is not None else ()
