"""Pages of marking schemes, and the brief of a lesson."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from assessments.schemes import access, actions, queries
from assessments.schemes.briefs import proposed_techniques, techniques_of
from assessments.schemes.example import example
from assessments.schemes.forms import BriefForm
from assessments.schemes.shown import brief_shown, scheme_shown
from curriculum.errors import RuleBroken
from kitchen.lessons.models import Lesson


@require_safe
def schemes(request: HttpRequest) -> HttpResponse:
    """Every scheme of the college."""
    access.demand_reader(request.user)
    shown = [
        (version.scheme, scheme_shown(queries.content_of(version))) for version in queries.usable_versions()
    ]
    return render(request, "schemes/list.html", {"schemes": shown})


@require_safe
def scheme(request: HttpRequest, code: str) -> HttpResponse:
    """One scheme: criteria, rules, order, and a made-up candidate scored step by step."""
    version = access.scheme_for(request.user, code)
    content = queries.content_of(version)
    said = {"version": version, "scheme": scheme_shown(content), "example": example(content)}
    return render(request, "schemes/scheme.html", said)


@require_http_methods(["GET", "HEAD", "POST"])
def brief(request: HttpRequest, lesson: str) -> HttpResponse:
    """The brief of a lesson: read it; its lecturer writes it."""
    if request.method == "POST":
        found = access.lesson_to_brief(request.user, lesson)
        form = _form(found, request.POST)
        if form.is_valid() and _written(form, found, request):
            return redirect("schemes:brief", lesson=found.code)
    else:
        found = access.brief_lesson_for(request.user, lesson)
        may_write = access.may_write_brief(request.user, found) and not queries.marking_has_begun(found)
        form = _form(found, None) if may_write else None
    briefs = queries.briefs_of(found)
    said = {
        "lesson": found,
        "form": form,
        "briefs": [brief_shown(each, queries.subjects_of(each.techniques)) for each in briefs],
        "begun": queries.marking_has_begun(found),
        "checked": bool(briefs) and all(each.checked_by_id for each in briefs),
        "may_check": access.may_check_brief(request.user, found),
    }
    return render(request, "schemes/brief.html", said)


def _written(form: BriefForm, lesson: Lesson, request: HttpRequest) -> bool:
    try:
        actions.write_briefs(
            lesson=lesson,
            scheme_version=form.chosen_scheme(),
            techniques=form.cleaned_data["techniques"],
            minutes=form.cleaned_data["minutes"],
            by=request.user,
            key=form.cleaned_data["key"],
        )
    except RuleBroken as error:
        form.refuse(error)
        return False
    messages.success(request, "The brief is written. Another person checks it before marking.")
    return True


def _form(lesson: Lesson, data: object) -> BriefForm:
    cooked = queries.cooked_in(lesson)
    codes = list(dict.fromkeys(code for each in cooked for code in techniques_of(each.recipe)))
    named = [(subject.code, subject.name) for subject in queries.subjects_of(codes)]
    versions = queries.usable_versions()
    written = queries.briefs_of(lesson)
    initial = {"minutes": written[0].minutes if written else lesson.usable_minutes}
    if written:
        initial |= {"scheme": str(written[0].scheme_version_id), "techniques": written[0].techniques}
    elif cooked:
        initial["techniques"] = proposed_techniques(cooked[0].recipe, 4, (), queries.levels_of(codes))
    return BriefForm(data, versions=versions, dish_techniques=named, initial=initial)


@require_POST
def check(request: HttpRequest, lesson: str) -> HttpResponse:
    """Another person checks the brief."""
    found = access.lesson_to_check(request.user, lesson)
    actions.check_briefs(lesson=found, by=request.user)
    messages.success(request, "The brief is checked. Marking may begin.")
    return redirect("schemes:brief", lesson=found.code)
