"""The page on which the plates of a lesson are asked for."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from curriculum.errors import RuleBroken
from kitchen.lessons import access
from kitchen.lessons.pages.queries import head_of
from kitchen.lessons.plates.actions import keep_plates, plates_of
from kitchen.lessons.plates.forms import PlatesForm


@require_http_methods(["GET", "HEAD", "POST"])
def plates(request: HttpRequest, lesson: str) -> HttpResponse:
    """Plates for tasting, the photograph and the second marker: whole portions more a bench."""
    found = access.lesson_to_teach(request.user, lesson)
    dish = found.dishes.order_by("pk").first()
    if dish is None:
        raise Http404("No dish is chosen.")
    form = PlatesForm(request.POST or None, standing=plates_of(dish), lesson=found)
    if request.method == "POST" and form.is_valid():
        try:
            said = {"key": form.cleaned_data["key"], "beside": not form.cleaned_data["within"]}
            made = keep_plates(lesson=found, plates=form.plates(), by=request.user, **said)
        except RuleBroken as error:
            form.refuse(error)
        else:
            messages.success(request, f"Each bench makes {made.portions_a_bench} portions now.")
            return redirect("lessons:plates", lesson=found.code)
    facts = {"form": form, "dish": dish} | head_of(found)
    return render(request, "lessons/plates.html", facts)
