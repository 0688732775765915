"""Pages of verification: samples, drawn by the verifier, read also by the external examiner."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from assessments.marking.shown import card_said, outcome_words
from assessments.marking.sittings import visible_parts
from assessments.verification import access, actions, queries
from assessments.verification.forms import DrawForm
from curriculum.errors import RuleBroken


@require_http_methods(["GET", "HEAD", "POST"])
def samples(request: HttpRequest) -> HttpResponse:
    """Every sample; the verifier draws another."""
    access.demand_sampler(request.user)
    form = None
    if request.method == "POST":
        access.demand_drawer(request.user)
        form = DrawForm(request.POST, lessons=queries.lessons_with_marks())
        if form.is_valid() and (sample := _drawn(form, request)):
            return redirect("verification:sample", code=sample.code)
    elif access.may_draw(request.user):
        form = DrawForm(lessons=queries.lessons_with_marks())
    return render(request, "verification/samples.html", {"samples": queries.samples(), "form": form})


def _drawn(form: DrawForm, request: HttpRequest) -> object:
    said = form.cleaned_data
    try:
        sample = actions.draw_sample(
            lessons=said["lessons"],
            seed=said["seed"],
            margin_points=said["margin"],
            by=request.user,
            key=said["key"],
        )
    except RuleBroken as error:
        form.refuse(error)
        return None
    messages.success(request, "The sample is drawn; its seed and rule stand on the page.")
    return sample


@require_safe
def sample(request: HttpRequest, code: str) -> HttpResponse:
    """One sample: who is in it, and why."""
    found = access.sample_for(request.user, code)
    items = [(item, row, outcome_words(row.data.record(), row.data)) for item, row in queries.items_of(found)]
    return render(request, "verification/sample.html", {"sample": found, "items": items})


@require_safe
def sitting(request: HttpRequest, code: str, sitting: str) -> HttpResponse:
    """One sitting of a sample, to read."""
    found, item, row = access.sampled_sitting(request.user, code, sitting)
    said = {"sample": found, "item": item, **card_said(row, visible_parts("", row.data.sheets))}
    return render(request, "verification/sitting.html", said)
